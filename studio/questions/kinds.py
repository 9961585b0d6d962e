"""What a comment asks: each kind scored by clues in words and facts, so that every decision can be explained."""

import re

import msgspec

from studio.questions.facts import Reading
from studio.questions.kind_facts import about_tires, other_unit, set_equal, tells_enough
from studio.questions.kind_words import (
    ASKS,
    CLUES,
    GRADES,
    HOW_FAST,
    KINDS,
    OTHER_VEHICLES,
    PLAIN_ASK,
    PRAISE,
    SPAM,
    TIRES,
    WET,
    WHEN_NEW,
    QuestionKind,
)
from studio.questions.plain_text import plainly
from studio.questions.reading import read
from studio.questions.sieve import Sieve
from studio.questions.spelling import set_right
from studio.questions.wear_said import wear_rate

ENOUGH = 3.0
ENOUGH_UNASKED = 5.0
ALSO = 5.0
TOPICAL = 2.0
_GRAVE = ("bulge", "cord", "separation", "cut", "cracks", "chunking", "flat_spot", "other")
_COVERS: dict[str, tuple[QuestionKind, ...]] = {
    "matching": ("tread_left", "life", "size_swap"),
    "life": ("tread_left", "matching"),
    "rotation": ("matching", "tread_left", "size_swap", "life"),
    "hydroplaning": ("tread_left", "pressure", "life"),
    "size_swap": ("code", "matching", "rotation", "tread_left"),
    "spare": ("size_swap", "matching", "code", "life", "tread_left"),
    "pressure": ("convert", "tread_left", "size_swap", "life", "matching"),
    "convert": ("tread_left", "pressure", "code", "life", "matching"),
    "repair": ("tread_left", "life", "pressure"),
    "condition": ("tread_left",),
    "age": ("life", "code"),
    "code": ("age", "tread_left", "size_swap"),
    "tread_left": ("life", "matching"),
}
"""What the main kind answers already, unless it is asked in so many words."""


class Asked(msgspec.Struct, frozen=True, kw_only=True):
    """What is asked: the main kind, further ones, and why."""

    kind: QuestionKind
    also: tuple[QuestionKind, ...] = ()
    why: tuple[str, ...] = ()


class _Scores:
    def __init__(self) -> None:
        self.points: dict[QuestionKind, float] = dict.fromkeys(KINDS, 0.0)
        self.why: dict[QuestionKind, list[str]] = {kind: [] for kind in KINDS}

    def add(self, kind: QuestionKind, weight: float, why: str) -> None:
        self.points[kind] += weight
        self.why[kind].append(why)


def kinds_of(reading: Reading) -> Asked:
    """The kinds that a comment asks for; ``none`` where nothing is asked that can be computed."""
    text = reading.text
    if SPAM.search(text):
        return Asked(kind="none", why=("advertising or spam",))
    damage = reading.words("damage")
    if OTHER_VEHICLES.search(text) and not _has_size(reading):
        return Asked(kind="none", why=("no car tire",))
    scores = _scored(reading)
    asks = ASKS.search(set_right(text)[0]) is not None
    main = max(KINDS, key=lambda kind: (scores.points[kind], -KINDS.index(kind)))
    best = scores.points[main]
    grave = bool(damage)
    told = tells_enough(reading) and not PRAISE.search(text)
    enough = ENOUGH if asks or grave or told else ENOUGH_UNASKED
    topical = asks and best >= TOPICAL and main in ("pressure", "age", "life") and TIRES.search(text)
    if (best < enough and not topical) or not (main == "convert" or about_tires(reading)):
        return Asked(kind="none", why=("nothing asked that can be computed",))
    if not asks and PRAISE.search(text) and not grave:
        return Asked(kind="none", why=("praise, nothing asked",))
    also = _also(main, scores, reading)
    first = _asked_first(text)
    if first not in ("none", main) and scores.points[first] >= ENOUGH:
        main, also = first, (main, *(kind for kind in also if kind != first))
    return Asked(kind=main, also=also, why=tuple(scores.why[main]))


