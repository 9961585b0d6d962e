"""The place Questions on real widgets: comments in, read, set right, answered, worded, kept; by keys alone."""

import csv
import multiprocessing
from pathlib import Path

import pytest
from msgspec.structs import replace
from PySide6.QtCore import Qt
from PySide6.QtGui import QGuiApplication

from studio.model.episode import Episode
from studio.model.question import Question
from studio.window.questions_place import QuestionsPlace
from tests.window.helpers import DAY

DEPTH = "My rear left is at 3/32 😀 and the shop says new ones now. True?"
BULGE = "There is a bulge in the sidewall, can I still drive to work?"
COLD = "35 psi at 68F in the garage, it is 10F outside now. What will it read?"
OPEN = "how low can my tread go before I need new tires?"
PRAISE = "Great video, thank you!"
MARKUP = "<b>5/32</b> &amp; <img src='/etc/passwd'> {{7*7}} =1+1 \u202eleft\u202c is it ok?"


def questions(*texts: str) -> tuple[Question, ...]:
    return tuple(Question(id=f"q{number}", text=text) for number, text in enumerate(texts, start=1))


EPISODE = Episode(title="Comments", on=DAY, questions=questions(DEPTH, PRAISE, COLD, BULGE, OPEN))


@pytest.fixture
def place_of(qtbot, workshop_of):
    def make(episode: Episode = EPISODE) -> QuestionsPlace:
        place = QuestionsPlace(workshop_of(episode))
        qtbot.addWidget(place, before_close_func=lambda place: settle(qtbot, place))
        place.resize(1080, 690)
        place.show()
        place.activateWindow()
        qtbot.waitUntil(place.isActiveWindow, timeout=60_000)
        place.take_focus()
        settle(qtbot, place)
        return place

    return make


def settle(qtbot, place: QuestionsPlace) -> None:
    def is_settled() -> bool:
        now = place.deeds.current()
        shown = now is None or place.sheet.holds(now[1])
        return shown and place.reader.is_at_rest and not place.intake.is_busy

    qtbot.waitUntil(is_settled, timeout=60_000)


def chosen(qtbot, place: QuestionsPlace, text: str) -> None:
    place.show_target(next(its.id for its in place.document.episode.questions if its.text == text))
    settle(qtbot, place)


def held(place: QuestionsPlace, text: str) -> Question:
    return next(its for its in place.document.episode.questions if its.text == text)


def listed(place: QuestionsPlace) -> list[str]:
    model = place.list.questions_model
    return [model.row(row)[0].text for row in range(model.rowCount())]


# Comments in


def test_an_empty_place_teaches_and_takes_a_pasted_comment_without_names(place_of, qtbot) -> None:
    place = place_of(replace(EPISODE, questions=()))
    assert place.state_line() == "none yet" and place.start_entry.hasFocus()
    QGuiApplication.clipboard().setText("Hi Tom, @driver77 said 4/32 is fine, see www.example.com. Is it? mail a@b.de")
    qtbot.keyClick(place.start_entry, Qt.Key.Key_V, Qt.KeyboardModifier.ControlModifier)
    qtbot.waitUntil(lambda: len(place.document.episode.questions) == 1, timeout=60_000)
    settle(qtbot, place)
    kept = place.document.episode.questions[0].text
    assert "4/32" in kept and not any(word in kept for word in ("Tom", "driver77", "example", "a@b"))
    assert "left out:" in place._message.text() and "1 mail" in place._message.text()
    assert place.document.undo_stack.undoText() == "Take in a comment"
    place.document.undo_stack.undo()
    assert place.document.episode.questions == ()


def test_a_million_characters_are_bounded_and_that_is_said(place_of, qtbot) -> None:
    place = place_of()
    place.intake.take_comment("is 5/32 enough? " * 62_500)
    qtbot.waitUntil(lambda: len(place.document.episode.questions) == 6, timeout=60_000)
    settle(qtbot, place)
    assert len(place.document.episode.questions[-1].text) <= 10_000
    assert "990,000 characters beyond the first 10,000" in place._message.text()


def test_the_same_question_again_is_counted_and_chosen(place_of, qtbot) -> None:
    place = place_of()
    place.intake.take_comment(COLD.upper())
    qtbot.waitUntil(lambda: held(place, COLD).asked == 2, timeout=60_000)
    assert place.deeds.current()[1].text == COLD and "Asked before" in place._message.text()


