"""The menu of a live number: open its finding, show it in another form, put another one in, take it out."""

from collections.abc import Sequence

from PySide6.QtCore import Signal
from PySide6.QtGui import QAction
from PySide6.QtWidgets import QMenu, QWidget

from studio.script.live import FORMS
from studio.script.offers import Offer
from studio.window.labels import button_text
from studio.window.rundown_blocks import Chip

FORM_WORDS = {"short": "&Short", "both": "&Both units", "spoken": "S&poken", "rounded": "&Rounded, as people say it"}


class ChipMenu(QMenu):
    """``source`` gives the text of another live number for the chip, ``opened`` a finding, ``other`` asks for one."""

    source = Signal(str)
    opened = Signal(str)
    other = Signal()
    taken_out = Signal()

    def __init__(self, parent: QWidget) -> None:
        super().__init__(parent)
        self._chip: Chip | None = None

    def fill(self, chip: Chip | None, forms: Sequence[Offer], edits: Sequence[QAction]) -> None:
        """Say what can be done with ``chip``; without one, only cut, copy, paste and a new number."""
        self.clear()
        self._chip = chip
        if chip is not None and chip.hole:
            self._add(button_text(f"No number: {chip.shown}")[:120]).setEnabled(False)
        if chip is not None and chip.finding:
            self._add("&Open the finding").triggered.connect(self._open)
        for offer in forms:
            action = self._add(f"{FORM_WORDS[offer.form]}: {button_text(offer.text)}")
            action.setCheckable(True)
            action.setChecked(chip is not None and offer.form == chip.form)
            action.setData(offer.insert)
            action.triggered.connect(self._form)
        self.addSeparator()
        self._add("Put in a &number" if chip is None else "&Another number in its place").triggered.connect(self.other)
        if chip is not None:
            self._add("&Take it out").triggered.connect(self.taken_out)
        self.addSeparator()
        self.addActions(list(edits))

    def _add(self, text: str) -> QAction:
        return self.addAction(text)

    def _open(self) -> None:
        if self._chip is not None:
            self.opened.emit(self._chip.finding)

    def _form(self) -> None:
        action = self.sender()
        if isinstance(action, QAction):
            self.source.emit(action.data())


def next_form(form: str, step: int) -> str:
    """The form after (1) or before (-1) this one, round again."""
    names = [str(its) for its in FORMS]
    return names[(names.index(form) + step) % len(names)] if form in names else names[0]
