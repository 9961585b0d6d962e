"""The way back by keys alone: no editor of the window keeps the undo keys to itself, and the menu says what they do."""

import ast
import importlib
import pkgutil
from pathlib import Path

from msgspec.structs import replace
from PySide6.QtCore import Qt
from PySide6.QtGui import QGuiApplication, QKeySequence
from PySide6.QtTest import QTest
from PySide6.QtWidgets import (
    QAbstractSpinBox,
    QApplication,
    QComboBox,
    QLineEdit,
    QPlainTextEdit,
    QPushButton,
    QTextEdit,
)

import studio.window
from studio.window.fields import Field, ValueField
from studio.window.questions_bar import CommentEntry
from studio.window.questions_reply_edit import ReplyEdit
from studio.window.reading_grid import DepthCell
from studio.window.rundown_editor import PointsEditor
from studio.window.undo_keys import UndoKeys
from studio.window.value_fields import ChoiceField, NoteField
from tests.window.helpers import five_tires, focused, press, type_keys
from tests.window.rundown_samples import three

EDITORS = (QLineEdit, QPlainTextEdit, QTextEdit, QAbstractSpinBox)
CTRL, SHIFT = Qt.KeyboardModifier.ControlModifier, Qt.KeyboardModifier.ShiftModifier
MOST_PRESSES = 400


def undo_key() -> None:
    press(Qt.Key.Key_Z, CTRL)
    QApplication.processEvents()


def redo_key() -> None:
    """The first key that the platform has for it."""
    combination = QKeySequence.keyBindings(QKeySequence.StandardKey.Redo)[0][0]
    QTest.keyClick(focused(), combination.key(), combination.keyboardModifiers())
    QApplication.processEvents()


def says_the_stack(window) -> bool:
    """Whether menu entries and stack are of one word."""
    stack, actions = window.document.undo_stack, window.actions_by_name
    words = {"undo": stack.undoText(), "redo": stack.redoText()}
    able = {"undo": stack.canUndo(), "redo": stack.canRedo()}
    return all(
        actions[name].isEnabled() == able[name]
        and actions[name].text().replace("&", "") == f"{name.capitalize()}{': ' + words[name] if words[name] else ''}"
        for name in ("undo", "redo")
    )


def shown(window, kind, **parts):
    """The editor of this kind in the place that is open."""
    return next(
        its for its in window.current.findChildren(kind)
        if its.isVisible() and all(getattr(its, key) == value for key, value in parts.items())
    )  # fmt: skip


def classes_of_the_window():
    for module in pkgutil.iter_modules(studio.window.__path__):
        for its in vars(importlib.import_module(f"studio.window.{module.name}")).values():
            if isinstance(its, type) and its.__module__ == f"studio.window.{module.name}":
                yield its


def test_every_editor_that_the_window_defines_leaves_the_undo_keys_to_the_document():
    editors = {its for its in classes_of_the_window() if issubclass(its, EDITORS)}
    assert {Field, NoteField, CommentEntry, ReplyEdit, PointsEditor, DepthCell} <= editors
    assert [its.__name__ for its in editors if not issubclass(its, UndoKeys)] == []
    assert [its.__name__ for its in editors if "event" in vars(its)] in ([], ["CommentView"])  # its tool tips


def test_no_module_of_the_window_makes_an_editor_of_qts_own():
    names = {"QLineEdit", "QPlainTextEdit", "QTextEdit", "QTextBrowser", "QSpinBox", "QDoubleSpinBox", "QDateEdit",
             "QTimeEdit", "QDateTimeEdit", "QFontComboBox", "QKeySequenceEdit"}  # fmt: skip
    made = []
    for path in sorted(Path(studio.window.__path__[0]).glob("*.py")):
        for node in ast.walk(ast.parse(path.read_text(encoding="utf-8"))):
            if isinstance(node, ast.Call) and isinstance(node.func, ast.Name) and node.func.id in names:
                made.append(f"{path.name}:{node.lineno}")
    assert made == []


def test_every_editor_in_the_six_places_takes_part(window_of):
    window = window_of(three())
    for key in window.places:
        window.show_place(key)
        QApplication.processEvents()
    found = [its for kind in EDITORS for its in window.findChildren(kind)]
    assert len(found) > 40
    assert [f"{type(its).__name__} in {type(its.parent()).__name__}" for its in found
            if not isinstance(its, UndoKeys)] == []  # fmt: skip
    assert not any(box.isEditable() for box in window.findChildren(QComboBox))


