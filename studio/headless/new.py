"""``new``: write a new episode, empty or a copy of a demo."""

import argparse
import datetime as dt
import json
from pathlib import Path
from typing import TYPE_CHECKING

from studio import shipped
from studio.headless.opening import fail, impossible
from studio.model.episode import Episode
from studio.storage.episode_file import load, save

if TYPE_CHECKING:
    from argparse import _SubParsersAction

FIRST_DEMO = "minivan_one_new_tire"
EPILOG = """\
examples:
  python -m studio new my_episode.json
  python -m studio new my_episode.json --demo
  python -m studio new my_episode.json --demo estate_before_winter
"""


def add_parser(verbs: "_SubParsersAction[argparse.ArgumentParser]") -> None:
    """Enter the verb."""
    parser = verbs.add_parser(
        "new",
        help="write a new episode, empty or a copy of a demo",
        description="Write a new episode to FILE, which must not be there yet.",
        epilog=EPILOG + f"\ndemos: {', '.join(demo_names())}",
        formatter_class=argparse.RawDescriptionHelpFormatter,
    )
    parser.add_argument("file", metavar="FILE", help="where to write it, such as my_episode.json")
    parser.add_argument(
        "--demo",
        metavar="NAME",
        nargs="?",
        const=FIRST_DEMO,
        help=f"a copy of that demo; without a name, of {FIRST_DEMO}",
    )
    parser.add_argument("--json", action="store_true", help="print one JSON object")


def run(arguments: argparse.Namespace) -> int:
    """Write the episode and say what to do with it."""
    path = Path(arguments.file)
    if path.exists() or path.is_symlink():
        fail(f"{path.name}: there is such a file already, and it was left as it is; give another name")
    episode = Episode(title=_title(path), on=dt.date.today()) if arguments.demo is None else _demo(arguments.demo)
    save(path, episode)
    if arguments.json:
        print(json.dumps({"file": str(path), "title": episode.title, "on": str(episode.on)}, ensure_ascii=False))
        return 0
    print(f"{path} was written: {episode.title}")
    print(f"open it with: python -m studio {path}")
    return 0


def demo_names() -> tuple[str, ...]:
    """The demos' names, the first one first."""
    names = sorted(path.stem for path in shipped.demos().glob("*.json"))
    return tuple(sorted(names, key=lambda name: name != FIRST_DEMO))


def _demo(name: str) -> Episode:
    known = demo_names()
    wanted = name.removesuffix(".json")
    if wanted not in known:
        fail(f"--demo: {name[:60]!r} was given, expected one of {', '.join(known)}")
    return load(shipped.demos() / f"{wanted}.json", impossible)


def _title(path: Path) -> str:
    """A title from the file's name: ``my_episode.json`` is "My episode"."""
    words = " ".join(path.stem.replace("_", " ").replace("-", " ").split())
    return (words[:1].upper() + words[1:])[:200] or "New episode"
