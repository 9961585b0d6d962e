"""Damage is stated when its kind is chosen: the row before that is no finding, no change and no step of undo."""

from PySide6.QtCore import Qt
from PySide6.QtWidgets import QPushButton

from studio.model.specimen import Damage
from studio.storage.episode_file import decode, encode
from studio.window.fields import TextField
from studio.window.value_fields import ChoiceField, QuantityField
from tests.window.helpers import five_tires, focused, press, reading, type_keys, with_reading


def begun(window_of):
    """A tire that was measured, and a row of damage just added."""
    window = window_of(with_reading(five_tires(), 0, reading((7.0, 7.0))))
    window.current.show_target("specimens[0].readings[0].depths[0][0]")
    next(its for its in window.current.findChildren(QPushButton) if its.text() == "Add damage").click()
    return window


def field(window, kind, part):
    return next(its for its in window.current.findChildren(kind)
                if its.path.endswith(f".damage[0].{part}") and its.isVisible())  # fmt: skip


def test_a_new_row_says_nothing_and_has_the_keys(window_of):
    window = begun(window_of)
    kind = focused()
    assert isinstance(kind, ChoiceField)
    assert (kind.path, kind.currentText(), kind.placeholderText()) == (
        "specimens[0].readings[0].damage[0].kind", "", "choose",
    )  # fmt: skip
    assert window.document.episode.specimens[0].readings[0].damage == ()
    assert not window.document.undo_stack.canUndo() and window.document.is_clean
    found = window.document.findings.get("condition.front_left")
    assert found is None or found.verdict == "keep"


def test_choosing_the_kind_states_it_and_one_undo_takes_it_back(window_of):
    window = begun(window_of)
    type_keys("nail")
    (damage,) = window.document.episode.specimens[0].readings[0].damage
    assert damage == Damage(kind="puncture")
    assert window.document.findings.get("condition.front_left").verdict != "keep"
    assert window.document.undo_stack.count() == 1
    press(Qt.Key.Key_Z, Qt.KeyboardModifier.ControlModifier)
    assert window.document.episode.specimens[0].readings[0].damage == ()
    assert not any(its.path.endswith("damage[0].kind") and its.isVisible()
                   for its in window.current.findChildren(ChoiceField))  # fmt: skip


def test_what_is_noted_before_the_kind_is_chosen_is_kept_and_goes_in_with_it(window_of):
    window = begun(window_of)
    kind = focused()
    size = field(window, QuantityField, "size")
    size.setFocus()
    type_keys("5 mm")
    press(Qt.Key.Key_Return)
    field(window, TextField, "note").setFocus()
    type_keys("a shiny head")
    assert not window.document.undo_stack.canUndo()
    window.current.show_target("specimens[1].marking")
    window.current.show_target("specimens[0].readings[0].depths[0][0]")
    assert field(window, TextField, "note").text() == "a shiny head"
    kind = field(window, ChoiceField, "kind")
    kind.setFocus()
    type_keys("bulge")
    (damage,) = window.document.episode.specimens[0].readings[0].damage
    assert (damage.kind, damage.note, damage.size.text()) == ("bulge", "a shiny head", "5 mm")
    assert decode(encode(window.document.episode)) == window.document.episode


def test_an_undecided_row_can_be_removed_again(window_of):
    window = begun(window_of)
    next(its for its in window.current.findChildren(QPushButton) if its.accessibleName() == "Remove damage 1").click()
    assert not any(its.path.endswith("damage[0].kind") and its.isVisible()
                   for its in window.current.findChildren(ChoiceField))  # fmt: skip


def test_the_kinds_are_named_as_a_person_would_look_for_them(window_of):
    window = begun(window_of)
    kind, zone = focused(), field(window, ChoiceField, "zone")
    assert "nail or screw (puncture)" in [kind.itemText(row) for row in range(kind.count())]
    assert "tread (crown)" in [zone.itemText(row) for row in range(zone.count())]
