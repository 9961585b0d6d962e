"""The place Pictures on real widgets, with small pictures of our own."""

from dataclasses import replace
from pathlib import Path

import msgspec
import pytest
from PySide6.QtCore import Qt
from PySide6.QtGui import QAccessible, QGuiApplication
from PySide6.QtWidgets import QLabel, QPushButton, QWidget

from studio.model.episode import Episode, PictureChoice
from studio.window.findings_link import Link
from studio.window.pictures_place import PicturesPlace
from studio.window.place import Workshop
from tests.window.findings_samples import sample_document, sample_episode, specimen
from tests.window.pictures_samples import STEPS, sample_catalogue


@pytest.fixture
def place_of(qtbot, appearance, jobs, answers, monkeypatch):
    pictures = sample_catalogue()
    monkeypatch.setattr("studio.handoff.picture_files.catalogue", lambda: pictures)
    monkeypatch.setattr("studio.graphics.catalogue.catalogue", lambda: pictures)
    made: list[PicturesPlace] = []

    def make(episode: Episode | None = None) -> PicturesPlace:
        place = PicturesPlace(
            Workshop(sample_document(episode), appearance, jobs, answers), pictures=lambda: pictures
        )  # fmt: skip
        qtbot.addWidget(place)
        appearance.dress(place)
        appearance.apply()
        made.append(place)
        place.resize(1080, 690)
        with qtbot.waitActive(place):
            place.show()
        place.take_focus()
        qtbot.waitUntil(lambda: all(its.drawn for its in place.shelf.shelf_model.entries) and place.drawer.idle)
        return place

    yield make
    QGuiApplication.clipboard().clear()
    for place in made:
        place.cache.clear()


@pytest.fixture
def place(place_of):
    return place_of()


def settled(qtbot, place):
    qtbot.waitUntil(lambda: place.drawer.idle and place.desk.file is not None)


def test_the_shelf_fills_in_and_the_first_picture_is_large(place):
    assert [entry.name for entry in place.shelf.shelf_model.entries] == [
        "The size code", "Depths compared", "Depth at every wheel",
    ]  # fmt: skip
    assert all(entry.drawn.image is not None for entry in place.shelf.shelf_model.entries)
    assert place.stage.drawn.order.picture == "size_code"
    assert place.state_line() == "3 of 3 can be shown"
    assert place.stage.accessibleDescription().startswith("In words: The tire front left has 7/32 in")


def test_arrows_go_through_the_shelf(place, qtbot):
    qtbot.keyClick(place.shelf, Qt.Key.Key_Down)
    qtbot.waitUntil(lambda: place.stage.drawn is not None and place.stage.drawn.order.picture == "depth_compare")
    assert place.stage.accessibleName() == "Depths compared"


def test_a_title_is_plain_text_undone_by_name_as_one_step(place, qtbot):
    place.controls.title.setFocus()
    qtbot.keyClicks(place.controls.title, "<b>Look</b> & see")
    assert place.document.episode.pictures[0].title == "<b>Look</b> & see"
    qtbot.waitUntil(lambda: place.stage.drawn.scene.title == "<b>Look</b> & see")
    assert place.document.undo_stack.undoText() == "Change the title of The size code"
    place.document.undo_stack.undo()
    assert place.document.episode == sample_episode()
    assert place.controls.title.text() == ""
    qtbot.waitUntil(lambda: "front left" in place.stage.drawn.scene.title)
    assert all(label.textFormat() == Qt.TextFormat.PlainText for label in place.findChildren(QLabel))


def test_a_number_typed_into_a_title_is_remarked_on(place, qtbot):
    place.controls.title.setFocus()
    qtbot.keyClicks(place.controls.title, "Nearly done")
    assert not place.controls.title_note.isVisible()
    qtbot.keyClicks(place.controls.title, " at 3/32")
    assert place.controls.title_note.isVisible()


def test_a_changed_reading_is_drawn_anew_everywhere(place, qtbot):
    before = place.shelf.shelf_model.entries[2].drawn
    episode = place.document.episode
    tires = (specimen("a", "front_left", 3.0), *episode.specimens[1:])
    place.document.edit("Change a depth", msgspec.structs.replace(episode, specimens=tires))
    qtbot.waitUntil(lambda: "3/32 in" in place.stage.drawn.scene.title)
    qtbot.waitUntil(lambda: place.shelf.shelf_model.entries[2].drawn is not before)
    assert "3/32 in" in place.shelf.shelf_model.entries[2].drawn.scene.title


