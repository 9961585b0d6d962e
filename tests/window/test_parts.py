"""Small parts of the window: grid words, pasted text, spelled text, layouts, foot words, faults, settings."""

import logging
import subprocess
import sys
import threading
from pathlib import Path

import pytest
from hypothesis import given
from hypothesis import strategies as st
from msgspec.structs import replace
from PySide6.QtCore import QRect, QSize
from PySide6.QtWidgets import QWidget

from studio.model.quantity import Quantity, depth
from studio.reference.tables import load_tables
from studio.storage.errors import StorageError
from studio.storage.settings import Settings, SettingsRead, settings_path
from studio.window.elided import ElidedLine
from studio.window.faults import Faults, start_log
from studio.window.flow import FlowLayout
from studio.window.grid_words import groove_words, head_words, lowest
from studio.window.pasted import PasteError, pasted_depths
from studio.window.preferences import Preferences
from studio.window.reading_parts import in_unit, with_cold, with_pressure, with_temperature
from studio.window.reading_subject import empty_grid
from studio.window.spelled import spell_date_code, spell_marking
from studio.window.value_fields import entry_text, other_unit
from tests.window.helpers import DAY, reading

GRID = reading(*empty_grid(3, 4))


@pytest.mark.parametrize(
    ("grooves", "names"),
    [(1, ["only"]), (2, ["outer", "inner"]), (3, ["outer", "center", "inner"]),
     (5, ["outer", "groove 2", "groove 3", "groove 4", "inner"])],
)  # fmt: skip
def test_grooves_are_named_from_the_cars_outer_side(grooves, names):
    assert [groove_words(groove, grooves) for groove in range(grooves)] == names


def test_the_least_depth_stands_over_the_grid_in_both_units():
    taken = reading((6.0, None), (4.0, 5.0))
    assert lowest(taken, 1) == depth(4.0, "32nds")
    # 4/32 in = 3.175 mm (NIST SP 811), shown with one decimal
    assert head_words(taken) == "Tread depth in 32nds of an inch; least 4/32 in (3.2 mm)"
    assert head_words(replace(GRID, unit="mm")) == "Tread depth in millimeters"


def test_a_column_goes_in_the_order_of_measuring():
    found = pasted_depths("8\n7\n6\n", GRID, 0, 3)
    assert [(g, s, value.value) for g, s, value in found] == [(0, 3, 8.0), (1, 0, 7.0), (1, 1, 6.0)]


def test_a_block_goes_as_it_stands_and_empty_cells_are_emptied():
    found = pasted_depths("8\t7\r\n\t6\r\n", GRID, 1, 1)
    assert [(g, s) for g, s, _ in found] == [(1, 1), (1, 2), (2, 1), (2, 2)]
    assert found[2][2] is None


@pytest.mark.parametrize(
    ("text", "said"),
    [
        ("8\n" * 13, "13 values were pasted; there are 12 cells"),
        ("8\t8\t8\t8\t8", "1 rows of 5 values were pasted; there are 3 rows of 4 cells"),
        ("8\nx", "outer groove, place 2: 'x' was read; expected a depth, such as 5/32, 4 mm or 0.16 in"),
        ("8" * 20_000, "20000 characters were pasted"),
        ("8\n=cmd()", "'=cmd()' was read"),
    ],
)
def test_what_does_not_fit_is_refused_as_a_whole(text, said):
    with pytest.raises(PasteError) as refused:
        pasted_depths(text, GRID, 0, 0)
    assert said in str(refused.value)


@given(st.text(max_size=200))
def test_any_text_is_pasted_or_refused_in_one_line(text):
    try:
        pasted_depths(text, GRID, 0, 0)
    except PasteError as error:
        assert "\n" not in str(error)


