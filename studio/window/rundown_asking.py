"""Asking for a live number while typing: from the brace on, what is typed narrows the offers down."""

from collections.abc import Callable

from PySide6.QtCore import QObject
from PySide6.QtGui import QKeyEvent, QTextCursor
from PySide6.QtWidgets import QWidget

from studio.script.offers import Offer, forms_of, offers
from studio.window.document import Document
from studio.window.rundown_blocks import Chip
from studio.window.rundown_chip_menu import next_form
from studio.window.rundown_editor import PointsEditor
from studio.window.rundown_offers import OfferList

_LONGEST = 80


class Asking(QObject):
    """Opens the offers over ``over`` when a brace is typed in ``editor``, and puts in what is chosen."""

    def __init__(self, editor: PointsEditor, document: Document, over: Callable[[], QWidget]) -> None:
        super().__init__(editor)
        self._editor, self._document, self._over = editor, document, over
        self._since = -1
        self._list: OfferList | None = None
        editor.take_key = self._take_key
        editor.brace_typed.connect(self._begin)
        editor.cursorPositionChanged.connect(self._go_on)

    @property
    def shown(self) -> OfferList:
        """The offers, made when first needed."""
        if self._list is None:
            self._list = OfferList(self._editor.appearance, self._over())
            self._list.taken.connect(self._take)
        return self._list

    @property
    def is_open(self) -> bool:
        """Whether a number is being asked for."""
        return self._list is not None and self._list.isVisible()

    def ask(self) -> None:
        """Ask as if a brace had been typed."""
        self._editor.setFocus()
        cursor = self._editor.textCursor()
        cursor.insertText("{")
        self._editor.setTextCursor(cursor)
        self._begin()

    def close(self) -> None:
        """Ask no more; what was typed stays."""
        self._since = -1
        if self._list is not None:
            self._list.hide()

    def turn_form(self, step: int) -> None:
        """Show the number at the cursor in its next form, or the one before."""
        chip = self._editor.chip_at_cursor()
        if chip is None:
            return
        form = next_form(chip.form, step)
        wanted = next((its for its in self.forms(chip) if its.form == form), None)
        if wanted is not None:
            self._editor.change_chip(chip, wanted.insert)

    def forms(self, chip: Chip) -> list[Offer]:
        """The number of a chip in all its forms; none for a hole."""
        finding = self._document.findings.get(chip.finding)
        return forms_of(finding, chip.number, self._document.episode.units) if finding and not chip.hole else []

    def _begin(self) -> None:
        self._since = self._editor.textCursor().position() - 1
        self._go_on()

    def _go_on(self) -> None:
        if self._since < 0:
            return
        typed = self._typed()
        if typed is None:
            self.close()
            return
        found = offers(self._document.findings, typed, self._document.episode.units)
        under = self._editor.cursorRect()
        corner = self._editor.viewport().mapTo(self.shown.over, under.topLeft())
        under.moveTopLeft(corner)
        self.shown.offer(found, under)

    def _typed(self) -> str | None:
        """What stands since the brace; None where the cursor has left it."""
        cursor = QTextCursor(self._editor.textCursor())
        if cursor.hasSelection() or not 0 < cursor.position() - self._since <= _LONGEST:
            return None
        cursor.setPosition(self._since, QTextCursor.MoveMode.KeepAnchor)
        text = cursor.selectedText()
        return text[1:] if text.startswith("{") and not set(text) & set("}\u2029\ufffc") else None

    def _take_key(self, event: QKeyEvent) -> bool:
        if not self.is_open:
            return False
        taken = self.shown.take_key(event)
        if taken and not self.shown.isVisible():
            self._since = -1
        return taken

    def _take(self, offer: Offer) -> None:
        since = self._since
        self.close()
        self._editor.put_in(offer.insert, since=since)
