"""The verdicts' signs in the window: the very drawing that the pictures show, painted at any size."""

from functools import lru_cache

from PySide6.QtCore import QRectF, QSize
from PySide6.QtGui import QPainter, QPaintEvent
from PySide6.QtWidgets import QWidget

from studio.graphics.frame import Box, Frame
from studio.graphics.look import Look
from studio.graphics.paint.raster import paint
from studio.graphics.parts.signs import sign, verdict_word
from studio.graphics.scene import Scene
from studio.model.finding import Verdict
from studio.window.palette import Appearance

FIELD = 200  # px of the drawing that is scaled to the size wanted
LEAST_PX = 20


@lru_cache(maxsize=64)
def sign_scene(verdict: Verdict | None, look: Look) -> Scene:
    """The sign of a verdict as a picture without ground."""
    return Scene(
        picture="sign", frame=Frame(FIELD, FIELD), background=None,
        marks=sign(verdict, Box(0, 0, FIELD, FIELD), look, verdict or "none"), alternative=verdict_word(verdict),
    )  # fmt: skip


def paint_sign(painter: QPainter, verdict: Verdict | None, field: QRectF, look: Look) -> None:
    """Paint the sign in the middle of ``field``; nothing for a finding without a verdict."""
    side = min(field.width(), field.height())
    painter.save()
    painter.translate(field.center().x() - side / 2, field.center().y() - side / 2)
    paint(painter, sign_scene(verdict, look), side / FIELD)
    painter.restore()


class SignView(QWidget):
    """One sign standing by itself, named by its word. ``side`` grows with the text."""

    def __init__(self, appearance: Appearance, side: int = LEAST_PX, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self._appearance, self._side = appearance, side
        self._verdict: Verdict | None = None
        appearance.changed.connect(self._resized)
        self._resized()

    @property
    def verdict(self) -> Verdict | None:
        """The verdict whose sign is shown."""
        return self._verdict

    def show_verdict(self, verdict: Verdict | None) -> None:
        """Show this verdict's sign; a finding without one takes no room."""
        self._verdict = verdict
        self.setAccessibleName(verdict_word(verdict))
        self.setVisible(verdict is not None)
        self.update()

    def sizeHint(self) -> QSize:
        side = self._appearance.px(self._side)
        return QSize(side, side)

    def paintEvent(self, event: QPaintEvent) -> None:
        painter = QPainter(self)
        paint_sign(painter, self._verdict, QRectF(self.rect()), self._appearance.look)
        painter.end()

    def _resized(self) -> None:
        self.setFixedSize(self.sizeHint())
        self.update()
