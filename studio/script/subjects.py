"""Whom a sentence speaks of: wheels, axles, the whole set, the spare, tires on the bench by name, ways of buying."""

import re
from bisect import bisect_right
from collections.abc import Iterable, Mapping, Sequence

import msgspec

from studio.model.finding import Finding
from studio.model.places import CORNERS

_TIRE = r"(?:tires?|tyres?|wheels?|pair|ones|axle|set|rubber)"
_BACK = "(?:rear|back)"


def _place(end: str, side: str) -> str:
    return rf"{end}[- ]{side}(?:[- ]hand)?|{side}(?:[- ]hand)?[- ]{end}|{side} {_TIRE} (?:at the|in) {end}"


_PLACES: tuple[tuple[str, tuple[str, ...]], ...] = (
    (_place("front", "left"), ("front_left",)), (_place("front", "right"), ("front_right",)),
    (_place(_BACK, "left"), ("rear_left",)), (_place(_BACK, "right"), ("rear_right",)),
)  # fmt: skip
_ENDS: tuple[tuple[str, str], ...] = (
    ("front", rf"front {_TIRE}|(?:two|both) fronts?|fronts\b|in front\b|at the front|up front|on the front(?! left| "
              rf"right)"
     r"|the front(?= (?:is|are|has|have|carr|needs?|gets?))|for the front"),
    ("rear", rf"(?:rear|back) {_TIRE}|both rears?|(?:two|both) rear {_TIRE}|rears\b|at the (?:rear|back)|behind\b"
     r"|in the (?:rear|back)|on the (?:rear|back)(?! left| right)|the (?:rear|back)(?= (?:is|are|has|have|carr))"
     r"|for the rear"),
)  # fmt: skip
_SET = (
    r"these (?:four )?(?:tires|tyres)\b|our (?:four )?(?:tires|tyres)\b|\bthe (?:whole )?set\b|all four\b|every "
    r"(?:tire|tyre)|each (?:tire|tyre)|whole car|all (?:the |our )?(?:tires|tyres)|\ball (?:around|round)\b(?! the)"
)
_CHOICES: tuple[tuple[str, str], ...] = (
    ("four", r"four new|for (?:all )?four|(?:full|complete) set|(?:the )?four(?= (?:would|costs?|comes?|make|will|are "
             r"[$€£]))|buy(?:ing)? (?:all )?four|set "
             r"of four|all four new|four (?:tires|tyres)(?= (?:cost|come|are "
             r"\$|will))|new set|whole new set"),
    ("used_pair", r"used pair|pair of used|two used|second[- ]hand pair"),
    ("pair", r"new pair|for two\b|pair of new|two new|a pair(?= (?:cost|come|at the|of|for|is|would|[$€£\d]))"),
    ("shaved", r"shav(?:e|ing|ed)"),
    ("one", r"one new|for one\b|single new|a single (?:tire|tyre)|just one (?:tire|tyre)|"
            r"one (?:tire|tyre)(?= (?:cost|come|alone))"),
    ("keep", r"keep(?:ing)? (?:all|them)"),
)  # fmt: skip
_SIDES = ("left", "right")
_OTHER_SEASON = {"winter": "summer", "summer": "winter"}
_GROUPS = 40
_LEFT_OUT = re.compile(r"\b(?:all but|except(?: for)?|other than|apart from|besides)(?: the)? $", re.IGNORECASE)
_FAR = 80  # characters over which an end of the car named once holds for the sides named after it
_SAME_PHRASE = 30  # characters


class Mention(msgspec.Struct, frozen=True, kw_only=True):
    """Somebody spoken of at ``text[start:end]``: the ids of the subjects of findings that it can be."""

    start: int
    end: int
    ids: frozenset[str]
    group: bool = False


class Lexicon(msgspec.Struct, frozen=True, kw_only=True):
    """The words for all subjects, as one expression, and what each of its groups means."""

    words: re.Pattern[str]
    meant: Mapping[str, tuple[frozenset[str], bool]]
    subjects: frozenset[str]

    def mentions(self, text: str) -> list[Mention]:
        """Everybody mentioned in ``text``, in its order."""
        found: list[Mention] = []
        end = Mention(start=-_FAR, end=-_FAR, ids=frozenset())
        for match in self.words.finditer(text):
            ids, group = self.meant[match.lastgroup or ""]
            if _LEFT_OUT.search(text, max(0, match.start() - 20), match.start()):
                ids, group = frozenset(CORNERS) - ids, True
            if found and match.start() - found[-1].end <= _SAME_PHRASE:
                ids = self._of_the_group(found[-1], ids, match[0])
            if group and match.start() - end.end <= _FAR and ids <= frozenset(CORNERS) and ids & end.ids:
                ids = ids & end.ids  # "at the front 35 on the left and 32 on the right"
            found.append(Mention(start=match.start(), end=match.end(), ids=ids, group=group))
            if ids & {"front_axle", "rear_axle"}:
                end = found[-1]
        return found

    def _of_the_group(self, before: Mention, ids: frozenset[str], words: str) -> frozenset[str]:
        """``the winter tires: the front left``, ``the winter rear ones ..., the front ones``: those of that set."""
        if re.search(r"tires?|tyres?|axle|pair|wheels?", words, re.IGNORECASE):
            return ids
        sets = {its.removesuffix(place) for its in before.ids for place in CORNERS if its.endswith(f"_{place}")}
        meant = frozenset(name + place for name in sets for place in ids if name + place in self.subjects)
        return meant or ids


