"""The verdict on one number as said: computed, cited, unbacked or contradicted, what is expected, from where."""

import re
from collections.abc import Iterable, Sequence

import msgspec

from studio.model.places import CORNERS
from studio.script.addressing import addressed
from studio.script.agreement import agrees, off_by
from studio.script.aspects import BY_ID, Dimension
from studio.script.citing import cited_in, elsewhere
from studio.script.differences import difference
from studio.script.grooves import at_its_place
from studio.script.ground import Ground
from studio.script.known import Known
from studio.script.meant import headlines, in_unit_said, meant, slipped
from studio.script.others import of_other_parts, of_others
from studio.script.said import Said
from studio.script.size_codes import judge_size
from studio.script.verdict import Around, Judged, dimensions_of, points, subjects_of

_PLAIN = ("len", "pressure", "week", "year")  # what is meant even where no word says so
_TIRES = re.compile(r"\b(?:tires?|tyres?|rubber|set|pair|spare|made|code|week)\b", re.IGNORECASE)
_COIN = re.compile(r"[- ]?(?:coins?|pieces?|bills?|notes?)\b", re.IGNORECASE)
_FOR_ALL = frozenset({"legal", "advice", "placard", "tolerance", "interval", "torque", "lamp", "since", "set"})
_GOES_ON = ("placard", "set")  # "front 250 kPa, rear 240": named once, meant twice
_SPECIFIC = frozenset({"floats", "apart", "over_legal", "rpm", "since", "hole", "turns", "week", "year", "zone"})
_MARGINS = ("over_legal", "short", "since")
_DEEPEST = 64.0
_CENTS = 10.0  # an amount said coarser than this is not matched with whatever choice comes near it


def judge(said: Said, around: Around, ground: Ground) -> Judged | None:
    """The verdict on ``said``; None where it claims nothing about tires (an age of somebody, a size of no tire)."""
    if said.sort == "size":
        return judge_size(said, around, ground)
    dimensions = dimensions_of(said)
    if not dimensions:
        return Judged(state="unbacked", why="nothing here is computed in that unit")
    if _claims_nothing(said, around, dimensions):
        return None
    return elsewhere(said, around, ground, dimensions) or _judged(said, around, ground, dimensions)


def _judged(said: Said, around: Around, ground: Ground, dimensions: Sequence[Dimension]) -> Judged | None:
    """What the words mean comes first, then the tables, then whatever else the subjects have.

    A number whose unit was only borrowed and that nothing is known of is taken for a count.
    """
    subjects, sure = subjects_of(around)
    meaning = _meaning(said, around, ground, dimensions)
    own = [its for its in _loose(ground, dimensions, frozenset(), around) if its.source in around.context]
    if meaning.match is not None:
        mine = None if meaning.match.source in around.context else _match(said, headlines(own))
        return _computed(said, mine or meaning.match, ground)
    if meaning.expected and (not meaning.in_clause or "money" in dimensions) and (match := _match(said, own)):
        return _computed(said, match, ground)
    of_tire = bool(meaning.expected) and BY_ID[meaning.aspect].of_tire
    named = of_tire and around.spoken is not None and sure
    tires = not of_other_parts(around.text)
    if not named and tires and (row := cited_in(said, around, ground, dimensions, strict=bool(meaning.expected))):
        return row
    loose = list(_loose(ground, dimensions, subjects, around))
    usual = bool(meaning.expected) and not meaning.cued and dimensions != ["len"]
    likely = loose
    if dimensions == ["share"] and not meaning.cued:  # a share of anything is soon found among so many
        likely = headlines(loose)
    if usual and (match := _match(said, likely)):
        return _computed(said, match, ground)
    apart = [its for its in loose if its.topic == "matching"] if said.units == ("in",) else []
    if meaning.aspect == "depth" and (match := _match(said, apart)):  # depths are said in thirty-seconds, not inches
        return _computed(said, match, ground)
    known = sure or not of_tire or _of_point(meaning, around, dimensions) or _whoever(said, meaning, around, ground)
    clear = bool(meaning.expected) and known and not of_others(around, dimensions)
    if between := difference(said, around, own or loose):
        return _computed(said, between, ground)
    if clear and (meaning.in_clause or (not meaning.cued and sure and dimensions[0] in _PLAIN)):
        near = [*loose, *_loose(ground, dimensions, _axles_of(subjects), around)] if subjects else loose
        return _contradicted(said, meaning, own, near, ground)
    if match := _match(said, likely):
        return _computed(said, match, ground)
    swapped = [] if of_others(around, dimensions) else [its for its in headlines(own) if slipped(said, its)]
    if swapped:
        return _contradicted(said, Meaning(expected=tuple(swapped)), own, (), ground)
    row = cited_in(said, around, ground, dimensions, strict=False) if tires else None
    if row is None and said.unit_inferred and (match := _match(said, _anybodys(ground, dimensions))):
        return _computed(said, match, ground)
    if row or said.unit_inferred:
        return row
    return Judged(state="unbacked", why="nothing computed and no table backs it")


