"""The verdict on one number as said: computed, cited, unbacked or contradicted, what is expected, from where."""

import re
from collections.abc import Iterable, Mapping, Sequence
from typing import Literal

import msgspec

from studio.model.quantity import Quantity
from studio.script.agreement import agrees, agrees_with, off_by
from studio.script.aspects import BY_ID, CUES, DEFAULT, DIMENSION_OF, OF_DIMENSION, Dimension
from studio.script.cited import Cited, stems
from studio.script.ground import Ground, plain_size
from studio.script.known import Known, own_first
from studio.script.said import Said
from studio.script.subjects import Spoken

State = Literal["computed", "cited", "unbacked", "contradicted"]
_GENERAL = re.compile(
    r"\b(?:if|would|could|suppose|imagine|most (?=people|\w+s\b)|many|some|usual(?:ly)?|typical(?:ly)?|often|any|"
    r"never|in general|"
    r"someone|"
    r"neighbou?rs?|friends?|customers?|colleagues?|viewers?|last week|somebody|people|elsewhere|another car|other "
    r"cars|your car|your tires?|your tyres?|let'?s say|as a rule|instead of|"
    r"rather than|until|shops?|under which|once (?:it|they)|when (?:it|they) (?:reach|get))\b",
    re.IGNORECASE)  # fmt: skip
_POINTS = re.compile(r"\b(?:it|its|they|their|them|this|that|these|those|both|here|each|the (?:two|pair|gap|limit))\b",
                     re.IGNORECASE)  # fmt: skip
_TIRES = re.compile(r"\b(?:tires?|tyres?|rubber|set|pair|spare|made|code)\b", re.IGNORECASE)
_NEAR = 90  # characters: words farther from a number than this do not tell what it is about
_CLAUSE = re.compile(r"[,;()–—]\s|\b(?:and|but|while|whereas|though)\b", re.IGNORECASE)
_NUMBERS = re.compile(
    r"\d|\b(?:two|three|four|five|six|seven|eight|nine|ten|eleven|twelve|\w+teen|\w+ty|hundred|thousand|half|quarter|"
    r"eighth|thirty-seconds?)\b", re.IGNORECASE)  # fmt: skip
_RULES_OUT = {  # what the key says makes these meanings impossible in its clause
    "new": ("past", "depth", "mean"), "legal": ("depth",), "over_legal": ("depth", "legal"), "apart": ("depth",),
    "tolerance": ("apart", "around", "depth"), "rating": ("carry",), "placard": ("read", "set", "before"),
    "lamp": ("read", "placard"), "hole": ("depth",), "advice": ("depth",), "water": ("depth",),
}  # fmt: skip
_FOR_ALL = frozenset({"legal", "advice", "placard", "tolerance", "interval", "torque", "lamp", "since", "set"})
_ENOUGH = 2  # words that a row of the tables must share with the sentence


class Judged(msgspec.Struct, frozen=True, kw_only=True):
    """A verdict. ``expected`` is what is computed or cited instead, ``source`` the finding, path or table row."""

    state: State
    expected: str = ""
    source: str = ""
    why: str = ""


class Around(msgspec.Struct, frozen=True, kw_only=True):
    """What stands around a number: its sentence (or as much of it as counts), where the number is in it, who is meant.

    ``context`` are the findings that the talking point is about.
    """

    sentence: str
    at: tuple[int, int]
    spoken: Spoken | None
    carried: Spoken | None = None
    context: frozenset[str] = frozenset()
    cues: Mapping[str, tuple[tuple[int, int], ...]] = {}


def cues_in(sentence: str, dimensions: Iterable[Dimension]) -> dict[str, tuple[tuple[int, int], ...]]:
    """Where the words of each aspect that has one of these dimensions stand in a sentence."""
    wanted = dict.fromkeys(id_ for dimension in dimensions for id_ in OF_DIMENSION.get(dimension, ()))
    found = {id_: tuple(match.span() for match in CUES[id_].finditer(sentence)) for id_ in wanted}
    return {id_: spans for id_, spans in found.items() if spans}


