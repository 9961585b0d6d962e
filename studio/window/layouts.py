"""What a layout holds, asked without touching its items.

Layout items are no QObjects: a Python wrapper of one (``itemAt``, ``takeAt``, ``replaceWidget``) does not learn when Qt
deletes the item. It is destroyed a second time when the window is collected, which crashes the program; one that was
taken out is never deleted at all. ``addLayout`` makes such a wrapper of all that the added layout holds by then, and
lets it own the item: a layout goes into another one while it is empty, and is filled there.
"""

from PySide6.QtWidgets import QBoxLayout, QLayout, QWidget


def laid_out(layout: QLayout) -> list[QWidget | QLayout]:
    """The widgets and layouts that a layout itself holds, in its own order."""
    owner, held = layout.parentWidget(), list[tuple[int, QWidget | QLayout]]()
    for child in owner.children() if owner is not None else ():
        if isinstance(child, QWidget):
            held.append((layout.indexOf(child), child))
    for inner in layout.children():
        if isinstance(inner, QLayout):
            held.append((layout.indexOf(inner), inner))
    return [part for index, part in sorted(held, key=lambda pair: pair[0]) if index >= 0]


def clear_out(layout: QLayout) -> None:
    """Take all widgets out of a layout and let them go."""
    for part in laid_out(layout):
        if isinstance(part, QWidget):
            layout.removeWidget(part)
            part.hide()
            part.deleteLater()


def put_in_place(layout: QBoxLayout, old: QWidget, new: QWidget) -> None:
    """Lay ``new`` out where ``old`` is, which leaves the layout."""
    index = layout.indexOf(old)
    stretch = layout.stretch(index)
    layout.removeWidget(old)
    layout.insertWidget(index, new, stretch)
