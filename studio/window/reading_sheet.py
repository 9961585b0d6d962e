"""One visit with the gauge: its date and gauge, the grid, pressure and temperature, damage seen, a note."""

import datetime as dt

from PySide6.QtCore import Signal
from PySide6.QtWidgets import QHBoxLayout, QSizePolicy, QVBoxLayout, QWidget

from studio.window.chooser import Chooser
from studio.window.damage_form import damage_form
from studio.window.fields import Field, TextField
from studio.window.flow import flow, low
from studio.window.form_parts import FieldBox, ProblemLine, caution_note
from studio.window.grid_words import head_words
from studio.window.labels import name_field, plain_label, push_button
from studio.window.reading_grid import ReadingGrid
from studio.window.reading_parts import (
    grooves_of,
    in_unit,
    is_cold,
    pressure_of,
    reading_words,
    stations_of,
    temperature_of,
    with_cold,
    with_grooves,
    with_pressure,
    with_stations,
    with_temperature,
)
from studio.window.reading_subject import ReadingSubject, new_reading
from studio.window.value_fields import CheckField, ChoiceField, CountField, DateField, NoteField, QuantityField
from studio.window.words import DEPTH_UNITS, PLACES

MOST_GROOVES, MOST_STATIONS = 8, 24  # as the model bounds a grid


class ReadingSheet(QWidget):
    """The reading of one specimen that is chosen by its date, or a new one."""

    chosen = Signal(int)
    """Another reading was chosen, by its number in the specimen."""
    new_wanted = Signal()
    remove_wanted = Signal(int)

    def __init__(self, subject: ReadingSubject) -> None:
        super().__init__()
        self.subject = subject
        self.choice = Chooser(26)
        self.choice.activated.connect(self._choose)
        self.grid = ReadingGrid(subject)
        self.unit_label = plain_label("", "quiet")
        self._make_fields()
        self.problems = ProblemLine()
        self.pasted = plain_label("", "problem", wrap=True)
        self.pasted.setVisible(False)
        self.damage = damage_form(subject)
        self.note = NoteField(subject, "note", "note", lines=2)
        self._lay_out()
        self.grid.rebuilt.connect(self._watch)
        self.grid.refused.connect(self._say_pasted)
        subject.document.changed.connect(self.refresh)
        self._watch()
        self.refresh()

    def _make_fields(self) -> None:
        subject = self.subject
        self.on = DateField(subject, "on", "date of the reading")
        self.place = ChoiceField(subject, "place", "place at the reading", PLACES, chars=10)
        self.odometer = QuantityField(subject, "odometer", "odometer", "distance", chars=16)
        self.gauge = TextField(subject, "gauge.name", "gauge", chars=12)
        self.resolution = QuantityField(subject, "gauge.resolution", "gauge's step", "depth", chars=12)
        self.resolution.optional = False
        self.unit = ChoiceField(subject, "unit", "unit of depths", DEPTH_UNITS, chars=7)
        self.unit.through(lambda reading: reading.unit, in_unit)
        self.grooves = CountField(subject, "grooves", "grooves", MOST_GROOVES)
        self.grooves.through(grooves_of, with_grooves)
        self.stations = CountField(subject, "stations", "places round the tire", MOST_STATIONS)
        self.stations.through(stations_of, with_stations)
        self.pressure = QuantityField(subject, "pressure.pressure", "pressure", "pressure")
        self.pressure.through(pressure_of, with_pressure)
        self.temperature = QuantityField(subject, "pressure.temperature", "temperature", "temperature")
        self.temperature.through(temperature_of, with_temperature)
        self.cold = CheckField(subject, "pressure.cold", "pressure's state", "Read co&ld")
        self.cold.through(is_cold, with_cold)

    def _lay_out(self) -> None:
        new, remove = push_button("Ne&w reading", self._want_new), push_button("Remove", self._remove)
        name_field(remove, "Remove this reading")
        layout = QVBoxLayout(self)
        layout.setContentsMargins(0, 0, 0, 0)
        layout.setSpacing(8)
        rows: tuple[QWidget, ...] = (
            flow(FieldBox("&Reading", self.choice), low(new), low(remove)),
            flow(
                FieldBox("&Date", self.on), FieldBox("Stood at", self.place),
                FieldBox("&Odometer", self.odometer, wide=True),
            ),
            caution_note(self.subject.document.tables, "measuring", "jacking"),
            self.unit_label, self._grid_row(), self.problems, self.pasted,
            flow(
                FieldBox("&Gauge", self.gauge), FieldBox("Reads to", self.resolution), FieldBox("Depths in", self.unit),
                FieldBox("Grooves", self.grooves), FieldBox("Places", self.stations),
            ),
            flow(
                FieldBox("&Pressure", self.pressure), FieldBox("Air &temperature", self.temperature),
                low(self.cold),
            ),
            ProblemLine(self.pressure, self.temperature),
            self.damage, FieldBox("Note on this reading", self.note, wide=True),
        )  # fmt: skip
        for row in rows:
            layout.addWidget(row)

    def _grid_row(self) -> QWidget:
        """The grid at the left, no wider than its cells want to be."""
        holder = QWidget()
        row = QHBoxLayout(holder)
        row.setContentsMargins(0, 0, 0, 0)
        self.grid.setSizePolicy(QSizePolicy.Policy.Preferred, QSizePolicy.Policy.Preferred)
        row.addWidget(self.grid)
        row.addStretch(1)
        return holder

    def refresh(self) -> None:
        """Show the list of readings, the shape of the grid and its unit."""
        reading, specimen = self.subject.value(), self.subject.specimen
        if reading is None or specimen is None:
            return
        words = [reading_words(each) for each in specimen.readings]
        if self.subject.is_draft:
            words.append("new reading")
        if [self.choice.itemText(index) for index in range(self.choice.count())] != words:
            self.choice.clear()
            self.choice.addItems(words)
        self.choice.setCurrentIndex(self.subject.index)
        self.unit_label.setText(head_words(reading))

    def reset(self) -> None:
        """Another reading is shown: give up what is typed."""
        for field in self._fields:
            field.reset()
        for choice in (self.place, self.unit, self.cold, self.note):
            choice.refresh()
        self._say_pasted("")
        self.damage.reset()
        self.grid.reset()
        self.refresh()

    @property
    def _fields(self) -> tuple[Field, ...]:
        gauge = (self.gauge, self.resolution, self.grooves, self.stations)
        return (self.on, self.odometer, *gauge, self.pressure, self.temperature)

    def draft(self, specimen: int, on: dt.date, words: str) -> None:
        """Show a new, empty reading of a specimen."""
        episode = self.subject.document.episode
        self.subject.show_draft(specimen, new_reading(episode, episode.specimens[specimen], on), words)
        self.reset()

    def _choose(self, index: int) -> None:
        specimen = self.subject.specimen
        if specimen and index < len(specimen.readings):
            self.chosen.emit(index)

    def _want_new(self) -> None:
        self.new_wanted.emit()

    def _remove(self) -> None:
        if not self.subject.is_draft:
            self.remove_wanted.emit(self.subject.index)

    def _watch(self) -> None:
        self.problems.clear_watch()
        self.problems.watch(self.on, self.odometer, *self.grid.cells, self.resolution, self.grooves, self.stations)

    def _say_pasted(self, problem: str) -> None:
        self.pasted.setText(problem)
        self.pasted.setVisible(bool(problem))
