"""The sheet of one tire: what it is, what its sidewall says, its readings, photos and a note."""

from msgspec.structs import replace
from PySide6.QtCore import Qt, Signal
from PySide6.QtWidgets import QHBoxLayout, QMenu, QPushButton, QScrollArea, QVBoxLayout, QWidget

from studio.decide.subjects import tires
from studio.window.form_parts import FieldBox, section
from studio.window.labels import name_field, plain_label, push_button
from studio.window.photos import PhotosForm
from studio.window.place import Workshop
from studio.window.reading_order import order_tabs
from studio.window.reading_sheet import ReadingSheet
from studio.window.reading_subject import ReadingSubject
from studio.window.sidewall_form import SidewallForm
from studio.window.signs import SignView
from studio.window.subject import PathSubject
from studio.window.tire_state import worst_finding
from studio.window.value_fields import NoteField
from studio.window.words import upper_first


class SpecimenSheet(QScrollArea):
    """What is known of one tire. ``index`` is its number in the episode."""

    finding_wanted = Signal(str)
    """Show this finding in its place."""

    def __init__(self, workshop: Workshop, moves: QMenu) -> None:
        super().__init__()
        self.document = workshop.document
        self.index = 0
        self.subject = PathSubject(self.document, "specimens[0]")
        self.reading_subject = ReadingSubject(self.document)
        self.title = plain_label("", "heading")
        self.move_button = QPushButton("Mo&ve")
        self.move_button.setMenu(moves)
        self.sign = SignView(workshop.appearance, 24)
        self.verdict = plain_label("", wrap=True)
        self.why = push_button("Wh&y", self._ask_why)
        self.sidewall = SidewallForm(self.subject)
        self.reading = ReadingSheet(self.reading_subject)
        self.photos = PhotosForm(self.subject, workshop.dialogs)
        self.note = NoteField(self.subject, "note", "note", lines=3)
        self._finding = ""
        self._lay_out()
        self.reading.chosen.connect(self.show_reading)
        self.reading.new_wanted.connect(self.new_reading)
        self.reading.remove_wanted.connect(self.remove_reading)
        for part in (self.reading.grid.rebuilt, self.reading.damage.rebuilt, self.photos.rebuilt):
            part.connect(self._order_tabs)
        self.document.changed.connect(self.refresh)
        self._order_tabs()

    def _order_tabs(self) -> None:
        order_tabs(self.widget())

    def _lay_out(self) -> None:
        inside = QWidget()
        layout = QVBoxLayout(inside)
        layout.setContentsMargins(16, 8, 16, 16)
        layout.setSpacing(8)
        head = QHBoxLayout()
        layout.addLayout(head)
        head.addWidget(self.title, 1)
        head.addWidget(self.move_button)
        state = QHBoxLayout()
        layout.addLayout(state)
        state.setSpacing(8)
        state.addWidget(self.sign, 0, Qt.AlignmentFlag.AlignTop)
        state.addWidget(self.verdict, 1)
        state.addWidget(self.why, 0, Qt.AlignmentFlag.AlignTop)
        layout.addWidget(section("On the sidewall", self.sidewall))
        layout.addWidget(section("Readings", self.reading))
        layout.addWidget(section("Photos", self.photos))
        layout.addWidget(section("", FieldBox("Note on this tire", self.note, wide=True)))
        layout.addStretch(1)
        self.setWidget(inside)
        self.setWidgetResizable(True)
        self.setHorizontalScrollBarPolicy(Qt.ScrollBarPolicy.ScrollBarAsNeeded)
        self.setFocusPolicy(Qt.FocusPolicy.NoFocus)

    @property
    def words(self) -> str:
        """The tire as findings name it: ``front left``."""
        path = f"specimens[{self.index}]"
        return next((tire.subject.words for tire in tires(self.document.episode) if tire.subject.path == path), "")

    def show_specimen(self, index: int) -> None:
        """Show another tire, with its latest reading or an empty one."""
        self.index = index
        self.subject.point(f"specimens[{index}]", self.words)
        specimen = self.subject.value()
        if specimen is None:
            return
        self.sidewall.reset()
        self.note.refresh()
        self.photos.refresh()
        readings = specimen.readings
        if readings:
            self.show_reading(max(range(len(readings)), key=lambda number: (readings[number].on, number)))
        else:
            self.new_reading()
        self.refresh()

    def show_reading(self, number: int) -> None:
        """Show one reading of the tire."""
        self.reading_subject.show_reading(self.index, number, self.words)
        self.reading.reset()

    def new_reading(self) -> None:
        """Show an empty reading of the episode's day; it joins the others with its first value."""
        self.reading.draft(self.index, self.document.episode.on, self.words)

    def remove_reading(self, number: int) -> None:
        """Remove one reading, as one step."""
        specimen = self.subject.value()
        rows = tuple(reading for each, reading in enumerate(specimen.readings) if each != number)
        self.subject.write("reading removed", replace(specimen, readings=rows))
        self.show_specimen(self.index)

    def refresh(self) -> None:
        """Show title and verdict anew; the fields look after themselves."""
        specimen = self.subject.value()
        if specimen is None:
            return
        if self.reading_subject.value() is None or self.reading_subject.specimen is not specimen:
            self._follow()
        self.subject.point(self.subject.path, self.words)
        self.title.setText(upper_first(self.words))
        finding = worst_finding(self.document, self.subject.path)
        self._finding = finding.id if finding else ""
        self.sign.show_verdict(finding.verdict if finding else None)
        self.verdict.setText(finding.sentence if finding else "")
        self.why.setVisible(finding is not None)
        name_field(self.why, f"Why: show the finding on {self.words}")

    def _follow(self) -> None:
        """The reading shown is gone: show the latest one."""
        if self.reading_subject.value() is None:
            self.show_specimen(self.index)

    def _ask_why(self) -> None:
        self.finding_wanted.emit(self._finding)

