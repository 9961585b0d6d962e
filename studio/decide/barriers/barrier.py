"""One barrier: what it is, what it bears on, what must not be advised while it stands."""

from collections.abc import Iterable

import msgspec

from studio.model.finding import SEVERITY, Act, Verdict
from studio.model.places import AXLES, CORNERS
from studio.model.source import Source
from studio.reference.tables import Tables

WHOLE_CAR = ("car", "set")
"""Subjects that hold every tire at a corner."""
ON_THE_ROAD = (*CORNERS, *(f"{axle}_axle" for axle in AXLES))


class Barrier(msgspec.Struct, frozen=True, kw_only=True):
    """A fact of the car that forbids ``forbids`` for its ``subjects`` (tires, axles, ``set`` or ``car``).

    ``words`` say the fact as a clause, ``remedy`` what to do about it as a sentence; ``paths`` lead to what it follows
    from; ``caution`` names a row of the cautions.
    """

    kind: str
    subjects: tuple[str, ...]
    forbids: tuple[Act, ...]
    verdict: Verdict
    words: str
    remedy: str
    paths: tuple[str, ...]
    caution: str
    source: Source

    @property
    def id(self) -> str:
        """``temporary_spare.front_right``."""
        return f"{self.kind}.{self.subjects[0]}"

    @property
    def reason(self) -> str:
        """Fact and remedy: ``front right is a temporary spare. Put a full-size tire back on first.``"""
        return f"{self.words}. {self.remedy}"


def barrier(
    kind: str, subjects: tuple[str, ...], paths: tuple[str, ...], tables: Tables, *, who: str = "", what: str = "",
    verdict: Verdict | None = None, source: Source | None = None,
) -> Barrier:  # fmt: skip
    """A barrier of a kind in the table. ``source`` and ``verdict`` are given where a rule of its own decided."""
    row = tables.barriers[kind]
    return Barrier(
        kind=kind, subjects=subjects, forbids=row.forbids, verdict=verdict or row.verdict, remedy=row.remedy,
        words=row.words.replace("{who}", who).replace("{what}", what), paths=paths, caution=row.caution,
        source=source or row.source,
    )  # fmt: skip


def binding(found: Iterable[Barrier], act: Act, subject: str = "car") -> tuple[Barrier, ...]:
    """The barriers that forbid an act for a subject, gravest first.

    An advice for the whole car is bound by what bears on any tire that it stands on; one for a tire by its own barriers
    and the whole car's. What lies on the bench or in the trunk binds only advice about itself.
    """
    bears = (it for it in found if act in it.forbids and _bears_on(it, subject))
    return tuple(sorted(bears, key=lambda it: -SEVERITY.index(it.verdict)))


def _bears_on(its: Barrier, subject: str) -> bool:
    """Whether it concerns the subject itself, a tire of that axle, or the whole car."""
    parts = ON_THE_ROAD if subject in WHOLE_CAR else AXLES.get(subject.removesuffix("_axle"), ())
    return bool({subject, *parts, *WHOLE_CAR} & set(its.subjects))