def test_a_table_is_imported_with_broken_rows_and_without_authors(place_of, qtbot, tmp_path: Path) -> None:
    place = place_of(replace(EPISODE, questions=()))
    rows = ["author,comment,date", 'Ann Example,"is 3/32 legal?",2026-10-01', f'Bo,"{MARKUP}",2026-10-02']
    rows += ['Cy,"never closed 4/32 ok?,2026-10-03', "Di,=HYPERLINK(1),2026-10-04", "Ed,nice video,2026-10-05"]
    path = tmp_path / "comments.csv"
    path.write_text("\n".join(rows), encoding="utf-8")
    place.intake.take_comments(path)
    qtbot.waitUntil(lambda: bool(place.document.episode.questions), timeout=60_000)
    settle(qtbot, place)
    texts = [its.text for its in place.document.episode.questions]
    assert len(texts) == 5 and not any("Example" in text for text in texts)
    assert any("{{7*7}} =1+1" in text for text in texts) and any("never closed 4/32" in text for text in texts)
    assert "5 comments read" in place._message.text() and "author" in place._message.text()
    assert place.document.undo_stack.count() == 1


def test_rows_in_doubt_are_shown_with_their_lines_until_put_away(place_of, qtbot, tmp_path: Path) -> None:
    place = place_of(replace(EPISODE, questions=()))
    rows = ["author,comment", 'Cy,"never closed 4/32 ok?', "a lonely half sentence"]
    rows += ["Di,is 5/32, ok?", "Ed,is 6/32 ok?"]
    path = tmp_path / "comments.csv"
    path.write_text("\n".join([*rows, "no author here 7/32"]), encoding="utf-8")
    place.intake.take_comments(path)
    qtbot.waitUntil(lambda: bool(place.document.episode.questions), timeout=60_000)
    settle(qtbot, place)
    doubts = place.doubts
    assert doubts.isVisible() and not doubts.rows.isVisible()
    assert "1 row has a quotation mark that never closes: line 2." in doubts._said.text().splitlines()
    qtbot.mouseClick(doubts.turn_button, Qt.MouseButton.LeftButton)
    shown = doubts.rows.toPlainText()
    assert doubts.rows.isVisible() and shown.index("Line 2: ") < shown.index("Line 4: ") < shown.index("Line 6: ")
    assert "no author here 7/32" in shown and "Paste it above" in shown.split("Line 6: ")[1]
    assert [its.text for its in place.document.episode.questions] == [
        "never closed 4/32 ok?\na lonely half sentence", "is 5/32, ok?", "is 6/32 ok?",
    ]  # fmt: skip
    qtbot.mouseClick(doubts.away, Qt.MouseButton.LeftButton)
    assert not doubts.isVisible()


def test_a_stopped_import_takes_in_nothing(place_of, qtbot, tmp_path: Path) -> None:
    place = place_of(replace(EPISODE, questions=()))
    path = tmp_path / "many.csv"
    rows = [f"is {n} psi ok for a van of {n} kg?" for n in range(4000)]
    path.write_text("\n".join(["comment", *rows]), encoding="utf-8")
    place.intake.take_comments(path)
    qtbot.waitUntil(lambda: "of 4,000" in place._message.text(), timeout=60_000)
    place.workshop.jobs.stop()
    qtbot.waitUntil(lambda: "Stopped" in place._message.text(), timeout=60_000)
    assert not place.intake.is_busy and place.document.episode.questions == ()
    assert multiprocessing.active_children() == []


def test_a_file_that_is_no_table_is_told_and_nothing_changes(place_of, qtbot, tmp_path: Path, answers) -> None:
    place = place_of()
    path = tmp_path / "comments.csv"
    path.write_bytes(b"PK\x03\x04rest of a spreadsheet")
    place.intake.take_comments(path)
    qtbot.waitUntil(lambda: bool(answers.asked), timeout=60_000)
    assert "save it as CSV" in place._message.text() and place.document.episode == EPISODE


# The list


def test_urgent_stands_first_and_filters_and_orders_hold(place_of, qtbot) -> None:
    place = place_of()
    assert listed(place)[0] == BULGE and place.deeds.current()[1].text == BULGE and listed(place)[-1] in (PRAISE, OPEN)
    assert place.state_line() == "5 open, 1 urgent"
    place.bar.which.setCurrentIndex(place.bar.which.findData("urgent"))
    assert listed(place) == [BULGE]
    place.bar.which.setCurrentIndex(place.bar.which.findData("all"))
    place.bar.kind.setCurrentIndex(place.bar.kind.findData("pressure"))
    assert listed(place) == [COLD]


