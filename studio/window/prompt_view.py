"""The prompting view: the whole screen, large letters, keys and clicker, mirrored if wanted."""

import time

from PySide6.QtCore import QRectF, Qt, QTimer, Signal
from PySide6.QtGui import QCloseEvent, QImage, QKeyEvent, QPainter, QPaintEvent, QScreen
from PySide6.QtWidgets import QWidget

from studio.graphics.look import Look
from studio.window.prompt_page import PromptPage, PromptState
from studio.window.prompt_run import PromptRun

_FRAME_MS = 16
_LONGEST_S = 0.25  # after a longer gap (a sleeping screen) the script has not moved on
_LETTERS = (16, 60)
_Key = Qt.Key
ON = (_Key.Key_PageDown, _Key.Key_Right, _Key.Key_Down, _Key.Key_Return, _Key.Key_Enter)
BACK = (_Key.Key_PageUp, _Key.Key_Left, _Key.Key_Up, _Key.Key_Backspace)
TURN = (_Key.Key_Space, _Key.Key_F5)
BLACK = (_Key.Key_B, _Key.Key_Period)
FASTER = (_Key.Key_Plus, _Key.Key_Equal)
SLOWER = (_Key.Key_Minus, _Key.Key_Underscore)


class PromptView(QWidget):
    """``finished`` says that it was closed: ``run`` holds the times."""

    finished = Signal()

    def __init__(self, run: PromptRun, look: Look, state: PromptState, parent: QWidget | None = None) -> None:
        super().__init__(parent, Qt.WindowType.Window)
        self.run, self.state = run, state
        self.page = PromptPage(look)
        self.mirrored = self.black = False
        self._before = time.monotonic()
        self._timer = QTimer(self)
        self._timer.setInterval(_FRAME_MS)
        self._timer.timeout.connect(self._tick)
        self.setWindowTitle("Prompting")
        self.setAccessibleName("Prompting view")
        self.setAutoFillBackground(False)
        self.setAttribute(Qt.WidgetAttribute.WA_OpaquePaintEvent)
        self.setFocusPolicy(Qt.FocusPolicy.StrongFocus)
        self.setCursor(Qt.CursorShape.BlankCursor)
        self._tell()

    def show_on(self, screen: QScreen, *, mirrored: bool) -> None:
        """Fill this screen."""
        self.mirrored = mirrored
        self.setScreen(screen)
        self.setGeometry(screen.geometry())
        self.showFullScreen()
        self.activateWindow()
        self.setFocus()

    def take_image(self, picture: str, image: QImage) -> None:
        """A picture was drawn."""
        self.state.images[picture] = image
        self.update()

    def keyPressEvent(self, event: QKeyEvent) -> None:
        """Keys and clicker, as the panel that opens it says."""
        key, run = _Key(event.key()), self.run
        if key == _Key.Key_Escape:
            self.close()
        elif key in TURN:
            run.turn()
        elif key in ON or key in BACK:
            run.step(1 if key in ON else -1)
        elif key in FASTER or key in SLOWER:
            run.faster(1 if key in FASTER else -1)
        elif key in BLACK:
            self.black = not self.black
        else:
            self._rarer_key(key, event)
        self._after_key()

    def _rarer_key(self, key: Qt.Key, event: QKeyEvent) -> None:
        if key == _Key.Key_Home:
            self.run.step(-len(self.run.parts))
        elif key == _Key.Key_M:
            self.mirrored = not self.mirrored
        elif key == _Key.Key_H:
            self.run.turn_by_hand()
        elif key in (_Key.Key_BracketLeft, _Key.Key_BracketRight):
            wider = 2 if key == _Key.Key_BracketLeft else -2
            self.page.letters = min(_LETTERS[1], max(_LETTERS[0], self.page.letters + wider))
        else:
            super().keyPressEvent(event)

    def _after_key(self) -> None:
        self._before = time.monotonic()
        if self.run.running:
            self._timer.start()
        else:
            self._timer.stop()
        self._tell()
        self.update()

    def _tick(self) -> None:
        now = time.monotonic()
        gone, self._before = now - self._before, now
        at = self.run.at
        self.run.tick(min(gone, _LONGEST_S))
        if not self.run.running:
            self._timer.stop()
        if at != self.run.at or not self.run.running:
            self._tell()
        self.update()

    def _tell(self) -> None:
        part = self.run.part
        self.setAccessibleDescription(f"{part.title}: {part.text}" if part is not None else "Nothing to be said yet")

    def paintEvent(self, event: QPaintEvent) -> None:
        painter = QPainter(self)
        if self.black:
            painter.fillRect(self.rect(), Qt.GlobalColor.black)
        else:
            if self.mirrored:
                painter.translate(self.width(), 0)
                painter.scale(-1, 1)
            self.page.paint(painter, QRectF(self.rect()), self.run, self.state)
        painter.end()

    def closeEvent(self, event: QCloseEvent) -> None:
        self._timer.stop()
        super().closeEvent(event)
        self.finished.emit()
