"""Export from the window: by keys alone, whole files only, overwriting asked once, problems told at the end."""

import threading

import pytest
from msgspec.structs import replace
from PySide6.QtCore import Qt
from PySide6.QtGui import QImage

from studio.model.rundown import PictureCue, Rundown, Segment
from studio.window.pictures_place import PicturesPlace
from studio.window.place import Workshop
from tests.window.findings_samples import sample_document
from tests.window.pictures_samples import BrokenPicture, sample_catalogue


@pytest.fixture
def pictures():
    return sample_catalogue()


@pytest.fixture
def place(qtbot, appearance, jobs, answers, pictures, monkeypatch):
    monkeypatch.setattr("studio.handoff.picture_files.catalogue", lambda: pictures)
    monkeypatch.setattr("studio.graphics.catalogue.catalogue", lambda: pictures)
    place = PicturesPlace(Workshop(sample_document(), appearance, jobs, answers), pictures=lambda: pictures)
    qtbot.addWidget(place)
    place.resize(1080, 690)
    with qtbot.waitActive(place):
        place.show()
    place.take_focus()
    qtbot.waitUntil(lambda: all(its.drawn for its in place.shelf.shelf_model.entries))
    yield place
    place.cache.clear()


def ended(qtbot, place):
    qtbot.waitUntil(lambda: not place.export.running)


def files(folder):
    return sorted(path.name for path in folder.iterdir())


def test_an_export_runs_with_keys_alone(place, qtbot, answers, tmp_path):
    answers.queue.append(tmp_path)
    qtbot.keyClick(place.shelf, Qt.Key.Key_Down)
    qtbot.keyClick(place.shelf, Qt.Key.Key_Down, Qt.KeyboardModifier.ShiftModifier)
    assert place.export.one.text() == "E&xport chosen (2)…"
    while place.focusWidget() is not place.export.one:
        qtbot.keyClick(place.focusWidget(), Qt.Key.Key_Tab)
    qtbot.keyClick(place.export.one, Qt.Key.Key_Space)
    ended(qtbot, place)
    names = ["02_depth_compare_wide.png", "03_depth_by_wheel_wide.png"]
    assert files(tmp_path) == [*names, "pictures.json"]
    for name in names:
        image = QImage(str(tmp_path / name))
        assert (image.width(), image.height()) == (1920, 1080)
    assert place.export.message.text() == f"2 files written to {tmp_path.name}."
    assert place.export.open.isVisible()


def test_ctrl_e_exports_what_is_chosen_in_the_format_chosen(place, qtbot, answers, tmp_path):
    answers.queue.append(tmp_path)
    place.export.format.setCurrentIndex(place.export.format.findData("svg"))
    qtbot.keyClick(place.shelf, Qt.Key.Key_E, Qt.KeyboardModifier.ControlModifier)
    ended(qtbot, place)
    assert "01_size_code_wide.svg" in files(tmp_path)


def test_all_pictures_in_all_steps(place, qtbot, answers, tmp_path):
    answers.queue.append(tmp_path)
    place.export.steps.setChecked(True)
    place.export.export_all()
    ended(qtbot, place)
    assert sum(name.endswith(".png") for name in files(tmp_path)) == 9


def test_overwriting_is_asked_once_and_refused_leaves_all_as_it_was(place, qtbot, answers, tmp_path):
    old = tmp_path / "01_size_code_wide.png"
    old.write_bytes(b"old")
    (tmp_path / "03_depth_by_wheel_wide.png").write_bytes(b"old too")
    answers.queue += [tmp_path, "cancel"]
    place.export.export_all()
    assert not place.export.running and old.read_bytes() == b"old"
    assert len([title for title, _ in answers.asked if title == "Pictures are there already"]) == 1
    answers.queue += [tmp_path, "over"]
    place.export.export_all()
    ended(qtbot, place)
    assert old.read_bytes().startswith(b"\x89PNG")
    assert len([title for title, _ in answers.asked if title == "Pictures are there already"]) == 2


