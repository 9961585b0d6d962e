"""Fields: what is typed is taken in or refused, one thought is one step, and what is refused stays to be mended."""

import pytest
from msgspec.structs import replace
from PySide6.QtCore import Qt
from PySide6.QtGui import QAction, QKeySequence
from PySide6.QtWidgets import QApplication, QVBoxLayout, QWidget

from studio.model.car import RotationDone
from studio.model.quantity import Quantity
from studio.window.document import Document
from studio.window.fields import TextField
from studio.window.subject import PathSubject
from studio.window.tolerance_fields import ToleranceFields
from studio.window.value_fields import (
    CheckField,
    ChoiceField,
    CountField,
    DateField,
    NoteField,
    QuantityField,
    read_date,
)
from studio.window.words import DRIVETRAINS
from tests.window.helpers import DAY, five_tires, focused, press, type_keys


@pytest.fixture
def document(qapp):
    return Document(five_tires())


@pytest.fixture
def show(qtbot, appearance):
    held = []

    def put_in_window(*widgets):
        holder = QWidget()
        held.append(holder)
        qtbot.addWidget(holder)
        layout = QVBoxLayout(holder)
        for widget in widgets:
            layout.addWidget(widget)
        holder.show()
        holder.activateWindow()
        QApplication.processEvents()
        widgets[0].setFocus()
        return holder

    yield put_in_window
    held.clear()


def car(document):
    return PathSubject(document, "car", "car's")


def test_a_text_is_taken_in_as_it_is_typed_and_one_visit_is_one_step(document, show):
    name = TextField(car(document), "name", "name")
    show(name, TextField(car(document), "name", "name"))
    type_keys("Our van")
    assert document.episode.car.name == "Our van"
    press(Qt.Key.Key_Tab)
    press(Qt.Key.Key_Backtab)
    type_keys("Bus")
    assert document.undo_stack.count() == 2
    document.undo_stack.undo()
    assert (document.episode.car.name, name.text()) == ("Our van", "Our van")
    assert document.undo_stack.redoText() == "Change car's name"


@pytest.mark.parametrize(
    ("typed", "unit", "value"),
    [("35", "psi", 35.0), ("240 kPa", "kPa", 240.0), ("2.4 bar", "bar", 2.4), ("2,4 bar", "bar", 2.4)],
)
def test_a_pressure_is_read_in_any_unit_and_kept_as_it_was_read(document, show, typed, unit, value):
    field = QuantityField(car(document), "placard.rear.pressure", "rear pressure", "pressure")
    show(field)
    field.clear()
    type_keys(typed)
    assert document.episode.car.placard.rear.pressure == Quantity(35.0, "psi")  # not before it is entered
    press(Qt.Key.Key_Return)
    assert document.episode.car.placard.rear.pressure == Quantity(value, unit)


def test_a_bare_number_is_in_the_unit_that_comes_first(document, show):
    document.edit("Metric first", replace(document.episode, units="metric"))
    field = QuantityField(car(document), "wheelbase", "wheelbase", "length")
    show(field)
    type_keys("2680")
    press(Qt.Key.Key_Return)
    assert document.episode.car.wheelbase == Quantity(2680.0, "mm", "length")
    assert field.accessibleDescription() == "105.51 in"  # 2680 / 25.4: NIST SP 811


@pytest.mark.parametrize("typed", ["fast", "35 N m", "-3 psi", "9999 psi", "1,234 psi", "35 psi psi", "٣٥ bananas"])
def test_what_cannot_be_is_refused_with_a_reason_and_stays(document, show, typed):
    field = QuantityField(car(document), "placard.rear.pressure", "rear pressure", "pressure")
    show(field)
    field.clear()
    field.insert(typed)
    press(Qt.Key.Key_Return)
    assert field.text() == typed
    assert "expected" in field.problem
    assert document.undo_stack.count() == 0
    press(Qt.Key.Key_Escape)
    assert (field.text(), field.problem) == ("35 psi", "")


def test_a_refused_text_outlives_other_edits_until_its_own_value_changes(document, show):
    field = QuantityField(car(document), "placard.rear.pressure", "rear pressure", "pressure")
    other = TextField(car(document), "name", "name")
    show(field, other)
    field.clear()
    type_keys("fast")
    press(Qt.Key.Key_Tab)
    type_keys("Van")
    assert (field.text(), bool(field.problem)) == ("fast", True)
    after = replace(document.episode.car.placard.rear, pressure=Quantity(33.0, "psi"))
    placard = replace(document.episode.car.placard, rear=after)
    document.edit("Set", replace(document.episode, car=replace(document.episode.car, placard=placard)))
    assert (field.text(), field.problem) == ("33 psi", "")


def test_an_emptied_field_forgets_the_value_where_it_may(document, show):
    field = QuantityField(car(document), "placard.rear.pressure", "rear pressure", "pressure")
    show(field)
    field.clear()
    press(Qt.Key.Key_Return)
    assert document.episode.car.placard.rear.pressure is None


