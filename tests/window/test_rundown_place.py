"""The place Rundown on the whole window: order, text, numbers, undo, finding, saying, reaching."""

import pytest
from msgspec.structs import replace
from PySide6.QtCore import QPointF, Qt
from PySide6.QtGui import QDropEvent
from PySide6.QtWidgets import QApplication, QLineEdit

from studio.model.rundown import Rundown
from studio.script.template_texts import TEMPLATES
from studio.window.rundown_blocks import chips_in
from studio.window.rundown_list import MIME, WHOLE
from studio.window.rundown_steps import StepsButton
from tests.window.helpers import focused, press, type_keys
from tests.window.rundown_samples import HOSTILE, demo, rundown_of, segment, three

ALT, CTRL = Qt.KeyboardModifier.AltModifier, Qt.KeyboardModifier.ControlModifier


@pytest.fixture
def opened(window_of):
    def make(episode=None, size=(1280, 692)):
        window = window_of(episode or three(), size)
        window.show_place("rundown")
        QApplication.processEvents()
        return window, window.places["rundown"]

    return make


def ids(place):
    return [its.id for its in place.document.episode.rundown.segments]


def reviewed(place, qtbot):
    qtbot.waitUntil(lambda: place.reviewer.is_current, timeout=20_000)
    return place.rows


def test_the_segments_stand_in_order_and_keys_move_them_as_one_step(opened):
    window, place = opened()
    place.list.choose(0)
    press(Qt.Key.Key_Down, ALT)
    assert ids(place) == ["wrong", "opening", "closing"] and place.list.current_id() == "opening"
    press(Qt.Key.Key_Down, ALT)
    press(Qt.Key.Key_Down, ALT)
    assert ids(place) == ["wrong", "closing", "opening"]
    assert place.document.undo_stack.count() == 2
    press(Qt.Key.Key_Up, ALT)
    assert ids(place) == ["wrong", "opening", "closing"]
    for _ in range(3):
        window.commands.undo()
    assert ids(place) == ["opening", "wrong", "closing"]


def test_a_drop_moves_a_segment_as_one_step(opened):
    _window, place = opened()
    mime = place.list.segments_model.mimeData([place.list.segments_model.index(1)])
    assert bytes(mime.data(MIME).data()) == b"0"
    last = place.list.visualRect(place.list.segments_model.index(3))
    spot = QPointF(last.center().x(), last.bottom() - 2)
    event = QDropEvent(spot, Qt.DropAction.MoveAction, mime, Qt.MouseButton.LeftButton,
                       Qt.KeyboardModifier.NoModifier)  # fmt: skip
    place.list.dropEvent(event)
    assert ids(place) == ["wrong", "closing", "opening"]
    assert place.document.undo_stack.count() == 1
    assert place.list.current_id() == "opening"


def test_a_segment_is_added_named_duplicated_and_deleted_by_keys(opened):
    window, place = opened()
    place.list.choose(2)
    place.list.setFocus()
    press(Qt.Key.Key_A, CTRL | Qt.KeyboardModifier.ShiftModifier)
    assert focused() is place.sheet.title and place.sheet.title.selectedText() == "New segment"
    type_keys("Last words")
    assert place.document.episode.rundown.segments[3].title == "Last words"
    place.list.setFocus()
    press(Qt.Key.Key_D, CTRL)
    assert len(ids(place)) == 5 and place.list.current_number() == 4
    press(Qt.Key.Key_Delete)
    press(Qt.Key.Key_Delete)
    assert ids(place) == ["opening", "wrong", "closing"] and place.list.current_number() == 2
    press(Qt.Key.Key_F2)
    assert focused() is place.sheet.title
    for _ in range(5):
        window.commands.undo()
    assert ids(place) == ["opening", "wrong", "closing"]


def test_delete_in_the_text_deletes_text_alone(opened):
    _window, place = opened()
    place.list.choose(2)
    place.sheet.go_to_point(0)
    press(Qt.Key.Key_Delete)
    assert len(ids(place)) == 3
    assert place.document.episode.rundown.segments[2].points[0].text == "easure yours on Saturday."


def test_an_empty_rundown_teaches_and_begins_with_a_template(opened):
    window, place = opened(replace(demo(), rundown=Rundown()))
    assert place.start.isVisible() and place.state_line() == "nothing planned yet"
    assert len(place.start.buttons) == len(TEMPLATES)
    assert focused() in place.start.buttons
    press(Qt.Key.Key_Space)
    assert len(ids(place)) >= 3 and place.list.isVisible()
    window.commands.undo()
    assert place.start.isVisible()


