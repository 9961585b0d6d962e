"""Fixtures of the window's tests: the appearance, answers in place of dialogs, a workshop of a given episode."""

import gc
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

NEVER = 1_000_000_000


@pytest.fixture(autouse=True)
def remains_are_left() -> Iterator[None]:
    """What is left of closed windows is never collected, only kept.

    The tests close hundreds of windows where the program closes one. Python's collector would destroy their remains
    in an order of its own, and now and then PySide crashes on it, in whichever test comes after.
    """
    thresholds = gc.get_threshold()
    gc.set_threshold(NEVER)
    yield
    gc.freeze()
    gc.set_threshold(*thresholds)


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
        window.hide()
        window.deleteLater()
    qapp.sendPostedEvents(None, QEvent.Type.DeferredDelete)
    appearance.set_percent(100)
    QApplication.clipboard().clear()