_FURTHER = re.compile(
    r"\b(?:also|and (?:what|how|is|are|can|do|which)|another question|second(?:ly)?|plus|ps|und"
    r"|et)\b",
    re.IGNORECASE,
)


def _asked_first(text: str) -> QuestionKind:
    """What is asked before an ``also``: that is the main question."""
    found = _FURTHER.search(text, min(len(text), 12))
    return kinds_of(read(text[: found.start()])).kind if found else "none"


def _has_size(reading: Reading) -> bool:
    return reading.first("size") is not None


def _also(main: QuestionKind, scores: _Scores, reading: Reading) -> tuple[QuestionKind, ...]:
    covered = _COVERS.get(main, ())
    found: list[QuestionKind] = []
    for kind in KINDS:
        if kind == main or scores.points[kind] < ENOUGH:
            continue
        safety = kind in ("condition", "repair")
        plainly = (
            kind == "tread_left" and PLAIN_ASK.search(reading.text) and reading.first("depth") and main != "repair"
        )
        dated = kind == "age" and reading.first("date_code") is not None
        if safety or plainly or dated or (kind not in covered and scores.points[kind] >= ALSO):
            found.append(kind)
    return tuple(found)


_CLUES = Sieve([(clue.pattern, clue) for clue in CLUES])


def _scored(reading: Reading) -> _Scores:
    scores = _Scores()
    words: dict[QuestionKind, set[str]] = {}
    small = plainly(set_right(reading.text)[0])
    for clue in _CLUES.of(small):
        if clue.pattern.search(small) and clue.why not in words.setdefault(clue.kind, set()):
            words[clue.kind].add(clue.why)
            scores.add(clue.kind, clue.weight, clue.why)
    asks = ASKS.search(reading.text) is not None
    if asks and reading.first("service"):
        scores.add("code", 1, "a description in a question")
    if asks and reading.first("pressure", "pressure_before", "sidewall_pressure", "placard_pressure"):
        scores.add("pressure", 1.5, "a pressure in a question")
    for judge in (_damage, _sizes, _depths, _air, _others):
        judge(reading, scores)
    told_why = reading.words("damage") == ("puncture",) and not reading.first("repair", "zone")
    if told_why and scores.points["repair"] <= 5 and scores.points["matching"] >= 4 and reading.first("depth"):
        scores.points["repair"] = min(scores.points["repair"], scores.points["matching"] - 0.5)  # why one is replaced
    return scores


def _damage(reading: Reading, scores: _Scores) -> None:
    for kind in reading.words("damage"):
        if kind in _GRAVE:
            scores.add("condition", 5 if kind == "other" else 8, f"{kind} seen")
        else:
            scores.add("repair", 5, "a puncture")
    if reading.first("repair"):
        scores.add("repair", 2, "a way of repair")
    if reading.words("damage") == ("puncture",) and scores.points["pressure"] >= 4:
        scores.add("repair", 4, "a puncture that lets air out")
    if reading.first("repair") and reading.first("pressure_change"):
        scores.add("repair", 3, "a repair that leaks")
    if not reading.first("damage") and not reading.first("repair"):
        scores.points["repair"] = min(scores.points["repair"], 2.0)


