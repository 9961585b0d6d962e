"""Writing talking points: chips, holes, paragraphs, paste, undo, on the real widget."""

import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st
from PySide6.QtCore import QMimeData, QPoint, Qt
from PySide6.QtGui import QTextCursor

from studio.decide import decide
from studio.model.rundown import Point
from studio.reference.tables import load_tables
from studio.script.live import filled, screen_text
from studio.script.numbers import by_id
from studio.window.rundown_blocks import chips_in, point_of, source_of, span_in_block, units
from studio.window.rundown_edit import LONGEST_POINT
from studio.window.rundown_editor import PointsEditor
from studio.window.rundown_mime import MIME
from tests.window.rundown_samples import HOSTILE, demo

LIVE = "The front right has {tread_left.front_right both} left, {tread_left.front_right margin} above the limit."
Mode = QTextCursor.MoveMode


@pytest.fixture
def editor(qtbot, appearance):
    made = PointsEditor(appearance)
    qtbot.addWidget(made)
    made.resize(500, 400)
    made.know(by_id(decide(demo(), load_tables())), "us")
    with qtbot.waitActive(made):
        made.show()
    made.setFocus()
    return made


def texts(editor):
    return [point.text for point in editor.points]


def blocks(editor):
    document = editor.document()
    return [point_of(document.findBlockByNumber(number)) for number in range(document.blockCount())]


def at_end(editor):
    editor.moveCursor(QTextCursor.MoveOperation.End)


def test_a_live_number_is_one_thing_that_shows_the_number_now(editor):
    editor.load((Point(text=LIVE),))
    first, second = chips_in(editor.document().firstBlock())
    assert (first.shown, first.finding, first.form, first.hole) == (
        "4/32 in (3.2 mm)", "tread_left.front_right", "both", False
    )  # fmt: skip
    assert second.number == "margin"
    assert source_of(editor.document().firstBlock()) == LIVE


def test_a_number_that_is_not_known_is_a_hole_with_its_reason(editor):
    editor.load((Point(text="It has {no.such} and {nonsense} left."),))
    holes = chips_in(editor.document().firstBlock())
    assert [hole.shown for hole in holes] == ["the finding no.such is gone", "'nonsense' names no finding"]
    assert all(hole.hole for hole in holes)


def test_a_number_follows_the_findings_and_becomes_a_hole_when_they_go(editor):
    editor.load((Point(text=LIVE),))
    editor.know({}, "us")
    assert all(chip.hole for chip in chips_in(editor.document().firstBlock()))
    assert source_of(editor.document().firstBlock()) == LIVE
    editor.know(by_id(decide(demo(), load_tables())), "metric")
    assert chips_in(editor.document().firstBlock())[0].shown.startswith("3.2 mm")


def test_typing_edits_its_point_alone_and_beside_a_chip_makes_text(editor, qtbot):
    seen = []
    editor.edited.connect(lambda points, merge: seen.append((points, merge)))
    editor.load((Point(text="One {tread_left.front_right}"), Point(text="Two", pause_s=1.5)))
    editor.go_to(0, 100, 100)
    qtbot.keyClicks(editor, " left.")
    assert texts(editor) == ["One {tread_left.front_right} left.", "Two"]
    assert editor.points[1].pause_s == 1.5
    assert len({merge for _, merge in seen}) == 1 and seen[0][1]


def test_a_brace_closed_by_hand_makes_a_chip(editor, qtbot):
    qtbot.keyClicks(editor, "It has {tread_left.front_right} left")
    assert texts(editor) == ["It has {tread_left.front_right} left"]
    assert len(chips_in(editor.document().firstBlock())) == 1
    qtbot.keyClicks(editor, " {x}")
    assert chips_in(editor.document().firstBlock())[1].hole


def test_enter_parts_a_point_and_its_pause_stays_after_the_second_part(editor, qtbot):
    editor.load((Point(text="OneTwo", pause_s=2.0), Point(text="Three")))
    editor.go_to(0, 3, 3)
    qtbot.keyClick(editor, Qt.Key.Key_Return)
    assert [(p.text, p.pause_s) for p in editor.points] == [("One", 0.0), ("Two", 2.0), ("Three", 0.0)]
    qtbot.keyClick(editor, Qt.Key.Key_Backspace)
    assert texts(editor) == ["OneTwo", "Three"]
    qtbot.keyClick(editor, Qt.Key.Key_Return, Qt.KeyboardModifier.ShiftModifier)
    assert texts(editor) == ["One\nTwo", "Three"]


def test_backspace_takes_a_whole_number_out_and_what_it_is_about_goes_with_it(editor, qtbot):
    editor.load((Point(text="Only {tread_left.front_right}", findings=("tread_left.front_right", "age.spare")),))
    at_end(editor)
    qtbot.keyClick(editor, Qt.Key.Key_Backspace)
    assert editor.points == (Point(text="Only ", findings=("age.spare",)),)


def test_copy_is_plain_text_and_keeps_numbers_live_within_the_rundown(editor):
    editor.load((Point(text=LIVE), Point(text=HOSTILE)))
    editor.selectAll()
    mime = editor.createMimeDataFromSelection()
    assert set(mime.formats()) == {"text/plain", MIME}
    assert mime.text() == f"The front right has 4/32 in (3.2 mm) left, 2/32 in above the limit.\n{HOSTILE}"
    at_end(editor)
    editor.insertFromMimeData(mime)
    assert texts(editor) == [LIVE, HOSTILE + LIVE, HOSTILE]


