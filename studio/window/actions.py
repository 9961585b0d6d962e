"""The window's own commands as a table; every one has a menu entry with a mnemonic, and most have a key."""

from collections.abc import Callable
from dataclasses import dataclass

from PySide6.QtGui import QAction, QKeySequence
from PySide6.QtWidgets import QMenu, QWidget

from studio.window.labels import button_text

Key = QKeySequence.StandardKey


@dataclass(frozen=True)
class Command:
    """One command: the name of the method that carries it out, its menu, its text, its key."""

    name: str
    menu: str
    text: str
    key: Key | str | None = None
    tip: str = ""


_WITHOUT_STANDARD = {Key.SaveAs: "Ctrl+Shift+S", Key.Quit: "Ctrl+Q", Key.HelpContents: "F1"}
FILE, EDIT, VIEW, HELP = "&File", "&Edit", "&View", "&Help"
MENUS = (FILE, EDIT, VIEW, HELP)
COMMANDS: tuple[Command, ...] = (
    Command("new", FILE, "&New episode", Key.New),
    Command("open", FILE, "&Open…", Key.Open),
    Command("save", FILE, "&Save", Key.Save),
    Command("save_as", FILE, "Save &as…", Key.SaveAs),
    Command("quit", FILE, "&Quit", Key.Quit),
    Command("undo", EDIT, "&Undo", Key.Undo, "Nothing to undo"),
    Command("redo", EDIT, "&Redo", Key.Redo, "Nothing to redo"),
    Command("find", EDIT, "&Find…", Key.Find),
    Command("us_units", VIEW, "&US units first"),
    Command("metric_units", VIEW, "&Metric first"),
    Command("follow_system", VIEW, "As the &system: light or dark"),
    Command("light", VIEW, "&Light"),
    Command("dark", VIEW, "&Dark"),
    Command("larger", VIEW, "Larger &text", Key.ZoomIn),
    Command("smaller", VIEW, "S&maller text", Key.ZoomOut),
    Command("keys", HELP, "&Keys…", Key.HelpContents),
    Command("about", HELP, "&About…"),
)


def make_actions(owner: QWidget, methods: object) -> dict[str, QAction]:
    """An action for every command, carried out by the method of ``methods`` that has the command's name."""
    made: dict[str, QAction] = {}
    for command in COMMANDS:
        action = QAction(command.text, owner)
        if command.key is not None:
            action.setShortcuts(_keys(command))
        action.triggered.connect(getattr(methods, command.name))
        made[command.name] = action
    return made


def _keys(command: Command) -> list[QKeySequence]:
    """The platform's keys for a command; Ctrl and the usual letter where the platform has none."""
    if isinstance(command.key, Key):
        found = QKeySequence.keyBindings(command.key)
        return found or [QKeySequence(_WITHOUT_STANDARD[command.key])]
    return [QKeySequence(command.key or "")]


def tell_why(action: QAction, enabled: bool, why: str) -> None:
    """Enable an action, or disable it and say why in the foot."""
    action.setEnabled(enabled)
    action.setStatusTip("" if enabled else why)


def fill(menu: QMenu, entries: list[tuple[str, object]], chosen: Callable[[], object]) -> None:
    """Fill a menu anew with one entry a (text, data); ``chosen``, a bound method, is called for any of them."""
    menu.clear()
    for text, data in entries:
        action = menu.addAction(button_text(text))
        action.setData(data)
        action.triggered.connect(chosen)


def key_list(menus: list[QMenu]) -> tuple[tuple[str, str, str], ...]:
    """Every command that has a key: its menu, its text, the key, as they stand in the menus."""
    found: list[tuple[str, str, str]] = []
    for menu in menus:
        title = _plain(menu.title())
        for action in menu.actions():
            if not action.shortcut().isEmpty():
                key = action.shortcut().toString(QKeySequence.SequenceFormat.NativeText)
                found.append((title, _plain(action.text()), key))
    return tuple(found)


def _plain(text: str) -> str:
    return text.replace("&&", "\0").replace("&", "").replace("\0", "&").rstrip("…")