def _of_point(meaning: "Meaning", around: Around, dimensions: Sequence[Dimension]) -> bool:
    """Whether the clause names what one of the talking point's own findings gives."""
    own = any(its.source in around.context for its in meaning.expected)
    return own and meaning.in_clause and "money" not in dimensions


class Meaning(msgspec.Struct, frozen=True, kw_only=True):
    """What the words say the number is: the known numbers meant, one that it agrees with, and by which aspect.

    ``cued`` says that words name the aspect, ``in_clause`` that they stand in the number's own clause, or in the one
    before where its own names nothing.
    """

    aspect: str = ""
    expected: tuple[Known, ...] = ()
    match: Known | None = None
    cued: bool = False
    in_clause: bool = False


def _meaning(said: Said, around: Around, ground: Ground, dimensions: Sequence[Dimension]) -> Meaning:
    """The first aspect that the number agrees with, else the weightiest that has anything to expect."""
    subjects, _ = subjects_of(around)
    vague = "money" in dimensions and not subjects and said.step > _CENTS
    aspects, clause = addressed(around, dimensions, bool(subjects or around.context))
    best = Meaning()
    for aspect in aspects:
        members = _of_subjects(ground.by_aspect.get(aspect, ()), aspect, subjects, around, dimensions)
        members = [its for its in members if _can_be_a_depth(its)] if said.units == ("32nds",) else members
        members = at_its_place(members, around, ground) if aspect == "groove" else members
        if not members:
            continue
        cued = aspect in around.cues
        match = None if vague else _match(said, members)
        heavier = cued and bool(best.expected) and BY_ID[aspect].weight > BY_ID[best.aspect].weight
        if match or not best.expected or (heavier and (aspect in clause or not best.in_clause)):
            goes_on = not clause and (BY_ID[aspect].of_tire or aspect in _GOES_ON)
            here = aspect in clause or goes_on
            best = Meaning(aspect=aspect, expected=tuple(members), match=match, cued=cued, in_clause=here and cued)
        if match:
            return best
    return best


def _whoever(said: Said, meaning: Meaning, around: Around, ground: Ground) -> bool:
    """Whether nobody at all has that number of what the clause names, so that it is wrong whoever is meant."""
    named = meaning.aspect in _SPECIFIC and meaning.cued and meaning.in_clause and points(around.text)
    somebody = around.carried is not None or (around.spoken is not None and around.spoken.sure)
    if not named or somebody:
        return False
    return not any(agrees(said, its) for its in ground.by_aspect.get(meaning.aspect, ()))


def _can_be_a_depth(known: Known) -> bool:
    """Nobody says a diameter or the way round in thirty-seconds of an inch."""
    return abs(known.in_unit("32nds") or 0.0) <= _DEEPEST


def _computed(said: Said, known: Known, ground: Ground) -> Judged:
    return Judged(state="computed", source=known.source, expected=in_unit_said(said, known, ground))


