"""A whole gauge session on the real window by keys alone: 5 tires x 3 grooves x 4 places (D3, D4, D15, D18)."""

from PySide6.QtCore import Qt
from PySide6.QtWidgets import QApplication

from studio.window.reading_grid import DepthCell
from tests.window.helpers import DAY, five_tires, focused, press, type_keys

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