def dimensions_of(said: Said) -> list[Dimension]:
    """What the number can measure."""
    if said.sort in ("week", "year", "index"):
        return [said.sort]
    return list(dict.fromkeys(DIMENSION_OF[Quantity(1.0, unit).measures] for unit in said.units))


def judge(said: Said, around: Around, ground: Ground) -> Judged | None:
    """The verdict on ``said``; None where it claims nothing about tires (an age of somebody, a size of no tire)."""
    if said.sort == "size":
        return _size(said, around, ground)
    dimensions = dimensions_of(said)
    if _claims_nothing(said, around, dimensions):
        return None
    elsewhere = _elsewhere(said, around, ground, dimensions)
    if elsewhere is not None:
        return elsewhere
    subjects, sure = _subjects(around)
    expected: list[Known] = []
    primary = ""
    for aspect in _addressed(around, dimensions, bool(subjects or around.context)):
        members = _of_subjects(ground.by_aspect.get(aspect, ()), aspect, subjects, around, dimensions)
        if not members:
            continue
        if match := _match(said, members):
            return Judged(state="computed", source=match.source, expected=match.text(ground.units))
        if not expected or (BY_ID[aspect].weight > BY_ID[primary].weight and aspect in around.cues):
            expected, primary = members, aspect
    named = bool(expected) and around.spoken is not None and sure and BY_ID[primary].of_tire
    if not named and (cited := _cited(said, around, ground, dimensions, strict=bool(expected))):
        return cited
    usual = bool(expected) and primary not in around.cues and dimensions != ["len"]
    if usual and (match := _match(said, _loose(ground, dimensions, subjects, around))):
        return Judged(state="computed", source=match.source, expected=match.text(ground.units))
    clear = bool(expected) and not _GENERAL.search(around.sentence) and (sure or not BY_ID[primary].of_tire)
    if clear and (primary in around.cues or (sure and dimensions[0] in ("len", "pressure", "week", "year"))):
        return _contradicted(said, expected, ground)
    if match := _match(said, _loose(ground, dimensions, subjects, around)):
        return Judged(state="computed", source=match.source, expected=match.text(ground.units))
    loosely = _cited(said, around, ground, dimensions, strict=False)
    return loosely or Judged(state="unbacked", why="nothing computed and no table backs it")


def _claims_nothing(said: Said, around: Around, dimensions: Sequence[Dimension]) -> bool:
    """An age or a span of years of somebody else, or a share of no tire."""
    if dimensions == ["age"]:
        return not _TIRES.search(around.sentence) and around.spoken is None and not around.context
    return dimensions == ["share"] and said.value == 100 and around.spoken is None


def _addressed(around: Around, dimensions: Sequence[Dimension], of_somebody: bool) -> list[str]:
    """The aspects that the words around the number name, the nearest and weightiest first, then the usual one.

    Where the clause itself names what it is about, broader aspects do not count; without anybody spoken of
    (``of_somebody``), what differs from tire to tire does not count beside what is the same for all.
    """
    start, end = around.at
    scored: list[tuple[int, str]] = []
    clause = set()
    for aspect, spans in around.cues.items():
        far, parted = min(_apart(around.sentence, span, (start, end)) for span in spans)
        if far <= _NEAR:
            scored.append((far + 40 * parted - 30 * BY_ID[aspect].weight, aspect))
            if not parted:
                clause.add(aspect)
    named = [aspect for _, aspect in sorted(scored)]
    ruled_out = {its for aspect in clause for its in _RULES_OUT.get(aspect, ())}
    shared = {aspect for aspect in clause if not BY_ID[aspect].of_tire and BY_ID[aspect].weight}
    if shared and not of_somebody:
        ruled_out |= {aspect for aspect in named if BY_ID[aspect].of_tire}
    usual = [] if clause - ruled_out else [DEFAULT[d] for d in dimensions if d in DEFAULT]
    return [aspect for aspect in dict.fromkeys([*named, *usual]) if aspect not in ruled_out]