@given(st.text(max_size=150))
def test_any_text_is_spelled_out_or_told_in_one_line(text):
    for spelled in (spell_marking(text, load_tables(), "us"), spell_date_code(text, DAY)):
        assert "\n" not in spelled.problem
        assert bool(spelled.lines) + bool(spelled.problem) <= 1
        assert spelled.lines or spelled.problem or not text.strip()


def test_a_marking_on_one_line_says_what_it_carries_and_how_fast_in_the_audiences_units():
    # UN Regulation No. 30, Annex 4: 91 is 615 kg; V is 240 km/h
    assert spell_marking("205/55R16 91V", load_tables(), "metric").short == (
        "passenger tire, carries 615 kg (1356 lb) at its reference pressure, up to 240 km/h (149 mph)"
    )
    assert spell_marking("205/55R16", load_tables(), "us").short == (
        "passenger tire, no load index and speed symbol read"
    )


@given(
    st.sampled_from([("depth", "32nds"), ("depth", "mm"), ("pressure", "psi"), ("pressure", "kPa"), ("pressure", "bar"),
                     ("distance", "mi"), ("distance", "km"), ("load", "lb"), ("torque", "N m"), ("torque", "lbf ft")]),
    st.integers(1, 99_999),
)  # fmt: skip
def test_what_a_field_shows_is_read_back_as_the_same(kind_and_unit, number):
    from studio.model.entry import read_quantity

    kind, unit = kind_and_unit
    shown = entry_text(Quantity(float(number), unit, kind))
    assert read_quantity(shown, kind, unit).value == number
    assert read_quantity(shown, kind, unit).unit == unit


def test_the_other_unit_is_that_of_the_other_system():
    assert other_unit(depth(5.0, "32nds")) == "4.0 mm"
    assert other_unit(Quantity(35.0, "psi")) == "241 kPa"  # 35 x 6.894757: NIST SP 811
    assert other_unit(Quantity(0.5, "%")) == ""


def test_parts_of_a_reading_are_put_in_without_touching_the_others():
    taken = with_pressure(GRID, Quantity(33.0, "psi"))
    taken = with_temperature(taken, Quantity(40.0, "degF"))
    taken = with_cold(with_pressure(taken, Quantity(34.0, "psi")), False)
    assert (taken.pressure.temperature, taken.pressure.cold) == (Quantity(40.0, "degF"), False)
    assert with_pressure(taken, None).pressure is None
    with pytest.raises(ValueError, match="expected the pressure first"):
        with_temperature(GRID, Quantity(40.0, "degF"))
    assert in_unit(reading((32.0, None)), "mm").depths == ((25.4, None),)


class Block(QWidget):
    def __init__(self, width: int) -> None:
        super().__init__()
        self._width = width

    def sizeHint(self) -> QSize:
        return QSize(self._width, 20)


def test_a_flow_breaks_its_lines_where_there_is_no_room(qtbot):
    holder = QWidget()
    qtbot.addWidget(holder)
    layout = FlowLayout(holder, across=10, down=5)
    blocks = [Block(100), Block(100), Block(60)]
    for block in blocks:
        layout.addWidget(block)
    assert layout.heightForWidth(280) == 20
    assert layout.heightForWidth(279) == 45
    assert layout.heightForWidth(100) == 70
    layout.setGeometry(QRect(0, 0, 215, 100))
    assert [block.pos().toTuple() for block in blocks] == [(0, 0), (110, 0), (0, 25)]


def test_a_long_line_ends_in_an_ellipsis_and_keeps_the_whole(qtbot):
    line = ElidedLine()
    qtbot.addWidget(line)
    line.resize(80, 20)
    line.show_text("A car with a very long name indeed")
    assert line.text().endswith("…")
    assert line.accessibleName() == line.whole == "A car with a very long name indeed"
    assert line.minimumSizeHint().width() == 0


class Told:
    def __init__(self) -> None:
        self.said: list[tuple[str, str, str]] = []

    def tell(self, title: str, text: str, detail: str) -> None:
        self.said.append((title, text, detail))


