"""Fixtures of the window's tests: the appearance, answers in place of dialogs, a workshop of a given episode."""

from collections.abc import Callable, Iterator
from pathlib import Path

import pytest
from PySide6.QtCore import QEvent
from PySide6.QtWidgets import QApplication

from studio.model.episode import Episode
from studio.storage.folders import OVERRIDE
from studio.window.document import Document
from studio.window.main_window import MainWindow
from studio.window.palette import Appearance
from studio.window.place import Workshop
from studio.window.preferences import Preferences
from studio.window.tasks import JobRunner
from tests.window.helpers import DAY, Answers


@pytest.fixture(autouse=True)
def home(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    """The program's own folders, empty and apart from everybody's."""
    folder = tmp_path / "home"
    monkeypatch.setenv(OVERRIDE, str(folder))
    return folder


@pytest.fixture
def empty_episode() -> Episode:
    return Episode(title="Untitled", on=DAY)


@pytest.fixture
def answers() -> Answers:
    return Answers()


@pytest.fixture
def appearance(qapp: QApplication) -> Appearance:
    made = Appearance(qapp, "light")
    made.apply()
    return made


@pytest.fixture
def jobs(qapp: QApplication) -> Iterator[JobRunner]:
    runner = JobRunner()
    yield runner
    assert runner.close()


@pytest.fixture
def workshop_of(
    appearance: Appearance, jobs: JobRunner, answers: Answers
) -> Iterator[Callable[[Episode], Workshop]]:
    """Makes a workshop with the real tables and decisions."""
    made: list[Workshop] = []

    def make(episode: Episode) -> Workshop:
        made.append(Workshop(Document(episode), appearance, jobs, answers))
        return made[-1]

    yield make
    for workshop in made:
        workshop.document.let_go()
    QApplication.clipboard().clear()


@pytest.fixture
def window_of(
    qtbot: object, qapp: QApplication, appearance: Appearance, answers: Answers
) -> Iterator[Callable[..., MainWindow]]:
    """Makes and shows the whole window on an episode, 1280 x 692 unless told otherwise."""
    made: list[MainWindow] = []

    def make(episode: Episode, size: tuple[int, int] = (1280, 692)) -> MainWindow:
        window = MainWindow(Document(episode), appearance, Preferences(), answers)
        made.append(window)
        window.resize(*size)
        window.show()
        window.activateWindow()
        window.foot.complete()
        window.places["car"].draw_plan()
        while window.places.make_next():
            pass
        window.current.take_focus()
        qapp.processEvents()
        return window

    yield make
    for window in made:
        window.autosave.stop()
        assert window.jobs.close()
        window.keeper.close()
        window.document.let_go()
        window.hide()
        window.deleteLater()
    qapp.sendPostedEvents(None, QEvent.Type.DeferredDelete)
    appearance.set_percent(100)
    QApplication.clipboard().clear()