def test_tires_are_offered_where_a_picture_takes_some(place, qtbot):
    assert place.controls.tires.isVisible()
    index = place.controls.tires.tires.index(1)
    place.controls.tires.setFocus()
    place.controls.tires.setCurrentIndex(index)
    qtbot.keyClick(place.controls.tires, Qt.Key.Key_Space)
    assert place.document.episode.pictures[0].specimens == ("b",)
    assert index.data(Qt.ItemDataRole.CheckStateRole) == Qt.CheckState.Checked
    assert place.document.undo_stack.undoText() == "Choose the tires of The size code"
    qtbot.waitUntil(lambda: place.stage.drawn.scene.title.endswith(" b"))
    row = place.controls.tires.visualRect(place.controls.tires.tires.index(0))
    qtbot.mouseClick(place.controls.tires.viewport(), Qt.MouseButton.LeftButton, pos=row.center())
    assert place.document.episode.pictures[0].specimens == ("a",)
    place.shelf.choose("depth_by_wheel")
    assert not place.controls.tires.isVisible()


def test_the_look_belongs_to_the_episode(place, qtbot):
    place.controls.look.setFocus()
    qtbot.keyClick(place.controls.look, Qt.Key.Key_Down)
    assert place.document.episode.look == "night_bay"
    qtbot.waitUntil(lambda: place.stage.drawn.scene.background == place.stage.drawn.order.look.ground == "#15191E")
    place.document.undo_stack.undo()
    assert place.controls.look.currentText() == "Chalk"


def test_frame_and_background_are_views_and_no_steps_of_undo(place, qtbot):
    place.controls.frame.chooser.setFocus()
    qtbot.keyClicks(place.controls.frame.chooser, "Tall")
    place.controls.background.chooser.setFocus()
    qtbot.keyClicks(place.controls.background.chooser, "Clear")
    qtbot.waitUntil(lambda: place.stage.drawn.scene.background is None)
    assert (place.desk.view.frame.width, place.desk.view.frame.height) == (1080, 1920)
    field = place.stage.picture_field()
    assert field.height() / field.width() == pytest.approx(16 / 9, rel=0.02)
    assert place.document.undo_stack.count() == 0


def test_the_slider_scrubs_through_the_build_up(place, qtbot):
    assert place.bar.step_name.whole == f"3 of 3: {STEPS[2]}"
    place.bar.steps.setFocus()
    qtbot.keyClick(place.bar.steps, Qt.Key.Key_Left)
    assert place.bar.step_name.whole == f"2 of 3: {STEPS[1]}"
    qtbot.waitUntil(lambda: place.stage.drawn.order.step == 1)
    qtbot.keyClick(place.bar.steps, Qt.Key.Key_End)
    qtbot.waitUntil(lambda: place.stage.drawn.order.step is None)
    place.shelf.choose("depth_compare")
    assert place.desk.view.step is None


def test_the_phone_size_is_640_by_360(place, qtbot):
    qtbot.keyClick(place.bar.phone, Qt.Key.Key_Space)
    place.resize(1800, 1000)
    qtbot.waitUntil(lambda: place.stage.drawn.order.size == (640, 360))
    assert (place.stage.picture_field().width(), place.stage.picture_field().height()) == (640, 360)


def test_safe_areas_are_drawn_over_the_picture_only_on_the_window(place, qtbot):
    before = place.stage.grab().toImage()
    qtbot.keyClick(place.bar.guides, Qt.Key.Key_Space)
    after = place.stage.grab().toImage()
    field = place.stage.picture_field()
    x, y = round(field.left() + field.width() * 0.05), round(field.center().y())  # titles: 5 % (EBU R 95)
    near = range(x - 1, x + 3)
    assert any(before.pixelColor(px, y) != after.pixelColor(px, y) for px in near)
    settled(qtbot, place)
    assert place.desk.file.png == place.desk.file.path.read_bytes()


def test_a_drag_gives_an_image_png_bytes_and_a_file_and_is_a_copy(place, qtbot):
    place.look_at(replace(place.desk.view, background="clear"))
    settled(qtbot, place)
    mime = place.stage.drag_out().mimeData()
    assert mime.hasImage() and mime.hasUrls() and mime.hasFormat("image/png")
    png = mime.data("image/png").data()
    path = mime.urls()[0].toLocalFile()
    assert path.endswith("01_size_code_wide_clear.png")
    assert Path(path).read_bytes() == png
    assert mime.imageData().hasAlphaChannel()
    assert mime.imageData().pixelColor(2, 2).alpha() == 0


def test_copy_waits_for_the_file_and_offers_all_three(place, qtbot):
    place.stage.setFocus()
    qtbot.keyClick(place.stage, Qt.Key.Key_C, Qt.KeyboardModifier.ControlModifier)
    qtbot.waitUntil(lambda: bool((held := QGuiApplication.clipboard().mimeData()) and held.hasFormat("image/png")))
    mime = QGuiApplication.clipboard().mimeData()
    assert mime.hasImage() and mime.urls()[0].toLocalFile().endswith("01_size_code_wide.png")
    assert mime.data("image/png").data().startswith(b"\x89PNG")


