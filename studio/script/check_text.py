"""The number check of one text: each number that claims something, with its verdict. Also used for viewers' replies."""

from bisect import bisect_left
from collections.abc import Sequence

import msgspec

from studio.model.finding import Findings
from studio.model.quantity import System
from studio.reference.tables import Tables
from studio.script.addressing import cues_in
from studio.script.conversions import Pair, pairs
from studio.script.ground import Ground, prepare
from studio.script.judge import judge
from studio.script.multiples import judge_multiple
from studio.script.said import Said, said_in
from studio.script.sentences import REACH, sentence_span, sentence_starts
from studio.script.statements import Statement, statements_in
from studio.script.subjects import Mention, Spoken, spoken_of
from studio.script.verdict import Around, Judged, State, dimensions_of

CONVERSION = "conversion"
_ROUNDING = 0.05  # custom of speech, no source
_FEW = 12  # characters besides the number


class Mark(msgspec.Struct, frozen=True, kw_only=True):
    """A number named by the check, at ``text[start:end]`` of the text checked.

    ``expected`` is what is right, ``source`` from where (a finding's id, a path into the episode, a table), ``why`` the
    sentence for people; ``conversion`` marks two values that are said to be equal and are not.
    """

    text: str
    start: int
    end: int
    state: State
    expected: str = ""
    source: str = ""
    why: str = ""
    conversion: bool = False


class TextCheck(msgspec.Struct, frozen=True, kw_only=True):
    """The check of one text: its numbers, and what is often said wrongly in it."""

    marks: tuple[Mark, ...] = ()
    statements: tuple[Statement, ...] = ()


def check_text(
    text: str, findings: Findings, tables: Tables, units: System, about: Sequence[str] = ()
) -> TextCheck:
    """The check of ``text`` against ``findings`` and ``tables``; ``about`` are the findings it speaks of."""
    ground = prepare(findings, tables, units)
    return TextCheck(
        marks=check_numbers(text, ground, frozenset(about)), statements=statements_in(text, tables)
    )


def check_numbers(text: str, ground: Ground, about: frozenset[str] = frozenset()) -> tuple[Mark, ...]:
    """Every number of ``text`` that claims something, in its order, judged on ``ground``."""
    starts = sentence_starts(text)
    said = said_in(text, ground.units, starts)
    if not said:
        return ()
    mentions = ground.lexicon.mentions(text)
    verdicts = _verdicts(text, said, mentions, starts, ground, about)
    verdicts = _with_conversions(said, verdicts, pairs(text, said), ground)
    return tuple(
        Mark(text=its.text, start=its.start, end=its.end, state=verdict.state, expected=verdict.expected,
             source=verdict.source, why=verdict.why, conversion=verdict.source == CONVERSION
             and verdict.state == "contradicted")
        for its, verdict in zip(said, verdicts, strict=True) if verdict is not None
    )  # fmt: skip


def _verdicts(
    text: str, said: Sequence[Said], mentions: Sequence[Mention], starts: Sequence[int], ground: Ground,
    about: frozenset[str],
) -> list[Judged | None]:  # fmt: skip
    verdicts: list[Judged | None] = []
    ways = [mention for mention in mentions if _is_way(mention)]
    tires = [mention for mention in mentions if not _is_way(mention)]
    here: tuple[object, ...] = ()
    cues: dict[str, tuple[tuple[int, int], ...]] = {}
    for place, its in enumerate(said):
        span = _window(_with_what_went_before(starts, its, text), its)
        dimensions = dimensions_of(its)
        if (*span, *dimensions) != here:
            here, cues = (*span, *dimensions), cues_in(text[span[0] : span[1]], dimensions)
            if (home := text.find(ground.own_region, *span)) >= 0 and ground.own_region and "len" in dimensions:
                cues.setdefault("legal", ((home - span[0], home - span[0] + len(ground.own_region)),))
        last = said[place - 1].end if place else 0
        ahead = said[place + 1].start if place + 1 < len(said) else len(text)
        meant = {"money": ways, "distance": mentions}.get("".join(dimensions), tires)
        spoken = spoken_of(text, meant, (its.start, its.end), span, ahead, last)
        carried = _before(meant, span[0]) if spoken is None else None
        around = Around(
            text=text[span[0] : span[1]], at=(its.start - span[0], its.end - span[0]), spoken=spoken,
            carried=carried, context=about, cues=cues,
        )  # fmt: skip
        if its.sort == "multiple":
            low, high = (bisect_left(mentions, at, key=lambda mention: mention.start) for at in span)
            inside = [_moved(mention, span[0]) for mention in mentions[low:high]]
            others = [n for n in said[max(0, place - 4) : place + 3]
                      if n.sort == "quantity" and n.units and span[0] <= n.start and n.end <= span[1]]  # fmt: skip
            verdicts.append(judge_multiple(its, around, inside, ground, others))
        else:
            verdicts.append(judge(its, around, ground))
    return verdicts


