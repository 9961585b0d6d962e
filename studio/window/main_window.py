"""The main window: it builds and wires, and does nothing else."""

from collections.abc import Sequence
from functools import cached_property
from pathlib import Path
from typing import TYPE_CHECKING

from PySide6.QtCore import QByteArray, QEvent, Qt, QTimer
from PySide6.QtGui import (
    QAction,
    QCloseEvent,
    QDragEnterEvent,
    QDropEvent,
    QGuiApplication,
    QKeySequence,
    QStatusTipEvent,
)
from PySide6.QtWidgets import QHBoxLayout, QMainWindow, QStackedWidget, QVBoxLayout, QWidget

from studio.window.actions import key_list, make_actions
from studio.window.autosave import Autosave
from studio.window.commands import Commands, commit_focused
from studio.window.dialogs import CloseQuestion, Dialogs
from studio.window.document import Document
from studio.window.drops import Dropped, dropped
from studio.window.find_bar import FindBar
from studio.window.foot import Foot
from studio.window.keys_list import KeysList
from studio.window.menus import Menus
from studio.window.palette import Appearance
from studio.window.place import Place, Workshop
from studio.window.places import SLOTS, Places, Slot
from studio.window.places_column import PlacesColumn
from studio.window.preferences import Preferences
from studio.window.routes import place_of
from studio.window.tasks import JobRunner

if TYPE_CHECKING:
    from studio.window.keeper import Keeper

SMALLEST = (960, 600)
FIRST = (1280, 720)
NAME = "Tire Episode Studio"
_BETWEEN_MS = 60