def test_a_picture_without_data_says_what_is_missing_and_offers_the_way(place_of, qtbot):
    place = place_of(Episode(title="New", on=sample_episode().on))
    assert place.missing.isVisible()
    assert place.missing.reason == "No tire has a depth reading yet."
    with qtbot.waitSignal(place.go) as gone:
        qtbot.keyClick(place.missing.enter, Qt.Key.Key_Space)
    assert gone.args == ["car", ""]
    place.document.edit("Add tires", sample_episode())
    qtbot.waitUntil(lambda: place.stage.isVisible())


def test_every_number_leads_back_to_its_finding(place, qtbot):
    link = place.origin.links()[0]
    assert link.words == "The tire front left has 7/32 in <b>left</b>."
    link.setFocus()
    with qtbot.waitSignal(place.go) as gone:
        qtbot.keyClick(link, Qt.Key.Key_Return)
    assert gone.args == ["findings", "tread_left.front_left"]


def test_targets_and_finding(place):
    place.show_target("depth_by_wheel")
    assert place.shelf.current_id() == "depth_by_wheel"
    place.document.edit("Title", msgspec.structs.replace(place.document.episode, pictures=chosen("depth_compare")))
    place.show_target("pictures[0].title")
    assert place.shelf.current_id() == "depth_compare"
    for nothing in ("pictures[7].title", "gone", ""):
        place.show_target(nothing)
        assert place.shelf.current_id() == "depth_compare"
    assert place.find_text("EVERY wheel") and place.shelf.current_id() == "depth_by_wheel"
    assert not place.find_text("no such picture")


def test_a_place_that_is_not_shown_draws_nothing(place, qtbot):
    place.hide()
    composed = len(place._pictures()["size_code"].composed)
    episode = place.document.episode
    place.document.edit("Fewer", msgspec.structs.replace(episode, specimens=episode.specimens[1:]))
    qtbot.wait(400)
    assert len(place._pictures()["size_code"].composed) == composed
    place.show()
    qtbot.waitUntil(lambda: "front right" in place.stage.drawn.scene.title)


def test_every_control_has_a_name(place):
    for widget in place.findChildren(QWidget):
        if widget.focusPolicy() & Qt.FocusPolicy.TabFocus and widget.isVisible():
            interface = QAccessible.queryAccessibleInterface(widget)
            assert interface.text(QAccessible.Text.Name), widget


def test_tab_goes_in_reading_order(place, qtbot):
    place.shelf.setFocus()
    seen = []
    for _ in range(40):
        qtbot.keyClick(place.focusWidget(), Qt.Key.Key_Tab)
        seen.append(place.focusWidget())
        if seen[-1] is place.shelf:
            break
    wanted = [
        place.stage, place.bar.steps, place.bar.guides, place.bar.phone, place.origin.links()[0], place.controls.title,
        place.controls.tires, place.controls.look, place.controls.frame.chooser, place.controls.captions,
        place.controls.background.chooser, place.export.format, place.export.steps, place.export.one, place.export.all,
    ]  # fmt: skip
    assert [widget for widget in seen if widget in wanted] == wanted


@pytest.mark.parametrize("percent", [100, 200])
def test_nothing_is_cut_at_1280_by_720_less_the_column_of_places(place, appearance, qtbot, percent):
    appearance.set_percent(percent)
    place.resize(1000, 660)
    qtbot.waitUntil(lambda: not cut(place))
    assert place.controls.horizontalScrollBar().maximum() == 0


def cut(place):
    """What has less room than it asks for: a layout settles over some turns of the event loop."""
    shown = [*place.findChildren(QPushButton), *place.controls.findChildren(QLabel), *place.findChildren(Link)]
    return [its.text() for its in shown if its.isVisible() and its.text() and its.height() < least_height(its)]


def least_height(widget):
    return widget.heightForWidth(widget.width()) if widget.hasHeightForWidth() else widget.sizeHint().height()


def chosen(picture):
    return (PictureChoice(picture=picture, title="Mine"),)


def test_the_clip_of_what_is_shown_is_played_in_its_place(place, qtbot):
    settled(qtbot, place)
    qtbot.waitUntil(lambda: place.play.button.isEnabled())
    frame = place.play.player.clip.scene.frame
    assert frame.width == pytest.approx(place.stage.image_size()[0], rel=0.02) and frame.width < 1920
    before = place.stage.grab().toImage()
    place.play.player.seek(0)
    assert place.stage.grab().toImage() != before
    place.play.ended.emit()
    assert place.stage.grab().toImage() == before


def test_another_picture_ends_the_clip(place, qtbot):
    settled(qtbot, place)
    qtbot.waitUntil(lambda: place.play.button.isEnabled())
    place.play.button.click()
    assert place.play.player.playing
    place.shelf.choose("depth_compare")
    assert not place.play.player.playing and not place.play.button.isEnabled()
    qtbot.waitUntil(lambda: place.play.button.isEnabled())