def test_a_fault_is_logged_told_once_and_the_work_is_kept(qapp, caplog):
    told = Told()
    faults = Faults(lambda: Path("spring.rescue.json"), told.tell)
    try:
        raise RuntimeError("a fault of ours")
    except RuntimeError as error:
        faults.caught(type(error), error, error.__traceback__)
    ((title, text, detail),) = told.said
    assert title == "Something went wrong in the program"
    assert "RuntimeError: a fault of ours" in text
    assert "a rescue copy lies at spring.rescue.json" in text
    assert "Traceback" in detail
    assert "a fault of ours" in caplog.text


def test_a_fault_in_a_thread_is_told_in_the_windows_thread(qtbot, caplog):
    told = Told()
    faults = Faults(lambda: None, told.tell)
    faults.watch()
    try:
        thread = threading.Thread(target=lambda: 1 / 0)
        thread.start()
        thread.join()
        qtbot.waitUntil(lambda: len(told.said) == 1)
    finally:
        faults.release()
    assert "ZeroDivisionError" in told.said[0][1]


def test_a_rescue_that_fails_does_not_hide_the_fault(qapp, caplog):
    def no_rescue() -> None:
        raise StorageError("the disk is full")

    told = Told()
    Faults(no_rescue, told.tell).caught(ValueError, ValueError("first"), None)
    assert "ValueError: first" in told.said[0][1]
    assert "no rescue copy could be written" in told.said[0][1]


def test_the_log_lies_in_the_programs_folder_and_does_not_grow_for_ever(tmp_path):
    before = list(logging.getLogger().handlers)
    path = tmp_path / "studio.log"
    path.write_bytes(b"x" * 600_000)
    try:
        assert start_log(tmp_path) == path
        assert (path.exists(), (tmp_path / "studio.log.1").exists()) == (False, True)
    finally:
        for handler in logging.getLogger().handlers:
            if handler not in before:
                logging.getLogger().removeHandler(handler)
                handler.close()


def test_settings_are_kept_at_once_and_a_broken_file_falls_back_with_a_note():
    Preferences().change(scheme="dark", text_percent=150)
    assert Preferences().settings.scheme == "dark"
    settings_path().write_text("{broken")
    broken = Preferences()
    assert broken.settings == Settings()
    assert "the settings could not be read" in broken.note


def test_settings_that_cannot_be_written_hold_until_the_window_closes(caplog):
    def refuse(_settings: Settings) -> None:
        raise StorageError("the folder may not be written")

    preferences = Preferences(lambda: SettingsRead(Settings()), refuse)
    preferences.change(scheme="dark")
    assert preferences.settings.scheme == "dark"
    assert "settings not kept" in caplog.text


def test_the_window_starts_without_matplotlib_and_reportlab(home):
    code = (
        "import sys; from PySide6.QtWidgets import QApplication; app = QApplication([]);"
        "from studio.window.app import open_window; window = open_window(app, None); app.processEvents();"
        "print(sorted({'matplotlib', 'reportlab', 'studio.window.pictures_place'} & set(sys.modules)));"
        "window.complete(); window.close()"
    )
    done = subprocess.run([sys.executable, "-c", code], capture_output=True, text=True, check=False)
    assert (done.stdout.strip(), done.returncode) == ("[]", 0), done.stderr


def test_a_window_closed_normally_leaves_no_word_on_the_console(home, tmp_path):
    code = (
        "from PySide6.QtCore import QTimer; from studio.window import app, main_window;"
        "shown = main_window.MainWindow.complete;"
        "main_window.MainWindow.complete = lambda self: (shown(self), QTimer.singleShot(600, self.close))[0];"
        "import sys; sys.exit(app.run_window(None))"
    )
    done = subprocess.run([sys.executable, "-c", code], capture_output=True, text=True, check=False)
    assert (done.returncode, done.stdout) == (0, "")
    assert "Traceback" not in done.stderr and "QThread" not in done.stderr
