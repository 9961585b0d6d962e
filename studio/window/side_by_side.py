"""A plan and pages beside it; where there is no room for both, one of them at a time."""

from PySide6.QtCore import Qt
from PySide6.QtWidgets import QHBoxLayout, QPushButton, QSplitter, QStackedWidget, QVBoxLayout, QWidget

from studio.window.labels import push_button


class SideBySide(QSplitter):
    """``left`` keeps its place; of the pages at the right one is shown."""

    def __init__(self, left: QWidget, back_text: str) -> None:
        super().__init__(Qt.Orientation.Horizontal)
        self.left, self.right, self._stack = left, QWidget(), QStackedWidget()
        self.back: QPushButton = push_button(back_text, self.show_left)
        self._narrow = False
        self._back_row = QWidget()
        across = QHBoxLayout(self._back_row)
        across.setContentsMargins(16, 8, 16, 0)
        across.addWidget(self.back, 0, Qt.AlignmentFlag.AlignLeft)
        column = QVBoxLayout(self.right)
        column.setContentsMargins(0, 0, 0, 0)
        column.addWidget(self._back_row)
        column.addWidget(self._stack, 1)
        self.addWidget(left)
        self.addWidget(self.right)
        self.setChildrenCollapsible(False)
        self.setStretchFactor(0, 1)
        self.setStretchFactor(1, 0)

    @property
    def page(self) -> QWidget | None:
        """The page at the right."""
        return self._stack.currentWidget()

    def turn_to(self, page: QWidget) -> None:
        """Make ``page`` the one at the right; in a narrow window the left stays in view."""
        if self._stack.indexOf(page) < 0:
            self._stack.addWidget(page)
        self._stack.setCurrentWidget(page)

    def show_right(self) -> None:
        """Bring the page into view."""
        if self._narrow:
            self.left.setVisible(False)
            self.right.setVisible(True)

    def show_left(self) -> None:
        """Bring the left into view."""
        if self._narrow:
            self.right.setVisible(False)
            self.left.setVisible(True)

    def fit(self, narrow: bool, page_width: int) -> None:
        """Show both, the page at least ``page_width`` px wide, or one of them where the window is narrow."""
        self._narrow = narrow
        self.right.setMinimumWidth(0 if narrow else page_width)
        self._back_row.setVisible(narrow)
        if not narrow:
            self.left.setVisible(True)
            self.right.setVisible(True)
        elif not self.left.isHidden() and not self.right.isHidden():
            self.right.setVisible(False)
