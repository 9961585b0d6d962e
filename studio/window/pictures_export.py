"""Export: which pictures, in which format, into which folder; made off the window's thread, stopped whole."""

from collections.abc import Callable, Generator
from contextlib import closing
from dataclasses import dataclass
from pathlib import Path

from studio.graphics.look import Look
from studio.handoff import pictures as handoff
from studio.handoff.contact_sheet import Item, items, sheet, write_sheet
from studio.handoff.picture_files import Wanted, file_name
from studio.model.episode import Episode
from studio.model.finding import Findings
from studio.questions.told import with_answer
from studio.window.tasks import Job, Progress

FORMATS: tuple[tuple[str, str], ...] = (
    ("png", "PNG, pixels with transparency"), ("svg", "SVG, text stays text"), ("pdf", "PDF, for print"),
)  # fmt: skip


@dataclass(frozen=True, kw_only=True)
class Export:
    """What is to be exported, fixed at the moment it was asked for."""

    episode: Episode
    findings: Findings
    look: Look
    wanted: Wanted
    folder: Path
    names: dict[str, str]

    def in_the_way(self) -> tuple[str, ...]:
        """The files that are there already and would be written over, in order."""
        try:
            there = {path.name for path in self.folder.iterdir()}
        except OSError:
            return ()
        return tuple(sorted(name for name in there if self._is_ours(name)))

    def job(self) -> Job:
        """Write file by file; yields Progress, returns Outcome. Stopped in between, what is written is whole."""
        total = len(self.wanted.in_order())
        files, problems, count = 0, list[str](), 0
        yield Progress(0, total, "")
        with closing(self._steps()) as steps:
            for step in steps:
                files += step.entry is not None
                count = step.done
                problems += [text for text in (self._named(step.picture, step.problem), step.warning) if text]
                yield Progress(count, total, self.names.get(step.picture, step.picture))
        return Outcome(self.folder, files, tuple(problems))

    def sheet_job(self, path: Path) -> Callable[[], Job]:
        """A job that puts every picture on one page and writes it to ``path``, whole or not at all."""

        def job() -> Job:
            shown = list[Item]()
            total = len(self.names)
            for item in items(self.episode, self._all_findings(), self.look, self.wanted.frame):
                shown.append(item)
                yield Progress(len(shown), total, item.name)
            write_sheet(sheet(self.episode, shown, self.look, self.wanted.frame), path, self.episode.channel)
            problems = tuple(f"{item.name}: {item.missing}" for item in shown if item.failed)
            return Outcome(self.folder, 1, problems)

        return job

    def _steps(self) -> Generator[handoff.Progress, None, None]:
        findings = self._all_findings()
        yield from handoff.export_pictures(self.episode, findings, self.look, self.wanted, self.folder)

    def _all_findings(self) -> Findings:
        """With the viewer's question that the picture of an answer shows."""
        from studio.reference.tables import load_tables

        return with_answer(self.episode, self.findings, load_tables())

    def _is_ours(self, name: str) -> bool:
        """Whether a picture wanted, or one of its steps, has this name; the list of pictures is made anew each time."""
        for id_ in self.wanted.in_order():
            whole = Path(file_name(id_, self.wanted, None, 0))
            if name == whole.name and self.wanted.steps == "last":
                return True
            if self.wanted.steps == "all" and name.startswith(f"{whole.stem}_step") and name.endswith(whole.suffix):
                return True
        return False

    def _named(self, picture: str, problem: str) -> str:
        """The problem with the picture's name in place of its id."""
        return problem.replace(f"{picture}:", f"{self.names.get(picture, picture)}:", 1)


@dataclass(frozen=True)
class Outcome:
    """What came of an export."""

    folder: Path
    files: int
    problems: tuple[str, ...] = ()

    @property
    def words(self) -> str:
        """In one line: ``6 files written to pictures``."""
        files = "1 file" if self.files == 1 else f"{self.files} files"
        left = f"; {len(self.problems)} left out or with a remark" if self.problems else ""
        return f"{files} written to {self.folder.name or self.folder}{left}"
