"""The segment at hand: its title, its cautions, its talking points, and what goes with it."""

from collections.abc import Sequence
from fractions import Fraction

from msgspec.structs import replace
from PySide6.QtCore import QPoint, Qt, Signal
from PySide6.QtGui import QAction, QTextCharFormat, QTextCursor
from PySide6.QtWidgets import QFrame, QScrollArea, QTextEdit, QVBoxLayout, QWidget

from studio.model.rundown import PictureCue, Point, Segment
from studio.script.check import TITLE, ScriptMark, ScriptStatement
from studio.script.duties import cautions_of
from studio.window.fields import TextField
from studio.window.form_parts import FieldBox
from studio.window.labels import name_field
from studio.window.palette import GRID
from studio.window.place import Workshop
from studio.window.rundown_asking import Asking
from studio.window.rundown_blocks import source_of, span_in_block
from studio.window.rundown_cautions import Cautions
from studio.window.rundown_chip_menu import ChipMenu
from studio.window.rundown_edit import LONGEST_TITLE, clean_line, insert_segments, new_segment, with_segment
from studio.window.rundown_editor import PointsEditor
from studio.window.rundown_gutter import NumberGutter, PauseGutter, beside
from studio.window.rundown_parts import SegmentParts
from studio.window.rundown_point_bar import PointBar
from studio.window.rundown_remarks import RemarkRow
from studio.window.subject import PathSubject

_MOST_UNDERLINED = 200


