"""The place Car and tires: empty it teaches; tires are added, moved, removed; sheets and forms write what they say."""

import datetime as dt

import pytest
from msgspec.structs import replace
from PySide6.QtCore import Qt
from PySide6.QtWidgets import QLabel

from studio.model.quantity import Quantity
from tests.window.helpers import DAY, five_tires, focused, press, reading, type_keys, with_reading


def test_an_empty_episode_says_what_goes_here_and_the_one_next_step(window_of, empty_episode, qtbot):
    window = window_of(empty_episode)
    place = window.places["car"]
    assert place.start.isVisible()
    assert place.start.title.text() == "Begin with the car"
    assert place.state_line() == "no tires yet"
    qtbot.mouseClick(place.start.step, Qt.MouseButton.LeftButton)
    assert focused() is place.form.name
    type_keys("Our van")
    place.show_plan()
    press(Qt.Key.Key_Return)
    (made,) = window.document.episode.specimens
    assert made.place == "front_left"
    assert focused() is place.sheet.sidewall.marking


def test_the_demo_is_one_click_away_and_is_a_copy(window_of, empty_episode, qtbot):
    window = window_of(empty_episode)
    qtbot.mouseClick(window.places["car"].start.demo, Qt.MouseButton.LeftButton)
    assert len(window.document.episode.specimens) > 4
    assert (window.document.path, window.document.is_clean) == (None, True)
    assert window.places["car"].sheet.isVisible()


def test_a_tire_added_moved_and_removed_is_three_named_steps(window_of):
    window = window_of(replace(five_tires(), specimens=five_tires().specimens[:2]))
    place, document = window.places["car"], window.document
    place.add_tire()
    assert document.undo_stack.undoText() == "Add tire at rear left"
    place.move_tire("front_right")
    assert document.undo_stack.undoText() == "Swap rear left and front right"
    assert place.sheet.title.text() == "Front right"
    place.remove_tire()
    assert document.undo_stack.undoText() == "Remove front right"
    assert [specimen.place for specimen in document.episode.specimens] == ["front_left", "rear_left"]
    for _ in range(3):
        document.undo_stack.undo()
    assert len(document.episode.specimens) == 2


def test_the_move_menu_says_what_each_entry_does(window_of):
    window = window_of(replace(five_tires(), specimens=five_tires().specimens[:2]))
    entries = window.places["car"].moves.entries
    texts = {place: (action.text(), action.isEnabled()) for place, action in entries.items()}
    assert texts["front_left"] == ("&1 Move to front left", False)
    assert texts["front_right"] == ("&2 Swap with front right", True)
    assert texts["bench"] == ("&6 Move to the bench", True)


def test_a_marking_is_spelled_out_while_it_is_typed_and_entered_when_left(window_of):
    window = window_of(five_tires())
    form = window.places["car"].sheet.sidewall
    form.marking.setFocus()
    form.marking.selectAll()
    type_keys("205/55R16 91V")
    lines = form.marking_spelled.text
    assert "205 205 mm (8.1 in) from sidewall to sidewall" in lines
    assert "91 one tire at its reference pressure: 615 kg" in lines  # UN Regulation No. 30, Annex 4: 91 is 615 kg
    assert window.document.episode.specimens[0].marking == "225/60R17 99H"
    press(Qt.Key.Key_Return)
    assert window.document.episode.specimens[0].marking == "205/55R16 91V"
    assert window.document.undo_stack.undoText() == "Change front left marking"


@pytest.mark.parametrize(
    ("typed", "said"),
    [
        ("225/60R71", "rim diameter 71"),
        ("hello", "expected a tire size, such as 225/60R17 99H"),
        ("<b>bold</b>", "expected a tire size"),
    ],
)
def test_a_marking_that_cannot_be_is_refused_in_the_trades_words_and_stays(window_of, typed, said):
    window = window_of(five_tires())
    field = window.places["car"].sheet.sidewall.marking
    field.setFocus()
    field.selectAll()
    type_keys(typed)
    press(Qt.Key.Key_Return)
    assert field.text() == typed
    assert said in field.problem
    assert window.document.episode.specimens[0].marking == "225/60R17 99H"


def test_a_date_code_is_spelled_out_and_week_54_is_refused(window_of):
    window = window_of(five_tires())
    form = window.places["car"].sheet.sidewall
    form.date_code.setFocus()
    form.date_code.selectAll()
    type_keys("0124")
    # 49 CFR 574.5: week 01 begins with the first Sunday; of 2024 that is 7 January (calendar)
    assert "made in week 1 of 2024: 7 Jan 2024 to 13 Jan 2024" in form.date_spelled.text
    form.date_code.selectAll()
    type_keys("5424")
    press(Qt.Key.Key_Return)
    assert "week 54" in form.date_code.problem
    assert window.document.episode.specimens[0].date_code == "3622"


def test_readings_are_chosen_by_date_and_removed_as_one_step(window_of):
    episode = with_reading(five_tires(), 0, reading((8.0,), on=dt.date(2024, 5, 1)))
    episode = with_reading(episode, 0, reading((6.0,)))
    window = window_of(episode)
    sheet = window.places["car"].sheet
    choice = sheet.reading.choice
    offered = [choice.itemText(n) for n in range(choice.count())]
    assert offered == ["1 May 2024, least 8/32 in", "1 Jun 2025, least 6/32 in"]
    assert choice.currentIndex() == 1
    choice.activated.emit(0)
    assert sheet.reading.grid.cells[0].text() == "8"
    sheet.remove_reading(0)
    assert [taken.depths for taken in window.document.episode.specimens[0].readings] == [((6.0,),)]
    window.document.undo_stack.undo()
    assert window.document.episode == episode


