"""``readings``: bring a gauge session in from a spreadsheet."""

import argparse
import json
from pathlib import Path
from typing import TYPE_CHECKING, Any

import msgspec

from studio.decide.gauge import finer_than_read
from studio.headless.opening import impossible, open_episode
from studio.model.episode import Episode
from studio.model.places import place_words
from studio.model.quantity import depth
from studio.model.specimen import Reading
from studio.reference.tables import load_tables
from studio.storage.csv_text import MOST_BYTES, CsvError
from studio.storage.episode_file import read_bytes, save
from studio.storage.errors import EpisodeFileError, StorageError, plain
from studio.storage.lock import EpisodeLock
from studio.storage.readings_columns import CONTRACT
from studio.storage.readings_csv import Session, Taken, read_session

if TYPE_CHECKING:
    from argparse import _SubParsersAction

EPILOG = f"""\
example:
  python -m studio readings my_episode.json session.csv

{CONTRACT}"""


def add_parser(verbs: "_SubParsersAction[argparse.ArgumentParser]") -> None:
    """Enter the verb."""
    parser = verbs.add_parser(
        "readings",
        help="bring a gauge session in from a spreadsheet",
        description="Read the gauge session in CSV and save EPISODE with it. Either all of it is taken or nothing.",
        epilog=EPILOG,
        formatter_class=argparse.RawDescriptionHelpFormatter,
    )
    parser.add_argument("episode", metavar="EPISODE", help="the episode file")
    parser.add_argument("csv", metavar="CSV", help="the table, saved by a spreadsheet as CSV")
    parser.add_argument("--on", metavar="DATE", help="the episode's new date, where the session is later than it")
    parser.add_argument(
        "--replace", action="store_true", help="put a reading in the place of the one a tire has of the same day"
    )
    parser.add_argument("--json", action="store_true", help="print one JSON object")


def run(arguments: argparse.Namespace) -> int:
    """Take the session in, save, and print what was brought in."""
    path, table = Path(arguments.episode), Path(arguments.csv)
    open_episode(path, arguments.on)
    with EpisodeLock.take(path):
        # Read it as it lies on the disk now that nobody else can change it.
        session = _session(table, open_episode(path, arguments.on), arguments.replace)
        save(path, session.episode)
    if arguments.json:
        print(json.dumps({"readings": [_as_json(taken) for taken in session.taken]}, ensure_ascii=False, indent=2))
        return 0
    count = len(session.taken)
    print(f"{path.name}: {count} reading{'s' if count != 1 else ''} brought in from {table.name}")
    for taken in session.taken:
        print(f"  {line_for(taken)}")
        for remark in remarks_of(taken.reading):
            print(f"    {remark}: taken as it stands in the table")
    return 0


def _session(table: Path, episode: Episode, replace: bool) -> Session:
    try:
        return read_session(read_bytes(table, MOST_BYTES), episode, impossible, replace=replace)
    except (CsvError, EpisodeFileError) as error:
        raise StorageError(f"{plain(table.name)}: {error}") from None


def _as_json(taken: Taken) -> dict[str, Any]:
    """The tire, the line of the table, and the reading as the episode file holds it."""
    reading: dict[str, Any] = msgspec.to_builtins(taken.reading)
    return {"specimen": taken.specimen.id, "line": taken.line, "replaced": taken.replaced, "reading": reading,
            "remarks": list(remarks_of(taken.reading))}  # fmt: skip


def remarks_of(reading: Reading) -> tuple[str, ...]:
    """The depths that are finer than the reading's gauge can be read, each once."""
    tables = load_tables()
    read = (depth(each, reading.unit) for groove in reading.depths for each in groove if each is not None)
    return tuple(dict.fromkeys(said for each in read if (said := finer_than_read(each, reading.gauge, tables))))


def line_for(taken: Taken) -> str:
    """One reading in plain words: the tire, the day, how much was read, the least of it, the gauge."""
    reading = taken.reading
    facts = [
        f"{plain(taken.specimen.name or taken.specimen.id)} ({place_words(reading.place)}), {reading.on}",
        *_depth_words(reading),
        *([reading.odometer.text()] if reading.odometer else []),
        *([f"{reading.pressure.pressure.text()}"] if reading.pressure else []),
        f"gauge in steps of {reading.gauge.resolution.text()}",
        *(["in place of the earlier reading of that day"] if taken.replaced else []),
    ]
    return "; ".join(facts)


def _depth_words(reading: Reading) -> list[str]:
    depths = [each for groove in reading.depths for each in groove if each is not None]
    if not depths:
        return ["no depths"]
    count = f"{len(depths)} depth{'s' if len(depths) != 1 else ''} in {len(reading.depths)} grooves"
    return [count, f"least {depth(min(depths), reading.unit).text()}"]