class SegmentSheet(QScrollArea):
    """``finding`` gives the id of a finding whose number was clicked."""

    finding = Signal(str)

    def __init__(self, workshop: Workshop, names: dict[str, str]) -> None:
        super().__init__()
        self._document, self._appearance = workshop.document, workshop.appearance
        self.index = -1
        self._id = ""
        self._subject = PathSubject(self._document, "rundown.segments[0]", "segment")
        self.title = TextField(self._subject, "title", "title", chars=20, most=LONGEST_TITLE)
        self.cautions = Cautions(self._appearance)
        self.editor = PointsEditor(self._appearance)
        self.numbers = NumberGutter(self.editor, self._appearance)
        self.pauses = PauseGutter(self.editor, self._appearance)
        self.asking = Asking(self.editor, self._document, lambda: self.window())
        self.bar = PointBar(self._document, names)
        self.parts = SegmentParts(workshop, names, tuple(self._document.tables.cautions))
        self.menu = ChipMenu(self)
        self._lay_out()
        self._wire()

    # showing

    def show_segment(self, index: int) -> None:
        """Show this segment as it is now."""
        segment = self._document.episode.rundown.segments[index]
        self.editor.know({its.id: its for its in self._document.findings}, self._document.episode.units)
        if segment.id != self._id or index != self.index:
            self._turn_to(index, segment)
        else:
            self.editor.show_points(segment.points)
        self.pauses.pictures = segment.pictures
        self.pauses.update()
        self.cautions.show_cautions(cautions_of(segment, self._document.tables))
        self.parts.show_segment(index, f"segment {index + 1}")
        self._say_point()

    def show_starts(self, starts: Sequence[Fraction]) -> None:
        """When each point begins."""
        self.numbers.starts = starts
        self.numbers.update()

    def underline(self, rows: Sequence[RemarkRow]) -> None:
        """Underline what asks for work, until it is reviewed again."""
        found = []
        for row in rows[:_MOST_UNDERLINED]:
            remark = row.remark
            if not row.calls or not isinstance(remark, ScriptMark | ScriptStatement):
                continue
            if 0 <= remark.point < self.editor.document().blockCount():
                found.append(self._underlined(remark.point, remark.start, remark.end, row.kind == "unbacked"))
        self.editor.setExtraSelections(found)

    def _underlined(self, point: int, start: int, end: int, dotted: bool) -> QTextEdit.ExtraSelection:
        block = self.editor.document().findBlockByNumber(point)
        places = span_in_block(self.editor.fill(source_of(block)), start, end)
        made, most = QTextEdit.ExtraSelection(), block.length() - 1
        cursor = QTextCursor(block)
        cursor.setPosition(block.position() + min(places[0], most))
        cursor.setPosition(block.position() + min(places[1], most), QTextCursor.MoveMode.KeepAnchor)
        style = QTextCharFormat.UnderlineStyle
        shape = QTextCharFormat()
        shape.setUnderlineStyle(style.DotLine if dotted else style.WaveUnderline)
        shape.setUnderlineColor(self._appearance.color("ink"))
        made.cursor, made.format = cursor, shape
        return made

    # going to

    def go_to_point(self, point: int, start: int = 0, end: int = 0) -> None:
        """Select a stretch of a point, or of the title, and be ready to type."""
        if point == TITLE:
            self.title.setFocus(Qt.FocusReason.ShortcutFocusReason)
            self.title.setSelection(start, end - start)
            return
        self.editor.go_to(point, start, end)
        self.editor.setFocus(Qt.FocusReason.OtherFocusReason)
        self.ensureWidgetVisible(self.editor)

    def lead_to(self, rest: str) -> None:
        """Focus what shows ``rest`` of a segment's path, such as ``points[1].pause_s`` or ``shots[0]``."""
        if rest.startswith("points"):
            number = rest.partition("[")[2].partition("]")[0]
            self.go_to_point(int(number) if number.isdigit() else 0)
        elif rest.startswith("shows"):
            self.parts.lead_to_work()
        elif rest.startswith("title") or not self.parts.lead_to(f"{self._subject.path}.{rest}"):
            self.title.setFocus(Qt.FocusReason.ShortcutFocusReason)

    def rename(self) -> None:
        """Be ready to type another title."""
        self.title.setFocus(Qt.FocusReason.ShortcutFocusReason)
        self.title.selectAll()

    # parts

    def _lay_out(self) -> None:
        inside = QWidget()
        column = QVBoxLayout(inside)
        column.setContentsMargins(2 * GRID, 2 * GRID, 2 * GRID, GRID)
        column.setSpacing(GRID)
        column.addWidget(FieldBox("Title of the segment", self.title, wide=True))
        column.addWidget(self.cautions)
        column.addWidget(beside(self.editor, self.numbers, self.pauses), 1)
        column.addWidget(self.bar)
        column.addWidget(self.parts)
        self.setWidget(inside)
        self.setWidgetResizable(True)
        self.setFrameShape(QFrame.Shape.NoFrame)
        self.setHorizontalScrollBarPolicy(Qt.ScrollBarPolicy.ScrollBarAlwaysOff)
        self.setFocusPolicy(Qt.FocusPolicy.NoFocus)
        self.setAccessibleName("Segment")
        self.viewport().setAutoFillBackground(False)
        inside.setAutoFillBackground(False)

    def _wire(self) -> None:
        self.editor.edited.connect(self._edited)
        self.editor.opened.connect(self.finding)
        self.editor.menu_wanted.connect(self._show_menu)
        self.editor.cursorPositionChanged.connect(self._say_point)
        self.bar.number_wanted.connect(self.asking.ask)
        self.bar.picture_wanted.connect(self._add_picture)
        self.menu.source.connect(self._change_form)
        self.menu.opened.connect(self.finding)
        self.menu.other.connect(self._another)
        self.menu.taken_out.connect(self._take_out)

    def _turn_to(self, index: int, segment: Segment) -> None:
        self.asking.close()
        self.index, self._id = index, segment.id
        words = clean_line(segment.title)[:40] or f"segment {index + 1}"
        self._subject.point(f"rundown.segments[{index}]", words)
        self.title.reset()
        self.editor.load(segment.points)
        self.numbers.starts = ()
        self.editor.setExtraSelections([])
        name_field(self.editor, f"Talking points of {words}")

    def _edited(self, points: tuple[Point, ...], merge: str) -> None:
        segments = self._document.episode.rundown.segments
        if not 0 <= self.index < len(segments) or segments[self.index].id != self._id:
            return
        after = with_segment(self._document.episode, self.index, replace(segments[self.index], points=points))
        self._document.edit("Change talking points", after, f"{self._id} {merge}" if merge else "")

    def _say_point(self) -> None:
        count, at = self.editor.document().blockCount(), self.editor.current_point()
        self.bar.show_point(max(0, self.index), at, count, f"segment {self.index + 1}")
        self.editor.setAccessibleDescription(self.editor.say_where())

    def _add_picture(self, picture: str) -> None:
        """Add the picture at the point at hand; where there is no segment yet, to a first one."""
        episode = self._document.episode
        if not episode.rundown.segments:
            episode = insert_segments(episode, 0, (new_segment(episode.rundown),))
        at = min(max(0, self.index), len(episode.rundown.segments) - 1)
        segment = episode.rundown.segments[at]
        cue = PictureCue(picture=picture, with_point=self.editor.current_point())
        pictures = tuple(sorted((*segment.pictures, cue), key=lambda its: its.with_point))
        self._document.edit("Add a picture", with_segment(episode, at, replace(segment, pictures=pictures)))
        self.editor.setFocus()

    def _show_menu(self, place: QPoint) -> None:
        chip = self.editor.chip_at_cursor()
        self.menu.fill(chip, self.asking.forms(chip) if chip is not None else [], self._edits())
        self.menu.popup(place)

    def _edits(self) -> list[QAction]:
        made = []
        for text, act, able in (
            ("Cu&t", self.editor.cut, self.editor.textCursor().hasSelection()),
            ("&Copy", self.editor.copy, self.editor.textCursor().hasSelection()),
            ("P&aste", self.editor.paste, self.editor.canPaste()),
        ):
            action = QAction(text, self.menu)
            action.triggered.connect(act)
            action.setEnabled(able)
            made.append(action)
        return made

    def _change_form(self, source: str) -> None:
        if (chip := self.editor.chip_at_cursor()) is not None:
            self.editor.change_chip(chip, source)

    def _another(self) -> None:
        self._take_out()
        self.asking.ask()

    def _take_out(self) -> None:
        if (chip := self.editor.chip_at_cursor()) is not None:
            cursor = self.editor.textCursor()
            cursor.setPosition(chip.position)
            cursor.deleteChar()
