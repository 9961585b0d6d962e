"""The reply: its computed wording by tone and length, or the presenter's own, its numbers checked, ready to copy."""

from collections.abc import Callable, Sequence

from PySide6.QtCore import QRectF, QSize, Signal
from PySide6.QtGui import QPainter, QPaintEvent
from PySide6.QtWidgets import QHBoxLayout, QPushButton, QSizePolicy, QVBoxLayout, QWidget

from studio.questions.answer_values import Length, Tone
from studio.script.check_text import Mark
from studio.window.chooser import Chooser
from studio.window.findings_link import Link
from studio.window.flow import flow
from studio.window.labels import name_field, plain_label, push_button
from studio.window.layouts import put_in_place
from studio.window.palette import GRID, Appearance
from studio.window.questions_reply_edit import ReplyEdit
from studio.window.rundown_remarks import WORDS, Kind
from studio.window.rundown_signs import paint_remark_sign

_MOST_MARKS = 6
_TONES: tuple[tuple[Tone, str], ...] = (("plain", "plain"), ("warm", "warm"))
_LENGTHS: tuple[tuple[Length, str], ...] = (("full", "full"), ("short", "short"))


class MarkSign(QWidget):
    """The sign of one mark of the number check."""

    def __init__(self, kind: Kind, appearance: Appearance) -> None:
        super().__init__()
        self._kind, self._appearance = kind, appearance
        self.setSizePolicy(QSizePolicy.Policy.Fixed, QSizePolicy.Policy.Fixed)

    def sizeHint(self) -> QSize:
        side = self._appearance.px(16)
        return QSize(side, side)

    def paintEvent(self, event: QPaintEvent) -> None:
        painter = QPainter(self)
        paint_remark_sign(painter, self._kind, QRectF(self.rect()), self._appearance.look)
        painter.end()


class ReplyPanel(QWidget):
    """The reply of the question at hand; the place does what the buttons say."""

    worded = Signal()
    """Another tone or length is wanted."""

    def __init__(self, appearance: Appearance) -> None:
        super().__init__()
        self._appearance = appearance
        self.edit = ReplyEdit(appearance)
        self.tone, self.length = Chooser(6), Chooser(6)
        self._whose = plain_label("", "quiet")
        self._told = plain_label("", "quiet", wrap=True)
        self._marks = QWidget()
        self.marks: tuple[Mark, ...] = ()
        for chooser, name, rows in ((self.tone, "Tone", _TONES), (self.length, "Length", _LENGTHS)):
            name_field(chooser, name)
            for key, words in rows:
                chooser.addItem(words, key)
            chooser.currentIndexChanged.connect(self._another)
        self._column = QVBoxLayout(self)
        self._lay_out()

    def wanted(self) -> tuple[Length, Tone]:
        """The length and tone that are chosen."""
        return self.length.currentData(), self.tone.currentData()

    def add_buttons(self, rows: Sequence[tuple[str, Callable[[], object], bool]]) -> list[QPushButton]:
        """The buttons below the reply: (text, what it does, whether it is the main one)."""
        made = [push_button(text, act, primary=primary) for text, act, primary in rows]
        self._column.addWidget(flow(*made, across=GRID, down=GRID // 2))
        return made

    def show_reply(self, text: str, *, own: bool) -> None:
        """Show the computed reply, or the presenter's ``own``."""
        self.edit.show_text(text)
        self._whose.setText("your wording" if own else "computed")

    def show_marks(self, marks: Sequence[Mark], *, own: bool) -> None:
        """Show what the number check says: each mark with sign and word; in a sentence where all is right."""
        calls = tuple(mark for mark in marks if mark.state in ("contradicted", "unbacked"))
        self.marks = calls
        self.edit.show_marks(calls)
        self._told.setText("" if calls or not own else f"{_numbers(len(marks))} backed by the answer or a table")
        self._told.setVisible(bool(self._told.text()))
        self._fill(calls)

    def told(self) -> list[str]:
        """The marks in words."""
        return [link.words for link in self._marks.findChildren(Link)]

    def _fill(self, calls: Sequence[Mark]) -> None:
        holder = QWidget()
        rows = QVBoxLayout(holder)
        rows.setContentsMargins(0, 0, 0, 0)
        rows.setSpacing(2)
        for number, mark in enumerate(calls[:_MOST_MARKS]):
            row = QHBoxLayout()
            rows.addLayout(row)
            self._fill_row(row, number, mark)
        if len(calls) > _MOST_MARKS:
            rows.addWidget(plain_label(f"and {len(calls) - _MOST_MARKS} more", "quiet"))
        put_in_place(self._column, self._marks, holder)
        self._marks.hide()
        self._marks.deleteLater()
        self._marks = holder
        holder.setVisible(bool(calls))

    def _fill_row(self, across: QHBoxLayout, number: int, mark: Mark) -> None:
        kind: Kind = "conversion" if mark.conversion else mark.state
        right = f", expected {mark.expected}" if mark.expected else ""
        link = Link(f"{WORDS[kind]}: {mark.text.strip()}{right}. {mark.why}", str(number), self._appearance)
        link.clicked.connect(self._go)
        across.setSpacing(GRID)
        across.addWidget(MarkSign(kind, self._appearance))
        across.addWidget(link, 1)

    def _go(self) -> None:
        link = self.sender()
        if isinstance(link, Link) and int(link.target) < len(self.marks):
            self.edit.go_to(self.marks[int(link.target)])

    def _another(self, _row: int) -> None:
        self.worded.emit()

    def _lay_out(self) -> None:
        self._column.setContentsMargins(0, 0, 0, 0)
        self._column.setSpacing(GRID // 2)
        head = QHBoxLayout()
        self._column.addLayout(head)
        head.setSpacing(GRID)
        head.addWidget(plain_label("Reply", "strong"))
        head.addWidget(self._whose, 1)
        head.addWidget(self.tone)
        head.addWidget(self.length)
        self._column.addWidget(self.edit, 1)
        self._column.addWidget(self._told)
        self._column.addWidget(self._marks)


def _numbers(count: int) -> str:
    return "No number in it that needs backing" if not count else "All numbers" if count > 1 else "The number is"
