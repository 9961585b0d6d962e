"""Everybody can reach everything: names, buddies, reading order, large text, plain text (D19-D22, section 6)."""

import itertools

import pytest
from msgspec.structs import replace
from PySide6.QtCore import QPoint, Qt
from PySide6.QtGui import QAccessible
from PySide6.QtWidgets import (
    QAbstractButton,
    QAbstractScrollArea,
    QAbstractSpinBox,
    QApplication,
    QComboBox,
    QLabel,
    QLineEdit,
    QMessageBox,
    QPlainTextEdit,
    QWidget,
)

from studio.graphics.color import contrast
from studio.model.car import RotationDone
from studio.model.specimen import Damage
from studio.window.dialogs import _box
from studio.window.form_parts import FieldBox
from studio.window.labels import button_text, plain_tooltip
from studio.window.reading_grid import ReadingGrid
from tests.window.helpers import DAY, five_tires, reading, with_reading

HOSTILE = "<b>bold</b> & <img src='/etc/passwd'> &amp;"
FORMS = ("form", "unfolded")
FIELDS = (QLineEdit, QComboBox, QPlainTextEdit, QAbstractSpinBox)


def full_episode():
    """An episode in which every kind of field of the place is there."""
    episode = with_reading(
        five_tires(), 0, reading((8.0, 7.0), (6.0, 5.0), damage=(Damage(kind="cut"),), note=HOSTILE)
    )
    car = replace(episode.car, rotations=(RotationDone(on=DAY),))
    return replace(episode, car=car)


def show_form(place, view: str) -> None:
    """The car's form, its folded parts open where ``view`` says so."""
    place.show_car()
    if view == "unfolded":
        for fold in place.form.folds:
            fold.unfold()


def focusable(root: QWidget) -> list[QWidget]:
    return [
        widget for widget in root.findChildren(QWidget)
        if widget.focusPolicy() & Qt.FocusPolicy.TabFocus and widget.isVisible() and widget.isEnabled()
    ]  # fmt: skip


@pytest.mark.parametrize("view", ["sheet", "form", "unfolded", "start"])
def test_every_focusable_control_has_a_name_and_every_field_a_label(window_of, view):
    window = window_of(full_episode())
    place = window.places["car"]
    if view in FORMS:
        show_form(place, view)
    elif view == "start":
        place._show_free_place("spare")
    QApplication.processEvents()
    seen = focusable(window.centralWidget())
    assert len(seen) > 10
    for widget in seen:
        interface = QAccessible.queryAccessibleInterface(widget)
        name = interface.text(QAccessible.Text.Name)
        assert name.strip(), f"{type(widget).__name__} in {type(widget.parent()).__name__} has no name"
    buddies = {label.buddy() for label in window.centralWidget().findChildren(QLabel) if label.buddy() is not None}
    for widget in seen:
        if isinstance(widget, FIELDS) and not isinstance(widget.parent(), ReadingGrid):
            in_placard = widget.accessibleName().startswith("Placard")
            assert widget in buddies or in_placard, f"{widget.accessibleName()} has no label"


@pytest.mark.parametrize("view", ["sheet", "form", "unfolded"])
def test_tab_goes_in_reading_order(window_of, view):
    window = window_of(full_episode(), (1400, 900))
    place = window.places["car"]
    if view in FORMS:
        show_form(place, view)
    QApplication.processEvents()
    area = place.form if view in FORMS else place.sheet
    chain, widget = [], area.widget()
    for _ in range(400):
        widget = widget.nextInFocusChain()
        if area.widget().isAncestorOf(widget) and widget in focusable(area) and widget not in chain:
            chain.append(widget)
    assert len(chain) > 15
    origin = area.widget()

    def line_and_left(each: QWidget) -> tuple[int, int]:
        corner = each.mapTo(origin, QPoint(0, 0))
        return corner.y() + each.height() // 2, corner.x()

    for one, other in itertools.pairwise(chain):
        (y1, x1), (y2, x2) = line_and_left(one), line_and_left(other)
        below = y2 > y1 + 6
        beside = abs(y2 - y1) <= 24 and x2 > x1
        assert below or beside, f"{one.accessibleName()} -> {other.accessibleName()}"


