"""What every verb does first: open the episode, or say in one line why not."""

import datetime as dt
from pathlib import Path
from typing import TYPE_CHECKING, NoReturn

import msgspec

from studio.model.episode import Episode
from studio.model.problem import Problem
from studio.storage.autosave import previous_version
from studio.storage.episode_file import load
from studio.storage.errors import EpisodeFileError, plain

if TYPE_CHECKING:
    from studio.graphics.look import Look


class Refused(Exception):
    """Input that a verb cannot take: one line with what was given, what was expected, and an example."""


def fail(message: str) -> NoReturn:
    """Leave the verb with exit code 2 and ``message`` on stderr."""
    raise Refused(plain(message))


def open_episode(path: Path | str, on: dt.date | str | None = None, region: str | None = None) -> Episode:
    """Load the episode at ``path``, checked; ``on`` and ``region`` take the place of the episode's own.

    Raises Refused for a date or region that is not one, StorageError for a file that is not an episode; it says where
    the version before the last save lies, if there is one.
    """
    changes: dict[str, object] = {}
    if on is not None:
        changes["on"] = read_date(on)
    if region is not None:
        changes["region"] = read_region(region)
    try:
        episode = load(Path(path), impossible)
    except EpisodeFileError as error:
        kept = previous_version(Path(path))
        if kept is None:
            raise
        where = f"the version before its last save, of {kept.written:%Y-%m-%d %H:%M}, lies in {plain(kept.path.name)}"
        raise EpisodeFileError(f"{error}; {where}") from None
    return msgspec.structs.replace(episode, **changes) if changes else episode


def open_look(episode: Episode, path: Path | str) -> "Look":
    """The look that the episode at ``path`` names; raises Refused with what is wrong with it."""
    from studio.graphics.look import LookError, look_for

    try:
        return look_for(episode.look, Path(path).parent)
    except LookError as error:
        fail(f"look: {error}")


def impossible(episode: Episode) -> tuple[Problem, ...]:
    """What in ``episode`` cannot be, measured by the shipped tables."""
    from studio.decide.admission import problems
    from studio.reference.tables import load_tables

    return problems(episode, load_tables())


def read_date(given: dt.date | str) -> dt.date:
    """A date as typed, year first; raises Refused."""
    if isinstance(given, dt.date):
        return given
    try:
        return dt.datetime.strptime(given.strip(), "%Y-%m-%d").date()
    except ValueError:
        fail(f"date: {given[:40]!r} was given, expected year-month-day, such as 2026-11-14")


def read_region(given: str) -> str:
    """A region of the shipped table, in small letters; raises Refused."""
    from studio.reference.tables import load_tables

    region, known = given.strip().lower(), load_tables().regions
    if region not in known:
        fail(f"region: {given[:40]!r} was given, expected one of {', '.join(known)}; for example us")
    return region