def test_an_evening_goes_back_to_the_very_start_by_keys_alone_and_on_again_to_its_end(window_of, qtbot):
    window = window_of(replace(five_tires(), rundown=three().rundown))
    document, start = window.document, window.document.episode

    def enter(kind, text, **parts):
        editor = shown(window, kind, **parts)
        editor.setFocus()
        type_keys(text)
        if isinstance(editor, ValueField):
            press(Qt.Key.Key_Return)

    press(Qt.Key.Key_M, CTRL)
    for depth in ("5", "6", "4 mm"):
        type_keys(depth)
        press(Qt.Key.Key_Return)
    enter(Field, "225/55R18 98V", path="specimens[0].marking")
    enter(Field, "33", path="specimens[0].readings[0].pressure.pressure")
    enter(NoteField, "Read in the dark", path="specimens[0].readings[0].note")
    next(its for its in window.current.findChildren(QPushButton) if its.text() == "Add damage").click()
    choice = next(its for its in window.current.findChildren(ChoiceField) if its.path.endswith("damage[0].kind"))
    choice.setFocus()
    press(Qt.Key.Key_End)
    enter(Field, "near the edge", path="specimens[0].readings[0].damage[0].note")
    window.current.show_target("story")
    enter(NoteField, "We drove home in the rain.", path="story")
    enter(Field, "Autumn", path="title")
    window.show_place("rundown")
    rundown = window.places["rundown"]
    rundown.list.choose(0)
    rundown.sheet.title.setFocus()
    type_keys("One screw")
    rundown.sheet.editor.setFocus()
    type_keys("Here it is. ")
    press(Qt.Key.Key_Return)
    type_keys("And here the other one")
    window.show_place("questions")
    for comment in ("Is 3/32 too low for the rain?", "Why is 35 psi on the door and 51 on the tire?"):
        QGuiApplication.clipboard().setText(comment)
        shown(window, CommentEntry).setFocus()
        press(Qt.Key.Key_V, CTRL)
        qtbot.waitUntil(lambda c=comment: any(q.text == c for q in document.episode.questions), timeout=60_000)
    shown(window, CommentEntry).setFocus()
    type_keys("half a thought")
    end = document.episode
    assert says_the_stack(window)
    presses = 0
    while document.episode != start:
        assert presses < MOST_PRESSES, f"the keys end in {focused()} at {document.undo_stack.undoText()!r}"
        undo_key()
        presses += 1
        assert says_the_stack(window)
    assert not document.undo_stack.canUndo()
    while document.undo_stack.canRedo():
        assert presses < 2 * MOST_PRESSES, f"the keys end in {focused()} at {document.undo_stack.redoText()!r}"
        redo_key()
        presses += 1
        assert says_the_stack(window)
    assert document.episode == end


def test_redo_is_there_after_exactly_one_undo(window_of):
    window = window_of(five_tires())
    press(Qt.Key.Key_M, CTRL)
    for depth in ("5", "6", "7"):
        type_keys(depth)
        press(Qt.Key.Key_Return)
        assert says_the_stack(window)
    end = window.document.episode
    undo_key()
    assert says_the_stack(window) and window.document.episode != end
    redo_key()
    assert window.document.episode == end
    assert says_the_stack(window)


def test_typing_that_is_not_taken_in_is_taken_back_first_and_can_be_typed_again(window_of):
    window = window_of(five_tires())
    press(Qt.Key.Key_M, CTRL)
    type_keys("5")
    press(Qt.Key.Key_Return)
    taken = window.document.episode
    type_keys("66")
    cell = focused()
    undo_key()
    assert (focused(), cell.text(), window.document.episode) == (cell, "", taken)
    redo_key()
    assert (cell.text(), window.document.episode) == ("66", taken)
    undo_key()
    undo_key()
    assert window.document.episode == five_tires()


def test_a_comment_given_up_by_escape_can_be_taken_back(window_of):
    window = window_of(five_tires())
    window.show_place("questions")
    entry = focused()
    assert isinstance(entry, CommentEntry)
    type_keys("Is 4/32 enough?")
    press(Qt.Key.Key_Escape)
    assert entry.toPlainText() == ""
    undo_key()
    assert entry.toPlainText() == "Is 4/32 enough?"


def test_what_is_looked_for_goes_back_before_the_episode_does(window_of):
    window = window_of(five_tires())
    press(Qt.Key.Key_M, CTRL)
    type_keys("5")
    press(Qt.Key.Key_Return)
    window.run_command("find")
    type_keys("rain")
    while window.find_bar.field.text():
        undo_key()
    assert window.document.undo_stack.canUndo()
    undo_key()
    assert window.document.episode == five_tires()
