"""Whether comments still fit into an episode, told before the work on them and before anything is replaced."""

import datetime as dt
from collections.abc import Callable, Sequence

import msgspec

from studio.model.episode import Episode
from studio.model.question import MOST_QUESTIONS, Question
from studio.storage.episode_file import MOST_BYTES
from studio.storage.errors import StorageError

MOST_CHARACTERS = 4_000
"""So much of a comment is kept, some 700 words or four minutes read aloud: no answer needs more."""
_LAYOUT_BYTES = 80
"""What the layout for people adds at most to a question or to a fact set right in it: line breaks and blanks."""
_MOST_COMPARED = 20_000
"""So many texts are looked at as they would be kept before the work begins, which takes some seconds."""
_ANY_DAY = dt.date(2000, 1, 1)
_ADVICE = "bring in a part of the table, such as one month; nothing was changed"


class NoRoom(StorageError):
    """The episode would hold more than its file can; the message says how much in numbers."""


def shortened(text: str) -> str:
    """``text``, cut after `MOST_CHARACTERS`."""
    return text if len(text) <= MOST_CHARACTERS else text[: MOST_CHARACTERS - 1].rstrip() + "…"


def shortened_remark(texts: Sequence[str]) -> str:
    """How many of ``texts`` are kept only in part; empty where none is."""
    count = sum(len(text) > MOST_CHARACTERS for text in texts)
    return (
        f"{count:,} {'comment is' if count == 1 else 'comments are'} longer than {MOST_CHARACTERS:,} characters; "
        "what goes beyond was left out"
        if count
        else ""
    )


def check_room(episode: Episode, texts: Sequence[str], as_kept: Callable[[str], str]) -> None:
    """Raise NoRoom where ``texts``, each a question unless it stands there already, do not fit into the episode.

    ``as_kept`` gives a text as it stands in an episode, so that a table brought in before is recognised. Those that
    only ask the same in other words are counted too: which they are is known only after the work.
    """
    known = {question.text for question in episode.questions}
    fresh = list(dict.fromkeys(text for text in texts if text.strip() and text not in known))
    if len(known) + len(fresh) > MOST_QUESTIONS and len(fresh) <= _MOST_COMPARED:
        fresh = [text for text in fresh if as_kept(text) not in known]
    count = len(episode.questions) + len(fresh)
    if count > MOST_QUESTIONS:
        raise NoRoom(
            f"{len(fresh):,} different comments and the {len(episode.questions):,} questions of the episode are "
            f"{count:,}; an episode holds at most {MOST_QUESTIONS:,}; {_ADVICE}"
        )
    _check_size(file_size(episode) + sum(_size_as_question(text) for text in fresh))


def check_size(episode: Episode) -> None:
    """Raise NoRoom where the file of ``episode`` would be too large to be opened again."""
    _check_size(file_size(episode))


def file_size(episode: Episode) -> int:
    """At most so many bytes the questions of ``episode`` take in its file; what is small beside them is about right."""
    parts = sum(1 + len(question.corrected) for question in episode.questions)
    return len(msgspec.json.encode(episode)) + _LAYOUT_BYTES * parts


def _size_as_question(text: str) -> int:
    longest = Question(id="q" * 7, text=shortened(text), on=_ANY_DAY, state="set_aside", asked=1_000_000)
    return len(msgspec.json.encode(longest)) + _LAYOUT_BYTES


def _check_size(size: int) -> None:
    if size > MOST_BYTES:
        raise NoRoom(
            f"the episode would be a file of about {size / 1e6:.0f} MB with these comments; it holds at most "
            f"{MOST_BYTES // 1_000_000} MB; {_ADVICE}"
        )