def lexicon(findings: Mapping[str, Finding], names: Iterable[tuple[str, str]] = ()) -> Lexicon:
    """The words for the subjects of ``findings``, some of which have ``names``; the longer goes before the shorter."""
    ids = frozenset(finding.subject for finding in findings.values())
    alternatives: list[tuple[str, frozenset[str], bool]] = []
    alternatives += _bench(names, ids)
    alternatives += [(words, frozenset(its), False) for words, its in _PLACES]
    alternatives += [(words, frozenset({f"choice:{name}"}), False) for name, words in _CHOICES]
    for end, words in _ENDS:
        alternatives.append((words, frozenset({f"{end}_left", f"{end}_right", f"{end}_axle"}), True))
    for side in _SIDES:
        words = rf"{side} (?:one|side|hand side|{_TIRE})|(?:on|to) the {side}\b"
        alternatives.append((words, frozenset({f"front_{side}", f"rear_{side}"}), True))
    alternatives.append((r"spare(?: tire| tyre| wheel)?|temporary (?:tire|tyre|wheel)", frozenset({"spare"}), False))
    alternatives.append((_SET, frozenset({"set", "car", *CORNERS}), True))
    meant, parts = {}, []
    for number, (words, its, group) in enumerate(alternatives):
        meant[f"g{number}"] = (its, group)
        parts.append(rf"(?P<g{number}>\b(?:{words}))(?!\w)")
    return Lexicon(words=re.compile("|".join(parts), re.IGNORECASE), meant=meant, subjects=ids)


def _bench(names: Iterable[tuple[str, str]], ids: frozenset[str]) -> list[tuple[str, frozenset[str], bool]]:
    """Tires on the bench by id and by the name that the presenter gave them; sets of them by their first word."""
    found: list[tuple[str, frozenset[str], bool]] = []
    called = {id_: {id_.replace("_", " "), name.rstrip("…")} for id_, name in names if id_ in ids}
    prefixes: dict[str, dict[str, str]] = {}
    for id_, its in called.items():
        for place in CORNERS:
            if id_.endswith(f"_{place}"):
                prefixes.setdefault(id_.removesuffix(f"_{place}").replace("_", " "), {})[place] = id_
        plain = [re.sub(r"\s*\(.*", "", name) for name in its]
        words = "|".join(re.escape(name) for name in sorted({*its, *plain}, key=len, reverse=True) if len(name) > 2)
        if words:
            found.append((words, frozenset({id_}), False))
    for prefix, places in sorted(prefixes.items())[:_GROUPS]:
        found += _prefixed(re.escape(prefix), places)
        if other := _OTHER_SEASON.get(prefix):
            found.append((rf"{other} {_TIRE}", frozenset({*CORNERS, "set"}), True))
    return sorted(found, key=lambda its: -len(its[0]))


def _prefixed(prefix: str, places: Mapping[str, str]) -> list[tuple[str, frozenset[str], bool]]:
    """``winter front left``, ``front left winter tire``, ``the winter rear tires``, ``the winter set``."""
    found: list[tuple[str, frozenset[str], bool]] = []
    for words, (place,) in _PLACES:
        if place in places:
            at_place = rf"{prefix} {_TIRE} (?:on|at) the (?:{words})"
            either = rf"{prefix} (?:{words})|(?:{words})(?: of the)? {prefix}|{at_place}"
            found.append((either, frozenset({places[place]}), False))
    for end, back in (("front", "front"), ("rear", _BACK)):
        mine = frozenset(id_ for place, id_ in places.items() if place.startswith(end))
        if mine:
            found.append((rf"{prefix} {back} {_TIRE}|{back} {prefix} {_TIRE}|{prefix} {back}s?", mine, True))
    found.append((rf"{prefix} {_TIRE}", frozenset(places.values()), True))
    return found


_TAKES = re.compile(r"\b(?:on|at|for|of|in|from|is what)(?: (?:the|our|my|both|each|its))?\s*$", re.IGNORECASE)
_WITH_PLACE = re.compile(r"(?:in|at|on|up|for|behind)\b", re.IGNORECASE)
_PARTED = re.compile(r"[,;:.!?()–—]")


class Spoken(msgspec.Struct, frozen=True, kw_only=True):
    """Whom a number is about: ``ids`` of subjects, ``sure`` where its sentence names them."""

    ids: frozenset[str]
    sure: bool = False
    all: frozenset[str] = frozenset()
    """Everybody that the sentence mentions."""


def _count_before(mentions: Sequence[Mention], at: int) -> int:
    return bisect_right(mentions, at, key=lambda mention: mention.start)


def spoken_of(
    text: str, mentions: Sequence[Mention], number: tuple[int, int], sentence: tuple[int, int],
    next_number: int, last_number: int,
) -> Spoken | None:  # fmt: skip
    """Whom the number at ``number`` is about, by the mentions of its sentence; None where there is none."""
    start, end = number
    low, high = _count_before(mentions, sentence[0] - 1), _count_before(mentions, sentence[1] - 1)
    here = mentions[max(low, _count_before(mentions, start) - 4) : min(high, _count_before(mentions, end) + 4)]
    if not here:
        return None
    everybody = frozenset[str]().union(*(mention.ids for mention in here))
    before = [mention for mention in here if mention.end <= start]
    after = [mention for mention in here if mention.start >= end]
    if after and after[0].start < next_number and not _PARTED.search(text[end : after[0].start]):
        between = text[end : after[0].start]
        close = not before or before[-1].end < last_number or len(between) < 16
        if close and (_TAKES.search(between) or _WITH_PLACE.match(text, after[0].start)):
            return Spoken(ids=after[0].ids, sure=True, all=everybody)
    if before:
        return Spoken(ids=before[-1].ids, sure=True, all=everybody)
    if after and after[0].start >= next_number and _PARTED.search(text[end:next_number]):
        return None
    near = bool(after) and len(after) == 1 and after[0].start < next_number
    return Spoken(ids=after[0].ids, sure=near, all=everybody) if after else None
