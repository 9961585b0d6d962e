"""The comment with what was read from it marked in the text: plain text, underlined, with words on hover."""

import html
from collections.abc import Sequence

from PySide6.QtCore import QEvent, QPoint, Qt, Signal
from PySide6.QtGui import QColor, QFont, QHelpEvent, QKeyEvent, QTextCharFormat, QTextCursor
from PySide6.QtWidgets import QFrame, QTextEdit, QToolTip

from studio.questions.facts import LIKELY, Fact
from studio.window.palette import Appearance
from studio.window.questions_words import how_read, shown, words_of
from studio.window.undo_keys import RichText

Named = tuple[str, Fact]


def offsets(text: str, places: Sequence[int]) -> list[int]:
    """Places in a text as Qt counts them: letters beyond the first plane, such as emoji, count twice."""
    return [place + sum(char > "\uffff" for char in text[:place]) for place in places]


class CommentView(RichText):
    """Shows a comment; ``wanted`` gives the name of the reading that was clicked."""

    wanted = Signal(str)

    def __init__(self, appearance: Appearance) -> None:
        super().__init__()
        self._appearance = appearance
        self._marked: list[tuple[int, int, str, Fact]] = []
        self._at_hand = ""
        self.setReadOnly(True)
        self.setAcceptRichText(False)
        self.setFrameShape(QFrame.Shape.NoFrame)
        self.setTabChangesFocus(True)
        self.setAccessibleName("Comment")
        self.viewport().setAutoFillBackground(False)
        self.document().setDocumentMargin(0)
        appearance.changed.connect(self._mark)

    def show_comment(self, text: str, facts: Sequence[Named]) -> None:
        """Show this text with these readings; nothing in it is markup."""
        if text != self.toPlainText():
            self.setPlainText(text)
        found = [(name, fact) for name, fact in facts if fact.text]
        starts = offsets(text, [fact.start for _, fact in found])
        ends = offsets(text, [fact.end for _, fact in found])
        self._marked = [(*span, *named) for span, named in zip(zip(starts, ends, strict=True), found, strict=True)]
        self._mark()
        said = "; ".join(f"{words_of(name)} {shown(fact)}" for name, fact in found[:40])
        self.setAccessibleDescription(f"Read from it: {said}" if said else "")

    def show_at_hand(self, name: str) -> None:
        """Set one reading off from the others."""
        self._at_hand = name
        self._mark()

    def marks(self) -> list[tuple[str, str]]:
        """Each reading's name with the words that are underlined for it."""
        whole = self.document()
        found = []
        for start, end, name, _ in self._marked:
            cursor = QTextCursor(whole)
            cursor.setPosition(start)
            cursor.setPosition(end, QTextCursor.MoveMode.KeepAnchor)
            found.append((name, cursor.selectedText()))
        return found

    def name_at(self, place: QPoint) -> str:
        """The reading at a point of the viewport; empty where there is none."""
        at = self.cursorForPosition(place).position()
        return next((name for start, end, name, _ in self._marked if start <= at <= end), "")

    def event(self, event: QEvent) -> bool:
        """Words on hover: what was read here, as plain text."""
        if event.type() == QEvent.Type.ToolTip and isinstance(event, QHelpEvent):
            self._tell(event)
            return True
        return super().event(event)

    def mouseReleaseEvent(self, event: object) -> None:
        """A click on a reading goes to its field."""
        super().mouseReleaseEvent(event)  # type: ignore[arg-type]
        name = self.name_at(event.position().toPoint())  # type: ignore[attr-defined]
        if name and not self.textCursor().hasSelection():
            self.wanted.emit(name)

    def keyPressEvent(self, event: QKeyEvent) -> None:
        """Esc is the place's."""
        if event.key() == Qt.Key.Key_Escape:
            event.ignore()
        else:
            super().keyPressEvent(event)

    def _tell(self, event: QHelpEvent) -> None:
        name = self.name_at(self.viewport().mapFromGlobal(event.globalPos()))
        fact = next((fact for _, _, its, fact in self._marked if its == name), None)
        if fact is None:
            QToolTip.hideText()
            return
        words = f"{words_of(name)} {shown(fact)}. {how_read(fact)}"
        QToolTip.showText(event.globalPos(), f"<p>{html.escape(words)}</p>", self)

    def _mark(self) -> None:
        selections = []
        for start, end, name, fact in self._marked:
            cursor = QTextCursor(self.document())
            cursor.setPosition(start)
            cursor.setPosition(end, QTextCursor.MoveMode.KeepAnchor)
            selection = QTextEdit.ExtraSelection()
            selection.cursor = cursor
            selection.format = self._format(fact, name == self._at_hand)
            selections.append(selection)
        self.setExtraSelections(selections)

    def _format(self, fact: Fact, at_hand: bool) -> QTextCharFormat:
        """Underlined; dashed where it is not sure; on a plate where it is at hand."""
        made = QTextCharFormat()
        styles = QTextCharFormat.UnderlineStyle
        made.setUnderlineStyle(styles.SingleUnderline if fact.sure >= LIKELY else styles.DashUnderline)
        made.setUnderlineColor(self._appearance.color("measure"))
        if at_hand:
            made.setBackground(self._appearance.color("measure"))
            made.setForeground(QColor(self._appearance.look.ground))
            made.setFontWeight(QFont.Weight.DemiBold)
        return made
