"""What is chosen for a picture: kept in the episode, undone by name; views, frames and backgrounds."""

import msgspec
import pytest
from PySide6.QtCore import Qt

from studio.graphics.frame import FRAMES, Frame, read_frame
from studio.model.episode import PictureChoice
from studio.window.pictures_choice import ChoiceSubject, choice_of, with_choice
from studio.window.pictures_frame import KEY_COLOR, background_chooser, frame_chooser
from studio.window.pictures_tires import TiresModel
from studio.window.pictures_view import View, fitted, look_of
from tests.window.findings_samples import sample_document, sample_episode


def test_a_choice_keeps_its_place_and_an_empty_one_is_left_out():
    episode = sample_episode()
    for picture in ("size_code", "rotation", "depth_compare"):
        episode = with_choice(episode, PictureChoice(picture=picture, title=picture))
    episode = with_choice(episode, PictureChoice(picture="rotation", title="Turn them"))
    assert [its.picture for its in episode.pictures] == ["size_code", "rotation", "depth_compare"]
    assert choice_of(episode, "rotation").title == "Turn them"
    episode = with_choice(episode, PictureChoice(picture="rotation"))
    assert [its.picture for its in episode.pictures] == ["size_code", "depth_compare"]
    assert choice_of(episode, "rotation") == PictureChoice(picture="rotation")


def test_writing_a_choice_is_a_step_of_undo_with_the_pictures_name():
    document = sample_document()
    subject = ChoiceSubject(document)
    subject.point("size_code", "The size code")
    assert subject.write("title", PictureChoice(picture="size_code", title="Read it")) == ""
    assert document.undo_stack.undoText() == "Change the title of The size code"
    document.undo_stack.undo()
    assert document.episode == sample_episode()


def test_an_unknown_look_gives_way_to_a_shipped_one():
    assert look_of(msgspec.structs.replace(sample_episode(), look="night_bay")).id == "night_bay"
    assert look_of(msgspec.structs.replace(sample_episode(), look="gone")).id == "chalk"


@pytest.mark.parametrize(
    "frame,room,phone,size",
    [
        (FRAMES["wide"], (960, 960), False, (960, 540)), (FRAMES["wide"], (5000, 5000), False, (1920, 1080)),
        (FRAMES["wide"], (5000, 5000), True, (640, 360)), (FRAMES["tall"], (5000, 5000), True, (360, 640)),
        (Frame(3840, 2160), (5000, 5000), True, (640, 360)),
    ],
)  # fmt: skip
def test_a_picture_is_fitted_and_never_enlarged(frame, room, phone, size):
    assert fitted(frame, *room, phone) == pytest.approx(size)


def test_another_picture_is_looked_at_finished():
    view = View(picture="a", step=1, phone=True)
    assert view.of("b") == View(picture="b", step=None, phone=True)


def test_of_too_many_tires_the_oldest_gives_way(qtbot):
    model, seen = TiresModel(), []
    model.chosen.connect(seen.append)
    model.show_choice(sample_episode(), ("a", "b"), takes=2)
    check = Qt.ItemDataRole.CheckStateRole
    assert [model.index(row).data() for row in range(4)] == ["Front left", "Front right", "Rear left", "Rear right"]
    assert model.setData(model.index(2), Qt.CheckState.Checked, check)
    assert model.setData(model.index(0), Qt.CheckState.Unchecked, check)
    assert seen == [("b", "c"), ("b",)]
    model.show_choice(sample_episode(), ("a",), takes=1)
    model.setData(model.index(3), Qt.CheckState.Checked, check)
    assert seen[-1] == ("d",)


def test_a_frame_that_cannot_be_is_refused_with_an_example_and_stays_typed(qtbot):
    chooser, seen = frame_chooser(), []
    qtbot.addWidget(chooser)
    chooser.show()
    chooser.taken.connect(seen.append)
    chooser.show_value("1280x720")
    assert chooser.field.isVisible() and chooser.field.text() == "1280x720"
    chooser.field.setText("<b>9x9</b>")
    qtbot.keyClick(chooser.field, Qt.Key.Key_Return)
    assert not seen and "such as 1280x720" in chooser.problem.text()
    assert chooser.field.text() == "<b>9x9</b>" and chooser.problem.textFormat() == Qt.TextFormat.PlainText
    chooser.field.setText("800 x 600".replace(" ", ""))
    qtbot.keyClick(chooser.field, Qt.Key.Key_Return)
    assert set(seen) == {"800x600"} and not chooser.problem.isVisible()
    assert read_frame(seen[0]) == Frame(800, 600)


def test_a_key_colour_is_offered_and_can_be_another(qtbot, appearance):
    chooser, seen = background_chooser(lambda: appearance.look), []
    qtbot.addWidget(chooser)
    chooser.show()
    chooser.taken.connect(seen.append)
    qtbot.keyClick(chooser.chooser, Qt.Key.Key_End)
    assert seen == [KEY_COLOR] and chooser.focusWidget() is chooser.field
    chooser.field.setText("#0000FF")
    qtbot.keyClick(chooser.field, Qt.Key.Key_Return)
    assert seen[-1] == "#0000FF"
    chooser.field.setText("green")
    qtbot.keyClick(chooser.field, Qt.Key.Key_Return)
    assert seen[-1] == "#0000FF" and "expected" in chooser.problem.text()
