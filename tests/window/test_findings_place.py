"""The place Findings on real widgets."""

import msgspec
import pytest
from PySide6.QtCore import Qt
from PySide6.QtGui import QAccessible, QGuiApplication
from PySide6.QtWidgets import QLabel, QPushButton, QWidget

from studio.decide.registry import TOPICS, picture_of
from studio.graphics.catalogue import catalogue
from studio.model.episode import Episode
from studio.model.finding import Finding
from studio.window.findings_caution import CautionPanel
from studio.window.findings_link import Link
from studio.window.findings_place import FindingsPlace
from studio.window.place import Workshop
from studio.window.rundown_say import SAY
from tests.window.findings_samples import CAUTION, sample_document, sample_episode, specimen


@pytest.fixture
def place_of(qtbot, appearance, jobs, answers):
    def make(episode: Episode | None = None) -> FindingsPlace:
        place = FindingsPlace(Workshop(sample_document(episode), appearance, jobs, answers))
        qtbot.addWidget(place)
        place.resize(1080, 690)
        with qtbot.waitActive(place):
            place.show()
        place.take_focus()
        return place

    yield make
    QGuiApplication.clipboard().clear()


@pytest.fixture
def place(place_of):
    return place_of()


def shown(widget: QWidget) -> str:
    return "\n".join(label.text() for label in widget.findChildren(QLabel) if label.isVisibleTo(widget))


def test_arrows_move_over_findings_and_pass_over_headings(place, qtbot):
    seen = [place.list.current_finding().id]
    for _ in range(6):
        qtbot.keyClick(place.list, Qt.Key.Key_Down)
        seen.append(place.list.current_finding().id)
    corners = ("front_left", "front_right", "rear_left", "rear_right")
    assert seen == [*(f"tread_left.{corner}" for corner in corners), "count.car", "count.car", "count.car"]


def test_the_opened_finding_says_all_it_holds(place):
    assert place.list.choose("tread_left.front_right")
    text = shown(place.sheet)
    for words in ("2.5/32 in", "2.0 mm", "Lowest of 6 readings", CAUTION, "CAUTION", "A lower reading would change it.",
                  "49 CFR 570.9, (a): published", "Limit 2/32 in: legal minimum, United States",
                  "0.5/32 in above the limit, gauge ±0.8/32 in", "Watch"):  # fmt: skip
        assert words in text
    assert place.sheet.findChild(CautionPanel) is not None


def test_markup_in_a_sentence_is_shown_as_it_is(place):
    place.list.choose("tread_left.front_left")
    assert "<b>left</b>" in shown(place.sheet)
    assert all(label.textFormat() == Qt.TextFormat.PlainText for label in place.findChildren(QLabel))


def test_a_click_on_an_input_leads_to_its_path(place, qtbot):
    place.list.choose("tread_left.rear_left")
    link = next(link for link in place.sheet.links() if "place 2" in link.words)
    assert link.words == "rear left, reading of 14 Nov 2026, inner groove, place 2: 1/32 in"
    with qtbot.waitSignal(place.go) as gone:
        qtbot.mouseClick(link, Qt.MouseButton.LeftButton)
    assert gone.args == ["car", "specimens[2].readings[0].depths[2][1]"]


def test_what_is_missing_leads_to_where_it_is_entered(place, qtbot):
    place.list.choose("tread_left.rear_right")
    with qtbot.waitSignal(place.go) as gone:
        place.sheet.links()[0].click()
    assert gone.args == ["car", "specimens[3]"]


def test_keys_alone_open_follow_and_come_back(place, qtbot):
    place.list.choose("tread_left.front_right")
    qtbot.keyClick(place.list, Qt.Key.Key_Return)
    assert place.sheet.head.show_it.hasFocus()
    qtbot.keyClick(place.sheet.head.show_it, Qt.Key.Key_Tab)
    assert place.sheet.head.say_it.hasFocus()
    qtbot.keyClick(place.sheet.head.say_it, Qt.Key.Key_Tab)
    assert place.sheet.head.copy_it.hasFocus()
    qtbot.keyClick(place.sheet.head.copy_it, Qt.Key.Key_Tab)
    link = place.sheet.links()[0]
    assert link.hasFocus()
    with qtbot.waitSignal(place.go) as gone:
        qtbot.keyClick(link, Qt.Key.Key_Return)
    assert gone.args == ["car", "specimens[1].readings[0].depths[2][1]"]
    qtbot.keyClick(link, Qt.Key.Key_Escape)
    assert place.list.hasFocus()