def _apart(sentence: str, span: tuple[int, int], number: tuple[int, int]) -> tuple[int, int]:
    """How far a word is from the number in characters, and whether it stands in a clause with numbers of its own."""
    between = sentence[span[1] : number[0]] if span[1] <= number[0] else sentence[number[1] : span[0]]
    if not _CLAUSE.search(between):
        return len(between), 0
    before = [its.end() for its in _CLAUSE.finditer(sentence, 0, span[0])]
    after = _CLAUSE.search(sentence, span[1])
    clause = sentence[before[-1] if before else 0 : after.start() if after else len(sentence)]
    return len(between), int(bool(_NUMBERS.search(clause)))


def _subjects(around: Around) -> tuple[frozenset[str], bool]:
    """The subjects meant, and whether they are sure enough to contradict the number."""
    if around.spoken is not None:
        return around.spoken.ids, around.spoken.sure
    pointing = bool(_POINTS.search(around.sentence))
    if around.carried is not None:
        return around.carried.ids, pointing
    return frozenset(), bool(around.context) and pointing


def _of_subjects(
    members: Sequence[Known], aspect: str, subjects: frozenset[str], around: Around, dimensions: Sequence[Dimension]
) -> list[Known]:
    """Those of ``members`` that are about the subjects; without subjects those of the point's findings, else all."""
    mine = [its for its in members if its.dimension in dimensions]
    if subjects:
        wide = subjects | around.spoken.all if around.spoken and aspect == "apart" else subjects
        if around.spoken and aspect == "apart" and {"front_axle", "rear_axle"} <= wide:
            wide = wide | {"set", "car"}
        meant = [its for its in mine if its.subjects & wide]
        exact = [its for its in meant if its.subjects & subjects]
        if exact or meant:
            return meant
        return [] if BY_ID[aspect].of_tire else mine
    of_point = [its for its in mine if its.source in around.context]
    return of_point or [its for its in mine if its.topic != "choices" or its.dimension == "money"]


def _loose(
    ground: Ground, dimensions: Sequence[Dimension], subjects: frozenset[str], around: Around
) -> Iterable[Known]:
    """What may back a number whose words tell nothing: what the point is about, what the subjects have."""
    for dimension in dimensions:
        for its in ground.known.get(dimension, ()):
            meant = its.source in around.context or its.subjects & subjects
            if meant or (not subjects and _FOR_ALL & set(its.aspects)):
                yield its


def _match(said: Said, members: Iterable[Known]) -> Known | None:
    return next((its for its in members if _is(said, its)), None)


def _is(said: Said, known: Known) -> bool:
    if said.sort in ("week", "year", "index"):
        return said.value == known.quantity.value
    return agrees(said, known)


def _contradicted(said: Said, expected: Sequence[Known], ground: Ground) -> Judged:
    first = min(own_first(expected), key=lambda its: _distance(said, its))
    off = off_by(said, first)
    what = first.text(ground.units)
    return Judged(
        state="contradicted", expected=what, source=first.source,
        why=f"computed: {what} ({first.label}){f'; said {off}' if off else ''}",
    )  # fmt: skip


def _distance(said: Said, known: Known) -> float:
    values = [known.in_unit(unit) for unit in said.units] or [known.quantity.value]
    return min((abs(said.value - value) for value in values if value is not None), default=float("inf"))


def _cited(
    said: Said, around: Around, ground: Ground, dimensions: Sequence[Dimension], *, strict: bool
) -> Judged | None:
    """The row of the tables that says so, if the sentence shares enough words with it."""
    words = stems(around.sentence)
    best, most = None, 0
    for dimension in dimensions:
        for row in ground.cited.get(dimension, ()):
            shared = len(words & row.words)
            if shared > most and _fits(said, row) and shared >= _ENOUGH + strict:
                best, most = row, shared
    if best is None:
        return _load_index(said, around, ground)
    return Judged(state="cited", expected=best.says, source=_source(best))