def _sizes(reading: Reading, scores: _Scores) -> None:
    sizes = reading.words("size")
    temporary = any(size.startswith("T") for size in sizes) or "temporary" in reading.words("spare")
    partial = bool(reading.of("size_without_rim", "impossible_size"))
    if temporary:
        spelled = len(sizes) == 1 and not reading.first("spare") and scores.points["code"] > 0
        aged = bool(reading.of("made_year", "date_code", "age_years")) and not sizes
        depthless = reading.first("depth", "depth_without_unit", "pressure") is None
        scores.add("spare", 3 if spelled or aged else 8 if depthless else 5, "a temporary spare")
    elif reading.first("spare"):
        scores.add("spare", 8 if len(sizes) >= 2 else 3, "the spare")
    if len(sizes) >= 2 and not temporary:
        alike = len({size.split()[0] for size in sizes}) == 1
        mixed = alike and scores.points["matching"] >= 4
        scores.add("matching" if mixed else "size_swap", 5, "two sizes")
    elif len(reading.of("size_without_rim")) >= 2:
        scores.add("size_swap", 4, "two widths")
    elif len({fact.said for fact in reading.of("depth", "depth_new")}) >= 2:
        scores.points["size_swap"] = min(scores.points["size_swap"], 2.5)  # treads are compared, of one size
    elif (sizes or partial) and scores.points["size_swap"] > 0:
        scores.add("size_swap", 2, "a size")
    elif not sizes and not partial:
        named = reading.first("rim") or "a height that stands for a size" in scores.why["size_swap"]
        scores.points["size_swap"] = min(scores.points["size_swap"], 4.0 if named else 2.5)
    if scores.points["rotation"] >= 5:
        scores.points["size_swap"] = min(scores.points["size_swap"], 4.0)  # front and rear sizes decide how they rotate
    if sizes or partial or reading.first("service", "mark"):
        scores.add("code", 2, "a marking")
    else:
        scores.points["code"] = min(scores.points["code"], 4.0 if GRADES.search(reading.text) else 2.0)
    if (
        reading.first("service", "mark")
        and not sizes
        and re.search(r"\bwhat|\bwas\b|\bqu[ée]", reading.text, re.IGNORECASE)
    ):
        scores.add("code", 3, "what a description says")
    if len(sizes) == 1 and scores.points["size_swap"] <= 2 and _WHAT_IS.match(reading.text):
        scores.add("code", 3, "what a size says")
    if reading.first("service") and not sizes and not reading.first("depth", "depth_new", "difference"):
        scores.points["matching"] = min(scores.points["matching"], 2.0)
        scores.add("code", 1, "a description by itself")
    if reading.first("load_high"):
        scores.add("code", 4, "overload")
    if reading.impossible and (sizes or partial or reading.first("rim")):
        scores.add("size_swap" if reading.first("rim") else "code", 4, "a size that cannot be")


_ONE_TIRE = re.compile(r"\b(?:of|on|across|around) the same (?:exact )?t[iy]re\b", re.IGNORECASE)


_WHAT_IS = re.compile(
    r"\W*(?:so |ok |hey |hi )?what(?:'s|s| is| does| do| are)\b(?! (?:a|the) (?:best|right|good"
    r"|cheapest|price))",
    re.IGNORECASE,
)


def _depths(reading: Reading, scores: _Scores) -> None:
    now = reading.of("depth", "depth_without_unit")
    told = {fact.where for fact in reading.of("depth", "depth_new", "depth_without_unit") if fact.where}
    distances = reading.of("distance", "odometer")
    worded = scores.points["matching"] > 0
    if _ONE_TIRE.search(reading.text):
        scores.points["matching"] = 0.0
        told = set()
    if now:
        scores.add("tread_left", 3, "a depth")
    if len(told) >= 2:
        axles = all(len(where) == 2 for where in told) and not worded
        scores.add("matching", 2.5 if axles and not scores.points["rotation"] else 3, "depths of several tires")
        if _side_by_side(told):
            scores.add("matching", 2.5, "left against right")
    if any("new_one" in where for where in told) and len(told) >= 1 and now:
        scores.add("matching", 2, "a new tire among others")
    if "all" in reading.words("drivetrain") and len({fact.said for fact in now}) >= 2:
        scores.add("matching", 2 if len(told) >= 2 else 4, "unlike treads on all-wheel drive")
    if len(set(reading.words("season")) - {"studded"}) >= 2:
        scores.add("matching", 4, "tires for two seasons")
    if scores.points["matching"] >= 7:
        scores.points["tread_left"] = min(scores.points["tread_left"], 6.5)  # how many to replace, not whether
    if reading.first("difference"):
        scores.add("matching", 3, "a difference of depth")
    if "all" in reading.words("drivetrain") and scores.points["matching"] > 0:
        scores.add("matching", 2, "all wheels are driven")
    if scores.points["rotation"] >= 5 and not worded:
        scores.points["matching"] = min(scores.points["matching"], 4.0)  # unlike treads are why they rotate
    if reading.first("worn") and wear_rate(reading):
        scores.add("life", 6, "a rate of wear")
    aged = reading.of("depth_new", "depth_before")
    if now and aged and WHEN_NEW.search(reading.text):
        scores.add("life", 6, "when new ones are due, by two depths")
    if now and distances and scores.points["life"] > 0:
        scores.add("life", 3, "depth and distance")
    if now and len(distances) >= 2 and len(reading.of("depth", "depth_before")) >= 2:
        scores.add("life", 6, "two depths at two distances")
    if now and distances and scores.points["life"] <= 0 and len(reading.of("depth", "depth_new", "depth_before")) >= 2:
        scores.add("life", 5, "two depths and a distance")
    if not now and not distances:
        scores.points["life"] = min(scores.points["life"], 4.0)
    if not now:
        scores.points["tread_left"] = scores.points["tread_left"] if scores.points["tread_left"] >= 3 else 0.0


