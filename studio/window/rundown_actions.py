"""The rundown's own commands, as its menu and the list of keys show them."""

from typing import TYPE_CHECKING

from PySide6.QtCore import Qt
from PySide6.QtGui import QAction, QKeySequence

if TYPE_CHECKING:
    from studio.window.rundown_place import RundownPlace

_Context = Qt.ShortcutContext


def add_actions(place: "RundownPlace") -> None:
    """Give the place its actions. Delete deletes a segment only where the list has the focus."""
    for text, key, act, context in (
        ("&Add a segment", "Ctrl+Shift+A", place.commands.add_segment, _Context.WidgetWithChildrenShortcut),
        ("&From a template…", "", place.commands.choose_template, _Context.WidgetWithChildrenShortcut),
        ("&Rename the segment", "F2", place.commands.rename, _Context.WidgetWithChildrenShortcut),
        ("D&uplicate the segment", "Ctrl+D", place.commands.duplicate, _Context.WidgetWithChildrenShortcut),
        ("&Delete the segment", "Delete", place.commands.delete, _Context.WidgetShortcut),
        ("Move the segment u&p", "Alt+Up", place.commands.move_up, _Context.WidgetWithChildrenShortcut),
        ("Move the segment d&own", "Alt+Down", place.commands.move_down, _Context.WidgetWithChildrenShortcut),
        ("Put in a &number", "Ctrl+Space", place.commands.put_number_in, _Context.WidgetWithChildrenShortcut),
        ("Next form of the number at the &cursor", "Alt+Right", place.commands.next_form,
         _Context.WidgetWithChildrenShortcut),
        ("Form &before of the number at the cursor", "Alt+Left", place.commands.form_before,
         _Context.WidgetWithChildrenShortcut),
        ("Go to the ne&xt that asks for work", "F8", place.backing.choose_next_call,
         _Context.WidgetWithChildrenShortcut),
        ("Prompt and re&hearse…", "Ctrl+Shift+P", place.commands.open_prompt, _Context.WidgetWithChildrenShortcut),
    ):  # fmt: skip
        action = QAction(text, place)
        if key:
            action.setShortcut(QKeySequence(key))
        action.setShortcutContext(context)
        action.triggered.connect(act)
        place.addAction(action)
        if context == _Context.WidgetShortcut:
            place.list.addAction(action)