def _load_index(said: Said, around: Around, ground: Ground) -> Judged | None:
    """``Load index 103 means 875 kg``, whatever tires the episode has."""
    stated = re.search(r"load (?:index|number)\D{0,12}(\d{2,3})", around.sentence, re.IGNORECASE)
    load = ground.load_of.get(int(stated[1])) if stated and "kg" in said.units else None
    if stated is None or load is None:
        return None
    return Judged(state="cited", expected=f"{load:g} kg", source="load index table") if load == said.value else None


def _fits(said: Said, row: Cited) -> bool:
    ranges = ((unit, row.in_unit(unit)) for unit in said.units)
    return any(its is not None and agrees_with(said, unit, *its) for unit, its in ranges)


def _source(row: Cited) -> str:
    return row.source.title if row.source.locator == "none" else f"{row.source.title}, {row.source.locator}"


_LEGAL = re.compile(r"legal|\blaw\b|limit|minimum|needs?\b|ask|must|require|advi[sc]e|recommend", re.IGNORECASE)


def _elsewhere(said: Said, around: Around, ground: Ground, dimensions: Sequence[Dimension]) -> Judged | None:
    """The verdict on what is said of another place's law or advice; None where no other place is named."""
    if "len" not in dimensions:
        return None
    named = {ground.regions[match[0]] for match in ground.places.finditer(around.sentence)} - {ground.own_region}
    if not named or not _LEGAL.search(around.sentence):
        return None
    rows = [row for row in ground.cited.get("len", ()) if row.region in named]
    fitting = [row for row in rows if _fits(said, row)]
    if fitting:
        return Judged(state="cited", expected=fitting[0].says, source=_source(fitting[0]))
    legal = [row for row in rows if row.legal]
    if not legal or _GENERAL.search(around.sentence):
        return None
    winter = [row for row in legal if "winter" in row.words and "winter" in around.sentence.lower()]
    row = (winter or legal)[0]
    what = Quantity(row.value, row.unit, "depth").both(ground.units)
    return Judged(state="contradicted", expected=what, source=_source(row), why=f"the tables say {what}: {row.says}")


_COMPARED = re.compile(r"\b(?:than|instead of|against|versus|vs\.?|not|from|to|replaces?|like|rather)\b", re.IGNORECASE)


def _size(said: Said, around: Around, ground: Ground) -> Judged:
    """A size code: in use on this car or in its comparison, or not; another one than that of the tire named."""
    size = plain_size(said.text)
    subjects, sure = _subjects(around)
    before = around.sentence[: around.at[0]]
    sure = sure and not _COMPARED.search(before) and not re.search(r"\d{2}/\d{2}", before)
    if size in ground.sizes:
        mine = {its: subs for its, subs in ground.sizes.items() if subs & subjects}
        if not (sure and around.spoken and mine) or size in mine or len(around.spoken.all) > len(subjects):
            return Judged(state="computed", source="size", expected=size)
        what = sorted(mine)[0]
        return Judged(state="contradicted", expected=what, source="size", why=f"it is marked {what}")
    near = [its for its in ground.sizes if its.removeprefix("P").removeprefix("LT") == size.removeprefix("P")]
    if near:
        return Judged(state="computed", source="size", expected=near[0])
    mine = {its: subs for its, subs in ground.sizes.items() if subs & subjects}
    if sure and around.spoken and mine and re.search(r"\b(?:is|are|says|reads|wears?|marked)\b", around.sentence):
        what = sorted(mine)[0]
        return Judged(state="contradicted", expected=what, source="size", why=f"it is marked {what}")
    return Judged(state="unbacked", why="no tire of this episode has that size")
