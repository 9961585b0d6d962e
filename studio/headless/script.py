"""``script``: what in the rundown nothing backs, how long it runs, its chapters, and what it still owes."""

import argparse
import json
from typing import TYPE_CHECKING, Any

from studio.decide import decide
from studio.headless.opening import open_episode
from studio.headless.script_text import told
from studio.reference.tables import load_tables
from studio.script.chapters import Chapters, chapters, planned
from studio.script.check import ScriptCheck, ScriptMark, check_script
from studio.script.timing import Timing, time_script

if TYPE_CHECKING:
    from argparse import _SubParsersAction

EPILOG = """\
Every number in titles, talking points and paid lines is named: computed (equals a finding's number, to the precision
it is said with), cited (from the reference tables), unbacked, or contradicted (expected says what is right; why says by
how much, or that two values said to be equal are not). What was set aside with a reason is listed as dismissed.
Times are at the presenter's own pace: the one set, else learnt from takes, else 150 words a minute.
Exit code 1 if anything is contradicted.

examples:
  python -m studio script demo_projects/minivan_one_new_tire.json
  python -m studio script demo_projects/estate_before_winter.json --json
"""


def add_parser(verbs: "_SubParsersAction[argparse.ArgumentParser]") -> None:
    """Enter the verb."""
    parser = verbs.add_parser(
        "script",
        help="check the rundown: numbers, spoken length, chapters, duties",
        description="Check every number of an episode's rundown and say how long it runs.",
        epilog=EPILOG,
        formatter_class=argparse.RawDescriptionHelpFormatter,
    )
    parser.add_argument("episode", metavar="EPISODE", help="the episode file")
    parser.add_argument("--json", action="store_true", help="print one JSON object")


def run(arguments: argparse.Namespace) -> int:
    """Print the check; 1 where anything is contradicted."""
    episode, tables = open_episode(arguments.episode), load_tables()
    found = decide(episode, tables)
    check = check_script(episode, found, tables)
    timing = time_script(episode.rundown, found, episode.units)
    parts = chapters(planned(timing))
    if arguments.json:
        print(json.dumps(as_json(check, timing, parts), indent=2, ensure_ascii=False, allow_nan=False))
    else:
        print("\n".join(told(episode, check, timing, parts, tables)))
    return 1 if check.contradicted else 0


def as_json(check: ScriptCheck, timing: Timing, parts: Chapters) -> dict[str, Any]:
    """The answer with the keys that scripts rely on; times in seconds."""
    return {
        "numbers": [_number(mark) for mark in check.marks],
        "spoken_seconds": float(timing.total_s),
        "chapters": [
            {"at_seconds": float(its.starts_s), "mark": its.mark, "title": its.title, "segment": its.segment}
            for its in parts.all
        ],
        "no_chapters": parts.why_none,
        "statements": [
            {"id": its.id, "text": its.text, "segment": its.segment, "point": its.point, "correct": its.correct,
             "source": {"title": its.source.title, "locator": its.source.locator, "standing": its.source.standing},
             "dismissed": its.dismissed}
            for its in check.statements
        ],
        "duties": [
            {"kind": its.kind, "segment": its.segment, "sentence": its.sentence, "caution": its.caution}
            for its in check.duties
        ],
        "holes": [
            {"segment": its.segment, "point": its.point, "reference": its.reference, "why": its.why}
            for its in check.holes
        ],
        "timing": _timing(timing),
        "note": check.note,
    }  # fmt: skip


def _number(mark: ScriptMark) -> dict[str, Any]:
    return {
        "text": mark.text, "segment": mark.segment, "state": mark.state, "expected": mark.expected,
        "from": mark.source, "why": "conversion" if mark.conversion else mark.why, "explained": mark.why,
        "point": mark.point, "live": mark.live, "dismissed": mark.dismissed,
    }  # fmt: skip


def _timing(timing: Timing) -> dict[str, Any]:
    return {
        "words_per_minute": float(timing.words_per_minute), "pace_from": timing.pace_from, "words": timing.words,
        "target_seconds": None if timing.target_s is None else float(timing.target_s),
        "over_seconds": None if timing.over_s is None else float(timing.over_s),
        "segments": [
            {"segment": its.segment, "starts_seconds": float(its.starts_s), "seconds": float(its.total_s),
             "words": its.words}
            for its in timing.segments
        ],
        "cuts": [{"segment": its.segment, "point": its.point, "seconds": float(its.wins_s)} for its in timing.cuts],
        "problems": [its.sentence for its in timing.problems],
    }  # fmt: skip
