"""What one tire forbids: it is a temporary spare, damaged, worn out, too old."""

from collections.abc import Iterator

from studio.decide import age
from studio.decide.barriers.barrier import Barrier, barrier
from studio.decide.damage import condemning, sightings
from studio.decide.measured import latest
from studio.decide.sizes import size_of
from studio.decide.subjects import Tire
from studio.decide.tire_marks import marks_of
from studio.model.episode import Episode
from studio.model.places import CORNERS
from studio.model.quantity import Quantity
from studio.reference.tables import Tables

_TO_BE_JUDGED = ("cut", "puncture")


def of_tire(tire: Tire, episode: Episode, tables: Tables) -> Iterator[Barrier]:
    """The barriers of one tire, whether it stands on the car or not."""
    yield from _temporary(tire, tables)
    yield from _damaged(tire, episode, tables)
    yield from _worn_out(tire, episode, tables)
    yield from _over_age(tire, episode, tables)


def _temporary(tire: Tire, tables: Tables) -> Iterator[Barrier]:
    """A temporary spare bars what is meant for the tires of the car only while it stands in for one of them."""
    size = size_of(tire.specimen.marking, tables)
    if tire.specimen.place in CORNERS and size is not None and size.temporary:
        paths = (f"{tire.subject.path}.marking", f"{tire.subject.path}.place")
        yield barrier("temporary_spare", (tire.subject.name,), paths, tables, who=tire.subject.words)


def _damaged(tire: Tire, episode: Episode, tables: Tables) -> Iterator[Barrier]:
    """What condemns the tire; else a cut or a hole that somebody must judge before the tire goes on rolling."""
    subject = tire.subject
    for seen in condemning(tire.specimen, subject.path, episode.on, tables)[:1]:
        yield barrier("condemned", (subject.name,), (seen.path,), tables, who=subject.words, what=seen.words,
                      source=seen.source)  # fmt: skip
        return
    found = sightings(tire.specimen, subject.path, episode.on)
    for it in [it for it in found if it.damage.kind in _TO_BE_JUDGED][:1]:
        row = tables.damage[it.damage.kind]
        yield barrier("open_damage", (subject.name,), (it.path,), tables, who=subject.words, what=row.brief,
                      source=row.source)  # fmt: skip


def _worn_out(tire: Tire, episode: Episode, tables: Tables) -> Iterator[Barrier]:
    specimen, subject = tire.specimen, tire.subject
    tread = latest(specimen, subject.path, episode.on)
    marks = marks_of(specimen.marking, specimen.season, episode.region, tables, episode.on)
    if tread is None or marks is None:
        return
    if not tread.depth(tread.lowest.value).to("mm").value > marks.legal.mm + 1e-9:
        paths = (tread.spot_path(tread.lowest), "region")
        yield barrier("worn_out", (subject.name,), paths, tables, who=subject.words, source=marks.legal.source)


def _over_age(tire: Tire, episode: Episode, tables: Tables) -> Iterator[Barrier]:
    aged = age.read_part(age.part_of(tire, episode), tables)
    if aged is None or aged.verdict != "replace" or aged.reached is None:
        return
    old = f"is {Quantity(aged.years, 'years').text()} old" if aged.code.decade_known else "was made before July 2000"
    yield barrier("over_age", (tire.subject.name,), (f"{tire.subject.path}.date_code",), tables,
                  who=tire.subject.words, what=old, source=aged.reached.source)  # fmt: skip
