"""Fixtures of the window's tests: the appearance, answers in place of dialogs, a workshop of a given episode."""

from collections.abc import Callable, Iterator

import pytest
from PySide6.QtWidgets import QApplication

from studio.model.episode import Episode
from studio.window.document import Document
from studio.window.palette import Appearance
from studio.window.place import Workshop
from studio.window.tasks import JobRunner
from tests.window.helpers import DAY, Answers


@pytest.fixture
def empty_episode() -> Episode:
    return Episode(title="Untitled", on=DAY)


@pytest.fixture
def answers() -> Answers:
    return Answers()


@pytest.fixture
def appearance(qapp: QApplication) -> Appearance:
    return Appearance(qapp, "light")


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
