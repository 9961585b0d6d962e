"""The place *Pictures*: the catalogue on a shelf, one picture large, and what can be chosen about it."""

from collections.abc import Callable, Mapping
from functools import cached_property
from pathlib import Path

from PySide6.QtCore import Qt, QTimer
from PySide6.QtGui import QAction, QGuiApplication, QHideEvent, QKeySequence, QShowEvent
from PySide6.QtWidgets import QVBoxLayout, QWidget

from studio.graphics.catalogue import Picture, catalogue
from studio.graphics.scene import Scene
from studio.handoff.picture_files import Wanted, rundown_order
from studio.window.look_book import LookBook
from studio.window.look_editor import LookEditor
from studio.window.pictures_bar import StageBar
from studio.window.pictures_cache import SessionCache
from studio.window.pictures_controls import Controls, names_of
from studio.window.pictures_desk import Desk
from studio.window.pictures_drawer import Drawer
from studio.window.pictures_export import Export
from studio.window.pictures_export_panel import ExportPanel
from studio.window.pictures_mime import picture_mime
from studio.window.pictures_missing import MissingPage
from studio.window.pictures_order import Drawings, Drawn
from studio.window.pictures_origin import ANSWER, Origin
from studio.window.pictures_play import PlayBar
from studio.window.pictures_shelf import THUMB, Shelf
from studio.window.pictures_spread import Spread
from studio.window.pictures_stage import Stage
from studio.window.pictures_view import View
from studio.window.place import Place, Workshop
from studio.window.tasks import Job

_SOON_MS = 1500
Catalogue = Callable[[], Mapping[str, Picture]]