def test_a_template_says_what_it_leaves_out_and_comes_after_what_is_there(opened):
    _window, place = opened()
    place.commands.choose_template()
    texts = [label.text() for label in place.start.findChildren(type(place.start.teaching))]
    assert any("left out" in text for text in texts)
    place.commands.begin_with("tread")
    assert ids(place)[:3] == ["opening", "wrong", "closing"] and len(set(ids(place))) == len(ids(place)) > 3


def test_typing_is_one_step_a_visit_and_undo_shows_where(opened):
    window, place = opened()
    place.list.choose(2)
    place.sheet.go_to_point(0)
    type_keys("So: ")
    assert place.document.undo_stack.count() == 1
    assert place.document.undo_stack.undoText() == "Change talking points"
    window.show_place("car")
    window.commands.undo()
    assert window.current is place and place.list.current_id() == "closing"
    assert place.sheet.editor.points[0].text == "Measure yours on Saturday."


def test_the_undo_key_in_the_text_is_the_documents(opened):
    _window, place = opened()
    place.list.choose(2)
    place.sheet.go_to_point(0)
    type_keys("So")
    press(Qt.Key.Key_Z, CTRL)
    assert place.document.episode == three()


def test_a_brace_offers_numbers_and_keys_put_one_in(opened):
    _window, place = opened()
    place.list.choose(2)
    place.sheet.go_to_point(0, 26, 26)
    type_keys(" {front right marg")
    offered = place.sheet.asking.shown
    assert offered.isVisible() and "margin" in offered.currentItem().text()
    press(Qt.Key.Key_Down)
    press(Qt.Key.Key_Up)
    press(Qt.Key.Key_Return)
    assert not offered.isVisible()
    text = place.document.episode.rundown.segments[2].points[0].text
    assert text == "Measure yours on Saturday. {tread_left.front_right margin}"


def test_escape_closes_the_offers_and_leaves_what_was_typed(opened):
    _window, place = opened()
    place.list.choose(2)
    place.sheet.go_to_point(0)
    type_keys("{fr")
    press(Qt.Key.Key_Escape)
    type_keys("ont")
    assert not place.sheet.asking.is_open
    assert place.document.episode.rundown.segments[2].points[0].text.startswith("{front")


def test_enter_with_nothing_that_fits_keeps_asking_and_what_is_left_open_is_a_remark(opened, qtbot):
    _window, place = opened()
    place.list.choose(2)
    place.sheet.go_to_point(0)
    type_keys("{25 qqq")
    press(Qt.Key.Key_Return)
    points = place.document.episode.rundown.segments[2].points
    assert place.sheet.asking.is_open
    assert place.sheet.asking.shown.item(0).text() == "No computed number fits: type other words, or Esc leaves it"
    assert len(points) == len(three().rundown.segments[2].points), "the point is not broken in two"
    press(Qt.Key.Key_Escape)
    rows = reviewed(place, qtbot)
    (row,) = [its for its in rows if its.kind == "unfinished"]
    assert (row.word, row.said, row.calls, row.can_be_set_aside) == ("unfinished number", "{", True, False)
    assert "1 unfinished number" in place.state_line()
    place.list.setFocus()
    walked = []
    for _ in [its for its in rows if its.calls]:
        place.backing.choose_next_call()
        walked.append(place.backing.list.current_row())
    assert row in walked


def test_a_number_turns_through_its_forms_by_keys(opened):
    _window, place = opened()
    place.list.choose(0)
    editor = place.sheet.editor
    chip = chips_in(editor.document().firstBlock())[0]
    place.sheet.go_to_point(0)
    cursor = editor.textCursor()
    cursor.setPosition(chip.position + 1)
    editor.setTextCursor(cursor)
    seen = []
    for _ in range(4):
        press(Qt.Key.Key_Right, ALT)
        seen.append(chips_in(editor.document().firstBlock())[0].form)
    assert seen == ["spoken", "rounded", "short", "both"]


def test_the_menu_of_a_number_offers_its_forms_as_they_would_read(opened):
    _window, place = opened()
    place.list.choose(0)
    chip = chips_in(place.sheet.editor.document().firstBlock())[0]
    place.sheet.menu.fill(chip, place.sheet.asking.forms(chip), ())
    texts = [action.text() for action in place.sheet.menu.actions() if action.text()]
    assert texts[0] == "&Open the finding"
    assert texts[2] == "&Both units: 4/32 in (3.2 mm)" and "S&poken: four thirty-seconds of an inch" in texts


def test_ctrl_enter_on_a_number_goes_to_its_finding(opened):
    window, place = opened()
    place.list.choose(0)
    place.sheet.editor.opened.emit("tread_left.front_right")
    assert window.current.key == "findings"
    assert window.places["findings"].list.current_finding().id == "tread_left.front_right"


