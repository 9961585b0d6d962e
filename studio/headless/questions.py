"""``questions``: bring viewers' comments in from a table, without their authors, sorted."""

import argparse
import json
import sys
import time
from collections.abc import Callable, Iterator, Sequence
from pathlib import Path
from typing import TYPE_CHECKING, Any

from studio.headless.opening import fail, open_episode
from studio.model.episode import Episode
from studio.questions.bringing import Brought, Found, TooManyQuestions, bring_in
from studio.questions.on_cores import on_cores
from studio.questions.scrub import scrub
from studio.storage.comments_csv import MOST_BYTES, Comments, read_comments
from studio.storage.csv_text import CsvError
from studio.storage.episode_file import read_bytes, save
from studio.storage.errors import EpisodeFileError, StorageError, plain
from studio.storage.lock import EpisodeLock
from studio.storage.room import check_room, shortened, shortened_remark

if TYPE_CHECKING:
    from argparse import _SubParsersAction

SHOWN = 200
_MOST_TOLD = 2_000
_TELL_S = 0.5
EPILOG = """\
The column of comments is found by its heading (comment, text, message and the like), else it is the one with the
longest texts. Columns that name authors are not read; names, handles, links, mail addresses, phones, plates and VINs
inside a comment are blanked. Comments that ask the same with the same numbers are counted into one. Comments that ask
nothing that can be computed are kept, set aside. Urgent for safety comes first, then what can be answered now, then
what needs a fact.

example:
  python -m studio questions my_episode.json comments.csv
"""


def add_parser(verbs: "_SubParsersAction[argparse.ArgumentParser]") -> None:
    """Enter the verb."""
    parser = verbs.add_parser(
        "questions",
        help="bring viewers' comments in from a table",
        description="Read the comments in CSV and save EPISODE with them, sorted. Either all is written or nothing.",
        epilog=EPILOG,
        formatter_class=argparse.RawDescriptionHelpFormatter,
    )
    parser.add_argument("episode", metavar="EPISODE", help="the episode file")
    parser.add_argument("csv", metavar="CSV", help="the table, saved as CSV")
    parser.add_argument("--json", action="store_true", help="print one JSON object")


def run(arguments: argparse.Namespace) -> int:
    """Bring the comments in, save, and print the sorted list."""
    path, table = Path(arguments.episode), Path(arguments.csv)
    open_episode(path)
    with EpisodeLock.take(path):
        comments = _comments(table)
        episode = open_episode(path)  # as it lies on the disk now that nobody else can change it
        texts = [comment.text for comment in comments.comments]
        check_room(episode, texts, lambda text: scrub(shortened(text)).text)
        brought = _brought(episode, comments)
        save(path, brought.episode)
    if arguments.json:
        print(json.dumps(_as_json(brought, comments), indent=2, ensure_ascii=False))
    else:
        print("\n".join(_told(path, table, brought, comments)))
    return 0


def _brought(episode: Episode, comments: Comments) -> Brought:
    try:
        return bring_in(episode, ((shortened(comment.text), comment.on) for comment in comments.comments), _told_of)
    except TooManyQuestions as error:
        fail(str(error))


def _told_of(look: Callable[[str], Found], texts: Sequence[str]) -> Iterator[list[Found]]:
    """Each text looked at on all cores; where somebody watches, how far it is."""
    done, told = 0, time.monotonic()
    watched = sys.stderr.isatty()
    for lot in on_cores(look, texts):
        yield lot
        done += len(lot)
        if watched and time.monotonic() - told > _TELL_S:
            told = time.monotonic()
            print(f"\r{done:,} of {len(texts):,} comments", end="", file=sys.stderr, flush=True)
    if watched:
        print("\r" + " " * 60, end="\r", file=sys.stderr, flush=True)


def _comments(table: Path) -> Comments:
    try:
        return read_comments(read_bytes(table, MOST_BYTES))
    except (CsvError, EpisodeFileError) as error:
        raise StorageError(f"{plain(table.name)}: {error}") from None


def _remarks(comments: Comments) -> list[str]:
    cut = shortened_remark([comment.text for comment in comments.comments])
    return [*comments.doubts_told, *comments.remarks, *([cut] if cut else [])]


def _as_json(brought: Brought, comments: Comments) -> dict[str, Any]:
    return {
        "read": brought.read,
        "added": brought.added,
        "counted_into_others": brought.counted,
        "set_aside": brought.set_aside,
        "column": comments.column,
        "columns_dropped": list(comments.dropped),
        "removed": dict(brought.removed),
        "remarks": _remarks(comments),
        "rows": {
            "lines": comments.lines,
            "joined": comments.joined,
            "without_words": comments.without_words,
            "not_taken": sum(not row.is_taken for row in comments.in_doubt),
        },
        "in_doubt": [
            {"line": row.line, "why": row.why, "taken": row.is_taken, "text": scrub(row.text[:_MOST_TOLD]).text}
            for row in comments.in_doubt
        ],
        "questions": [
            {
                "id": row.question.id,
                "kind": row.kind,
                "also": list(row.also),
                "state": row.state,
                "asked": row.question.asked,
                "text": row.question.text,
            }
            for row in brought.rows
        ],
    }


def _told(path: Path, table: Path, brought: Brought, comments: Comments) -> list[str]:
    """The list for people: what was done, then a line for each question."""
    lines = [
        f"{path.name}: {brought.read} comments read from {plain(table.name)}, column "
        f"{plain(comments.column)[:40]!r}: {brought.added} new questions, "
        f"{brought.counted} counted into others, {brought.set_aside} set aside as no question",
    ]
    if comments.dropped:
        lines.append(f"  not read: {', '.join(plain(name)[:30] for name in comments.dropped[:8])}")
    if brought.removed:
        lines.append(f"  blanked: {', '.join(f'{count} {kind}' for kind, count in brought.removed)}")
    lines += [f"  {remark}" for remark in _remarks(comments)]
    state = ""
    shown = [row for row in brought.rows if row.state != "none"]
    for row in shown[:SHOWN]:
        if row.state != state:
            state = row.state
            lines += ["", _HEADS[state]]
        times = f" (asked {row.question.asked} times)" if row.question.asked > 1 else ""
        lines.append(f"  {row.kind:<13} {plain(row.question.text)[:90]}{times}")
    if len(shown) > SHOWN:
        lines.append(f"  and {len(shown) - SHOWN} more; --json lists all")
    return lines


_HEADS = {
    "urgent": "Urgent for safety",
    "answerable": "Answerable now",
    "needs_fact": "Needs a fact",
    "none": "No question",
}