def test_pasted_rich_text_becomes_plain_points(editor):
    mime = QMimeData()
    mime.setHtml("<h1>Big</h1><p style='color:red'>red <b>bold</b> <img src='/etc/passwd'></p>")
    editor.insertFromMimeData(mime)
    assert texts(editor) == ["Big", "red bold"]
    assert not editor.textCursor().charFormat().fontWeight() > 500


def test_a_pasted_text_of_fifty_thousand_words_is_parted_into_points(editor):
    mime = QMimeData()
    mime.setText("word " * 50_000)
    editor.insertFromMimeData(mime)
    assert all(len(text) <= LONGEST_POINT for text in texts(editor))
    assert sum(len(text.split()) for text in texts(editor)) == 50_000
    assert blocks(editor) == list(editor.points)


def test_ctrl_enter_and_a_click_open_the_finding(editor, qtbot):
    editor.load((Point(text="It has {tread_left.front_right} left"),))
    editor.go_to(0, 0, 0)
    chip = chips_in(editor.document().firstBlock())[0]
    cursor = editor.textCursor()
    cursor.setPosition(chip.position)
    box = editor.cursorRect(cursor)
    with qtbot.waitSignal(editor.opened) as opened:
        qtbot.mouseClick(editor.viewport(), Qt.MouseButton.LeftButton, pos=box.center() + QPoint(12, 0))
    assert opened.args == ["tread_left.front_right"]
    cursor.setPosition(chip.position + 1)
    editor.setTextCursor(cursor)
    with qtbot.waitSignal(editor.opened) as opened:
        qtbot.keyClick(editor, Qt.Key.Key_Return, Qt.KeyboardModifier.ControlModifier)
    assert opened.args == ["tread_left.front_right"]


def test_a_click_on_plain_text_opens_nothing(editor, qtbot):
    editor.load((Point(text="Plain words only, and more of them"),))
    with qtbot.assertNotEmitted(editor.opened):
        qtbot.mouseClick(editor.viewport(), Qt.MouseButton.LeftButton, pos=QPoint(30, 12))


def test_a_chip_changes_its_form_where_it_stands(editor):
    editor.load((Point(text=LIVE),))
    chip = chips_in(editor.document().firstBlock())[0]
    editor.change_chip(chip, "{tread_left.front_right spoken}")
    assert texts(editor) == [LIVE.replace("front_right both", "front_right spoken")]


def test_only_what_differs_is_shown_anew_and_the_cursor_stays(editor):
    editor.load(tuple(Point(text=f"Point {n}") for n in range(6)))
    editor.go_to(4, 3, 3)
    changed = (*editor.points[:2], Point(text="Other"), *editor.points[3:])
    editor.show_points(changed)
    assert blocks(editor) == list(changed)
    assert (editor.current_point(), editor.textCursor().positionInBlock()) == (4, 3)


point_texts = st.text(alphabet="ab {}.\n\U0001f600\r\u2028\u2029\ufffcé", max_size=12)
point_lists = st.lists(
    st.builds(Point, text=point_texts, pause_s=st.sampled_from([0.0, 2.0])), max_size=6
)  # fmt: skip


@settings(max_examples=60, suppress_health_check=[HealthCheck.function_scoped_fixture], deadline=None)
@given(point_lists, point_lists)
def test_any_points_give_way_to_any_others_and_nothing_is_edited_by_showing(editor, before, after):
    edits = []
    editor.edited.connect(edits.append)
    editor.load(tuple(before))
    editor.show_points(tuple(after))
    editor.edited.disconnect(edits.append)
    assert edits == []
    assert editor.points == tuple(after)
    shown = blocks(editor)
    wanted = list(after) or [Point(text="")]
    assert [point.pause_s for point in shown] == [point.pause_s for point in wanted]
    assert [visible(point.text) for point in shown] == [visible(point.text) for point in wanted]


def visible(text):
    """What a text document can hold of a text: its own separators are blanks in it."""
    return "".join(" " if c in "\r\u2028\u2029\ufffc" else c for c in text)


@given(st.lists(st.sampled_from(["ab", "\U0001f600", " {tread_left.front_right} ", "{no.such}"]), max_size=6))
def test_a_stretch_of_the_filled_text_is_found_in_the_paragraph(parts):
    known = by_id(decide(demo(), load_tables()))
    pieces = filled("".join(parts), known, "us")
    text = screen_text(pieces)
    length = sum(units(piece.text) if piece.kind == "text" else 1 for piece in pieces)
    assert span_in_block(pieces, 0, len(text)) == (0, length)
    assert span_in_block(pieces, 0, 0) == (0, 0)


def test_a_lone_brace_becomes_a_marked_gap_that_keeps_its_source(editor, qtbot):
    editor.load((Point(text="It has only {25 % left"),))
    (chip,) = chips_in(editor.document().firstBlock())
    assert (chip.hole, chip.shown, chip.source) == (True, "unfinished number", "{")
    at_end(editor)
    qtbot.keyClicks(editor, ".")
    assert texts(editor) == ["It has only {25 % left."]
    editor.go_to(0, 0, 0)
    for _ in range(len("It has only ")):
        qtbot.keyClick(editor, Qt.Key.Key_Right)
    qtbot.keyClick(editor, Qt.Key.Key_Delete)
    assert texts(editor) == ["It has only 25 % left."]