def _with_what_went_before(starts: Sequence[int], its: Said, text: str) -> tuple[int, int]:
    """The sentence; one that is little more than its number (an answer, an aside) leans on the one before it."""
    start, end = sentence_span(starts, its.start, len(text))
    if start and len(text[start:end].strip()) - (its.end - its.start) <= _FEW:
        return sentence_span(starts, start - 1, len(text))[0], end
    return start, end


def _is_way(mention: Mention) -> bool:
    """Whether a way of buying is mentioned, not a tire: prices belong to those."""
    return any(id_.startswith("choice:") for id_ in mention.ids)


def _window(sentence: tuple[int, int], its: Said) -> tuple[int, int]:
    """The sentence, or as much of a long one as counts for this number."""
    start, end = sentence
    if end - start <= 2 * REACH:
        return sentence
    return max(start, its.start - REACH), min(end, its.end + REACH)


def _before(mentions: Sequence[Mention], at: int) -> Spoken | None:
    """Who was spoken of last before the character ``at``."""
    place = bisect_left(mentions, at, key=lambda mention: mention.start) - 1
    return Spoken(ids=mentions[place].ids, all=mentions[place].ids) if place >= 0 else None


def _moved(mention: Mention, by: int) -> Mention:
    return Mention(start=mention.start - by, end=mention.end - by, ids=mention.ids, group=mention.group)


def _with_conversions(
    said: Sequence[Said], verdicts: list[Judged | None], found: Sequence[Pair], ground: Ground
) -> list[Judged | None]:
    """Wrong conversions are contradicted, whichever of the two is not backed; right ones back each other."""
    for pair in found:
        first, second = verdicts[pair.first], verdicts[pair.second]
        if first is None or second is None:
            continue
        backed = first.state in ("computed", "cited"), second.state in ("computed", "cited")
        if pair.right:
            one, two = _carried_over(first, second)
            verdicts[pair.first] = one
            verdicts[pair.second] = two if two is second else msgspec.structs.replace(two, expected=pair.should.text())
        elif not (all(backed) and first.source == second.source and _rounded(said[pair.second].value, pair)):
            wrong = pair.first if backed[1] and not backed[0] else pair.second
            if first.state != "contradicted" or wrong != pair.first:
                verdicts[wrong] = _wrong(said, pair)
            if wrong == pair.second and first.state == "unbacked":
                verdicts[pair.first] = None  # only said to be converted: one mark is enough
    return verdicts


def _rounded(value: float, pair: Pair) -> bool:
    """Whether two numbers of one finding can be the same, each rounded in its own way."""
    return abs(value - pair.should.value) <= _ROUNDING * abs(pair.should.value)


def _carried_over(first: Judged, second: Judged) -> tuple[Judged, Judged]:
    """What backs one of two equal values backs the other; two that nothing else backs are right as a conversion."""
    better = min((first, second), key=lambda its: ("computed", "cited", "contradicted", "unbacked").index(its.state))
    if better.state == "unbacked":
        right = Judged(state="computed", source=CONVERSION, why="the two values are equal")
        return right, right
    if {first.state, second.state} == {"computed", "contradicted"} and first.state == "contradicted":
        return first, first
    return better, better


def _wrong(said: Sequence[Said], pair: Pair) -> Judged:
    first = said[pair.first]
    should = pair.should.text()
    return Judged(
        state="contradicted", expected=should, source=CONVERSION, why=f"{first.text.strip()} is {should}",
    )  # fmt: skip
