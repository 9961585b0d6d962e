"""A whole gauge session on the real window by keys alone: 5 tires x 3 grooves x 4 places (D3, D4, D15, D18)."""

from PySide6.QtCore import QPoint, Qt
from PySide6.QtWidgets import QApplication

from studio.window.reading_grid import DepthCell
from tests.window.helpers import DAY, five_tires, focused, press, reading, type_keys, with_reading

GROOVES, PLACES, TIRES = 3, 4, 5


def depth_typed(tire: int, groove: int, station: int) -> float:
    """Any depth a person might read: no two neighbours alike."""
    return 4 + (tire + groove + station) % 4


def begin(window: object) -> None:
    """Start measuring from wherever one is."""
    press(Qt.Key.Key_M, Qt.KeyboardModifier.ControlModifier)


def test_sixty_depths_typed_with_enter_alone_stand_where_they_were_read_and_undo_to_the_start(window_of):
    window = window_of(five_tires())
    start = window.document.episode
    begin(window)
    for tire in range(TIRES):
        for groove in range(GROOVES):
            for station in range(PLACES):
                cell = focused()
                assert isinstance(cell, DepthCell)
                assert (cell.groove, cell.station) == (groove, station)
                type_keys(f"{depth_typed(tire, groove, station):g}/32")
                press(Qt.Key.Key_Return)
    for tire, specimen in enumerate(window.document.episode.specimens):
        (taken,) = specimen.readings
        assert (taken.on, taken.place, taken.unit) == (DAY, specimen.place, "32nds")
        expected = tuple(
            tuple(depth_typed(tire, groove, station) for station in range(PLACES)) for groove in range(GROOVES)
        )
        assert taken.depths == expected
    assert window.places["car"].state_line() == "5 tires, 5 measured"
    assert window.document.undo_stack.count() == GROOVES * PLACES * TIRES
    for _ in range(GROOVES * PLACES * TIRES):
        press(Qt.Key.Key_Z, Qt.KeyboardModifier.ControlModifier)
    assert window.document.episode == start


def test_tab_goes_the_same_way_as_enter_and_takes_the_value_in(window_of):
    window = window_of(five_tires())
    begin(window)
    for typed in ("5", "6/32", "4 mm"):
        type_keys(typed)
        press(Qt.Key.Key_Tab)
    (taken,) = window.document.episode.specimens[0].readings
    # 4 mm is 4 / 25.4 x 32 thirty-seconds: NIST SP 811, the inch is 25.4 mm
    assert taken.depths[0][:2] == (5.0, 6.0)
    assert abs(taken.depths[0][2] - 4 / 25.4 * 32) < 1e-9


def test_each_step_is_named_and_undo_selects_what_it_changed(window_of):
    window = window_of(five_tires())
    begin(window)
    type_keys("5")
    press(Qt.Key.Key_Return)
    type_keys("6")
    press(Qt.Key.Key_Return)
    assert window.document.undo_stack.undoText() == "Change front left depth, outer groove, place 2"
    window.show_place("findings")
    window.commands.undo()
    QApplication.processEvents()
    assert window.current.key == "car"
    cell = focused()
    assert isinstance(cell, DepthCell)
    assert (cell.groove, cell.station, cell.text()) == (0, 1, "")


def test_an_impossible_depth_is_refused_with_the_reason_and_the_typed_text_stays(window_of):
    window = window_of(five_tires())
    begin(window)
    type_keys("45/32")
    press(Qt.Key.Key_Return)
    cell = focused()
    assert isinstance(cell, DepthCell)
    assert (cell.station, cell.text()) == (0, "45/32")
    assert "45/32 in was read; expected" in cell.problem
    assert cell.accessibleDescription() == cell.problem
    sheet = window.places["car"].sheet.reading
    assert sheet.problems.isVisible()
    assert sheet.problems.text() == cell.problem
    assert window.document.episode.specimens[0].readings == ()
    type_keys("7")  # the refused text is selected: what is typed next replaces it
    press(Qt.Key.Key_Return)
    assert window.document.episode.specimens[0].readings[0].depths[0][0] == 7.0
    assert not sheet.problems.isVisible()


def test_the_session_goes_on_where_it_was_left(window_of):
    window = window_of(five_tires())
    begin(window)
    for _ in range(GROOVES * PLACES + 1):
        type_keys("6")
        press(Qt.Key.Key_Return)
    press(Qt.Key.Key_Escape)
    begin(window)
    cell = focused()
    assert isinstance(cell, DepthCell)
    assert window.places["car"].sheet.index == 2  # the first tire that was not begun
    window.places["car"].show_tire(1)
    window.places["car"].sheet.reading.grid.focus_first_empty()
    assert focused().accessibleName() == "front right: depth, outer groove, place 2"


def test_shift_enter_goes_back(window_of):
    window_of(five_tires())
    begin(None)
    type_keys("5")
    press(Qt.Key.Key_Return)
    press(Qt.Key.Key_Return, Qt.KeyboardModifier.ShiftModifier)
    cell = focused()
    assert isinstance(cell, DepthCell)
    assert (cell.station, cell.text()) == (0, "5")


