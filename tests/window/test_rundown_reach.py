"""Everybody can reach everything in the rundown: names, labels, large text, plain text, signs told by shape."""

import pytest
from PySide6.QtGui import QAccessible
from PySide6.QtWidgets import QAbstractButton, QAbstractScrollArea, QApplication, QLabel

from studio.window.form_parts import FieldBox
from studio.window.rundown_list import WHOLE
from studio.window.rundown_remarks import WORDS
from studio.window.rundown_signs import paint_remark_sign
from tests.window.rundown_samples import HOSTILE, demo, rundown_of, segment
from tests.window.test_reach import FIELDS, focusable

VIEWS = ("segment", "unfolded", "whole", "templates")


def open_view(window, view):
    window.show_place("rundown")
    place = window.places["rundown"]
    if view == "whole":
        place.list.choose(WHOLE)
    elif view == "templates":
        place.commands.choose_template()
    else:
        place.list.choose(1)
        for fold in place.sheet.parts.folds if view == "unfolded" else ():
            fold.unfold()
    for _ in range(5):
        QApplication.processEvents()
    return place


def reviewed(place, qtbot):
    qtbot.waitUntil(lambda: place.reviewer.is_current, timeout=20_000)
    place.backing.list.setCurrentIndex(place.backing.list.remarks_model.index(0))
    for _ in range(3):
        QApplication.processEvents()


@pytest.mark.parametrize("view", VIEWS)
def test_every_control_has_a_name_and_every_field_a_label(window_of, qtbot, view):
    window = window_of(demo())
    place = open_view(window, view)
    reviewed(place, qtbot)
    seen = focusable(place)
    assert len(seen) > 5
    for widget in seen:
        name = QAccessible.queryAccessibleInterface(widget).text(QAccessible.Text.Name)
        assert name.strip(), f"{type(widget).__name__} in {type(widget.parent()).__name__} has no name"
    buddies = {label.buddy() for label in place.findChildren(QLabel) if label.buddy() is not None}
    for widget in seen:
        if isinstance(widget, FIELDS):
            assert widget in buddies, f"{widget.accessibleName()} has no label"


def test_tab_goes_from_the_list_through_the_segment_to_the_numbers(window_of, qtbot):
    window = window_of(demo())
    place = open_view(window, "segment")
    reviewed(place, qtbot)
    place.list.setFocus()
    seen = []
    for _ in range(40):
        place.window().focusNextChild()
        seen.append(QApplication.focusWidget())
        if seen[-1] is place.backing.go_there:
            break
    order = [place.add, place.sheet.title, place.sheet.editor, place.sheet.bar.pause, place.backing.only_calls,
             place.backing.list, place.backing.go_there]  # fmt: skip
    places = [seen.index(widget) for widget in order]
    assert places == sorted(places)


@pytest.mark.parametrize("percent", [100, 200])
@pytest.mark.parametrize("view", VIEWS)
def test_nothing_is_cut_at_1280_by_720_in_any_text_size(window_of, qtbot, percent, view):
    window = window_of(demo(), (1280, 692))
    window.appearance.set_percent(percent)
    place = open_view(window, view)
    reviewed(place, qtbot)
    assert window.width() == 1280
    checked = 0
    for widget in place.findChildren(QAbstractButton) + place.findChildren(QLabel) + place.findChildren(FieldBox):
        if not widget.isVisible() or (isinstance(widget, QLabel) and (widget.wordWrap() or widget.property("elided"))):
            continue
        needed = widget.minimumSizeHint()
        assert widget.width() >= needed.width() and widget.height() >= needed.height() - 1, (
            f"{type(widget).__name__} {widget.accessibleName()!r} is {widget.size()}, needs {needed}"
        )
        checked += 1
    assert checked > 8
    for area in (place.sheet, place.whole, place.start, place.backing._detail):
        if area.isVisible():
            assert isinstance(area, QAbstractScrollArea)
            assert area.horizontalScrollBar().maximum() == 0, f"{type(area).__name__} is cut at its right"


def test_the_numbers_stand_below_the_segments_where_there_is_no_room_beside(window_of):
    window = window_of(demo(), (1280, 692))
    place = open_view(window, "segment")
    assert place.backing.parent() is place._split
    window.appearance.set_percent(200)
    window.resize(1280, 700)
    QApplication.processEvents()
    assert place.backing.parent() is place._left
    window.appearance.set_percent(100)
    window.resize(1280, 692)
    QApplication.processEvents()
    assert place.backing.parent() is place._split


@pytest.mark.parametrize("scheme", ["light", "dark"])
def test_each_sign_has_a_shape_of_its_own(appearance, qtbot, scheme):
    from PySide6.QtCore import QRectF
    from PySide6.QtGui import QImage, QPainter

    appearance.choose(scheme)
    drawn = {}
    for kind in WORDS:
        image = QImage(32, 32, QImage.Format.Format_Grayscale8)  # a shape must tell without any colour
        image.fill(appearance.color("ground"))
        painter = QPainter(image)
        paint_remark_sign(painter, kind, QRectF(2, 2, 28, 28), appearance.look, aside=True)
        painter.end()
        drawn[kind] = bytes(image.constBits())
    assert len(set(drawn.values())) == len(WORDS)
    appearance.choose("light")


def test_text_from_outside_is_shown_as_it_is(window_of, qtbot):
    shows = (HOSTILE[:90],)
    window = window_of(rundown_of(segment("a", HOSTILE, title=HOSTILE, props=(HOSTILE,), shows=shows)))
    place = open_view(window, "whole")
    place.list.choose(0)
    reviewed(place, qtbot)
    from PySide6.QtCore import Qt

    for label in place.findChildren(QLabel):
        assert label.textFormat() == Qt.TextFormat.PlainText or "<" not in label.text(), label.text()
