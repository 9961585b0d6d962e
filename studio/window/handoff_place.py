"""The place *Hand-off*: every deliverable with its state, where it goes, make one, what is stale, or all."""

import re
from functools import partial
from pathlib import Path

from msgspec.structs import replace
from PySide6.QtCore import Qt, QTimer, QUrl
from PySide6.QtGui import QAction, QDesktopServices, QHideEvent, QKeySequence, QShowEvent
from PySide6.QtWidgets import QSplitter, QStackedLayout, QVBoxLayout, QWidget

from studio.storage.errors import StorageError
from studio.window.flow import flow
from studio.window.handoff_job import Handoff, Outlook
from studio.window.handoff_list import HandoffList
from studio.window.handoff_rows import Row, rows, summary
from studio.window.handoff_sheet import HandoffSheet
from studio.window.labels import plain_label, push_button
from studio.window.palette import GRID
from studio.window.pictures_view import look_of
from studio.window.place import Place, Workshop
from studio.window.tasks import Progress

_LOOK_AFTER_MS = 400


class HandoffPlace(Place):
    """The deliverables at the left, the one at hand at the right, folder and buttons above them."""

    key, title, menu_title = "handoff", "Hand-off", "Hand-&off"

    def __init__(self, workshop: Workshop, parent: QWidget | None = None) -> None:
        super().__init__(workshop, parent)
        self.list, self.sheet = HandoffList(self.appearance), HandoffSheet()
        self.folder: Path | None = None
        self.outlook: Outlook | None = None
        self._making: int | None = None
        self._looking: int | None = None
        self._publishing = False
        self._stale = True
        self._after = QTimer(self)
        self._after.setSingleShot(True)
        self._after.setInterval(_LOOK_AFTER_MS)
        self._after.timeout.connect(self._look)
        self._build()
        self._add_actions()
        self.list.chosen.connect(self._show_chosen)
        self.list.opened.connect(self.make_chosen)
        self.document.changed.connect(self._changed)
        self.document.started.connect(self._started)
        self.list.show_rows(rows(None))
        self._show_running()
        self._changed()

    # What every place answers

    def state_line(self) -> str:
        """What is stale or not made yet."""
        if self._making is not None:
            return "making"
        if self.outlook is None or not self.document.episode.rundown.segments:
            return "files for the edit"
        return summary(self.outlook.states)

    def show_target(self, target: str) -> None:
        """Choose the deliverable of this name."""
        self.list.choose(target)

    def find_text(self, text: str) -> bool:
        """Choose the next deliverable that has ``text`` in its name, files or reasons."""
        every, wanted = self.list.handoff_model.rows, text.casefold()
        start = self.list.currentIndex().row() + 1
        for place in [*range(start, len(every)), *range(start)]:
            row = every[place]
            words = [row.name, row.words, *(part for file in row.files for part in (file.file, *file.why))]
            if wanted in "\n".join(words).casefold():
                return self.list.choose(row.item)
        return False

    def take_focus(self) -> None:
        """Arrows move at once."""
        self.list.setFocus()

    # What the user does

    def make_chosen(self) -> None:
        """Make the deliverable at hand."""
        if item := self.list.current_item():
            self._make((item,), stale_only=False)

    def make_stale(self) -> None:
        """Make what is stale or not made."""
        self._make((), stale_only=True)

    def make_all(self) -> None:
        """Make everything anew."""
        self._make((), stale_only=False)

    def stop_making(self) -> None:
        """Stop; what is written so far is whole."""
        if self._making is not None:
            self.workshop.jobs.stop(self._making)

    def choose_folder(self) -> None:
        """Ask where the files go."""
        folder = self.workshop.dialogs.choose_folder("Hand-off into", self.folder or Path.home())
        if folder is not None:
            self.folder = folder
            self._show_folder()
            self._look_soon()

    def open_folder(self) -> None:
        """Show the folder in the system's own program."""
        if self.folder is not None and self.folder.is_dir():
            QDesktopServices.openUrl(QUrl.fromLocalFile(str(self.folder)))

    def mark_published(self) -> None:
        """Keep the numbers as they are said now, so that a later change calls for a correction."""
        if self.outlook is None or self._stale or self._looking is not None:
            self._publishing = True
            self._say("Reading what the script says…")
            self._look()
            return
        self._publishing = False
        said = self.outlook.publication.said
        if not said:
            self._say("The script has no live numbers yet, so there is nothing to keep.")
            return
        kept = (*self.document.episode.published, self.outlook.publication)
        self.document.edit("Mark as published", replace(self.document.episode, published=kept))
        self._say(f"{len(said)} spoken number{'s' if len(said) != 1 else ''} kept as published.")

    # Qt's own

    def showEvent(self, event: QShowEvent) -> None:
        super().showEvent(event)
        if self.folder is None:
            self.folder = self._usual_folder()
        self._show_folder()
        if self._stale:
            self._look_soon()

    def hideEvent(self, event: QHideEvent) -> None:
        super().hideEvent(event)
        self._after.stop()

    # Work

    def _handoff(self) -> Handoff:
        document = self.document
        look = look_of(document.episode, document.path.parent if document.path else None)
        return Handoff(document.episode, document.findings, document.tables, look)

    def _make(self, items: tuple[str, ...], *, stale_only: bool) -> None:
        if self._making is not None:
            return
        if self.folder is None:
            self.choose_folder()
        if self.folder is None:
            return
        job = partial(self._handoff().make_job, self.folder, items, stale_only)
        self._making = self.workshop.jobs.run(
            "Making the hand-off", job, self._progressed, self._made,
            self._failed, self._stopped,
        )  # fmt: skip
        self._say("Making…")
        self._show_running()

    def _look_soon(self) -> None:
        self._stale = True
        if self.isVisible() and self._making is None:
            self._after.start()

    def _look(self) -> None:
        if self._looking is not None or self._making is not None:
            self._stale = True
            return
        self._stale = False
        job = partial(self._handoff().look_job, self.folder)
        self._looking = self.workshop.jobs.run(
            "Looking at the hand-off", job, None, self._looked, self._look_failed, quiet=True
        )

    def _looked(self, outlook: Outlook) -> None:
        self._looking = None
        self.outlook = outlook
        self.list.show_rows(rows(outlook.states))
        self.sheet.show_corrections(outlook.corrections)
        if outlook.problem:
            self._say(outlook.problem)
        self.state_changed.emit()
        if self._stale:
            self._look_soon()
        elif self._publishing:
            self.mark_published()

    def _look_failed(self, error: BaseException) -> None:
        self._looking, self._publishing = None, False
        self._say(f"The files could not be compared ({type(error).__name__}: {error}).")

    def _progressed(self, progress: Progress) -> None:
        told = f"{progress.done} of {progress.total} {progress.what}" if progress.total else f"{progress.what}…"
        self._say(told)

    def _made(self, result: tuple[int, tuple[str, ...]]) -> None:
        made, problems = result
        name = self.folder.name if self.folder else ""
        self._end(f"{made} file{'s' if made != 1 else ''} written to {name}." if made else "Nothing needed to be made.")
        if problems:
            self.workshop.dialogs.tell("Some files could not be made", f"{made} made.", "\n".join(problems))

    def _failed(self, error: BaseException) -> None:
        known = isinstance(error, StorageError | ValueError)
        text = str(error) if known else f"The hand-off failed ({type(error).__name__}: {error})."
        self._end(text)
        self.workshop.dialogs.tell("The hand-off was not made", text)

    def _stopped(self) -> None:
        self._end("Stopped; the files that are there are whole.")

    def _end(self, words: str) -> None:
        self._making = None
        self._say(words)
        self._show_running()
        self._look_soon()

    # What is shown

    def _build(self) -> None:
        self._where = plain_label("", "quiet", wrap=True)
        self._message = plain_label("", wrap=True)
        self.stale = push_button("Make what is &stale", self.make_stale, primary=True)
        self.one = push_button("Make this &one", self.make_chosen)
        self.all = push_button("Make &all", self.make_all)
        self.stop = push_button("St&op", self.stop_making)
        self.choose = push_button("&Folder…", self.choose_folder)
        self.open = push_button("Open the fol&der", self.open_folder)
        self.publish = push_button("Mark as &published", self.mark_published)
        split = QSplitter(Qt.Orientation.Horizontal)
        split.addWidget(self.list)
        split.addWidget(self.sheet)
        split.setChildrenCollapsible(False)
        split.setHandleWidth(GRID)
        split.setSizes([1000, 1000])
        page = QWidget()
        column = QVBoxLayout(page)
        column.setContentsMargins(2 * GRID, 2 * GRID, 2 * GRID, GRID)
        column.setSpacing(GRID)
        column.addWidget(self._where)
        buttons = (self.stale, self.one, self.all, self.stop, self.choose, self.open, self.publish)
        column.addWidget(flow(*buttons, across=GRID))
        column.addWidget(self._message)
        column.addWidget(split, 1)
        self._stack = QStackedLayout(self)
        self._stack.addWidget(page)
        self._stack.addWidget(self._teaching())
        self._say("")

    def _teaching(self) -> QWidget:
        page = QWidget()
        column = QVBoxLayout(page)
        column.setContentsMargins(4 * GRID, 4 * GRID, 4 * GRID, 4 * GRID)
        column.setSpacing(2 * GRID)
        words = "Here the brief, captions, timeline, pictures and lists for the edit are made from the rundown."
        column.addWidget(plain_label(words, "heading", wrap=True))
        start = push_button("Plan the &rundown", self._to_the_rundown, primary=True)
        column.addWidget(start, 0, Qt.AlignmentFlag.AlignLeft)
        column.addStretch(1)
        return page

    def _add_actions(self) -> None:
        for text, key, act in (
            ("Make what is &stale", "Ctrl+Shift+M", self.make_stale),
            ("Make the &one at hand", "", self.make_chosen),
            ("Make &all", "", self.make_all),
            ("Choose the &folder…", "", self.choose_folder),
            ("Mark as &published", "", self.mark_published),
        ):
            action = QAction(text, self)
            if key:
                action.setShortcut(QKeySequence(key))
            action.setShortcutContext(Qt.ShortcutContext.WidgetWithChildrenShortcut)
            action.triggered.connect(act)
            self.addAction(action)

    def _changed(self) -> None:
        empty = not self.document.episode.rundown.segments and not self.document.episode.specimens
        self._stack.setCurrentIndex(1 if empty else 0)
        self._look_soon()

    def _started(self) -> None:
        self.folder, self.outlook = self._usual_folder(), None
        self.list.show_rows(rows(None))
        self._show_folder()
        self._look_soon()
        self.state_changed.emit()

    def _usual_folder(self) -> Path | None:
        """Beside the episode's file; None for an episode without one, which is then asked for."""
        path = self.document.path
        return path.with_name(re.sub(r"[^\w.-]+", "_", path.stem) + "_handoff") if path else None

    def _show_folder(self) -> None:
        self._where.setText(f"Into {self.folder}" if self.folder else "The folder is chosen when the files are made")
        self.open.setEnabled(self.folder is not None and self.folder.is_dir())

    def _show_chosen(self, row: Row | None) -> None:
        self.sheet.show_row(row)

    def _show_running(self) -> None:
        running = self._making is not None
        self.stop.setVisible(running)
        for button in (self.stale, self.one, self.all, self.choose, self.publish):
            button.setEnabled(not running)
        self._show_folder()
        self.state_changed.emit()

    def _say(self, words: str) -> None:
        self._message.setText(words)
        self._message.setVisible(bool(words))

    def _to_the_rundown(self) -> None:
        self.go.emit("rundown", "")
