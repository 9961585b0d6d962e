"""A measuring session: which tire comes next, and which of its readings is the one of the day."""

import datetime as dt

from studio.model.episode import Episode
from studio.model.specimen import Specimen
from studio.window.tire_state import index_of


def walking_order(episode: Episode) -> tuple[int, ...]:
    """The numbers of all specimens in the order in which a person goes to them: corners, spare, bench."""
    if not episode.specimens:
        return ()
    from studio.decide.subjects import tires  # not at the start of an empty window

    return tuple(index_of(tire.subject.path) for tire in tires(episode))


def neighbour(episode: Episode, index: int, way: int) -> int | None:
    """The tire after (1) or before (-1) this one; None at the end."""
    order = walking_order(episode)
    if index not in order:
        return None
    at = order.index(index) + way
    return order[at] if 0 <= at < len(order) else None


def reading_of_day(specimen: Specimen, day: dt.date) -> int | None:
    """The number of the specimen's last reading of that day; None where it has none."""
    return next((n for n in reversed(range(len(specimen.readings))) if specimen.readings[n].on == day), None)


def measured_on(episode: Episode, day: dt.date) -> tuple[int, int]:
    """How many tires have a depth read on that day, of how many."""
    done = sum(
        any(
            d is not None
            for reading in specimen.readings if reading.on == day for groove in reading.depths for d in groove
        )
        for specimen in episode.specimens
    )  # fmt: skip
    return done, len(episode.specimens)
