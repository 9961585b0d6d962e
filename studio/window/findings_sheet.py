"""The opened finding: its sentence and number, how it was worked out, from what, by whose rule, what changes it."""

from collections.abc import Callable, Iterable
from typing import Any

from PySide6.QtCore import Qt, Signal
from PySide6.QtGui import QKeyEvent
from PySide6.QtWidgets import QFrame, QHBoxLayout, QScrollArea, QVBoxLayout, QWidget

from studio.decide.input_words import input_words, source_words
from studio.model.episode import Episode
from studio.model.finding import Finding
from studio.window.findings_caution import CautionPanel
from studio.window.findings_head import FindingHead
from studio.window.findings_link import Link, in_tab_order
from studio.window.findings_rows import Row
from studio.window.labels import plain_label
from studio.window.layouts import put_in_place
from studio.window.palette import GRID, Appearance

WIDEST = 680


class FindingSheet(QScrollArea):
    """One finding opened. ``followed`` gives the episode path of an input that was clicked; ``left`` says Esc."""

    followed = Signal(str)
    left = Signal()

    def __init__(self, appearance: Appearance) -> None:
        super().__init__()
        self._appearance = appearance
        self._row: Row | None = None
        self.head = FindingHead(appearance)
        self._below = QWidget()
        self._column = QVBoxLayout()
        self.setWidgetResizable(True)
        self.setFrameShape(QFrame.Shape.NoFrame)
        self.setHorizontalScrollBarPolicy(Qt.ScrollBarPolicy.ScrollBarAlwaysOff)
        self.setFocusPolicy(Qt.FocusPolicy.NoFocus)  # Tab goes to what stands in it
        self.setAccessibleName("Opened finding")
        self._lay_out()

    def show_row(self, row: Row | None, episode: Episode, tables: Any) -> None:
        """Show this finding of ``episode``; ``tables`` give the caution's signal word. Focus stays where it was."""
        if row == self._row and row is not None:
            return
        links = self.links()
        focused = next((number for number, link in enumerate(links) if link.hasFocus()), None)
        same = bool(row and self._row and row.finding.id == self._row.finding.id)
        self._row = row
        self.head.show_row(row)
        self._refill([] if row is None else self._parts(row.finding, episode, tables))
        if focused is not None:
            self._focus_link(focused)
        if not same:
            self.verticalScrollBar().setValue(0)

    def links(self) -> list[Link]:
        """The inputs that can be followed, in order."""
        return self._below.findChildren(Link)

    def take_focus(self) -> None:
        """Go to the first thing that can be done here."""
        able = (its for its in (self.head.show_it, self.head.say_it) if its.isEnabled())
        next(able, self.head.copy_it).setFocus()

    def keyPressEvent(self, event: QKeyEvent) -> None:
        """Esc goes back to the list."""
        if event.key() == Qt.Key.Key_Escape:
            self.left.emit()
        else:
            super().keyPressEvent(event)

    def _lay_out(self) -> None:
        inside = QWidget()
        across = QHBoxLayout(inside)
        across.setContentsMargins(3 * GRID, 3 * GRID, 3 * GRID, 3 * GRID)
        body = QWidget()
        body.setMaximumWidth(self._appearance.px(WIDEST))
        across.addWidget(body, 1)
        across.addStretch(0)
        self._column = QVBoxLayout(body)
        self._column.setContentsMargins(0, 0, 0, 0)
        self._column.setSpacing(2 * GRID)
        self._column.addWidget(self.head)
        self._column.addWidget(self._below)
        self._column.addStretch(1)
        self.setWidget(inside)
        self.viewport().setAutoFillBackground(False)
        inside.setAutoFillBackground(False)

    def _refill(self, parts: Iterable[QWidget]) -> None:
        below = QWidget()
        column = QVBoxLayout(below)
        column.setContentsMargins(0, 0, 0, 0)
        column.setSpacing(2 * GRID)
        for part in parts:
            column.addWidget(part)
        put_in_place(self._column, self._below, below)
        self._below.hide()
        self._below.deleteLater()
        self._below = below
        below.show()  # at once: a layout shows what it is given only later, and focus must find it now
        in_tab_order(self.head.copy_it, self.links())

    def _parts(self, finding: Finding, episode: Episode, tables: Any) -> Iterable[QWidget]:
        if finding.warning:
            yield CautionPanel(finding.warning.signal, finding.warning.text, self._appearance)
        yield from self._section("How it was worked out", finding.working, self._line)
        yield from self._section("What is missing", finding.missing, self._missing_link(finding))
        yield from self._section("What would change it", finding.would_change, self._line)
        yield from self._section("Worked out from", finding.inputs, self._input_link(episode))
        yield from self._section("Whose rule", map(source_words, finding.sources), self._line)

    def _section(
        self, heading: str, lines: Iterable[str], make: Callable[[str], QWidget]
    ) -> Iterable[QWidget]:
        held = list(lines)
        if not held:
            return
        section = QWidget()
        column = QVBoxLayout(section)
        column.setContentsMargins(0, 0, 0, 0)
        column.setSpacing(GRID // 2)
        column.addWidget(plain_label(heading, "strong"))
        for line in held:
            column.addWidget(make(line))
        yield section

    def _line(self, text: str) -> QWidget:
        label = plain_label(text, wrap=True)
        label.setTextInteractionFlags(Qt.TextInteractionFlag.TextSelectableByMouse)
        return label

    def _input_link(self, episode: Episode) -> Callable[[str], QWidget]:
        return lambda path: self._link(input_words(episode, path), path)

    def _missing_link(self, finding: Finding) -> Callable[[str], QWidget]:
        place = next((path for path in finding.inputs if path.startswith(("specimens", "car"))), "")
        return lambda words: self._link(words, place)

    def _link(self, words: str, path: str) -> Link:
        link = Link(words, path, self._appearance)
        link.clicked.connect(self._link_clicked)
        return link

    def _link_clicked(self) -> None:
        link = self.sender()
        if isinstance(link, Link):
            self.followed.emit(link.target)

    def _focus_link(self, number: int) -> None:
        links = self.links()
        (links[min(number, len(links) - 1)] if links else self.head.copy_it).setFocus()
