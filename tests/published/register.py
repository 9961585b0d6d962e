"""The register of computed quantities, and how a row's inputs are read.

Every function entered takes the row's inputs as text, by name, and gives what the program would show. Where a row
repeats a value that the program knows itself (a conventional rim diameter, a load), the two must agree.
"""

import datetime as dt
import re
from collections.abc import Callable

from studio.reference import load_tables, numbers
from studio.tires import geometry, units
from studio.tires.designation import parse_marking

TABLES = load_tables()
HYDROPLANING = numbers(TABLES.hydroplaning)
PHYSICS = numbers(TABLES.physics)
DESIGN = numbers(TABLES.design)
LOAD_RULES = numbers(TABLES.load_rules)
ATMOSPHERE_PSI = PHYSICS["atmosphere_kpa"] / units.KPA_PER_PSI

Inputs = dict[str, str]
Computed = float | dt.date | str
COMPUTED: dict[str, Callable[[Inputs], Computed]] = {}


def computes(*quantities: str) -> Callable[[Callable[[Inputs], Computed]], Callable[[Inputs], Computed]]:
    """Enter a function for the quantities it computes."""

    def enter(function: Callable[[Inputs], Computed]) -> Callable[[Inputs], Computed]:
        for quantity in quantities:
            assert quantity not in COMPUTED, quantity
            COMPUTED[quantity] = function
        return function

    return enter


def number(inputs: Inputs, name: str) -> float:
    """The number at the start of an input: ``103 at true 100 km/h`` gives 103."""
    found = re.match(r"-?\d+(?:\.\d+)?", inputs[name])
    assert found, inputs[name]
    return float(found[0])


def size(inputs: Inputs, name: str = "size"):
    """The dimensions of a size named in the inputs."""
    return dimensions(inputs[name].split(" ")[0])


def dimensions(text: str):
    """The dimensions of a marking, with the shipped tables."""
    return geometry.dimensions(
        parse_marking(text), rim_mm=TABLES.rim_mm, full_profile_aspect_percent=82,
        rolling_factors={"radial": TABLES.rolling["radial_factor"].value,
                         "diagonal": TABLES.rolling["diagonal_factor"].value},
    )  # fmt: skip


def agree(ours: float, theirs: float) -> None:
    """What the row repeats must be what the program knows."""
    assert ours == theirs