def test_a_pressure_with_its_temperature_and_a_damage_are_taken_in(window_of):
    window = window_of(with_reading(five_tires(), 0, reading((6.0,))))
    sheet = window.places["car"].sheet.reading
    for field, typed in ((sheet.temperature, "40 F"), (sheet.pressure, "33"), (sheet.temperature, "40 F")):
        field.setFocus()
        field.clear()
        type_keys(typed)
        press(Qt.Key.Key_Return)
    taken = window.document.episode.specimens[0].readings[0]
    assert taken.pressure.pressure == Quantity(33.0, "psi")
    assert taken.pressure.temperature == Quantity(40.0, "degF")
    sheet.damage._add.click()
    type_keys("cut")
    assert window.document.episode.specimens[0].readings[0].damage[0].kind == "cut"
    assert window.document.undo_stack.undoText() == "Change front left damage 1 kind"


def test_a_temperature_without_a_pressure_says_what_it_needs(window_of):
    window = window_of(with_reading(five_tires(), 0, reading((6.0,))))
    field = window.places["car"].sheet.reading.temperature
    field.setFocus()
    type_keys("40 F")
    press(Qt.Key.Key_Return)
    assert field.problem == "40 °F was read; expected the pressure first, such as 35 psi"
    assert field.text() == "40 F"


def test_the_unit_of_a_reading_is_changed_with_all_its_depths(window_of):
    window = window_of(with_reading(five_tires(), 0, reading((32.0 / 4, None))))
    choice = window.places["car"].sheet.reading.unit
    choice.setFocus()
    press(Qt.Key.Key_End)
    taken = window.document.episode.specimens[0].readings[0]
    assert taken.unit == "mm"
    assert taken.depths[0] == (pytest.approx(6.35), None)  # a quarter inch: NIST SP 811


def test_cautions_stand_before_the_grid_and_by_the_wheel_nuts(window_of):
    window = window_of(five_tires())
    place, cautions = window.places["car"], window.document.tables.cautions
    labels = {label.text(): label for label in place.sheet.findChildren(QLabel)}
    for name in ("measuring", "jacking"):
        label = labels[cautions[name].text]
        grid = place.sheet.reading.grid
        assert label.isVisible()
        assert label.mapTo(place, label.rect().topLeft()).y() < grid.mapTo(place, grid.rect().topLeft()).y()
    place.show_car()
    shown = [label.text() for label in place.form.findChildren(QLabel) if label.isVisible()]
    assert cautions["wheel_nuts"].text in shown


def test_a_path_into_the_episode_opens_its_reading_and_focuses_its_field(window_of):
    episode = with_reading(five_tires(), 2, reading((8.0, 7.0), (6.0, 5.0), on=dt.date(2024, 5, 1)))
    window = window_of(with_reading(episode, 2, reading((6.0, 6.0), (6.0, 6.0))))
    place = window.places["car"]
    window.go("car", "specimens[2].readings[0].depths[1][0]")
    assert (place.sheet.title.text(), focused().text()) == ("Rear left", "6")
    assert focused() is place.sheet.reading.grid.cell(1, 0)
    window.go("car", "car.placard.rear.pressure")
    assert focused().text() == "35 psi"
    window.go("car", "specimens[99].marking")  # no longer there: passed over
    assert place.form.isVisible()


def test_find_goes_from_one_to_the_next(window_of):
    window = window_of(five_tires())
    place = window.places["car"]
    assert place.find_text("225/60")
    assert place.sheet.index == 0
    assert place.find_text("225/60")
    assert place.sheet.index == 1
    assert not place.find_text("no such thing")


def test_photos_are_listed_by_their_path_from_the_episode(window_of, answers, tmp_path):
    window = window_of(five_tires())
    place = window.places["car"]
    place.sheet.photos.add_photos()
    assert answers.asked[-1][1].startswith("Save the episode first")
    window.document.saved_as(tmp_path / "spring.json")
    inside, outside = tmp_path / "photos" / "left.jpg", tmp_path.parent / "elsewhere.jpg"
    inside.parent.mkdir()
    inside.write_bytes(b"x")
    place.take_photos((inside, outside))
    assert window.document.episode.specimens[0].photos == ("photos/left.jpg",)
    assert "elsewhere.jpg lies elsewhere" in answers.asked[-1][1]


def test_the_car_is_entered_by_keys(window_of):
    window = window_of(five_tires())
    place = window.places["car"]
    press(Qt.Key.Key_B, Qt.KeyboardModifier.ControlModifier)
    type_keys("Old estate")
    for _ in range(3):
        press(Qt.Key.Key_Tab)
    type_keys("205/55R16 91V")
    press(Qt.Key.Key_Tab)
    type_keys("2.3 bar")
    press(Qt.Key.Key_Tab)
    car = window.document.episode.car
    assert (car.name, car.placard.front.marking) == ("Old estate", "205/55R16 91V")
    assert car.placard.front.pressure == Quantity(2.3, "bar")
    assert place.form.isVisible()


def test_half_typed_text_is_taken_in_before_a_save_and_before_leaving(window_of):
    window = window_of(five_tires())
    field = window.places["car"].sheet.sidewall.depth_new
    field.setFocus()
    field.clear()
    type_keys("11/32")
    window.show_place("findings")
    assert window.document.episode.specimens[0].depth_new.value == 11.0


def test_the_sheet_follows_the_episodes_day(window_of):
    window = window_of(five_tires())
    window.places["car"].walk.measure()
    type_keys("5")
    press(Qt.Key.Key_Return)
    assert window.document.episode.specimens[0].readings[0].on == DAY
