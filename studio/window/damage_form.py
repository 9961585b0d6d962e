"""Damage on a reading: a new row says nothing until its kind is chosen. Till then it stands in the form alone."""

from typing import Any

from msgspec.structs import replace
from PySide6.QtWidgets import QWidget

from studio.model.specimen import Damage, Reading
from studio.window.document import Document
from studio.window.fields import TextField
from studio.window.form_parts import FieldBox, ProblemLine
from studio.window.reading_subject import ReadingSubject
from studio.window.rows import RowsForm, RowSubject
from studio.window.value_fields import ChoiceField, QuantityField
from studio.window.words import DAMAGES, ZONES

_UNDECIDED: Any = ""
_ANY: Any = "other"


class WithUndecided:
    """A reading with the rows of damage whose kind is not chosen: the episode gets a row when it is a statement."""

    def __init__(self, owner: ReadingSubject) -> None:
        self._owner = owner
        self._waiting: dict[tuple[str, str], tuple[Damage, ...]] = {}
        owner.document.started.connect(self._waiting.clear)

    @property
    def document(self) -> Document:
        """The document that is edited."""
        return self._owner.document

    @property
    def path(self) -> str:
        """The path of the reading."""
        return self._owner.path

    @property
    def words(self) -> str:
        """The reading's tire in words."""
        return self._owner.words

    def value(self) -> Reading | None:
        """The reading, its undecided rows last."""
        reading = self._owner.value()
        return None if reading is None else replace(reading, damage=(*reading.damage, *self._undecided(reading)))

    def write(self, what: str, after: Reading, merge: str = "") -> str:
        """Keep what is undecided here, and make the reading what is decided; the reason where that cannot be."""
        before = self._owner.value()
        decided = replace(after, damage=tuple(row for row in after.damage if row.kind != _UNDECIDED))
        waiting = tuple(row for row in after.damage if row.kind == _UNDECIDED)
        if before is None:
            return ""
        probe = replace(after, damage=tuple(_as_something(row) for row in after.damage))
        if problem := self._owner.objection(probe):
            return problem
        self._waiting[self._key(before)] = waiting
        if decided != before:
            return self._owner.write(what, decided, merge)
        self.document.changed.emit()
        return ""

    def _undecided(self, reading: Reading) -> tuple[Damage, ...]:
        return self._waiting.get(self._key(reading), ())

    def _key(self, reading: Reading) -> tuple[str, str]:
        specimen = self._owner.specimen
        return (specimen.id if specimen else "", f"{reading.on} {self._owner.index}")


def _as_something(row: Damage) -> Damage:
    return replace(row, kind=_ANY) if row.kind == _UNDECIDED else row


def damage_form(reading: ReadingSubject) -> RowsForm:
    """The rows of damage of a reading."""
    return RowsForm(WithUndecided(reading), "damage", "damage", damage_fields, lambda: Damage(kind=_UNDECIDED))


def damage_fields(subject: RowSubject) -> list[QWidget]:
    """The fields of one damage."""
    kind = ChoiceField(subject, "kind", "kind", DAMAGES, chars=21)
    kind.setPlaceholderText("choose")
    size = QuantityField(subject, "size", "size", "length", chars=12)
    note = TextField(subject, "note", "note", chars=24, most=10_000)
    return [
        FieldBox("Damage", kind),
        FieldBox("Where", ChoiceField(subject, "zone", "zone", ZONES)),
        FieldBox("Size", size),
        FieldBox("What was seen", note, wide=True),
        ProblemLine(size),
    ]
