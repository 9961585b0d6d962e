"""The hand-off's work off the window's thread: looking what is fresh, and making files."""

from contextlib import closing
from dataclasses import dataclass
from pathlib import Path
from typing import Any

from studio.graphics.look import Look
from studio.handoff.manifest import FileState
from studio.handoff.published import Correction
from studio.handoff.works import ITEM_NAMES
from studio.model.episode import Episode
from studio.model.finding import Findings
from studio.model.rundown import Publication
from studio.window.tasks import Job, Progress


@dataclass(frozen=True)
class Outlook:
    """How things stand: the state of every file, the corrections due, and what would be published now."""

    states: tuple[FileState, ...]
    corrections: tuple[Correction, ...]
    publication: Publication
    problem: str = ""


@dataclass(frozen=True)
class Handoff:
    """What the hand-off is made from, fixed at the moment it was asked for."""

    episode: Episode
    findings: Findings
    tables: Any
    look: Look

    def look_job(self, folder: Path | None) -> Job:
        """Look what is fresh in ``folder`` (None: none is chosen yet); returns Outlook."""
        from studio.handoff.gathering import gather
        from studio.handoff.making import today
        from studio.handoff.published import corrections, publication
        from studio.questions.told import with_answer
        from studio.storage.errors import StorageError

        yield Progress(0, 2, "drawing")
        material = gather(self.episode, with_answer(self.episode, self.findings, self.tables), self.tables, self.look)
        yield Progress(1, 2, "comparing")
        states, problem = tuple[FileState, ...](), ""
        try:
            states = today(material, folder)
        except StorageError as error:
            problem = str(error)
        return Outlook(states, corrections(material), publication(material), problem)

    def make_job(self, folder: Path, items: tuple[str, ...], stale_only: bool) -> Job:
        """Make files in ``folder``; yields Progress, returns the count made and what could not be, in sentences."""
        from studio.handoff.gathering import gather
        from studio.handoff.making import make
        from studio.questions.told import with_answer

        yield Progress(0, 0, "drawing")
        material = gather(self.episode, with_answer(self.episode, self.findings, self.tables), self.tables, self.look)
        made, problems = 0, list[str]()
        with closing(make(material, folder, items, stale_only=stale_only)) as steps:  # type: ignore[type-var]
            for step in steps:
                made += step.state is not None
                problems += [step.problem] if step.failed else []
                yield Progress(step.done, step.total, ITEM_NAMES.get(step.item, step.item))
        return made, tuple(problems)