def test_each_row_says_sign_and_words_to_assistive_technology(place_of) -> None:
    place = place_of()
    spoken = place.list.questions_model.index(0).data(Qt.ItemDataRole.AccessibleTextRole)
    assert spoken.startswith("urgent · damage") and "bulge" in spoken


# One question


def test_readings_are_marked_where_they_stand_also_after_an_emoji(place_of, qtbot) -> None:
    place = place_of(replace(EPISODE, questions=questions("😀😀 rear left 5/32, is it ok?")))
    assert ("depth", "5/32") in place.sheet.comment.marks()


def test_markup_is_shown_as_it_is_written(place_of, qtbot) -> None:
    place = place_of(replace(EPISODE, questions=questions(MARKUP)))
    assert place.sheet.comment.toPlainText() == MARKUP
    assert "<b>5/32</b>" in listed(place)[0]


def test_answer_numbers_in_both_units_working_source_and_caution(place_of, qtbot) -> None:
    """3/32 in = 2.38 mm (x 25.4 / 32); 49 CFR 570.9(a) asks for 2/32 in."""
    place = place_of()
    chosen(qtbot, place, DEPTH)
    told = place.sheet.answer.texts()
    assert "3/32 in" in told and "2.4 mm" in told and "49 CFR 570.9" in told and "published" in told
    assert "Worn tread" in place.sheet.caution() and place.sheet._caution.isVisible()


def test_what_is_missing_is_asked_for(place_of, qtbot) -> None:
    place = place_of(replace(EPISODE, questions=questions("I set 35 psi in the warm garage, do I have a leak?")))
    assert "How cold is it now" in place.sheet.answer.texts()


def test_a_fact_is_set_right_in_place_and_can_be_undone(place_of, qtbot) -> None:
    """4 mm = 5.04/32 in."""
    place = place_of()
    chosen(qtbot, place, DEPTH)
    field = place.sheet.facts.fields["depth"]
    field.setFocus()
    field.selectAll()
    qtbot.keyClicks(field, "4 mm")
    qtbot.keyClick(field, Qt.Key.Key_Return)
    settle(qtbot, place)
    assert [(its.field, its.value) for its in held(place, DEPTH).corrected] == [("depth", "4 mm")]
    assert "4.0 mm" in place.sheet.answer.texts() and "5/32 in" in place.sheet.answer.texts()
    place.document.undo_stack.undo()
    settle(qtbot, place)
    assert held(place, DEPTH).corrected == () and "3/32 in" in place.sheet.answer.texts()


def test_what_cannot_be_read_is_refused_with_an_example_and_stays(place_of, qtbot) -> None:
    place = place_of()
    chosen(qtbot, place, DEPTH)
    field = place.sheet.facts.fields["depth"]
    field.setText("")
    qtbot.keyClicks(field, "about half")
    qtbot.keyClick(field, Qt.Key.Key_Return)
    assert field.problem and field.text() == "about half" and held(place, DEPTH).corrected == ()


def test_emptying_a_fact_drops_it_and_a_fact_can_be_added(place_of, qtbot) -> None:
    place = place_of()
    chosen(qtbot, place, DEPTH)
    field = place.sheet.facts.fields["depth"]
    field.setFocus()
    field.clear()
    field.textEdited.emit("")
    field.commit()
    settle(qtbot, place)
    assert [(its.field, its.value) for its in held(place, DEPTH).corrected] == [("depth", "")]
    place.sheet.facts.add_fact("drivetrain")
    added = place.sheet.facts.fields["drivetrain"]
    qtbot.keyClicks(added, "awd")
    qtbot.keyClick(added, Qt.Key.Key_Return)
    assert "expected one of front, rear, all" in added.problem
    added.clear()
    qtbot.keyClicks(added, "all")
    qtbot.keyClick(added, Qt.Key.Key_Return)
    assert held(place, DEPTH).corrected[-1].value == "all"


def test_a_focused_fact_is_set_off_in_the_comment(place_of, qtbot) -> None:
    place = place_of()
    chosen(qtbot, place, DEPTH)
    place.sheet.facts.focus_fact("depth")
    marked = [its for its in place.sheet.comment.extraSelections() if its.format.background().color().alpha() == 255]
    assert [its.cursor.selectedText() for its in marked if its.format.fontWeight() > 500] == ["3/32"]


