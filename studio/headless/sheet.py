"""``sheet``: every picture of an episode on one page, with its name and verdict."""

import argparse
import json
import sys
from pathlib import Path
from typing import TYPE_CHECKING

from studio.graphics.frame import read_frame
from studio.handoff.contact_sheet import SheetError, check_name, items, sheet, write_sheet
from studio.headless.opening import fail, open_episode, open_look

if TYPE_CHECKING:
    from argparse import _SubParsersAction

EPILOG = """\
Pictures stand in the order in which their files are numbered: as the rundown calls for them, then the others. One that
has nothing to show yet says what is missing in its place. Exit code 1 if one could not be drawn, 2 if none can be
shown.

examples:
  python -m studio sheet demo_projects/minivan_one_new_tire.json --to sheet.png
  python -m studio sheet demo_projects/minivan_one_new_tire.json --to sheet.pdf --frame tall
"""


def add_parser(verbs: "_SubParsersAction[argparse.ArgumentParser]") -> None:
    """Enter the verb."""
    parser = verbs.add_parser(
        "sheet",
        help="put every picture of an episode on one page",
        description="Put every picture of an episode on one page, with its name and verdict, for judging at a glance.",
        epilog=EPILOG,
        formatter_class=argparse.RawDescriptionHelpFormatter,
    )
    parser.add_argument("episode", metavar="EPISODE", help="the episode file")
    parser.add_argument("--to", metavar="FILE", required=True, help="the file to write, ending in .png or .pdf")
    parser.add_argument("--frame", default="wide", help="wide, tall, square or WxH, such as 1280x720 (%(default)s)")
    parser.add_argument("--json", action="store_true", help="print one JSON object")


def run(arguments: argparse.Namespace) -> int:
    """Write the sheet: 0 if every picture that can be shown is on it, 1 if one failed, 2 if there is none."""
    from studio.decide import decide
    from studio.questions.told import with_answer
    from studio.reference.tables import load_tables

    path = Path(arguments.to)
    try:
        check_name(path)
        frame = read_frame(arguments.frame)
    except SheetError as error:
        fail(f"--to: {error}")
    except ValueError as error:
        fail(f"--frame: {error}")
    episode = open_episode(arguments.episode)
    look = open_look(episode, arguments.episode)
    findings = with_answer(episode, decide(episode, load_tables()), load_tables())
    shown = tuple(items(episode, findings, look, frame))
    for item in shown:
        if item.missing:
            print(f"{item.name}: {item.missing}", file=sys.stderr)
    ready = sum(1 for item in shown if item.scene is not None)
    if not ready:
        fail("no picture can be shown yet; enter the readings of a tire first")
    write_sheet(sheet(episode, shown, look, frame), path, episode.channel)
    if arguments.json:
        missing = [{"name": item.name, "missing": item.missing} for item in shown if item.missing]
        answer = {"file": str(path), "shown": ready, "pictures": len(shown), "missing": missing}
        print(json.dumps(answer, ensure_ascii=False, indent=2))
    else:
        print(f"{ready} of {len(shown)} pictures: {path}")
    return int(any(item.failed for item in shown))