def test_a_stop_leaves_whole_files_only(place, qtbot, answers, tmp_path, pictures, jobs):
    """The second picture is held until Stop was pressed: the first is there, nothing of the rest."""
    gate, waiting = threading.Event(), threading.Event()
    compose = pictures["depth_compare"].compose

    def held(data, frame, look):
        waiting.set()
        assert gate.wait(5)
        return compose(data, frame, look)

    pictures["depth_compare"].compose = held
    answers.queue.append(tmp_path)
    place.export.export_all()
    qtbot.waitUntil(waiting.is_set)
    assert place.export.stop.isVisible() and not place.export.all.isEnabled()
    assert jobs.busy and place.state_line() == "exporting"
    qtbot.keyClick(place.export.stop, Qt.Key.Key_Space)
    gate.set()
    ended(qtbot, place)
    assert place.export.message.text().startswith("Stopped after")
    names = files(tmp_path)
    assert "01_size_code_wide.png" in names and "03_depth_by_wheel_wide.png" not in names
    assert not [name for name in names if name.endswith(".part")]
    for name in names:
        assert name == "pictures.json" or not QImage(str(tmp_path / name)).isNull()
    assert place.export.all.isEnabled()


def test_one_broken_picture_does_not_lose_the_rest(place, qtbot, answers, tmp_path, pictures):
    pictures["depth_compare"] = BrokenPicture("depth_compare", "Depths compared")
    answers.queue.append(tmp_path)
    place.export.export_all()
    ended(qtbot, place)
    assert files(tmp_path) == ["01_size_code_wide.png", "03_depth_by_wheel_wide.png", "pictures.json"]
    assert "1 left out" in place.export.message.text()
    assert ("Pictures exported", f"2 files written to {tmp_path.name}; 1 left out or with a remark.") in answers.asked


def test_a_folder_that_cannot_be_is_told_in_one_line(place, qtbot, answers, tmp_path, caplog):
    blocked = tmp_path / "a file"
    blocked.write_text("not a folder")
    answers.queue.append(blocked)
    place.export.export_all()
    ended(qtbot, place)
    title, text = answers.asked[-1]
    assert title == "Pictures were not exported" and "\n" not in text and "Traceback" not in text
    assert not [record for record in caplog.records if record.exc_info]
    assert blocked.read_text() == "not a folder"


def test_no_folder_chosen_is_no_export(place, answers):
    answers.queue.append(None)
    place.export.export_chosen()
    assert not place.export.running and not place.export.message.isVisible()


def test_a_contact_sheet_is_one_button(place, qtbot, answers, tmp_path):
    answers.queue.append(tmp_path / "all")  # without an ending it is a PNG
    place.export.sheet.setFocus()
    qtbot.keyClick(place.export.sheet, Qt.Key.Key_Space)
    assert place.export.running and not place.export.sheet.isEnabled()
    ended(qtbot, place)
    assert [name for name in files(tmp_path) if name != "home"] == ["all.png"]
    assert QImage(str(tmp_path / "all.png")).width() == 3200
    assert place.export.message.text().startswith("1 file written to")


def test_a_contact_sheet_of_another_kind_is_refused_before_anything_is_drawn(place, answers, tmp_path):
    answers.queue.append(tmp_path / "all.gif")
    place.export.export_sheet()
    assert "neither PNG nor PDF" in answers.asked[-1][1]
    assert not place.export.running and not (tmp_path / "all.gif").exists()


def test_a_stopped_contact_sheet_leaves_no_file(place, qtbot, answers, tmp_path, pictures):
    for picture in pictures.values():
        picture.slow_s = 0.2
    answers.queue.append(tmp_path / "all.pdf")
    place.export.export_sheet()
    place.export.stop_export()
    ended(qtbot, place)
    assert not (tmp_path / "all.pdf").exists() and place.export.message.text().startswith("Stopped")


def test_files_are_numbered_as_the_rundown_calls_for_them(place, qtbot, answers, tmp_path):
    cue = Segment(id="one", title="One", pictures=(PictureCue(picture="depth_by_wheel"),))
    place.document.edit("Plan", replace(place.document.episode, rundown=Rundown(segments=(cue,))))
    answers.queue.append(tmp_path / "out")
    (tmp_path / "out").mkdir()
    place.export.export_all()
    ended(qtbot, place)
    assert files(tmp_path / "out") == [
        "01_depth_by_wheel_wide.png", "02_size_code_wide.png", "03_depth_compare_wide.png", "pictures.json",
    ]  # fmt: skip