# The reply


def test_tone_and_length_word_the_computed_reply(place_of, qtbot) -> None:
    place = place_of()
    chosen(qtbot, place, DEPTH)
    full = place.sheet.reply.edit.toPlainText()
    place.sheet.reply.length.setCurrentIndex(1)
    place.sheet.reply.tone.setCurrentIndex(1)
    short = place.sheet.reply.edit.toPlainText()
    assert len(short) < len(full) and short.startswith("Thanks for asking") and "Worn tread" in short
    assert held(place, DEPTH).reply == ""


def test_typing_is_one_step_a_thought_and_undo_gives_the_computed_reply_back(place_of, qtbot) -> None:
    place = place_of()
    chosen(qtbot, place, DEPTH)
    computed = place.sheet.reply.edit.toPlainText()
    place.sheet.reply.edit.setFocus()
    qtbot.keyClicks(place.sheet.reply.edit, "Hello. ")
    assert held(place, DEPTH).reply.startswith("Hello. ") and place.document.undo_stack.count() == 1
    qtbot.keyClick(place.sheet.reply.edit, Qt.Key.Key_Return)
    qtbot.keyClicks(place.sheet.reply.edit, "Well")
    assert place.document.undo_stack.count() == 2
    place.document.undo_stack.undo()
    place.document.undo_stack.undo()
    settle(qtbot, place)
    assert place.sheet.reply.edit.toPlainText() == computed and held(place, DEPTH).reply == ""


def test_wrong_numbers_of_an_edited_reply_are_marked_with_sign_and_word(place_of, qtbot) -> None:
    """3/32 in is 2.38 mm, not 5 mm; nothing backs 9/32 in."""
    place = place_of()
    chosen(qtbot, place, DEPTH)
    place.sheet.reply.edit.setPlainText("Your 3/32 in (5 mm) is legal. New ones have 9/32 in.")
    settle(qtbot, place)
    told = place.sheet.reply.told()
    assert any(line.startswith("not equal") and "2.4 mm" in line for line in told)
    assert any("9/32" in line for line in told)
    assert len(place.sheet.reply.edit.extraSelections()) == len(place.sheet.reply.marks) == len(told)


def test_the_computed_reply_with_a_greeting_has_no_mark(place_of, qtbot) -> None:
    place = place_of()
    for text in (DEPTH, COLD, BULGE):
        chosen(qtbot, place, text)
        computed = place.sheet.reply.edit.toPlainText()
        place.sheet.reply.edit.setPlainText(f"Hi there.\n\n{computed}")
        settle(qtbot, place)
        assert place.sheet.reply.told() == [], text


def test_the_reply_is_copied_and_kept_when_it_is_answered(place_of, qtbot) -> None:
    place = place_of()
    chosen(qtbot, place, DEPTH)
    place.deeds.copy_reply()
    text = place.sheet.reply.edit.toPlainText()
    assert QGuiApplication.clipboard().text() == text
    place.deeds.mark_answered()
    kept = held(place, DEPTH)
    assert (kept.state, kept.reply) == ("answered", text) and kept.answered_on is not None
    assert DEPTH not in listed(place) and place.state_line() == "4 open, 1 urgent"
    place.document.undo_stack.undo()
    assert held(place, DEPTH).state == "open" and held(place, DEPTH).reply == ""


def test_similar_answered_ones_are_shown_with_their_reply(place_of, qtbot, tmp_path, answers) -> None:
    old = Question(id="old", text="is 3/32 on the rear left really the end?", state="answered", reply="Our old reply.")
    place = place_of(replace(EPISODE, questions=(*EPISODE.questions, old)))
    chosen(qtbot, place, DEPTH)
    place.list.setCurrentIndex(place.list.questions_model.index(0))
    chosen(qtbot, place, DEPTH)
    assert any("really the end" in line for line in place.sheet.near.texts())
    place.sheet.near.use(0)
    assert held(place, DEPTH).reply == "Our old reply."