def test_arrows_go_to_the_neighbours(window_of):
    window_of(five_tires())
    begin(None)
    for key, place in (
        (Qt.Key.Key_Down, (1, 0)), (Qt.Key.Key_Right, (1, 1)), (Qt.Key.Key_Up, (0, 1)), (Qt.Key.Key_Left, (0, 0)),
    ):  # fmt: skip
        press(key)
        cell = focused()
        assert isinstance(cell, DepthCell)
        assert (cell.groove, cell.station) == place


def test_a_pasted_column_fills_the_grid_as_one_step(window_of):
    window = window_of(five_tires())
    begin(window)
    QApplication.clipboard().setText("7\n6\n5/32\n4 mm\n8\n")
    press(Qt.Key.Key_V, Qt.KeyboardModifier.ControlModifier)
    (taken,) = window.document.episode.specimens[0].readings
    assert taken.depths[0][:3] == (7.0, 6.0, 5.0)
    assert taken.depths[1][0] == 8.0
    assert window.document.undo_stack.count() == 1
    window.commands.undo()
    assert window.document.episode.specimens[0].readings == ()


def test_a_pasted_column_with_a_wrong_value_changes_nothing_and_says_where(window_of):
    window = window_of(five_tires())
    begin(window)
    QApplication.clipboard().setText("7\nseven\n5")
    press(Qt.Key.Key_V, Qt.KeyboardModifier.ControlModifier)
    assert window.document.undo_stack.count() == 0
    said = window.places["car"].sheet.reading.pasted
    assert said.isVisible()
    assert said.text().startswith("outer groove, place 2: 'seven' was read; expected a depth")


def test_a_click_into_a_filled_cell_replaces_it_and_a_second_click_sets_the_cursor(window_of, qtbot):
    window = window_of(with_reading(five_tires(), 0, reading((3.5, 4.0), (6.0, 6.0))))
    window.current.show_target("specimens[0].readings[0].depths[1][1]")
    cell = window.current.sheet.reading.grid.cell(0, 0)
    qtbot.mouseClick(cell, Qt.MouseButton.LeftButton)
    type_keys("2")
    press(Qt.Key.Key_Return)
    assert window.document.episode.specimens[0].readings[0].depths == ((2.0, 4.0), (6.0, 6.0))
    neighbour = window.current.sheet.reading.grid.cell(0, 1)
    assert neighbour.hasFocus()
    qtbot.mouseClick(neighbour, Qt.MouseButton.LeftButton, pos=QPoint(neighbour.width() // 2, neighbour.height() // 2))
    assert not neighbour.hasSelectedText()
    type_keys(".5")
    press(Qt.Key.Key_Return)
    assert window.document.episode.specimens[0].readings[0].depths[0][1] == 4.5


def test_a_click_into_any_field_of_the_form_replaces_its_value(window_of, qtbot):
    window = window_of(with_reading(five_tires(), 0, reading((3.5, 4.0))))
    window.current.show_target("specimens[0].readings[0].depths[0][0]")
    odometer = window.current.sheet.reading.odometer
    for typed in ("41200", "52300"):
        qtbot.mouseClick(odometer, Qt.MouseButton.LeftButton)
        type_keys(typed)
        window.current.sheet.reading.grid.cell(0, 0).setFocus()
    assert window.document.episode.specimens[0].readings[0].odometer.value == 52300


def test_a_depth_finer_than_the_gauge_is_asked_about_and_a_second_enter_takes_it(window_of):
    window = window_of(five_tires())
    begin(window)
    cell = focused()
    type_keys("3.3")
    press(Qt.Key.Key_Return)
    assert (focused(), cell.text(), window.document.undo_stack.count()) == (cell, "3.3", 0)
    assert cell.problem == (
        "3.3/32 in is finer than a gauge with a step of 1/32 in can be read: Enter once more takes it as it is, "
        "Esc gives it up"
    )
    assert window.current.sheet.reading.problems.text() == cell.problem
    cell.clearFocus()  # leaving is no answer, and loses nothing
    assert (cell.text(), bool(cell.problem)) == ("3.3", True)
    cell.setFocus(Qt.FocusReason.TabFocusReason)
    press(Qt.Key.Key_Return)
    assert window.document.episode.specimens[0].readings[0].depths[0][0] == 3.3
    assert (cell.text(), cell.problem) == ("3.3", "")
    type_keys("3.25")
    press(Qt.Key.Key_Return)
    assert window.document.episode.specimens[0].readings[0].depths[0][1] == 3.25
    assert window.current.sheet.reading.grid.cell(0, 1).text() == "3.25"


def test_a_pasted_column_is_taken_whole_and_what_is_too_fine_is_said(window_of):
    window = window_of(five_tires())
    begin(window)
    QApplication.clipboard().setText("5\n3.3\n4\n3.7")
    press(Qt.Key.Key_V, Qt.KeyboardModifier.ControlModifier)
    assert window.document.episode.specimens[0].readings[0].depths[0] == (5.0, 3.3, 4.0, 3.7)
    assert window.current.sheet.reading.pasted.text() == (
        "3.3/32 in is finer than a gauge with a step of 1/32 in can be read (2 of what was pasted are): taken as it is"
    )
