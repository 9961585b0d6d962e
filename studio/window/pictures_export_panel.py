"""The export's panel: format, chosen or all, progress, Stop, and where the files are when it is done."""

from collections.abc import Callable
from pathlib import Path

from PySide6.QtCore import QUrl, Signal
from PySide6.QtGui import QDesktopServices
from PySide6.QtWidgets import QVBoxLayout, QWidget

from studio.handoff.contact_sheet import check_name
from studio.storage.errors import StorageError
from studio.window.chooser import Chooser
from studio.window.dialogs import Choice
from studio.window.flow import flow
from studio.window.form_parts import FieldBox
from studio.window.labels import plain_label, push_button
from studio.window.palette import GRID
from studio.window.pictures_check import Check
from studio.window.pictures_export import FORMATS, Export, Outcome
from studio.window.place import Workshop
from studio.window.tasks import Job, Progress

SHEETS = "Pictures (*.png *.pdf)"
_OVERWRITE = (Choice("over", "Write over them", by_enter=True), Choice("cancel", "Cancel", by_escape=True))


class ExportPanel(QWidget):
    """``prepare`` makes the export of the ids given, in the format and steps chosen here, into a folder."""

    state_changed = Signal()

    def __init__(self, workshop: Workshop, prepare: Callable[[tuple[str, ...], str, str, Path], Export]) -> None:
        super().__init__()
        self._workshop, self._prepare = workshop, prepare
        self._number: int | None = None
        self._done = 0
        self._folder: Path | None = None
        self.chosen: tuple[str, ...] = ()
        self.format = Chooser(16)
        for key, words in FORMATS:
            self.format.addItem(words, key)
        self.steps = Check("Each &step of the build-up")
        self.one = push_button("E&xport chosen…", self.export_chosen, primary=True)
        self.all = push_button("Export &all…", self.export_all)
        self.stop = push_button("St&op", self.stop_export)
        self.sheet = push_button("Contact shee&t…", self.export_sheet)
        self.open = push_button("Open the fol&der", self.open_folder)
        self.message = plain_label("", wrap=True)
        self._lay_out()
        self._show_running(False)
        self._say("")

    @property
    def running(self) -> bool:
        """Whether an export runs."""
        return self._number is not None

    def show_chosen(self, ids: tuple[str, ...]) -> None:
        """These pictures are chosen on the shelf."""
        self.chosen = ids
        self.one.setText("E&xport chosen…" if len(ids) == 1 else f"E&xport chosen ({len(ids)})…")
        self.one.setEnabled(bool(ids) and not self.running)

    def export_chosen(self) -> None:
        """Export the pictures chosen on the shelf."""
        if self.chosen:
            self._begin(self.chosen)

    def export_all(self) -> None:
        """Export the whole catalogue."""
        self._begin(())

    def export_sheet(self) -> None:
        """Put every picture on one page, as PNG or PDF."""
        if self.running:
            return
        path = self._workshop.dialogs.save_file("Contact sheet", self._suggested() / "contact_sheet.png", SHEETS)
        if path is None:
            return
        path = path if path.suffix else path.with_name(f"{path.name}.png")
        try:
            check_name(path)
        except ValueError as error:
            self._workshop.dialogs.tell("The contact sheet was not written", f"{error}.")
            return
        export = self._prepare((), "png", "last", path.parent)
        self._run("Drawing the contact sheet", export.sheet_job(path), path.parent)

    def stop_export(self) -> None:
        """Stop; what is written so far is whole."""
        if self._number is not None:
            self._workshop.jobs.stop(self._number)

    def open_folder(self) -> None:
        """Show the folder in the system's own program."""
        if self._folder is not None:
            QDesktopServices.openUrl(QUrl.fromLocalFile(str(self._folder)))

    def _begin(self, ids: tuple[str, ...]) -> None:
        if self.running:
            return
        folder = self._workshop.dialogs.choose_folder("Export pictures into", self._suggested())
        if folder is None:
            return
        export = self._prepare(ids, self.format.currentData(), "all" if self.steps.isChecked() else "last", folder)
        if (there := export.in_the_way()) and not self._may_write_over(there, folder):
            return
        self._run("Exporting pictures", export.job, folder)

    def _run(self, name: str, job: Callable[[], Job], folder: Path) -> None:
        self._folder, self._done = folder, 0
        self._number = self._workshop.jobs.run(
            name, job, self._progressed, self._finished, self._failed, self._stopped
        )  # fmt: skip
        self._show_running(True)
        self._say(f"{name}…")

    def _may_write_over(self, there: tuple[str, ...], folder: Path) -> bool:
        listed = ", ".join(there[:3]) + (f" and {len(there) - 3} more" if len(there) > 3 else "")
        text = f"{folder.name or folder} already holds {listed}. Write over {'it' if len(there) == 1 else 'them'}?"
        return self._workshop.dialogs.choose("Pictures are there already", text, _OVERWRITE) == "over"

    def _suggested(self) -> Path:
        path = self._workshop.document.path
        return self._folder or (path.parent if path else Path.home())

    def _progressed(self, progress: Progress) -> None:
        self._done = progress.done
        self._say(f"{progress.done} of {progress.total} {progress.what}".strip())

    def _finished(self, outcome: Outcome) -> None:
        self._end(f"{outcome.words}.")
        if outcome.problems:
            self._workshop.dialogs.tell("Pictures exported", f"{outcome.words}.", "\n".join(outcome.problems))

    def _failed(self, error: BaseException) -> None:
        known = isinstance(error, StorageError | ValueError)
        text = str(error) if known else f"The export failed ({type(error).__name__}: {error})."
        self._end(text)
        self._workshop.dialogs.tell("Pictures were not exported", text)

    def _stopped(self) -> None:
        self._end(f"Stopped after {self._done}; what is in the folder is whole.")

    def _end(self, words: str) -> None:
        self._number = None
        self._show_running(False)
        self.open.setVisible(self._folder is not None and self._folder.is_dir())
        self._say(words)

    def _say(self, words: str) -> None:
        self.message.setText(words)
        self.message.setVisible(bool(words))
        self.state_changed.emit()

    def _show_running(self, running: bool) -> None:
        self.stop.setVisible(running)
        self.open.setVisible(False)
        self.all.setEnabled(not running)
        self.sheet.setEnabled(not running)
        self.one.setEnabled(bool(self.chosen) and not running)

    def _lay_out(self) -> None:
        column = QVBoxLayout(self)
        column.setContentsMargins(0, GRID, 0, 0)
        column.setSpacing(GRID)
        buttons = flow(self.one, self.all, self.stop, self.open, self.sheet, across=GRID)
        for widget in (FieldBox("Export as", self.format, wide=True), self.steps, buttons, self.message):
            column.addWidget(widget)
