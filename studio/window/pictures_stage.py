"""The large picture: as it will be seen, with its safe areas if wanted; dragged out of here into other programs."""

from PySide6.QtCore import QPoint, QRectF, QSize, Qt, Signal
from PySide6.QtGui import QColor, QDrag, QImage, QMouseEvent, QPainter, QPaintEvent, QPen, QPixmap, QResizeEvent
from PySide6.QtWidgets import QApplication, QSizePolicy, QWidget

from studio.graphics.frame import Box
from studio.window.palette import GRID, Appearance
from studio.window.pictures_mime import picture_mime
from studio.window.pictures_order import Drawn
from studio.window.pictures_view import View, fitted

_CHECK = 10
_DRAGGED = 220


class Stage(QWidget):
    """``resized`` says that the picture is wanted at another size, ``wanted_file`` that its file is needed now."""

    resized = Signal()
    wanted_file = Signal()

    def __init__(self, appearance: Appearance, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self._appearance = appearance
        self._view = View()
        self._drawn: Drawn | None = None
        self._file: Drawn | None = None
        self._moving: QImage | None = None
        self._pressed: QPoint | None = None
        self.setFocusPolicy(Qt.FocusPolicy.StrongFocus)
        self.setSizePolicy(QSizePolicy.Policy.Expanding, QSizePolicy.Policy.Expanding)
        self.setMinimumSize(240, 160)
        self.setAccessibleName("Picture")
        appearance.changed.connect(self.update)

    @property
    def drawn(self) -> Drawn | None:
        """What is shown."""
        return self._drawn

    @property
    def file(self) -> Drawn | None:
        """The file of what is shown, once it is made."""
        return self._file

    def show_view(self, view: View, name: str) -> None:
        """Look at this; the image before stays until the new one comes."""
        if view.picture != self._view.picture:
            self._drawn = None
        self._view, self._file, self._moving = view, None, None
        self.setAccessibleName(name)
        self._bound_height()
        self.update()

    def show_drawn(self, drawn: Drawn) -> None:
        """Show this image."""
        self._drawn = drawn
        self.setAccessibleDescription(drawn.scene.alternative if drawn.scene else drawn.missing)
        self.update()

    def show_frame(self, image: QImage | None) -> None:
        """Show a frame of the picture's clip in place of the still; None brings the still back."""
        self._moving = image
        self.update()

    def take_file(self, drawn: Drawn | None) -> None:
        """The file that a drag gives away; None as soon as it is out of date."""
        self._file = drawn

    def image_size(self) -> tuple[int, int]:
        """The size in px of the image wanted for the room there is."""
        shown, ratio = self.picture_field(), self.devicePixelRatioF()
        return max(1, round(shown.width() * ratio)), max(1, round(shown.height() * ratio))

    def picture_field(self) -> QRectF:
        """Where the picture stands."""
        room = QRectF(self.rect()).adjusted(GRID, GRID, -GRID, -GRID)
        width, height = fitted(self._view.frame, room.width(), room.height(), self._view.phone)
        left = room.left() + (room.width() - width) / 2
        return QRectF(round(left), round(room.top() + (room.height() - height) / 2), round(width), round(height))

    def sizeHint(self) -> QSize:
        return QSize(640, 360)

    def resizeEvent(self, event: QResizeEvent) -> None:
        super().resizeEvent(event)
        self._bound_height()
        self.resized.emit()

    def _bound_height(self) -> None:
        """No higher than the picture, so that what stands below it stays near."""
        room = self.width() - 2 * GRID
        high = fitted(self._view.frame, room, float("inf"), self._view.phone)[1] + 2 * GRID
        if self.maximumHeight() != (most := max(self.minimumHeight(), round(high))):
            self.setMaximumHeight(most)

    def paintEvent(self, event: QPaintEvent) -> None:
        painter = QPainter(self)
        painter.setRenderHint(QPainter.RenderHint.SmoothPixmapTransform)
        field = self.picture_field()
        if self._view.background == "clear":
            _checkerboard(painter, field, self._appearance)
        shown = self._moving or (self._drawn.image if self._drawn else None)
        if shown is not None:
            painter.drawImage(field, shown)
        if self._view.guides:
            self._paint_guides(painter, field)
        self._paint_edge(painter, field)
        painter.end()

    def mousePressEvent(self, event: QMouseEvent) -> None:
        """A drag may begin here: its file is made while the button goes down."""
        if event.button() == Qt.MouseButton.LeftButton and self.picture_field().contains(event.position()):
            self._pressed = event.position().toPoint()
            self.wanted_file.emit()
        super().mousePressEvent(event)

    def mouseMoveEvent(self, event: QMouseEvent) -> None:
        if self._pressed is None or not event.buttons() & Qt.MouseButton.LeftButton:
            return
        moved = (event.position().toPoint() - self._pressed).manhattanLength()
        if moved >= QApplication.startDragDistance() and self._file is not None:
            self._pressed = None
            self.drag_out().exec(Qt.DropAction.CopyAction, Qt.DropAction.CopyAction)

    def mouseReleaseEvent(self, event: QMouseEvent) -> None:
        self._pressed = None
        super().mouseReleaseEvent(event)

    def drag_out(self) -> QDrag:
        """A drag of the picture's file; only once that is made."""
        assert self._file is not None and self._file.path is not None
        drag = QDrag(self)
        drag.setMimeData(picture_mime(self._file.path, self._file.png))
        if self._drawn is not None and self._drawn.image is not None:
            drag.setPixmap(_thumb(self._drawn.image))
        return drag

    def _paint_guides(self, painter: QPainter, field: QRectF) -> None:
        # The picture's own frame: its look may keep the caption band free where the view does not ask for it.
        frame = self._drawn.scene.frame if self._drawn and self._drawn.scene else self._view.frame
        boxes = [(frame.action, True), (frame.titles, False), *([(frame.content, False)] if frame.captions else [])]
        for box, dashed in boxes:
            _guide(painter, _placed(box, field, frame.width), dashed)

    def _paint_edge(self, painter: QPainter, field: QRectF) -> None:
        focus = self.hasFocus()
        painter.setBrush(Qt.BrushStyle.NoBrush)
        painter.setPen(QPen(self._appearance.color("measure" if focus else "steel"), 2 if focus else 1))
        painter.drawRect(field.adjusted(-2, -2, 2, 2) if focus else field.adjusted(-0.5, -0.5, 0.5, 0.5))


def _placed(box: Box, field: QRectF, width: int) -> QRectF:
    scale = field.width() / width
    return QRectF(
        field.left() + box.left * scale, field.top() + box.top * scale, box.width * scale, box.height * scale
    )  # fmt: skip


def _guide(painter: QPainter, box: QRectF, dashed: bool) -> None:
    """A light line beside a dark one: seen on any picture."""
    line = box.toRect()
    painter.setBrush(Qt.BrushStyle.NoBrush)
    for field, color in ((line, "#FFFFFF"), (line.adjusted(1, 1, -1, -1), "#14171A")):
        painter.setPen(QPen(QColor(color), 1, Qt.PenStyle.DashLine if dashed else Qt.PenStyle.SolidLine))
        painter.drawRect(field)


def _checkerboard(painter: QPainter, field: QRectF, appearance: Appearance) -> None:
    tile = QPixmap(2 * _CHECK, 2 * _CHECK)
    tile.fill(appearance.color("plate"))
    inner = QPainter(tile)
    for x, y in ((0, 0), (_CHECK, _CHECK)):
        inner.fillRect(x, y, _CHECK, _CHECK, appearance.color("car"))
    inner.end()
    painter.drawTiledPixmap(field, tile)


def _thumb(image: QImage) -> QPixmap:
    small = image.scaledToWidth(_DRAGGED, Qt.TransformationMode.SmoothTransformation)
    return QPixmap.fromImage(small)