def test_say_it_appends_a_point_with_live_numbers_and_undo_takes_it_back(opened):
    window, place = opened()
    place.list.choose(1)
    window.show_place("findings")
    findings = window.places["findings"]
    findings.list.choose("tread_left.front_left")
    findings.sheet.head.say_it.click()
    assert window.current is place and place.list.current_id() == "wrong"
    said = place.document.episode.rundown.segments[1].points[-1]
    assert "{tread_left.front_left both}" in said.text and place.sheet.editor.current_point() == 4
    window.commands.undo()
    assert place.document.episode == three()


def test_the_numbers_stand_with_their_backing_and_enter_goes_to_the_text(opened, qtbot):
    _window, place = opened()
    rows = reviewed(place, qtbot)
    number = next(n for n, row in enumerate(rows) if row.kind == "contradicted")
    place.backing.list.setFocus()
    place.backing.list.setCurrentIndex(place.backing.list.remarks_model.index(number))
    press(Qt.Key.Key_Return)
    assert place.list.current_id() == "wrong" and focused() is place.sheet.editor
    assert place.sheet.editor.textCursor().selectedText() == "4/32 inch"
    assert place.sheet.editor.extraSelections()
    assert "contradicted" in place.state_line() and "unbacked" in place.state_line()


def test_what_asks_for_work_is_walked_by_key(opened, qtbot):
    _window, place = opened()
    calls = [row for row in reviewed(place, qtbot) if row.calls]
    place.list.setFocus()
    seen = []
    for _ in calls:
        place.backing.choose_next_call()
        seen.append(place.backing.list.current_row().kind)
    assert seen == [row.kind for row in calls]


def test_a_mark_is_set_aside_with_a_reason_that_stays_and_can_be_undone(opened, qtbot):
    window, place = opened()
    rows = reviewed(place, qtbot)
    number = next(n for n, row in enumerate(rows) if row.kind == "unbacked")
    place.backing.list.setCurrentIndex(place.backing.list.remarks_model.index(number))
    place.backing.set_aside.click()
    assert place.document.episode.rundown.dismissed == (), "nothing is set aside without a reason"
    assert focused() is place.backing.reason
    type_keys("elephants are no tires")
    press(Qt.Key.Key_Return)
    kept = place.document.episode.rundown.dismissed
    assert [(its.segment, its.reason) for its in kept] == [("wrong", "elephants are no tires")]
    reviewed(place, qtbot)
    shown = place.backing.list.remarks_model.rows
    assert all(row.kind != "unbacked" for row in shown)
    place.backing.with_dismissed.click()
    aside = next(row for row in place.backing.list.remarks_model.rows if row.dismissed)
    assert aside.dismissed == "elephants are no tires"
    window.commands.undo()
    assert place.document.episode.rundown.dismissed == ()


def test_a_typed_number_is_made_live(opened, qtbot):
    _window, place = opened()
    rows = reviewed(place, qtbot)
    number = next(n for n, row in enumerate(rows) if row.kind == "contradicted")
    place.backing.list.setCurrentIndex(place.backing.list.remarks_model.index(number))
    place.backing.make_live.click()
    text = place.document.episode.rundown.segments[1].points[0].text
    assert text == "The front left has {tread_left.front_left} left."


def test_what_is_owed_leads_to_where_it_is_entered(opened, qtbot):
    _window, place = opened()
    rows = reviewed(place, qtbot)
    number = next(n for n, row in enumerate(rows) if row.kind == "duty")
    place.backing.list.setCurrentIndex(place.backing.list.remarks_model.index(number))
    place.backing.go_there.click()
    assert focused() is place.sheet.parts.work


def test_cautions_stand_at_once_and_nothing_closes_them(opened):
    _window, place = opened()
    place.list.choose(2)
    name = place.sheet.cautions.accessibleName()
    assert name.startswith("CAUTION") and place.sheet.cautions.isVisible()
    place.sheet.go_to_point(0)
    type_keys("Jack the car up. ")
    assert "A car can fall off its jack" in place.sheet.cautions.accessibleName()
    assert not place.sheet.cautions.findChildren(QLineEdit)


def test_a_pause_is_entered_for_the_point_at_hand(opened):
    _window, place = opened()
    place.list.choose(1)
    place.sheet.go_to_point(1)
    place.sheet.bar.pause.setFocus()
    type_keys("1.5 s")
    press(Qt.Key.Key_Return)
    pauses = [point.pause_s for point in place.document.episode.rundown.segments[1].points]
    assert pauses == [0.0, 1.5, 0.0, 0.0]
    type_keys("900")
    press(Qt.Key.Key_Return)
    assert "expected from 0 to 600" in place.sheet.bar.pause.problem