def test_a_folder_of_episodes_is_looked_through(place_of, qtbot, tmp_path, answers) -> None:
    from studio.storage.episode_file import save

    other = Question(id="x", text=DEPTH.replace("True?", "Is that so?"), state="answered", reply="From last week.")
    save(tmp_path / "last_week.json", replace(EPISODE, questions=(other,)))
    (tmp_path / "broken.json").write_text("{", encoding="utf-8")
    place = place_of()
    chosen(qtbot, place, DEPTH)
    answers.queue.append(tmp_path)
    place.look_through()
    qtbot.waitUntil(lambda: "answered question" in place._message.text(), timeout=60_000)
    settle(qtbot, place)
    assert "broken.json" in place._message.text()
    qtbot.waitUntil(lambda: any("last_week.json" in line for line in place.sheet.near.texts()), timeout=60_000)


def test_a_segment_is_made_with_picture_and_settled_numbers(place_of, qtbot) -> None:
    from studio.script.check import check_script

    place = place_of()
    chosen(qtbot, place, DEPTH)
    place.deeds.make_segment()
    document = place.document
    segment = document.episode.rundown.segments[-1]
    assert "3/32" in segment.title and segment.pictures[0].picture == "answer"
    assert any("3/32 in (2.4 mm)" in point.text for point in segment.points)
    assert any("Worn tread" in point.text for point in segment.points)
    check = check_script(document.episode, document.findings, document.tables)
    assert check.standing == () and not [its for its in check.statements if not its.dismissed]
    document.undo_stack.undo()
    assert document.episode == EPISODE


def test_an_edit_elsewhere_and_its_undo_come_to_the_question(window_of, qtbot) -> None:
    window = window_of(EPISODE)
    place = window.places["questions"]
    window.show_place("questions")
    chosen(qtbot, place, BULGE)
    qtbot.waitUntil(lambda: bool(place.list.chosen_places()))
    place.deeds.set_aside()
    assert held(place, BULGE).state == "set_aside"
    window.show_place("car")
    window.document.undo_stack.undo()
    assert window.current is place and place.deeds.current()[1].text == BULGE


def test_find_comes_to_words_of_a_comment_or_a_reply(place_of, qtbot) -> None:
    place = place_of()
    assert place.find_text("GARAGE") and place.deeds.current()[1].text == COLD
    assert not place.find_text("no such words")


def test_a_whole_round_by_keys(window_of, qtbot) -> None:
    window = window_of(replace(EPISODE, questions=questions(DEPTH, COLD)))
    place = window.places["questions"]
    window.show_place("questions")
    settle(qtbot, place)
    assert place.list.hasFocus()
    qtbot.keyClick(place.list, Qt.Key.Key_Down)
    settle(qtbot, place)
    text = place.deeds.current()[1].text
    qtbot.keyClick(place.list, Qt.Key.Key_Return)
    assert place.sheet.reply.edit.hasFocus()
    qtbot.keyClicks(place.sheet.reply.edit, "Hi! ")
    both = Qt.KeyboardModifier.ControlModifier | Qt.KeyboardModifier.ShiftModifier
    qtbot.keyClick(place.sheet.reply.edit, Qt.Key.Key_C, both)
    assert QGuiApplication.clipboard().text().startswith("Hi! ")
    qtbot.keyClick(place.sheet.reply.edit, Qt.Key.Key_D, Qt.KeyboardModifier.ControlModifier)
    assert held(place, text).state == "answered" and held(place, text).reply.startswith("Hi! ")


def test_a_dropped_table_goes_to_the_place(window_of, qtbot, tmp_path) -> None:
    from studio.window.drops import dropped

    path = tmp_path / "week.csv"
    with path.open("w", newline="", encoding="utf-8") as stream:
        csv.writer(stream).writerows([["comment"], *[[f"is {n}/32 still legal?"] for n in range(1, 9)]])
    window = window_of(replace(EPISODE, questions=()))
    window.take_dropped(dropped([path]))
    qtbot.waitUntil(lambda: len(window.document.episode.questions) == 8, timeout=60_000)
    assert window.current.key == "questions"


def test_a_question_is_chosen_also_while_ctrl_is_held(place_of, qtbot) -> None:
    """As after Ctrl+5, which leads here: what is at hand is what the next deed is about."""
    place = place_of()
    qtbot.keyPress(place.list, Qt.Key.Key_Control, Qt.KeyboardModifier.ControlModifier)
    try:
        chosen(qtbot, place, COLD)
        assert [place.document.episode.questions[at].text for at in place.list.chosen_places()] == [COLD]
    finally:
        qtbot.keyRelease(place.list, Qt.Key.Key_Control)
