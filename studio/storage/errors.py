"""What storage raises, and how it shows a value that somebody else wrote."""

import json

MOST_SHOWN = 40


class StorageError(Exception):
    """Something could not be read or written; the message is one line for the presenter."""


class EpisodeFileError(StorageError, ValueError):
    """A file is not an episode, or not one that can be: what was read, what was expected, an example."""


def shown(value: object) -> str:
    """``value`` from a file as a short quotation on one line, without control characters."""
    try:
        text = json.dumps(value, ensure_ascii=False)
    except (TypeError, ValueError, RecursionError):
        text = repr(type(value).__name__)
    if len(text) > MOST_SHOWN:
        text = text[: MOST_SHOWN - 1] + "…"
    return plain(text)


def plain(text: str) -> str:
    """``text`` on one line: what has no shape of its own on a screen (controls, directions, odd blanks) is escaped."""
    return "".join(character if character.isprintable() else f"\\u{ord(character):04x}" for character in text)