class PicturesPlace(Place):
    """The shelf at the left, the large picture in the middle, the choices at its right or below it."""

    key, title, menu_title = "pictures", "Pictures", "&Pictures"

    def __init__(self, workshop: Workshop, parent: QWidget | None = None, pictures: Catalogue = catalogue) -> None:
        super().__init__(workshop, parent)
        self._pictures = pictures
        self._copying = False
        self.cache = SessionCache()
        self.drawer = Drawer(workshop.jobs, Drawings(pictures, self.cache), self)
        self.book = LookBook(self.document, self)
        self.desk = Desk(self.document, self.drawer, self.book, self)
        self.shelf, self.stage, self.bar = Shelf(self.appearance), Stage(self.appearance), StageBar()
        self.controls, self.missing = Controls(self.document, self.book), MissingPage()
        self.export = ExportPanel(workshop, self._export)
        self.origin, self.play = Origin(self.appearance), PlayBar()
        self._spread = Spread(
            self.appearance, self.shelf, self.stage, self.bar, self.origin, self.missing, self.controls, self.export,
            self.play,
        )  # fmt: skip
        inside = QVBoxLayout(self)
        inside.setContentsMargins(0, 0, 0, 0)
        inside.addWidget(self._spread)
        self._connect()
        self._add_actions()
        QTimer.singleShot(_SOON_MS, self, self._import_early)

    # What every place answers

    def state_line(self) -> str:
        """How many pictures can be shown, or that an export runs."""
        if self.export.running:
            return "exporting"
        entries = self.shelf.shelf_model.entries
        ready = sum(1 for its in entries if its.drawn and not its.drawn.missing)
        if not entries or any(its.drawn is None for its in entries):
            return "drawn from your readings"
        return f"{ready} of {len(entries)} can be shown"

    def show_target(self, target: str) -> None:
        """Choose the picture of this id, or the one whose choice stands at this path of the episode."""
        self._fill_shelf()
        if target.startswith("pictures["):
            row = target.removeprefix("pictures[").partition("]")[0]
            choices = self.document.episode.pictures
            target = choices[int(row)].picture if row.isdigit() and int(row) < len(choices) else ""
        self.shelf.choose(target)

    def find_text(self, text: str) -> bool:
        """Choose the next picture that has ``text`` in its name, or in what it shows."""
        self._fill_shelf()
        entries, wanted = self.shelf.shelf_model.entries, text.casefold()
        start = self.shelf.currentIndex().row() + 1
        for row in [*range(start, len(entries)), *range(start)]:
            if wanted in entries[row].spoken.casefold():
                return self.shelf.choose(entries[row].id)
        return False

    def take_focus(self) -> None:
        """Arrows go through the shelf at once."""
        self.shelf.setFocus()

    def commit(self) -> None:
        """Take in what is typed and not yet entered."""
        self.controls.commit()

    # What the user does

    def copy(self) -> None:
        """Copy what is shown: an image, PNG bytes with alpha and a file in one; as soon as its file is made."""
        self._fill_shelf()
        self._copying = True
        if self.desk.file is not None:
            self._file_made(self.desk.file)
        else:
            self.desk.want_file()

    def look_at(self, view: View) -> None:
        """Look at the pictures in this way."""
        self.stage.show_view(view, self._name(view.picture))
        self.controls.show_view(view)
        self._show_steps(view)
        self.desk.look_at(view, self.stage.image_size())

    @cached_property
    def editor(self) -> LookEditor:
        """Where the channel's look is made; built when first asked for."""
        made = LookEditor(self.workshop, self.book)
        made.left.connect(self.show_choices)
        return made

    def make_look(self) -> None:
        """Make the channel's look beside the picture, which is drawn in it at once."""
        self._fill_shelf()
        self._spread.show_side(self.editor)
        self.editor.enter()

    def show_choices(self) -> None:
        """The choices about a picture again."""
        self._spread.show_side(None)
        self.controls.refresh()
        self.controls.make_look.setFocus()

    # Qt's own

    def showEvent(self, event: QShowEvent) -> None:
        super().showEvent(event)
        self._fill_shelf()
        ratio = self.devicePixelRatioF()
        self.desk.look_at(self.desk.view, self.stage.image_size())
        self.desk.wake(self.shelf.ids(), (round(THUMB.width() * ratio), round(THUMB.height() * ratio)))

    def hideEvent(self, event: QHideEvent) -> None:
        super().hideEvent(event)
        self.play.stop()
        self.desk.sleep()

    # Wiring

    def _fill_shelf(self) -> None:
        """The catalogue is imported when it is first looked at, so that the window starts without it."""
        if not self.shelf.shelf_model.entries:
            self.shelf.shelf_model.show_catalogue(names_of(self._pictures()))
            self.shelf.choose(next(iter(self.shelf.ids()), ""))

    def _import_early(self) -> None:
        """Import the catalogue in another thread while nobody waits for it."""
        if not self.shelf.shelf_model.entries:
            self.workshop.jobs.run("Importing the pictures", self._import, quiet=True)

    def _import(self) -> Job:
        yield 0.0
        self._pictures()

    def _choose(self, picture: str) -> None:
        if picture:
            self.controls.point(picture, self._pictures()[picture])
            self.look_at(self.desk.view.of(picture))

    def _selection_changed(self) -> None:
        self.export.show_chosen(self.shelf.chosen_ids())

    def _stage_resized(self) -> None:
        self.desk.look_at(self.desk.view, self.stage.image_size())

    def _document_changed(self) -> None:
        self.controls.refresh()
        self.stage.take_file(None)

    def _show_live(self, drawn: Drawn) -> None:
        if drawn.missing:
            self.missing.show_reason(self._name(drawn.order.picture), drawn.missing, drawn.failed)
        self._spread.show_missing(bool(drawn.missing))
        self.stage.show_drawn(drawn)
        self._show_steps(self.desk.view)
        if drawn.scene is not None:
            self.controls.show_own_title(drawn.scene.title)
        self.origin.show_scene(drawn.scene, self.document.findings)
        self._spread.order_links()

    def _show_steps(self, view: View) -> None:
        drawn = self.stage.drawn
        self.bar.show_view(view, drawn.scene.steps if drawn and drawn.scene else ())

    def _show_small(self, picture: str, drawn: Drawn) -> None:
        self.shelf.shelf_model.take(picture, drawn)
        self.state_changed.emit()

    def _file_made(self, drawn: Drawn) -> None:
        self.stage.take_file(drawn if drawn.path else None)
        copying, self._copying = self._copying, False
        if copying and drawn.path is not None:
            QGuiApplication.clipboard().setMimeData(picture_mime(drawn.path, drawn.png))
        elif copying:
            name = self._name(drawn.order.picture)
            self.workshop.dialogs.tell("The picture was not copied", f"{name}: {drawn.missing}.")

    def _show_clip(self, scene: Scene | None) -> None:
        """The clip of what is shown, ready to be played."""
        self.stage.show_frame(None)
        self.play.show_clip(scene, self.document.episode.rundown.rate)

    def _show_still(self) -> None:
        self.stage.show_frame(None)

    def _to_the_finding(self, id_: str) -> None:
        place = "questions" if id_.startswith(ANSWER) else "findings"
        self.go.emit(place, id_.removeprefix(ANSWER))

    def _to_the_car(self) -> None:
        self.go.emit("car", "")

    def _name(self, picture: str) -> str:
        return self._pictures()[picture].name if picture else ""

    def _export(self, ids: tuple[str, ...], format_: str, steps: str, folder: Path) -> Export:
        episode, view = self.document.episode, self.desk.view
        wanted = Wanted(
            ids=ids, frame=view.frame, format=format_, background=view.background, steps=steps,  # type: ignore[arg-type]
            order=rundown_order(episode),
        )  # fmt: skip
        return Export(
            episode=episode, findings=self.document.findings, look=self.book.chosen, wanted=wanted, folder=folder,
            names=names_of(self._pictures()),
        )  # fmt: skip

    def _connect(self) -> None:
        self.shelf.chosen.connect(self._choose)
        self.shelf.selectionModel().selectionChanged.connect(self._selection_changed)
        self.bar.changed.connect(self.look_at)
        self.controls.changed.connect(self.look_at)
        self.controls.look_wanted.connect(self.make_look)
        self.document.state_changed.connect(self._document_changed)
        self.stage.resized.connect(self._stage_resized)
        self.stage.wanted_file.connect(self.desk.want_file)
        self.missing.wanted.connect(self._to_the_car)
        self.origin.followed.connect(self._to_the_finding)
        self.export.state_changed.connect(self.state_changed)
        self.desk.live.connect(self._show_live)
        self.desk.shelf.connect(self._show_small)
        self.desk.file_made.connect(self._file_made)
        self.desk.playable.connect(self._show_clip)
        self.play.shown.connect(self.stage.show_frame)
        self.play.ended.connect(self._show_still)
        self.document.changed.connect(self._document_changed)

    def _add_actions(self) -> None:
        for text, key, act in (
            ("&Copy the picture", QKeySequence.StandardKey.Copy, self.copy),
            ("&Export the chosen pictures…", "Ctrl+E", self.export.export_chosen),
            ("Export &all pictures…", "Ctrl+Shift+E", self.export.export_all),
            ("Con&tact sheet…", "", self.export.export_sheet),
            ("Channel's &look…", "", self.make_look),
            ("&Stop the export", "", self.export.stop_export),
        ):
            action = QAction(text, self)
            if key:
                action.setShortcut(QKeySequence(key))
            action.setShortcutContext(Qt.ShortcutContext.WidgetWithChildrenShortcut)
            action.triggered.connect(act)
            self.addAction(action)
