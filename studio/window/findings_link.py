"""A line of text that leads somewhere: wrapped to its width, reached by Tab, followed by a click, Space or Enter."""

from collections.abc import Iterable

from PySide6.QtCore import QRect, QSize, Qt
from PySide6.QtGui import QFontMetrics, QKeyEvent, QPainter, QPaintEvent
from PySide6.QtWidgets import QAbstractButton, QSizePolicy, QWidget

from studio.window.labels import button_text
from studio.window.palette import Appearance

_WRAP = int(Qt.TextFlag.TextWordWrap | Qt.AlignmentFlag.AlignLeft | Qt.AlignmentFlag.AlignTop)
_MARGIN = 4


class Link(QAbstractButton):
    """``target`` is where it leads, ``words`` what it says: plain text, every ``&`` in it shown."""

    def __init__(self, words: str, target: str, appearance: Appearance, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self.words, self.target = words, target
        self._appearance = appearance
        self.setText(button_text(words))  # Qt's own drawing and mnemonics never see a bare ``&``
        self.setAccessibleName(words)
        self.setCursor(Qt.CursorShape.PointingHandCursor)
        self.setFocusPolicy(Qt.FocusPolicy.StrongFocus)
        policy = QSizePolicy(QSizePolicy.Policy.Expanding, QSizePolicy.Policy.Minimum)
        policy.setHeightForWidth(True)
        self.setSizePolicy(policy)

    def hasHeightForWidth(self) -> bool:
        return True

    def heightForWidth(self, width: int) -> int:
        return self._box(width).height() + 2 * _MARGIN

    def sizeHint(self) -> QSize:
        width = min(self._metrics().horizontalAdvance(self.words) + 2 * _MARGIN + 2, self._appearance.px(420))
        return QSize(width, self.heightForWidth(width))

    def minimumSizeHint(self) -> QSize:
        width = self._appearance.px(120)
        return QSize(width, self._metrics().height() + 2 * _MARGIN)

    def keyPressEvent(self, event: QKeyEvent) -> None:
        """Enter follows it as Space does."""
        if event.key() in (Qt.Key.Key_Return, Qt.Key.Key_Enter):
            self.click()
        else:
            super().keyPressEvent(event)

    def paintEvent(self, event: QPaintEvent) -> None:
        painter = QPainter(self)
        font = self._appearance.font()
        font.setUnderline(True)
        painter.setFont(font)
        color = self._appearance.color("ink" if self.isDown() else "measure")
        if self.hasFocus():  # as a selection is shown, so that the text keeps its edge with the lines above
            painter.fillRect(self._box(self.width()).adjusted(0, -_MARGIN, 0, _MARGIN), color)
            color = self._appearance.color("ground")
        painter.setPen(color)
        painter.drawText(self._box(self.width()), _WRAP, self.words)
        painter.end()

    def _metrics(self) -> QFontMetrics:
        return QFontMetrics(self._appearance.font())

    def _box(self, width: int) -> QRect:
        wide = QRect(0, _MARGIN, max(width, 40), 10_000)
        return self._metrics().boundingRect(wide, _WRAP, self.words)


def in_tab_order(after: QWidget, links: Iterable[Link]) -> None:
    """Let Tab go from ``after`` through the links: what is made later would come last of all otherwise."""
    for link in links:
        QWidget.setTabOrder(after, link)
        after = link
