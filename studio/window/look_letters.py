"""The look's letters: a shipped family, or fonts of the channel's own."""


from PySide6.QtCore import Signal
from PySide6.QtWidgets import QVBoxLayout, QWidget

from studio.graphics.look import Fonts, LookFile
from studio.window.chooser import Chooser
from studio.window.flow import flow
from studio.window.form_parts import FieldBox
from studio.window.labels import plain_label, push_button
from studio.window.palette import GRID

FAMILIES = ("Inter", "DejaVu Sans")
_OWN = "own"


class Letters(QWidget):
    """``taken`` gives the fonts chosen from the list; ``wanted`` asks for a file for a weight."""

    taken = Signal(object)
    wanted = Signal(str)

    def __init__(self) -> None:
        super().__init__()
        self.family = Chooser(14)
        for name in FAMILIES:
            self.family.addItem(f"{name}, shipped", name)
        self.regular = push_button("&Regular…", self._regular)
        self.semibold = push_button("Semi&bold…", self._semibold)
        self.bold = push_button("Bol&d…", self._bold)
        self.files = plain_label("", "quiet", wrap=True)
        column = QVBoxLayout(self)
        column.setContentsMargins(0, 0, 0, 0)
        column.setSpacing(GRID)
        for widget in (FieldBox("Family", self.family, wide=True),
                       plain_label("Files of your own, TTF or OTF:", "quiet", wrap=True),
                       flow(self.regular, self.semibold, self.bold, across=GRID), self.files):  # fmt: skip
            column.addWidget(widget)
        self.family.activated.connect(self._chosen)

    def show_look(self, look: LookFile) -> None:
        """Show this look's letters."""
        own = self.family.findData(_OWN)
        if own >= 0:
            self.family.removeItem(own)
        if look.fonts.regular:
            self.family.addItem(f"{look.fonts.family}, own", _OWN)
        self.family.setCurrentIndex(self.family.findData(_OWN if look.fonts.regular else look.fonts.family))
        weights = [role for role in ("regular", "semibold", "bold") if getattr(look.fonts, role)]
        self.files.setText(f"Own files for: {', '.join(weights)}" if weights else "")
        self.files.setVisible(bool(weights))

    def _chosen(self, _row: int) -> None:
        if (family := self.family.currentData()) != _OWN:
            self.taken.emit(Fonts(family=family))

    def _regular(self) -> None:
        self.wanted.emit("regular")

    def _semibold(self) -> None:
        self.wanted.emit("semibold")

    def _bold(self) -> None:
        self.wanted.emit("bold")