def test_target_pace_and_frame_rate_are_the_whole_rundowns(opened, qtbot):
    _window, place = opened()
    place.list.choose(WHOLE)
    whole = place.whole
    for field, typed in ((whole.target, "0:10"), (whole.pace, "120")):
        field.setFocus()
        type_keys(typed)
        press(Qt.Key.Key_Return)
    rundown = place.document.episode.rundown
    assert (rundown.target_s, rundown.words_per_minute) == (10.0, 120.0)
    reviewed(place, qtbot)
    assert "over" in place.state_line() and "120 words a minute, as set" in whole.pace_line.text()
    assert whole._cut_section.isVisible()


def test_find_goes_through_titles_points_shots_and_round_again(opened):
    _window, place = opened()
    place.list.choose(0)
    assert place.find_text("ELEPHANTS") and place.list.current_id() == "wrong"
    assert place.find_text("4/32 in (3.2")
    assert place.list.current_id() == "opening", "a live number is found by what it shows"
    assert place.find_text("foot of the gauge") and place.list.current_id() == "closing"
    assert not place.find_text("no such words")


@pytest.mark.parametrize(
    ("path", "segment_id"),
    [("rundown.segments[1].points[1]", "wrong"), ("rundown.segments[2].shots[0].text", "closing"),
     ("rundown.segments[9]", "closing"), ("rundown.target_s", ""), ("rundown.paid_ties[3]", ""), ("nothing", ""),
     ("wrong", "wrong")],
)  # fmt: skip
def test_any_path_leads_somewhere(opened, path, segment_id):
    _window, place = opened()
    place.show_target(path)
    assert place.list.current_id() == segment_id


def test_hostile_titles_and_texts_are_shown_as_they_are(opened, qtbot):
    _window, place = opened(rundown_of(segment("a", HOSTILE, title=HOSTILE), segment("b", title="")))
    reviewed(place, qtbot)
    assert place.sheet.title.text() == HOSTILE
    assert place.sheet.editor.toPlainText() == HOSTILE
    assert place.list.segments_model.rows[0].title == HOSTILE


def test_another_episode_takes_the_place_of_this_one(opened, qtbot):
    _window, place = opened()
    reviewed(place, qtbot)
    place.document.start(demo("estate_before_winter"), None)
    reviewed(place, qtbot)
    assert ids(place)[0] == place.list.segments_model.rows[0].id
    assert place.document.undo_stack.count() == 0


def test_the_steps_of_a_picture_are_chosen_by_their_names(opened, qtbot):
    _window, place = opened()
    place.list.choose(2)
    place.sheet.parts.pictures.unfold()
    button = place.sheet.parts.findChild(StepsButton)
    button.click()
    qtbot.waitUntil(lambda: bool(button.menu_of_steps.actions()), timeout=30_000)
    actions = button.menu_of_steps.actions()
    assert len(actions) > 2 and all(action.isChecked() for action in actions)
    actions[-1].trigger()
    cue = place.document.episode.rundown.segments[2].pictures[0]
    assert cue.steps == tuple(action.text() for action in actions[:-1])
    actions[-1].trigger()
    assert place.document.episode.rundown.segments[2].pictures[0].steps == (), "all of them is the whole picture"
    button.menu_of_steps.hide()


def test_a_picture_comes_on_with_the_point_at_hand(opened):
    _window, place = opened()
    place.list.choose(1)
    place.sheet.go_to_point(2)
    place.sheet.bar.picture_wanted.emit("coins")
    cues = place.document.episode.rundown.segments[1].pictures
    assert [(cue.picture, cue.with_point) for cue in cues] == [("coins", 2)]
    assert place.document.undo_stack.undoText() == "Add a picture"


def test_a_picture_without_a_segment_gets_a_first_one(opened):
    _window, place = opened()
    for _ in place.document.episode.rundown.segments:
        place.commands.delete()
    assert not place.document.episode.rundown.segments
    place.sheet.bar.picture_wanted.emit("rotation")
    (segment,) = place.document.episode.rundown.segments
    assert [cue.picture for cue in segment.pictures] == ["rotation"]
    place.document.undo_stack.undo()
    assert not place.document.episode.rundown.segments


def test_a_number_that_is_gone_moves_nothing(opened):
    _window, place = opened()
    before = place.document.episode
    place.commands.move(len(before.rundown.segments), len(before.rundown.segments) - 1)
    assert place.document.episode is before
