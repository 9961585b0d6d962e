"""The look's logo: which file, in which corner, how large; dropped here or chosen."""

from pathlib import Path

from msgspec.structs import replace
from PySide6.QtCore import Qt, Signal
from PySide6.QtGui import QDragEnterEvent, QDropEvent
from PySide6.QtWidgets import QSlider, QVBoxLayout, QWidget

from studio.graphics.look import Logo, LookFile
from studio.window.chooser import Chooser
from studio.window.flow import flow
from studio.window.form_parts import FieldBox
from studio.window.labels import plain_label, push_button
from studio.window.palette import GRID
from studio.window.pictures_check import Check

CORNERS = (
    ("top_right", "Top right"), ("top_left", "Top left"), ("bottom_right", "Bottom right"),
    ("bottom_left", "Bottom left"),
)  # fmt: skip


class LogoForm(QWidget):
    """``taken`` gives the logo's values; ``dropped`` a file that was dropped; ``wanted`` asks for one."""

    taken = Signal(object)
    dropped = Signal(object)
    wanted = Signal()

    def __init__(self) -> None:
        super().__init__()
        self._logo = Logo()
        self.state = plain_label("", wrap=True)
        self.choose = push_button("Choose a &logo…", self.wanted.emit)
        self.remove = push_button("Re&move it", self._remove)
        self.corner = Chooser(12)
        for key, words in CORNERS:
            self.corner.addItem(words, key)
        self.height_share = QSlider(Qt.Orientation.Horizontal)
        self.height_share.setRange(3, 20)
        self.plate = Check("On a pl&ate")
        self.setAcceptDrops(True)
        column = QVBoxLayout(self)
        column.setContentsMargins(0, 0, 0, 0)
        column.setSpacing(GRID)
        for widget in (self.state, flow(self.choose, self.remove, across=GRID),
                       FieldBox("Corner of the logo", self.corner, wide=True),
                       FieldBox("Height of the logo", self.height_share, wide=True), self.plate):  # fmt: skip
            column.addWidget(widget)
        self.corner.activated.connect(self._change)
        self.height_share.valueChanged.connect(self._change)
        self.plate.clicked.connect(self._change)

    def show_look(self, look: LookFile) -> None:
        """Show this look's logo."""
        self._logo = look.logo
        has = bool(look.logo.file)
        self.state.setText(f"Logo: {look.logo.file}" if has else "No logo yet. Drop a PNG or an SVG here.")
        self.remove.setEnabled(has)
        self.corner.setCurrentIndex(self.corner.findData(look.logo.corner))
        self.height_share.blockSignals(True)
        self.height_share.setValue(round(look.logo.height * 100))
        self.height_share.blockSignals(False)
        self.height_share.setAccessibleDescription(f"{look.logo.height:.0%} of the frame's shorter side")
        self.plate.setChecked(look.logo.plate)

    def dragEnterEvent(self, event: QDragEnterEvent) -> None:
        """Take a file; it is read, never moved."""
        if event.mimeData().hasUrls():
            event.setDropAction(Qt.DropAction.CopyAction)
            event.accept()

    def dropEvent(self, event: QDropEvent) -> None:
        """Take the first file in."""
        paths = [Path(url.toLocalFile()) for url in event.mimeData().urls() if url.isLocalFile()]
        event.setDropAction(Qt.DropAction.CopyAction)
        event.accept()
        if paths:
            self.dropped.emit(paths[0])

    def _change(self, *_value: object) -> None:
        self.taken.emit(replace(
            self._logo, corner=self.corner.currentData(), height=self.height_share.value() / 100,
            plate=self.plate.isChecked(),
        ))  # fmt: skip

    def _remove(self) -> None:
        self.taken.emit(replace(self._logo, file=""))
        self.choose.setFocus()