@pytest.mark.parametrize("percent", [100, 200])
@pytest.mark.parametrize("view", ["plan", "sheet", "form", "unfolded"])
def test_nothing_is_cut_at_1280_by_720_in_any_text_size(window_of, percent, view):
    window = window_of(full_episode(), (1280, 692))
    window.appearance.set_percent(percent)
    place = window.places["car"]
    if view == "sheet":
        place.show_tire(0)
    elif view in FORMS:
        show_form(place, view)
    for _ in range(5):
        QApplication.processEvents()
    assert window.width() == 1280
    checked = 0
    for widget in window.centralWidget().findChildren(QWidget):
        if not widget.isVisible() or not isinstance(widget, (QAbstractButton, QLabel, *FIELDS, FieldBox)):
            continue
        if isinstance(widget.parent(), ReadingGrid) and isinstance(widget, QLineEdit):
            needed = widget.minimumSizeHint()
        elif isinstance(widget, QLabel) and (widget.wordWrap() or widget.property("elided")):
            continue  # it wraps to any width, or is made to end in an ellipsis
        else:
            needed = widget.minimumSizeHint()
        assert widget.width() >= needed.width() and widget.height() >= needed.height() - 1, (
            f"{type(widget).__name__} {widget.accessibleName()!r} is {widget.size()}, needs {needed}"
        )
        checked += 1
    assert checked > 8
    for area in place.findChildren(QAbstractScrollArea):
        if area.isVisible() and area in (place.form, place.sheet, place._plan_area):
            assert area.horizontalScrollBar().maximum() == 0, f"{type(area).__name__} is cut at its right"


def test_text_from_outside_is_shown_as_it_is(window_of):
    episode = replace(full_episode(), title=HOSTILE, car=replace(five_tires().car, name=HOSTILE))
    bench = replace(episode.specimens[0], name=HOSTILE, place="bench", note=HOSTILE)
    window = window_of(replace(episode, specimens=(bench, *episode.specimens[1:])))
    for key in window.places:
        window.show_place(key)
        QApplication.processEvents()
    for label in window.findChildren(QLabel):
        if label.text():
            assert label.textFormat() == Qt.TextFormat.PlainText or "<" not in label.text(), label.text()
    assert window.places["car"]._name.text().startswith("<b>bold</b>")
    assert window.places["car"].plan.tag_of(0).state.title == HOSTILE


def test_boxes_tooltips_and_buttons_show_text_as_it_is(qtbot):
    box = _box(None, "Title", HOSTILE, HOSTILE)
    qtbot.addWidget(box)
    assert isinstance(box, QMessageBox)
    assert (box.textFormat(), box.text()) == (Qt.TextFormat.PlainText, HOSTILE)
    widget = QWidget()
    qtbot.addWidget(widget)
    plain_tooltip(widget, HOSTILE)
    assert "<img" not in widget.toolTip() and "&lt;img" in widget.toolTip()
    assert button_text("this & that") == "this && that"


@pytest.mark.parametrize("scheme", ["light", "dark"])
def test_words_and_the_focus_can_be_told_from_their_ground(appearance, scheme):
    appearance.choose(scheme)
    look = appearance.look
    accent_text = look.plate if scheme == "light" else look.ground
    for text, ground in ((look.ink, look.ground), (look.quiet, look.ground), (look.quiet, look.plate),
                         (accent_text, look.measure)):  # fmt: skip
        assert contrast(text, ground) >= 4.5
    assert contrast(look.measure, look.ground) >= 3.0
    assert contrast(look.measure, look.plate) >= 3.0
    appearance.choose("light")
