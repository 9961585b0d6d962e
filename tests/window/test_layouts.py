"""What a layout holds, in its own order, and emptying it, without touching its items."""

import ast
import gc
from pathlib import Path

import pytest
from PySide6.QtCore import QCoreApplication, QEvent
from PySide6.QtWidgets import QGridLayout, QHBoxLayout, QLabel, QLayout, QLayoutItem, QVBoxLayout, QWidget

import studio.window
from studio.window.flow import FlowLayout
from studio.window.layouts import clear_out, laid_out, put_in_place
from tests.handoff.materials import demo


@pytest.fixture
def holder(qtbot):
    made = QWidget()
    qtbot.addWidget(made)
    return made


@pytest.mark.parametrize("kind", [QVBoxLayout, FlowLayout])
def test_what_is_laid_out_comes_in_the_layouts_order_not_in_that_of_making(holder, kind):
    first, second, elsewhere = QLabel("1", holder), QLabel("2", holder), QLabel("3", holder)
    layout = kind(holder)
    layout.addWidget(second)
    layout.addWidget(first)
    assert laid_out(layout) == [second, first]
    assert elsewhere.parent() is holder


def test_a_layout_inside_stands_where_it_was_added(holder):
    layout, inner, label = QVBoxLayout(holder), QHBoxLayout(), QLabel("last")
    layout.addStretch(1)
    layout.addLayout(inner)
    layout.addWidget(label)
    inner.addWidget(QLabel("inside"))
    assert laid_out(layout) == [inner, label]
    assert [part.text() for part in laid_out(inner)] == ["inside"]


def test_a_layout_without_a_widget_holds_nothing(qapp):
    assert laid_out(QHBoxLayout()) == []


def test_what_is_cleared_out_is_hidden_at_once_and_then_gone(holder):
    layout, gone = QGridLayout(holder), list[str]()
    for row in range(3):
        label = QLabel(str(row))
        label.destroyed.connect(lambda: gone.append("gone"))
        layout.addWidget(label, row, 0)
    holder.show()
    clear_out(layout)
    assert layout.count() == 0
    assert not [label for label in holder.findChildren(QLabel) if label.isVisible()]
    QCoreApplication.sendPostedEvents(None, QEvent.Type.DeferredDelete)
    assert len(gone) == 3 and not holder.findChildren(QLabel)


def test_one_is_put_in_the_place_of_another_with_its_share(holder):
    layout, first, old, last, new = QVBoxLayout(holder), QLabel("1"), QLabel("2"), QLabel("3"), QLabel("new")
    layout.addWidget(first)
    layout.addWidget(old, 5)
    layout.addWidget(last)
    put_in_place(layout, old, new)
    assert laid_out(layout) == [first, new, last]
    assert layout.stretch(1) == 5


def items_with_a_wrapper() -> dict[int, QLayoutItem]:
    """Those that a layout of our own was given and keeps are left out: they are gone from it before Qt deletes them."""
    gc.collect()
    every = gc.get_objects()
    kept = {id(item) for each in every if isinstance(each, FlowLayout) for item in each._items}
    return {
        id(each): each
        for each in every if isinstance(each, QLayoutItem) and not isinstance(each, QLayout) and id(each) not in kept
    }  # fmt: skip


def test_a_layout_that_is_added_full_has_its_items_wrapped(holder):
    """Why each goes in empty; where this fails one day, that is no longer needed."""
    before, outer, inner = items_with_a_wrapper(), QVBoxLayout(holder), QHBoxLayout()
    inner.addWidget(QLabel("inside"))
    outer.addLayout(inner)
    assert len(items_with_a_wrapper().keys() - before.keys()) == 1


def test_no_item_of_the_windows_layouts_has_a_wrapper(window_of):
    """The wrapper would own the item, and destroy it under the layout when the closed window is collected."""
    before = items_with_a_wrapper()
    window = window_of(demo())
    for key in window.places:
        window.show_place(key)
        QCoreApplication.processEvents()
    window.go("car", "specimens[0]")
    after = items_with_a_wrapper()
    assert [after[each].widget() for each in after.keys() - before.keys()] == []


def test_no_part_of_the_window_asks_a_layout_for_its_items():
    """Only a layout of our own answers these to Qt."""
    asking = [
        f"{path.name}:{node.lineno}"
        for path in sorted(Path(studio.window.__path__[0]).glob("*.py"))
        for node in ast.walk(ast.parse(path.read_text(encoding="utf-8")))
        if isinstance(node, ast.Attribute) and node.attr in {"itemAt", "takeAt", "itemAtPosition", "replaceWidget"}
    ]
    assert asking == []
