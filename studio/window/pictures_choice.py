"""What the presenter chose for one picture, as a part of the episode that fields can read and write."""

from typing import Any

from msgspec.structs import replace

from studio.model.episode import Episode, PictureChoice
from studio.window.document import Document
from studio.window.subject import edit_checked


def choice_of(episode: Episode, picture: str) -> PictureChoice:
    """The choice for a picture; an empty one where none was made."""
    return next((its for its in episode.pictures if its.picture == picture), PictureChoice(picture=picture))


def with_choice(episode: Episode, choice: PictureChoice) -> Episode:
    """The episode with this choice in its place; an empty choice is left out."""
    empty = choice == PictureChoice(picture=choice.picture)
    kept = tuple(its for its in episode.pictures if its.picture != choice.picture)
    at = next((n for n, its in enumerate(episode.pictures) if its.picture == choice.picture), len(kept))
    return replace(episode, pictures=kept if empty else (*kept[:at], choice, *kept[at:]))


class ChoiceSubject:
    """The choice for one picture, edited by name: "Change the title of Size code"."""

    def __init__(self, document: Document) -> None:
        self._document = document
        self.picture, self.name = "", ""

    @property
    def document(self) -> Document:
        """The document that is edited."""
        return self._document

    @property
    def path(self) -> str:
        """A name for what is edited here that no other part of the episode has."""
        return f"pictures.{self.picture}"

    @property
    def words(self) -> str:
        """The picture in words."""
        return self.name

    def point(self, picture: str, name: str) -> None:
        """Speak of another picture."""
        self.picture, self.name = picture, name

    def value(self) -> PictureChoice | None:
        """The choice as it is now."""
        return choice_of(self._document.episode, self.picture) if self.picture else None

    def write(self, what: str, after: Any, merge: str = "") -> str:
        """Make the choice ``after``; the reason where that cannot be."""
        text = f"Change the {what} of {self.name}"
        return edit_checked(self._document, text, with_choice(self._document.episode, after), merge)