def test_an_edit_recomputes_and_keeps_the_finding_at_hand(place):
    place.list.choose("tread_left.front_right")
    episode = place.document.episode
    tires = (episode.specimens[2], specimen("b", "front_right", 6.0), episode.specimens[0])
    place.document.edit("Move tires", msgspec.structs.replace(episode, specimens=tires))
    assert place.list.current_finding().id == "tread_left.front_right"
    assert "6/32 in" in shown(place.sheet.head)
    assert [row.finding.id for row in place.list.chosen_rows()] == ["tread_left.front_right"]
    place.document.undo_stack.undo()
    assert "2.5/32 in" in shown(place.sheet.head)


def test_a_finding_that_is_gone_gives_way_to_its_neighbour(place):
    place.list.choose("tread_left.rear_left")
    episode = place.document.episode
    fewer = (*episode.specimens[:2], episode.specimens[3])
    place.document.edit("Remove a tire", msgspec.structs.replace(episode, specimens=fewer))
    assert place.list.current_finding().id == "tread_left.rear_right"


def test_a_link_that_has_focus_keeps_it_over_an_edit(place):
    place.list.choose("tread_left.front_left")
    place.sheet.links()[0].setFocus()
    episode = place.document.episode
    tires = (specimen("a", "front_left", 5.0), *episode.specimens[1:])
    place.document.edit("Change a depth", msgspec.structs.replace(episode, specimens=tires))
    assert place.sheet.links()[0].hasFocus()
    assert place.sheet.links()[0].words.endswith("5/32 in")


def test_copy_gives_the_sentence_and_of_several_a_table(place, qtbot):
    place.list.choose("tread_left.front_left")
    qtbot.keyClick(place.list, Qt.Key.Key_C, Qt.KeyboardModifier.ControlModifier)
    mime = QGuiApplication.clipboard().mimeData()
    assert mime.text() == "The tire front left has 7/32 in <b>left</b>."
    assert not mime.hasHtml()
    qtbot.keyClick(place.list, Qt.Key.Key_Down, Qt.KeyboardModifier.ShiftModifier)
    qtbot.keyClick(place.list, Qt.Key.Key_C, Qt.KeyboardModifier.ControlModifier)
    lines = QGuiApplication.clipboard().text().splitlines()
    assert len(lines) == 3 and lines[0].startswith("question\tverdict")


def test_show_it_goes_to_the_picture_of_the_topic(place, qtbot):
    place.list.choose("tread_left.front_left")
    with qtbot.waitSignal(place.go) as gone:
        place.sheet.head.show_it.click()
    assert gone.args == ["pictures", "depth_by_wheel"]
    place.list.choose("count.car")
    assert not place.sheet.head.show_it.isEnabled()


def test_every_picture_that_shows_a_finding_is_in_the_catalogue():
    assert {topic.picture for topic in TOPICS if topic.picture} <= set(catalogue())


def test_a_hole_is_shown_by_where_it_may_be_repaired_and_bars_by_themselves():
    def finding(topic: str, subject: str, **detail: str) -> Finding:
        return Finding(id=f"{topic}.{subject}", topic=topic, subject=subject, sentence="", detail=tuple(detail.items()))

    assert picture_of(finding("condition", "rear_left", kind="puncture")) == "repair_zone"
    assert picture_of(finding("condition", "rear_left", kind="bulge")) == "damage"
    assert picture_of(finding("gauges", "bars")) == "wear_bars"
    assert picture_of(finding("gauges", "us_cent")) == "coins"


def test_say_it_asks_the_rundown_to_take_the_finding_in(place, qtbot):
    place.list.choose("tread_left.front_left")
    with qtbot.waitSignal(place.go) as gone:
        place.sheet.head.say_it.click()
    assert gone.args == ["rundown", f"{SAY}tread_left.front_left"]
    with qtbot.waitSignal(place.go) as gone:
        qtbot.keyClick(place.list, Qt.Key.Key_Return, Qt.KeyboardModifier.ControlModifier
                       | Qt.KeyboardModifier.ShiftModifier)  # fmt: skip
    assert gone.args[0] == "rundown"
    place.list.choose("tread_left.rear_right")
    assert not place.sheet.head.say_it.isEnabled(), "what is not known yet cannot be said"