def test_undo_keys_belong_to_the_document_unless_text_is_half_typed(document, show, qtbot):
    field = QuantityField(car(document), "placard.rear.pressure", "rear pressure", "pressure")
    holder = show(field)
    undo = QAction("Undo", holder)
    undo.setShortcut(QKeySequence(QKeySequence.StandardKey.Undo))
    undo.triggered.connect(document.undo_stack.undo)
    holder.addAction(undo)
    type_keys("33")
    press(Qt.Key.Key_Return)
    type_keys("4")
    press(Qt.Key.Key_Z, Qt.KeyboardModifier.ControlModifier)
    assert document.episode.car.placard.rear.pressure == Quantity(33.0, "psi")
    field.reset()
    press(Qt.Key.Key_Z, Qt.KeyboardModifier.ControlModifier)
    assert document.episode.car.placard.rear.pressure == Quantity(35.0, "psi")


def test_a_choice_is_one_step_and_a_click_on_the_same_is_none(document, show):
    choice = ChoiceField(car(document), "drivetrain", "drive", DRIVETRAINS)
    show(choice)
    press(Qt.Key.Key_Up)
    assert document.episode.car.drivetrain == "rear"
    choice.activated.emit(choice.currentIndex())
    assert document.undo_stack.count() == 1
    document.undo_stack.undo()
    assert choice.currentText() == "all-wheel drive"


def test_a_note_keeps_its_lines_and_is_one_step_a_visit(document, show):
    note = NoteField(PathSubject(document, "", "episode's"), "story", "story")
    show(note)
    type_keys("One")
    press(Qt.Key.Key_Return)
    type_keys("two")
    assert document.episode.story == "One\ntwo"
    assert document.undo_stack.count() == 1


def test_a_note_with_foreign_line_ends_is_shown_and_not_changed(document, show):
    document.start(replace(document.episode, story="One\r\ntwo\u2029three"), None)
    show(NoteField(PathSubject(document, "", "episode's"), "story", "story"))
    assert document.undo_stack.count() == 0
    assert document.episode.story == "One\r\ntwo\u2029three"


def test_yes_or_no(document, show):
    cold = CheckField(car(document), "name", "name", "Named")
    cold.through(lambda held: bool(held.name), lambda held, named: replace(held, name="Van" if named else ""))
    show(cold)
    press(Qt.Key.Key_Space)
    assert document.episode.car.name == ""
    document.undo_stack.undo()
    assert cold.isChecked()


def test_a_count_steps_by_arrow_and_refuses_what_is_out_of_range(document, show):
    held = [3]
    count = CountField(car(document), "grooves", "grooves", 8)
    count.through(lambda _car: held[0], lambda car_, new: (held.__setitem__(0, new), car_)[1])
    show(count)
    press(Qt.Key.Key_Up)
    assert held == [4]
    type_keys("9")
    press(Qt.Key.Key_Return)
    assert held == [4]
    assert count.problem == "'9' was read; expected from 1 to 8 grooves, such as 3"


@pytest.mark.parametrize("typed", ["2025-05-31", "2025/5/31", " 2025.05.31 "])
def test_a_date_is_read_year_first(typed):
    assert read_date(typed) == DAY.replace(month=5, day=31)


@pytest.mark.parametrize("typed", ["31.5.2025", "5/6/25", "2025-13-01", "yesterday", "", "2025-05-31-01"])
def test_any_other_date_is_refused_with_an_example(typed):
    with pytest.raises(ValueError, match="year first, such as 2025-06-14"):
        read_date(typed)


def test_a_date_after_the_episodes_day_is_refused_for_a_reading_done(document, show):
    document.edit("Day", replace(document.episode, on=DAY))
    episode = document.episode
    done = replace(episode, car=replace(episode.car, rotations=(RotationDone(on=DAY),)))
    document.edit("Rotation", done)
    field = DateField(PathSubject(document, "car.rotations[0]", "rotation 1"), "on", "day")
    show(field)
    field.clear()
    type_keys("2025-06-02")
    press(Qt.Key.Key_Return)
    assert field.problem == (
        "2 Jun 2025 was read; expected a rotation on or before the episode's date, 1 Jun 2025"
    )


def test_a_tolerance_is_there_only_when_form_and_number_are_known(document, show):
    fields = ToleranceFields(car(document))
    show(fields.form, fields.limit)
    fields.limit.setFocus()
    type_keys("0.5 %")
    press(Qt.Key.Key_Return)
    assert "expected" in fields.limit.problem
    fields.form.setFocus()
    press(Qt.Key.Key_End)
    assert fields.form.currentText() == "percent of circumference"
    assert document.episode.car.tolerance is None
    fields.limit.setFocus()
    fields.limit.clear()
    type_keys("0.5")
    press(Qt.Key.Key_Return)
    assert document.episode.car.tolerance.form == "percent"
    assert document.episode.car.tolerance.limit == Quantity(0.5, "%")
    assert focused() is fields.limit
