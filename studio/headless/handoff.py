"""``handoff``: every file that the edit and the upload need, in one command, and what of it is stale."""

import argparse
import json
import sys
from collections.abc import Sequence
from pathlib import Path
from typing import TYPE_CHECKING

import msgspec

from studio.handoff.gathering import gather
from studio.handoff.making import make, read_items, today
from studio.handoff.manifest import MANIFEST, FileState
from studio.handoff.material import Material
from studio.handoff.published import Correction, corrections
from studio.handoff.works import ITEMS
from studio.headless.opening import fail, open_episode, open_look

if TYPE_CHECKING:
    from argparse import _SubParsersAction

EPILOG = f"""\
Deliverables: {", ".join(ITEMS)}.
{MANIFEST} in DIR lists every file with its state (fresh, stale, not made), why, its digest, and the findings and inputs
that it was made from. Text that cannot be made yet (chapters of a short rundown) says why and fails nothing.
Where a number that was marked as published has changed since, its correction is drafted.

examples:
  python -m studio handoff demo_projects/minivan_one_new_tire.json --to handoff
  python -m studio handoff demo_projects/minivan_one_new_tire.json --to handoff --only captions,timeline
  python -m studio handoff demo_projects/minivan_one_new_tire.json --to handoff --stale
  python -m studio handoff demo_projects/minivan_one_new_tire.json --to handoff --state
"""


def add_parser(verbs: "_SubParsersAction[argparse.ArgumentParser]") -> None:
    """Enter the verb."""
    parser = verbs.add_parser(
        "handoff",
        help="make every file that the edit and the upload need",
        description="Make the brief, pictures, clips, captions, chapters, description, timeline, cue cards and lists.",
        epilog=EPILOG,
        formatter_class=argparse.RawDescriptionHelpFormatter,
    )
    parser.add_argument("episode", metavar="EPISODE", help="the episode file")
    parser.add_argument("--to", metavar="DIR", required=True, help="the folder to write into; made if it is not there")
    parser.add_argument("--only", metavar="ITEM,...", help="these deliverables only, such as brief,captions")
    parser.add_argument("--stale", action="store_true", help="only what is not fresh")
    parser.add_argument("--state", action="store_true", help="write nothing; say what is fresh, stale, not made")
    parser.add_argument("--json", action="store_true", help="print one JSON object: the files with their states")


def run(arguments: argparse.Namespace) -> int:
    """Make it: 0 if nothing failed, 1 if a file failed or, with --state, is not fresh."""
    folder = Path(arguments.to)
    try:
        items = read_items(arguments.only) if arguments.only is not None else ()
    except ValueError as error:
        fail(f"--only: {error}")
    material = _material(arguments.episode)
    if arguments.state:
        return _tell_states(material, folder, items, arguments.json)
    failed = False
    for step in make(material, folder, items, stale_only=arguments.stale):
        failed = failed or step.failed
        if step.problem:
            print(f"{step.file}: {step.problem}" if not step.failed else step.problem, file=sys.stderr)
        elif step.state is not None and not arguments.json:
            print(f"{step.done} of {step.total}: {folder / step.file}")
    if arguments.json:
        _print(today(material, folder), corrections(material))
    else:
        _tell_corrections(material)
    return int(failed)


def _material(path: str) -> Material:
    from studio.decide import decide
    from studio.questions.told import with_answer
    from studio.reference.tables import load_tables

    episode = open_episode(path)
    look, tables = open_look(episode, path), load_tables()
    return gather(episode, with_answer(episode, decide(episode, tables), tables), tables, look)


def _tell_states(material: Material, folder: Path, items: tuple[str, ...], as_json: bool) -> int:
    states = [state for state in today(material, folder) if not items or state.item in items]
    if as_json:
        _print(states, corrections(material))
    else:
        wide = max((len(state.file) for state in states), default=0)
        for state in states:
            print(f"{state.state:<9} {state.file:<{wide}}  {'; '.join(state.why)}".rstrip())
        _tell_corrections(material)
    return int(any(state.state != "fresh" for state in states))


def _tell_corrections(material: Material) -> None:
    """The corrections that numbers already published call for, ready to post."""
    for due in corrections(material):
        print(f"\nCorrection due:\n{due.text()}")


def _print(states: Sequence[FileState], due: Sequence[Correction]) -> None:
    held = {"files": msgspec.to_builtins(states), "corrections": [msgspec.to_builtins(its) for its in due]}
    print(json.dumps(held, ensure_ascii=False, indent=2))
