"""The ground on which numbers are judged: all that is known and cited, so that each number meets only its like."""

import re
from collections.abc import Mapping, Sequence

import msgspec

from studio.model.episode import Episode
from studio.model.finding import Finding, Findings
from studio.model.quantity import System
from studio.reference.tables import Tables
from studio.script.aspects import Dimension
from studio.script.cited import Cited, cited_of
from studio.script.known import Known, given_by, known_of
from studio.script.numbers import by_id
from studio.script.subjects import Lexicon, lexicon


class Ground(msgspec.Struct, frozen=True, kw_only=True):
    """What is known (by dimension and by aspect), what the tables say, the words for subjects, the sizes in use.

    ``regions`` are the names of places with rules of their own; ``own_region`` is the one that the findings speak for.
    """

    findings: Mapping[str, Finding]
    known: Mapping[Dimension, Sequence[Known]]
    by_aspect: Mapping[str, Sequence[Known]]
    cited: Mapping[Dimension, Sequence[Cited]]
    lexicon: Lexicon
    sizes: Mapping[str, frozenset[str]]
    load_of: Mapping[int, float]
    units: System
    regions: Mapping[str, str]
    places: re.Pattern[str]
    own_region: str = ""


_ADJECTIVES = {
    "German": "Germany", "French": "France", "Swedish": "Sweden", "Austrian": "Austria", "British": "United Kingdom",
    "Britain": "United Kingdom", "the UK": "United Kingdom", "European": "European Union", "Europe": "European Union",
    "the EU": "European Union", "Norwegian": "Norway", "Finnish": "Finland", "Swiss": "Switzerland",
    "Canadian": "Canada", "Czech": "Czechia", "Slovak": "Slovakia", "American": "United States",
    "the US": "United States", "the States": "United States", "Italian": "Italy",
}  # fmt: skip


def prepare(findings: Findings, tables: Tables, units: System, episode: Episode | None = None) -> Ground:
    """The ground for ``findings`` and ``tables``; with ``episode``, what the presenter entered backs numbers too."""
    index = by_id(findings)
    known = [*known_of(index), *(given_by(episode) if episode is not None else ())]
    by_dimension: dict[Dimension, list[Known]] = {}
    by_aspect: dict[str, list[Known]] = {}
    for its in known:
        by_dimension.setdefault(its.dimension, []).append(its)
        for aspect in its.aspects:
            by_aspect.setdefault(aspect, []).append(its)
    cited: dict[Dimension, list[Cited]] = {}
    for row in cited_of(tables):
        cited.setdefault(row.dimension, []).append(row)
    names = {row.name: row.name for row in tables.regions.values()}
    aliases = {alias: name for alias, name in _ADJECTIVES.items() if name in names}
    return Ground(
        findings=index, known=by_dimension, by_aspect=by_aspect, cited=cited, lexicon=lexicon(index, findings.names),
        sizes=_sizes(index, episode), load_of=dict(tables.load_kg), units=units, regions={**names, **aliases},
        places=re.compile(rf"\b(?:{'|'.join(re.escape(its) for its in {**names, **aliases})})\b"),
        own_region=_own_region(index, tables),
    )  # fmt: skip


def _own_region(index: Mapping[str, Finding], tables: Tables) -> str:
    ids = (finding.limit_region for finding in index.values() if finding.limit_region in tables.regions)
    return next((tables.regions[id_].name for id_ in ids), "")


def plain_size(size: str) -> str:
    """A size code without blanks, construction letters that may be left out, and service description."""
    return "".join(size.upper().split())


def _sizes(index: Mapping[str, Finding], episode: Episode | None) -> Mapping[str, frozenset[str]]:
    """Each size code in use, with the subjects of which it is said."""
    found: dict[str, set[str]] = {}
    for finding in index.values():
        for word in ("size", "marking", "beside_size", "before_size", "after_size"):
            if size := finding.word_at(word):
                own = {finding.subject} if word in ("size", "marking") and finding.topic == "size" else set()
                found.setdefault(plain_size(size.split(" ")[0]), set()).update(own)
        for size in finding.word("sizes").split():
            found.setdefault(plain_size(size), set())
    for end in ("front", "rear", "spare") if episode is not None else ():
        marking = getattr(episode.car.placard, end).marking if episode is not None else ""
        if marking:
            found.setdefault(plain_size(marking.split(" ")[0]), set()).add("spare" if end == "spare" else f"{end}_axle")
    return {size: frozenset(subjects) for size, subjects in found.items()}