def _claims_nothing(said: Said, around: Around, dimensions: Sequence[Dimension]) -> bool:
    """An age or a span of years of somebody else, or a share of no tire."""
    if dimensions == ["age"]:
        advises = "age_advice" in around.cues
        ours = advises or around.spoken or around.context or _TIRES.search(around.text)
        return not (ours or of_other_parts(around.text))
    if dimensions == ["money"] and _COIN.match(around.text, around.at[1]):
        return True
    return dimensions == ["share"] and said.value == 100 and around.spoken is None


def _of_subjects(
    members: Sequence[Known], aspect: str, subjects: frozenset[str], around: Around, dimensions: Sequence[Dimension]
) -> list[Known]:
    """Those of ``members`` that are about the subjects; without subjects those of the point's findings, else all."""
    mine = [its for its in members if its.dimension in dimensions]
    if subjects:
        wide = subjects | around.spoken.all if around.spoken and aspect == "apart" else subjects
        if not BY_ID[aspect].of_tire:
            wide = wide | {"car", "set"} | _axles_of(wide)
        if aspect in ("rpm", "turns"):
            wide = wide | _axles_of(wide)
        if around.spoken and aspect == "apart" and {"front_axle", "rear_axle"} <= wide:
            wide = wide | {"set", "car"}
        of_them = [its for its in mine if its.subjects & wide]
        if not of_them and (axles := _axles_of(wide)):
            of_them = [its for its in mine if its.subjects & axles]
        if of_them:
            return of_them
        return [] if BY_ID[aspect].of_tire else mine
    of_point = [its for its in mine if its.source in around.context]
    return of_point or [its for its in mine if its.topic != "choices" or its.dimension == "money"]


def _axles_of(subjects: frozenset[str]) -> frozenset[str]:
    """The axles on which these wheels turn: what is computed for the pair is said of one of them too."""
    return frozenset(f"{its.partition('_')[0]}_axle" for its in subjects if its in CORNERS)


def _loose(
    ground: Ground, dimensions: Sequence[Dimension], subjects: frozenset[str], around: Around
) -> Iterable[Known]:
    """What may back a number whose words tell nothing: what the point is about, what the subjects have."""
    for dimension in dimensions:
        for its in ground.known.get(dimension, ()):
            meant = its.source in around.context or its.subjects & subjects
            if meant or (not subjects and _FOR_ALL & set(its.aspects)):
                yield its


def _anybodys(ground: Ground, dimensions: Sequence[Dimension]) -> list[Known]:
    """What is said of anybody, for a number that leaves out its unit and whom it is about."""
    if "temp" in dimensions:
        return []
    return [its for its in headlines(ground.known.get(dimensions[0], ())) if its.topic != "given"]


def _match(said: Said, members: Iterable[Known]) -> Known | None:
    return next((its for its in members if _is(said, its)), None)


def _is(said: Said, known: Known) -> bool:
    if said.sort in ("week", "year", "index"):
        return said.value == known.quantity.value
    return agrees(said, known)


def _label(known: Known, ground: Ground) -> str:
    """What the number is: its own label, or what the finding says where it is the finding's value."""
    finding = ground.findings.get(known.source)
    return finding.sentence.rstrip(".") if finding is not None and known.name == "value" else known.label.rstrip(".")


def _likely(meaning: Meaning) -> Sequence[Known]:
    """What is said of an aspect before what was worked out for it: the reading, not the margin it leaves."""
    if meaning.aspect == "read":
        return [its for its in meaning.expected if its.name == "read"] or meaning.expected
    if meaning.aspect in _MARGINS:
        return meaning.expected
    return [its for its in meaning.expected if its.name != "margin"] or meaning.expected


def _contradicted(
    said: Said, meaning: Meaning, own: Sequence[Known], loose: Sequence[Known], ground: Ground
) -> Judged:
    first = meant(said, _likely(meaning), own, loose)
    off = off_by(said, first)
    what = in_unit_said(said, first, ground)
    return Judged(
        state="contradicted", expected=what, source=first.source,
        why=f"computed: {what} ({_label(first, ground)}){f'; said {off}' if off else ''}",
    )  # fmt: skip
