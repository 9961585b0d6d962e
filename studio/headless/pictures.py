"""``pictures``: write an episode's pictures into a folder, or name those there are."""

import argparse
import json
import sys
from collections.abc import Iterator
from pathlib import Path
from typing import TYPE_CHECKING

from studio.graphics.catalogue import catalogue
from studio.graphics.frame import read_frame
from studio.graphics.look import Look
from studio.graphics.paint.movies import DEFAULT_MOVIE, MOVIES
from studio.handoff.picture_files import FORMATS, LIST_NAME, STEPS, Entry, Wanted, encode_list
from studio.handoff.pictures import Progress, export_pictures
from studio.headless.opening import fail, open_episode, open_look
from studio.model.episode import Episode
from studio.model.rate import RATES

if TYPE_CHECKING:
    from argparse import _SubParsersAction

EPILOG = f"""\
Writes the files and {LIST_NAME} in DIR. There, "step" is the name of the step up to which a file is built, and null
for a finished picture (--steps last); "labels" are every text and its box in px from the top left; a text along
an arc has one label a letter, and "of" is the whole text. A picture that has nothing to show yet is named on stderr
and the others are made; if none is made, the exit code is 2. An SVG's fonts lie beside it in the folder fonts.

A clip (--format clip) builds the picture up step by step and holds each step as long as it takes to read; it begins
with the bare ground and ends with the finished picture. --movie says the kind of file:
  qtrle   MOV, QuickTime Animation: pixel for pixel what the PNGs are, with transparency (the default: exact and small)
  prores  MOV, ProRes 4444: for an edit that prefers it, with transparency, not quite exact, large
  png     a folder of PNG files, one a frame, with transparency; "sha256" is of all their bytes in order
  webm    WebM, VP9: for the web, with transparency that not every program shows
  mp4     MP4, H.264: opaque, for anything
All but png need the extra "clips": pip install 'tire-episode-studio[clips]'. In the list a clip has besides "movie",
"rate", "frames" and "duration_s", and the labels of the finished picture; --steps does not matter to it.

examples:
  python -m studio pictures --list
  python -m studio pictures demo_projects/minivan_one_new_tire.json --to pictures
  python -m studio pictures demo_projects/minivan_one_new_tire.json --to pictures --only size_code,rotation --frame tall
  python -m studio pictures demo_projects/minivan_one_new_tire.json --to pictures --background clear --steps all
  python -m studio pictures demo_projects/minivan_one_new_tire.json --to clips --format clip --only rotation --rate 25
"""


def add_parser(verbs: "_SubParsersAction[argparse.ArgumentParser]") -> None:
    """Enter the verb."""
    parser = verbs.add_parser(
        "pictures",
        help="write an episode's pictures into a folder",
        description="Write an episode's pictures into DIR, or name those there are.",
        epilog=EPILOG,
        formatter_class=argparse.RawDescriptionHelpFormatter,
    )
    parser.add_argument("episode", metavar="EPISODE", nargs="?", help="the episode file")
    parser.add_argument("--list", action="store_true", help="print the catalogue instead")
    parser.add_argument("--to", metavar="DIR", help="the folder to write into; made if it is not there")
    parser.add_argument("--only", metavar="ID,...", help="these pictures only, such as size_code,rotation")
    parser.add_argument("--frame", default="wide", help="wide, tall, square or WxH, such as 1280x720 (%(default)s)")
    parser.add_argument("--format", choices=FORMATS, default="png", help="the kind of file (%(default)s)")
    parser.add_argument("--outlined", action="store_true", help="SVG: text as outlines, which need no font")
    parser.add_argument("--background", default="look", help="look, clear or a colour #RRGGBB (%(default)s)")
    parser.add_argument(
        "--steps", choices=STEPS, default="last", help="every step, or the finished picture (%(default)s)"
    )
    parser.add_argument("--movie", choices=MOVIES, default=DEFAULT_MOVIE, help="a clip's kind of file (%(default)s)")
    parser.add_argument("--rate", choices=tuple(RATES), help="a clip's frames a second (that of the episode's rundown)")
    parser.add_argument("--json", action="store_true", help="print one JSON object, as in the list of files")


def run(arguments: argparse.Namespace) -> int:
    """Write the pictures: 0 if some were made and none failed, 1 if one failed, 2 if none could be made."""
    if arguments.list:
        return _print_catalogue(arguments.json)
    if not arguments.episode or not arguments.to:
        fail("an episode and a folder were expected, such as: pictures my_episode.json --to pictures")
    wanted, folder = _wanted(arguments), Path(arguments.to)
    made, failed = list[Entry](), False
    episode = open_episode(arguments.episode)
    for progress in _exported(episode, open_look(episode, arguments.episode), wanted, folder):
        for line in filter(None, (progress.problem, progress.warning)):
            print(line, file=sys.stderr)
        failed = failed or progress.failed
        if progress.entry is not None:
            made.append(progress.entry)
            if not arguments.json:
                print(f"{progress.done} of {progress.total}: {folder / progress.entry.file}")
    if arguments.json:
        print(encode_list(made).decode("utf-8"), end="")
    return 2 if not made else int(failed)


def _exported(episode: Episode, look: Look, wanted: Wanted, folder: Path) -> Iterator[Progress]:
    from studio.decide import decide
    from studio.questions.told import with_answer
    from studio.reference.tables import load_tables

    findings = with_answer(episode, decide(episode, load_tables()), load_tables())
    try:
        return export_pictures(episode, findings, look, wanted, folder)
    except ValueError as error:
        fail(str(error))


def _wanted(arguments: argparse.Namespace) -> Wanted:
    ids = tuple(part.strip() for part in (arguments.only or "").split(",") if part.strip())
    if arguments.only is not None and not ids:
        fail(f"--only: {arguments.only[:40]!r} names no picture, expected ids such as size_code,rotation")
    try:
        frame = read_frame(arguments.frame)
    except ValueError as error:
        fail(f"--frame: {error}")
    return Wanted(
        ids=ids, frame=frame, format=arguments.format, background=arguments.background, steps=arguments.steps,
        outlined=arguments.outlined, movie=arguments.movie, rate=arguments.rate or "",
    )  # fmt: skip


def _print_catalogue(as_json: bool) -> int:
    entries = [{"id": id_, "name": entry.name, "takes": entry.takes} for id_, entry in catalogue().items()]
    if as_json:
        print(json.dumps({"pictures": entries}, ensure_ascii=False, indent=2))
        return 0
    wide = max(len(id_) for id_ in catalogue())
    for id_, entry in catalogue().items():
        print(f"{id_:<{wide}}  {entry.name}")
    return 0
