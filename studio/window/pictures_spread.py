"""How the parts of the place stand: beside each other where there is room, the choices below where there is not."""

from PySide6.QtCore import Qt
from PySide6.QtGui import QResizeEvent
from PySide6.QtWidgets import QHBoxLayout, QSplitter, QStackedWidget, QVBoxLayout, QWidget

from studio.window.findings_link import in_tab_order
from studio.window.palette import GRID, Appearance
from studio.window.pictures_bar import StageBar
from studio.window.pictures_controls import WIDTH, Controls
from studio.window.pictures_export_panel import ExportPanel
from studio.window.pictures_missing import MissingPage
from studio.window.pictures_origin import Origin
from studio.window.pictures_play import PlayBar
from studio.window.pictures_shelf import Shelf
from studio.window.pictures_stage import Stage

_NARROW = 820
MAKING_WIDTH = 360


class Spread(QWidget):
    """The shelf at the left, the large picture in the middle, the choices at its right or below it."""

    def __init__(
        self, appearance: Appearance, shelf: Shelf, stage: Stage, bar: StageBar, origin: Origin, missing: MissingPage,
        controls: Controls, export: ExportPanel, play: PlayBar,
    ) -> None:  # fmt: skip
        super().__init__()
        self._appearance, self._bar, self._origin = appearance, bar, origin
        self._controls, self._export, self._play = controls, export, play
        self._split, self._middle = QSplitter(Qt.Orientation.Horizontal), QStackedWidget()
        self._large = QVBoxLayout()
        self._fill_middle(stage, missing)
        controls.add_below(export)
        self._side = QStackedWidget()
        self._side.addWidget(controls)
        self._split.addWidget(self._middle)
        self._split.addWidget(self._side)
        self._split.setStretchFactor(0, 1)
        self._split.setStretchFactor(1, 0)
        self._split.setSizes(self._sizes())
        self._split.setChildrenCollapsible(False)
        across = QHBoxLayout(self)
        across.setContentsMargins(0, 0, 0, 0)
        across.setSpacing(0)
        across.addWidget(shelf)
        across.addWidget(self._split, 1)

    @property
    def is_narrow(self) -> bool:
        """Whether the choices stand below the picture."""
        return self._split.orientation() == Qt.Orientation.Vertical

    def show_missing(self, missing: bool) -> None:
        """Show what is missing in place of the picture, or the picture."""
        self._middle.setCurrentIndex(1 if missing else 0)

    def show_side(self, widget: QWidget | None) -> None:
        """Show this in place of the choices; None brings them back."""
        shown = widget or self._controls
        if self._side.indexOf(shown) < 0:
            self._side.addWidget(shown)
        self._side.setCurrentWidget(shown)
        if not self.is_narrow:
            self._split.setSizes(self._sizes())

    def order_links(self) -> None:
        """Tab comes to the findings of a picture where they stand."""
        self.setTabOrder(self._bar.phone, self._play.button)
        self.setTabOrder(self._play.button, self._play.slider)
        in_tab_order(self._export.sheet if self.is_narrow else self._play.slider, self._origin.links())

    def resizeEvent(self, event: QResizeEvent) -> None:
        super().resizeEvent(event)
        narrow = self.width() < self._appearance.px(_NARROW)
        if narrow == self.is_narrow:
            return
        self._split.setOrientation(Qt.Orientation.Vertical if narrow else Qt.Orientation.Horizontal)
        self._split.setSizes([self.height() * 3 // 5, self.height() * 2 // 5] if narrow else self._sizes())
        if narrow:
            self._controls.add_below(self._origin)
        else:
            self._large.addWidget(self._origin, 1)
        self.order_links()

    def _fill_middle(self, stage: Stage, missing: MissingPage) -> None:
        large = QWidget()
        large.setLayout(self._large)
        self._large.setContentsMargins(0, 0, 0, 0)
        self._large.setSpacing(GRID // 2)
        self._large.addWidget(stage, 100)
        self._large.addWidget(self._bar)
        self._play.setContentsMargins(GRID, 0, GRID, GRID)
        self._large.addWidget(self._play)
        self._large.addWidget(self._origin, 1)
        self._middle.addWidget(large)
        self._middle.addWidget(missing)

    def _sizes(self) -> list[int]:
        making = self._side.currentWidget() is not self._controls
        return [2000, self._appearance.px(MAKING_WIDTH if making else WIDTH)]
