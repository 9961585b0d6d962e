"""The ``script`` verb's text for people: what must be mended first, then time and chapters."""

from collections.abc import Iterator

from studio.decide.wording import counted, day_words, plain
from studio.model.episode import Episode
from studio.reference.tables import Tables
from studio.script.chapters import Chapters, clock
from studio.script.check import TIE, TITLE, ScriptCheck, ScriptMark, ScriptStatement
from studio.script.duties import script_cautions
from studio.script.timing import Timing

_ORDER = ("contradicted", "unbacked", "cited", "computed")
_WIDE = 12
_LONG = 400


def told(episode: Episode, check: ScriptCheck, timing: Timing, parts: Chapters, tables: Tables) -> list[str]:
    """The whole check in words."""
    lines = [f"{plain(episode.title, 100)}: {day_words(episode.on)}"]
    if check.note:
        return [*lines, "", check.note, *_listed("Owed", (duty.sentence for duty in check.duties))]
    lines += ["", _summary(check)]
    lines += _listed("Numbers", (_mark(mark) for mark in _sorted(check)))
    lines += _listed("Holes", (f"{plain(its.segment, 40)}: {plain(its.why, 120)}" for its in check.holes))
    lines += _listed("Often said wrongly", (_statement(its) for its in check.statements))
    lines += _listed("Owed", (plain(duty.sentence, _LONG) for duty in check.duties))
    lines += ["", *_time(timing)]
    lines += _listed("Chapters", (chapter.line for chapter in parts.all)) or ["", parts.why_none]
    cautions = dict.fromkeys(its.caution.text for its in script_cautions(episode.rundown, tables))
    return [*lines, *([""] if cautions else []), *(f"! {text}" for text in cautions)]


def _summary(check: ScriptCheck) -> str:
    counts = {state: sum(m.state == state and not m.dismissed for m in check.marks) for state in _ORDER}
    aside = sum(bool(mark.dismissed) for mark in check.marks)
    words = ", ".join(f"{count} {state}" for state, count in counts.items())
    return f"{counted(len(check.marks), 'number')}: {words}{f', {aside} set aside' if aside else ''}."


def _sorted(check: ScriptCheck) -> list[ScriptMark]:
    return sorted(check.marks, key=lambda mark: (bool(mark.dismissed), _ORDER.index(mark.state)))


def _mark(mark: ScriptMark) -> str:
    where = {TITLE: "title", TIE: "paid line"}.get(mark.point, f"point {mark.point + 1}")
    state = "set aside" if mark.dismissed else mark.state
    what = f"{state:<{_WIDE}} {plain(mark.text, 40)}  ({plain(mark.segment, 40)}, {where})"
    if mark.dismissed:
        return f"{what}: {plain(mark.dismissed, 80)}"
    if mark.state in ("contradicted", "unbacked"):
        return f"{what}: {mark.why}"
    return f"{what}  {mark.source}"


def _statement(its: ScriptStatement) -> str:
    aside = f"; set aside: {plain(its.dismissed, 80)}" if its.dismissed else ""
    return f"“{plain(its.text, 120)}” Right is: {its.correct} ({its.source.title}){aside}"


def _time(timing: Timing) -> Iterator[str]:
    whence = {"set": "as set", "learnt": "learnt from takes", "default": "the usual pace"}[timing.pace_from]
    pace = float(timing.words_per_minute)
    yield f"Spoken: {clock(timing.total_s)}, {timing.words} words at {pace:.0f} a minute ({whence})."
    for its in timing.segments:
        yield f"  {clock(its.starts_s):>7} {plain(its.title, 60) or its.segment}: {float(its.total_s):.0f} s"
    if timing.over_s is not None and timing.over_s > 0:
        yield f"Over the target by {float(timing.over_s):.0f} s; the longest points that would win it:"
        for cut in timing.cuts:
            yield f"  {plain(cut.segment, 40)}, point {cut.point + 1}: {float(cut.wins_s):.0f} s"
    for problem in timing.problems:
        yield f"Left out: {problem.sentence}"


def _listed(head: str, rows: Iterator[str]) -> list[str]:
    lines = [f"  {row}" for row in rows]
    return ["", head, *lines] if lines else []