def test_a_tire_on_the_bench_is_shown_where_it_can_be(place_of, qtbot):
    place = place_of(msgspec.structs.replace(sample_episode(), specimens=(specimen("old", "bench", 5.0),)))
    with qtbot.waitSignal(place.go) as gone:
        qtbot.keyClick(place.list, Qt.Key.Key_Return, Qt.KeyboardModifier.ControlModifier)
    assert gone.args == ["pictures", "depth_compare"]


def test_ctrl_down_goes_to_what_calls_for_something_and_round_again(place, qtbot):
    seen = []
    for _ in range(3):
        qtbot.keyClick(place.list, Qt.Key.Key_Down, Qt.KeyboardModifier.ControlModifier)
        seen.append(place.list.current_finding().subject)
    assert seen == ["front_right", "rear_left", "front_right"]


def test_a_place_that_is_not_shown_is_filled_when_it_is(place):
    place.hide()
    episode = place.document.episode
    place.document.edit("Fewer", msgspec.structs.replace(episode, specimens=episode.specimens[1:]))
    assert len(place.list.findings_model.rows) == 7
    assert place.state_line() == "1 says replace, 1 more"
    place.show()
    assert len(place.list.findings_model.rows) == 6


def test_find_looks_into_working_inputs_and_sources_and_goes_round(place):
    assert place.find_text("front RIGHT has")
    assert place.list.current_finding().id == "tread_left.front_right"
    assert place.find_text("570.9")
    assert place.list.current_finding().id == "tread_left.rear_left"
    assert place.find_text("place 2: 7/32")
    assert place.list.current_finding().id == "tread_left.front_left"
    assert not place.find_text("no such words")
    assert place.list.current_finding().id == "tread_left.front_left"


def test_a_target_is_an_id_a_topic_or_a_path(place):
    for target, id_ in (
        ("tread_left.rear_left", "tread_left.rear_left"), ("count", "count.car"),
        ("specimens[1].readings[0].depths[2][1]", "tread_left.front_right"), ("nothing", "tread_left.front_right"),
    ):  # fmt: skip
        place.show_target(target)
        assert place.list.current_finding().id == id_


def test_the_state_line_counts_the_gravest_first(place, place_of):
    assert place.state_line() == "1 says replace, 1 more"
    assert place_of(Episode(title="New", on=sample_episode().on)).state_line() == "nothing to say yet"


def test_an_empty_episode_teaches_and_offers_the_next_step(place_of, qtbot):
    empty = place_of(Episode(title="New", on=sample_episode().on))
    assert empty.start.isVisible() and not empty.list.isVisible()
    with qtbot.waitSignal(empty.go) as gone:
        empty.start.click()
    assert gone.args == ["car", ""]
    empty.document.edit("Add tires", sample_episode())
    assert empty.list.isVisible()
    assert empty.list.current_finding().id == "tread_left.front_left"


def test_every_control_has_a_name_and_rows_are_read_out_whole(place):
    for widget in place.findChildren(QWidget):
        if widget.focusPolicy() & Qt.FocusPolicy.TabFocus and widget.isVisible():
            interface = QAccessible.queryAccessibleInterface(widget)
            assert interface.text(QAccessible.Text.Name), widget
    index = place.list.findings_model.index(2)
    assert index.data(Qt.ItemDataRole.AccessibleTextRole).startswith("watch. The tire front right has 2.5/32 in")


@pytest.mark.parametrize("percent", [100, 200])
def test_nothing_is_cut_at_1280_by_720_less_the_column_of_places(place, appearance, qtbot, percent):
    appearance.set_percent(percent)
    place.resize(1000, 660)
    qtbot.waitUntil(lambda: not cut(place))
    assert place.sheet.horizontalScrollBar().maximum() == 0


def cut(place):
    """What has less room than it asks for: a layout settles over some turns of the event loop."""
    shown = [*place.findChildren(QPushButton), *place.sheet.findChildren(QLabel), *place.findChildren(Link)]
    return [its.text() for its in shown if its.isVisible() and its.height() < least_height(its)]


def least_height(widget):
    return widget.heightForWidth(widget.width()) if widget.hasHeightForWidth() else widget.sizeHint().height()