class MainWindow(QMainWindow):
    """The window on one episode."""

    def __init__(
        self, document: Document, appearance: Appearance, preferences: Preferences, dialogs: Dialogs,
        slots: Sequence[Slot] = SLOTS,
    ) -> None:  # fmt: skip
        super().__init__()
        self.document, self.appearance, self.preferences, self.dialogs = document, appearance, preferences, dialogs
        self.jobs = JobRunner(self)
        self.autosave = Autosave(document, preferences.settings.autosave_every_s, parent=self)
        workshop = Workshop(document, appearance, self.jobs, dialogs)
        self.places = Places(slots, workshop, self._take_in)
        self._before_find = ""
        self._build()
        appearance.dress(self)
        self._wire()
        self.show_place(next(iter(self.places)))
        self.refresh()

    @cached_property
    def keeper(self) -> "Keeper":
        """What opens and saves; made when first needed, which keeps the start short."""
        from studio.window.keeper import Keeper

        keeper = Keeper(self.document, self.dialogs, self.autosave, self.preferences, self)
        keeper.said.connect(self.foot.say)
        return keeper

    def _build(self) -> None:
        self.column = PlacesColumn(list(self.places.slots.values()), self.appearance)
        self.stack = QStackedWidget()
        self.find_bar, self.foot = FindBar(), Foot(self.document, self.jobs)
        central = QWidget()
        down = QVBoxLayout(central)
        down.setContentsMargins(0, 0, 0, 0)
        down.setSpacing(0)
        across = QHBoxLayout()
        down.addLayout(across, 1)
        across.setSpacing(0)
        across.addWidget(self.column)
        across.addWidget(self.stack, 1)
        down.addWidget(self.find_bar)
        down.addWidget(self.foot)
        self.setCentralWidget(central)
        self.setMinimumSize(*SMALLEST)
        self.setAcceptDrops(True)
        self.commands = Commands(self, self.document, self.dialogs, self.appearance, self.preferences)
        self.actions_by_name = make_actions(self, self.commands)
        self.menus = Menus(
            self.menuBar(), self.actions_by_name, self.commands, self.document, self.appearance,
            list(self.places.slots.values()), self._place_actions(),
        )  # fmt: skip

    def _place_actions(self) -> list[QAction]:
        made = []
        for number, slot in enumerate(self.places.slots.values(), start=1):
            action = QAction(f"&{number} {slot.title}", self)
            action.setShortcut(QKeySequence(f"Ctrl+{number}"))
            action.setData(slot.key)
            action.triggered.connect(self._place_action)
            made.append(action)
        return made

    def _wire(self) -> None:
        self.column.chosen.connect(self.show_place)
        self.document.changed.connect(self.refresh)
        self.document.state_changed.connect(self.refresh)
        self.document.undo_stack.indexChanged.connect(self.refresh)  # it moves after the episode has changed
        self.document.undone.connect(self.show_undone)
        self.appearance.changed.connect(self.refresh)
        self.autosave.failed.connect(self.foot.say)
        self.find_bar.wanted.connect(self.find_text)
        self.find_bar.left.connect(self._leave_find)

    # places

    def _take_in(self, place: Place) -> None:
        """A place was made: wire it."""
        self.stack.addWidget(place)
        place.go.connect(self.go)
        place.command.connect(self.run_command)
        self.column.take_in(place)
        self.menus.take_in(place)

    def offer_unsaved(self) -> None:
        """Offer the work of an earlier window that never had a name."""
        self.keeper.recover_untitled()

    def complete(self) -> None:
        """Make what could wait at the start, a part each time the window is idle: the drawing, the other places."""
        draw = getattr(self.places["car"], "draw_plan", None) if "car" in self.places.slots else None
        if draw is not None and not self.foot.is_complete:
            draw()
            self.foot.complete()
            QTimer.singleShot(_BETWEEN_MS, self.complete)
        elif self.places.make_next():
            QTimer.singleShot(_BETWEEN_MS, self.complete)

    @property
    def current(self) -> Place:
        """The place that is open."""
        place = self.stack.currentWidget()
        assert isinstance(place, Place)
        return place

    def show_place(self, key: str) -> None:
        """Open a place and focus what one would work on first."""
        self.commit()
        self.stack.setCurrentWidget(self.places[key])
        self.column.mark(key)
        self.places[key].take_focus()

    def go(self, key: str, target: str) -> None:
        """Open a place and, in it, a target."""
        if key in self.places:
            self.show_place(key)
            self.places[key].show_target(target)

    def _place_action(self) -> None:
        action = self.sender()
        assert isinstance(action, QAction)
        self.show_place(action.data())

    def show_undone(self, path: str) -> None:
        """Select what an undo or redo has changed."""
        key, target = place_of(path, self.document.episode)
        if key in self.places:
            if self.current.key != key:
                self.show_place(key)
            self.places[key].show_target(target)

    def run_command(self, name: str) -> None:
        """Carry out one of the window's commands for a place."""
        self.actions_by_name[name].trigger() if name in self.actions_by_name else getattr(self.commands, name)()

    def commit(self) -> None:
        """Take in what is typed and not yet entered, wherever that is."""
        commit_focused()
        if self.stack.currentWidget() is not None:
            self.current.commit()

    # finding

    def find_text(self, text: str) -> None:
        """Find a text here, then in the other places."""
        self._before_find = self._before_find or self.current.key
        others = [place for place in self.places.values() if place is not self.current]
        for place in (self.current, *others):
            if place.find_text(text):
                self.stack.setCurrentWidget(place)
                self.column.mark(place.key)
                self.find_bar.say(f"found in {place.title}")
                return
        self.find_bar.say("not found in this episode")

    def _leave_find(self) -> None:
        if self._before_find:
            self.show_place(self._before_find)
        self._before_find = ""

    # how things stand

    def refresh(self) -> None:
        """Title and menus as things stand."""
        document = self.document
        name = f" ({document.path.name})" if document.path else ""
        reading = " — for reading only" if document.read_only else ""
        self.setWindowTitle(f"{document.episode.title or 'Untitled'}{name}[*]{reading} — {NAME}")
        self.setWindowModified(not document.is_clean)
        self.menus.refresh()

    def show_keys(self) -> None:
        """List all keys in a window beside this one."""
        while self.places.make_next():
            pass
        KeysList(key_list(self.menus.all), self).show()

    # Qt's own

    def event(self, event: QEvent) -> bool:
        """A status tip goes to the foot; coming to the front looks at the file."""
        if isinstance(event, QStatusTipEvent):
            self.foot.say(event.tip())
            return True
        if event.type() == QEvent.Type.WindowActivate and self.document.path is not None:
            self.keeper.look_outside()
        return super().event(event)

    def dragEnterEvent(self, event: QDragEnterEvent) -> None:
        """Take files; they are read, never moved."""
        if event.mimeData().hasUrls():
            event.setDropAction(Qt.DropAction.CopyAction)
            event.accept()

    def dropEvent(self, event: QDropEvent) -> None:
        """An episode is opened, photos go to the tire that is shown, comments to Questions, else it says why not."""
        event.setDropAction(Qt.DropAction.CopyAction)
        event.accept()
        self.take_dropped(dropped([Path(url.toLocalFile()) for url in event.mimeData().urls()]))

    def take_dropped(self, found: Dropped) -> None:
        """Do what is done with dropped files."""
        if found.episode is not None:
            self.keeper.open(found.episode)
        elif found.photos:
            take = getattr(self.current, "take_photos", self._no_photos_here)
            take(found.photos)
        elif found.comments is not None:
            self._take_comments(found.comments)
        elif found.why:
            self.foot.say(found.why)

    def _take_comments(self, table: Path) -> None:
        self.show_place("questions")
        take = getattr(self.current, "take_comments", None)
        if take is not None:
            take(table)

    def _no_photos_here(self, _photos: tuple[Path, ...]) -> None:
        self.foot.say("Photos belong to a tire: go to Car and tires, choose the tire, and drop them there")

    def closeEvent(self, event: QCloseEvent) -> None:
        """Ask about work in progress and unsaved changes, then let go of everything."""
        self.commit()
        if (self.jobs.busy and not CloseQuestion.ask(self.dialogs, self.jobs)) or not self.keeper.may_leave():
            event.ignore()
            return
        self.preferences.remember("geometry", bytes(self.saveGeometry().toBase64().data()).decode())
        self.preferences.remember("place", self.current.key)
        self.jobs.close()
        self.keeper.close()
        self.document.undone.disconnect(self.show_undone)
        self.document.let_go()
        event.accept()

    def come_back(self) -> None:
        """Stand where the window stood last, on a screen that is there."""
        kept = QByteArray.fromBase64(self.preferences.remembered("geometry").encode())
        if kept.isEmpty() or not self.restoreGeometry(kept):
            self.resize(*FIRST)
        screens = QGuiApplication.screens()
        if not any(screen.availableGeometry().intersects(self.frameGeometry()) for screen in screens):
            self.move(QGuiApplication.primaryScreen().availableGeometry().topLeft())
        place = self.preferences.remembered("place")
        if place in self.places:
            self.show_place(place)