def _side_by_side(told: set[tuple[str, ...]]) -> bool:
    """Whether just the two tires of one axle are held against each other."""
    single = {where[0] for where in told if len(where) == 1}
    pairs = ({"left", "right"}, {"front_left", "front_right"}, {"rear_left", "rear_right"})
    return any(pair == single for pair in pairs)


def _air(reading: Reading, scores: _Scores) -> None:
    pressures = reading.of("pressure", "pressure_before", "placard_pressure", "sidewall_pressure")
    temperatures = reading.of("temperature")
    if pressures and temperatures:
        scores.add("pressure", 5, "pressure and temperature")
    elif len(pressures) >= 2:
        scores.add("pressure", 3, "two pressures")
    elif pressures:
        scores.add("pressure", 1.5, "a pressure")
    elif len({fact.said for fact in temperatures}) >= 2:
        scores.add("pressure", 4, "two temperatures")
    wet = WET.search(reading.text) is not None or reading.first("water") is not None
    if wet and (reading.first("speed") or HOW_FAST.search(reading.text)):
        scores.add("hydroplaning", 6, "a speed on a wet road")
    if scores.points["hydroplaning"] >= 6:
        scores.points["convert"] = min(scores.points["convert"], 2.0)
        if pressures:
            scores.points["pressure"] = min(scores.points["pressure"], 2.0)
    told = ("depth", "depth_new", "pressure", "placard_pressure", "distance", "odometer", "load", "difference", "limit")
    quantity = reading.first(*told)
    if quantity is None and not reading.first("length", "depth_without_unit", "speed"):
        scores.points["convert"] = 0.0
    if len(temperatures) < 2 and other_unit(reading):
        scores.add("convert", 5, "another unit of the same kind named")
    if set_equal(reading):
        scores.add("convert", 7, "the same in two units")
    if scores.points["convert"] >= 5 and len(temperatures) < 2:
        scores.add("convert", 2, "a quantity to convert")


def _others(reading: Reading, scores: _Scores) -> None:
    if reading.first("date_code"):
        scores.add("age", 4, "a date code")
    elif scores.points["age"] and reading.of("made_year", "age_years"):
        scores.add("age", 2, "a year or an age")
    elif reading.first("made_year") and (ASKS.search(reading.text) or tells_enough(reading)):
        scores.add("age", 4, "a year of make")
    other = reading.first("depth", "size", "damage", "pressure")
    if reading.first("tread") and reading.first("drivetrain") and not other:
        scores.add("rotation", 5, "tread and drive told, nothing else")
    if reading.first("tread") and scores.points["rotation"]:
        scores.add("rotation", 1, "the kind of tread")
    if reading.first("drivetrain") and scores.points["rotation"]:
        scores.add("rotation", 1, "the drive")
