"""The menu bar: the window's commands, the lists of files and regions, and every place's own actions."""

from collections.abc import Sequence

from PySide6.QtGui import QAction, QActionGroup
from PySide6.QtWidgets import QMenu, QMenuBar

from studio.window.actions import COMMANDS, EDIT, FILE, HELP, VIEW, fill, tell_why
from studio.window.commands import Commands, demo_files
from studio.window.document import Document
from studio.window.labels import button_text
from studio.window.palette import Appearance
from studio.window.place import Place
from studio.window.places import Slot

_SEPARATED = {"save", "quit", "find", "us_units", "follow_system", "larger"}  # a line stands before these


class Menus:
    """Builds the menus of a window and keeps their entries true."""

    def __init__(
        self, bar: QMenuBar, actions: dict[str, QAction], commands: Commands, document: Document,
        appearance: Appearance, slots: Sequence[Slot], place_actions: Sequence[QAction],
    ) -> None:  # fmt: skip
        self._actions, self._commands, self._document, self._appearance = actions, commands, document, appearance
        self.all = [bar.addMenu(FILE), bar.addMenu(EDIT), bar.addMenu(VIEW)]
        self._of_places = {slot.key: bar.addMenu(slot.menu_title) for slot in slots}
        self.all += [*self._of_places.values(), bar.addMenu(HELP)]
        file_menu, view_menu = self.all[0], self.all[2]
        self.recent, self.demos, self.regions = QMenu("Open &recent"), QMenu("Open &demo"), QMenu("&Region")
        self.kept = QMenu("&Bring back")
        view_menu.addActions(list(place_actions))
        for command in COMMANDS:
            menu = next(each for each in self.all if each.title() == command.menu)
            if command.name in _SEPARATED:
                menu.addSeparator()
            menu.addAction(actions[command.name])
        file_menu.insertMenu(actions["save"], self.recent)
        file_menu.insertMenu(actions["save"], self.demos)
        file_menu.insertMenu(actions["save"], self.kept)
        view_menu.insertMenu(actions["follow_system"], self.regions)
        self._group("us_units", "metric_units")
        self._group("follow_system", "light", "dark")
        self._fill_lists()

    def take_in(self, place: Place) -> None:
        """A place was made: its actions stand in its menu."""
        self._of_places[place.key].addActions(place.actions())

    def _group(self, *names: str) -> None:
        group = QActionGroup(self._actions[names[0]])
        for name in names:
            self._actions[name].setCheckable(True)
            group.addAction(self._actions[name])

    def _fill_lists(self) -> None:
        fill(self.demos, [(_demo_title(path.stem), path) for path in demo_files()], self._commands.open_demo)
        self.regions.aboutToShow.connect(self.fill_regions)
        self.recent.aboutToShow.connect(self.fill_recent)
        self.kept.aboutToShow.connect(self.fill_kept)

    def fill_regions(self) -> None:
        """The regions whose limits are known; the one that applies is checked."""
        rows = self._document.tables.regions.values()
        fill(self.regions, [(row.name, row.id) for row in rows], self._commands.set_region)
        for action in self.regions.actions():
            action.setCheckable(True)
            action.setChecked(action.data() == self._document.episode.region)

    def fill_recent(self) -> None:
        """The recent episodes, newest first; those that are gone say so."""
        from studio.storage import recent  # not at start

        files = recent.recent_files()
        entries: list[tuple[str, object]] = [
            (each.path.name if each.there else f"{each.path.name} (no longer there: take it off the list)", each.path)
            for each in files
        ]
        fill(self.recent, entries, self._commands.open_recent)
        if files:
            self.recent.addSeparator()
            self.recent.addAction("&Forget these").triggered.connect(self._commands.forget_recent)
        else:
            self.recent.addAction("None yet").setEnabled(False)
        keep = self.recent.addAction("&Keep this list")
        keep.setCheckable(True)
        keep.setChecked(self._commands.keeps_recent)
        keep.triggered.connect(self._commands.keep_recent)

    def fill_kept(self) -> None:
        """What was put aside or waits for a decision, and the version before the last save, newest first."""
        from studio.storage.autosave import kept_copies  # not at start
        from studio.window.rescue_desk import kept_words

        path = self._document.path
        found = kept_copies(path)
        fill(self.kept, [(kept_words(kept, path), kept) for kept in found], self._commands.bring_back)
        if not found:
            self.kept.addAction("Nothing is kept").setEnabled(False)

    def refresh(self) -> None:
        """Enable, name and check the entries as things stand."""
        stack, episode = self._document.undo_stack, self._document.episode
        undo, redo = self._actions["undo"], self._actions["redo"]
        undo.setText(f"&Undo: {button_text(stack.undoText())}" if stack.canUndo() else "&Undo")
        redo.setText(f"&Redo: {button_text(stack.redoText())}" if stack.canRedo() else "&Redo")
        tell_why(undo, stack.canUndo(), "There is nothing to undo")
        tell_why(redo, stack.canRedo(), "There is nothing to redo")
        self._actions["us_units" if episode.units == "us" else "metric_units"].setChecked(True)
        names = {"system": "follow_system", "light": "light", "dark": "dark"}
        self._actions[names[self._appearance.choice]].setChecked(True)


def _demo_title(stem: str) -> str:
    return stem.replace("_", " ").capitalize()
