"""Small episodes for the storage tests, and a check that finds nothing wrong."""

import datetime as dt

from studio.model.car import Car, Placard, PlacardTire
from studio.model.episode import Episode
from studio.model.problem import Problem
from studio.model.quantity import Quantity, depth
from studio.model.specimen import Gauge, PressureReading, Reading, Specimen

GAUGE = Gauge(name="dial", resolution=depth(1.0, "32nds"))


def nothing_wrong(_: Episode) -> tuple[Problem, ...]:
    return ()


def deeper_than_40(episode: Episode) -> tuple[Problem, ...]:
    """A check of the tests' own: no tread is deeper than 40/32 in."""
    return tuple(
        Problem(f"specimens[{s}].readings[{r}].depths[{g}][{d}]", f"{value:g}/32 in was read; at most 40/32 in can be")
        for s, specimen in enumerate(episode.specimens)
        for r, reading in enumerate(specimen.readings)
        for g, groove in enumerate(reading.depths)
        for d, value in enumerate(groove)
        if value is not None and value > 40
    )


SMALL = Episode(
    title="Två däck – 5/32″",
    on=dt.date(2026, 11, 14),
    car=Car(name="Van", placard=Placard(front=PlacardTire(marking="225/60R17 99H", pressure=Quantity(36.0, "psi")))),
    specimens=(
        Specimen(
            id="left",
            place="front_left",
            name="Left one",
            depth_new=depth(10.0, "32nds"),
            readings=(
                Reading(
                    on=dt.date(2026, 11, 7),
                    place="front_left",
                    gauge=GAUGE,
                    unit="32nds",
                    depths=((5.0, None), (6.0, 5.5)),
                    odometer=Quantity(41200.0, "mi"),
                    pressure=PressureReading(pressure=Quantity(33.0, "psi"), temperature=Quantity(-4.0, "degC")),
                ),
            ),
        ),
        Specimen(id="right", place="front_right", name="Right one"),
        Specimen(id="bench_a", place="bench"),
        Specimen(id="bench_b", place="bench"),
    ),
)
