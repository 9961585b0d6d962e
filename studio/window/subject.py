"""What a sheet's fields write to: one part of the episode, found by its path, changed through the document."""

from collections.abc import Callable
from typing import Any, Protocol

from studio.model.episode import Episode
from studio.model.paths import value_at
from studio.window.document import Document
from studio.window.put import put


class Subject(Protocol):
    """A part of the episode that fields read and write. ``words`` name it in the steps of undo."""

    @property
    def path(self) -> str:
        """The path of the part in the episode."""

    @property
    def words(self) -> str:
        """The part in words: ``front left``."""

    @property
    def document(self) -> Document:
        """The document that is edited."""

    def value(self) -> Any:
        """The part as it is now; None where it is no longer there."""

    def write(self, what: str, after: Any, merge: str = "") -> str:
        """Make the part ``after``, as the step "Change WORDS WHAT"; the reason where that cannot be, else empty."""


class PathSubject:
    """The part at a path, such as ``car`` or ``specimens[2]``; the whole episode where the path is empty."""

    def __init__(self, document: Document, path: str = "", words: str = "") -> None:
        self._document = document
        self._path, self._words = path, words

    @property
    def document(self) -> Document:
        """The document that is edited."""
        return self._document

    @property
    def path(self) -> str:
        """The path of the part in the episode."""
        return self._path

    @property
    def words(self) -> str:
        """The part in words."""
        return self._words

    def point(self, path: str, words: str) -> None:
        """Speak of another part."""
        self._path, self._words = path, words

    def value(self) -> Any:
        """The part as it is now; None where it is no longer there."""
        try:
            return value_at(self._document.episode, self._path) if self._path else self._document.episode
        except LookupError:
            return None

    def write(self, what: str, after: Any, merge: str = "") -> str:
        """Make the part ``after``."""
        episode = put(self._document.episode, self._path, after) if self._path else after
        return edit_checked(self._document, f"Change {self._words} {what}".replace("  ", " "), episode, merge)


def edit_checked(document: Document, text: str, after: Episode, merge: str = "") -> str:
    """Edit unless something speaks against it: the reason, on one line, or empty where the edit was made."""
    if objections := document.objections(after):
        return objections[0].message
    document.edit(text, after, merge)
    return ""


Get = Callable[[Any], Any]
Set = Callable[[Any, Any], Any]


def attribute(part: str) -> tuple[Get, Set]:
    """How to read and write the attribute ``part`` (``placard.front.marking``) of a subject's value."""

    def get(value: Any) -> Any:
        try:
            return value_at(value, part)
        except LookupError:  # a part of a part that is not there
            return None

    def set_(value: Any, new: Any) -> Any:
        return put(value, part, new)

    return get, set_
