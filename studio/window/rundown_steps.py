"""The steps of a picture, to be chosen by name: what they are called is found by drawing the picture meanwhile."""

from collections.abc import Generator
from functools import partial

from msgspec.structs import replace
from PySide6.QtCore import QPoint
from PySide6.QtGui import QAction
from PySide6.QtWidgets import QMenu, QPushButton

from studio.graphics.catalogue import CannotShow, scene_of
from studio.graphics.frame import FRAMES
from studio.graphics.look import Look
from studio.model.episode import Episode
from studio.model.finding import Findings
from studio.model.rundown import PictureCue
from studio.window.labels import button_text, name_field
from studio.window.pictures_view import look_of
from studio.window.rows import RowSubject
from studio.window.tasks import JobRunner


class StepsButton(QPushButton):
    """Opens a menu of the picture's steps, each with a mark if it is wanted."""

    def __init__(self, row: RowSubject, jobs: JobRunner) -> None:
        super().__init__("Steps…")
        self._row, self._jobs = row, jobs
        self.menu_of_steps = QMenu(self)
        self.setAutoDefault(False)
        name_field(self, f"Choose steps of {row.words}")
        self.clicked.connect(self._ask)

    def _ask(self) -> None:
        cue = self._row.value()
        if not isinstance(cue, PictureCue):
            return
        document = self._row.document
        self.setEnabled(False)
        self._jobs.run(
            "Steps of a picture",
            partial(steps_job, document.episode, document.findings, look_of(document.episode), cue.picture),
            on_done=self._show, on_error=self._failed, on_stopped=self._stopped, quiet=True,
        )  # fmt: skip

    def _show(self, found: tuple[tuple[str, ...], str]) -> None:
        self._stopped()
        steps, why = found
        cue = self._row.value()
        self.menu_of_steps.clear()
        if why or not isinstance(cue, PictureCue):
            self.menu_of_steps.addAction(button_text(why)).setEnabled(False)
        for step in steps if isinstance(cue, PictureCue) else ():
            action = QAction(button_text(step), self.menu_of_steps)
            action.setCheckable(True)
            action.setChecked(not cue.steps or step in cue.steps)
            action.setData(steps)
            action.triggered.connect(self._chosen)
            self.menu_of_steps.addAction(action)
        self.setFocus()
        self.menu_of_steps.popup(self.mapToGlobal(QPoint(0, self.height())))

    def _chosen(self) -> None:
        """All marked is as good as none chosen: the picture is shown whole."""
        wanted = tuple(its.text().replace("&&", "&") for its in self.menu_of_steps.actions() if its.isChecked())
        cue, action = self._row.value(), self.sender()
        if isinstance(cue, PictureCue) and isinstance(action, QAction):
            self._row.write("steps", replace(cue, steps=() if len(wanted) == len(action.data()) else wanted))

    def _failed(self, _error: BaseException) -> None:
        self._show(((), "The picture could not be drawn"))

    def _stopped(self) -> None:
        self.setEnabled(True)


def steps_job(
    episode: Episode, findings: Findings, look: Look, picture: str
) -> Generator[float, None, tuple[tuple[str, ...], str]]:
    """The names of a picture's steps; or none, and why."""
    yield 0.0
    try:
        return scene_of(episode, findings, picture, FRAMES["wide"], look).steps, ""
    except CannotShow as error:
        return (), str(error)
    except KeyError:
        return (), "There is no such picture"
