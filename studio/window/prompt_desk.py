"""Opens the prompting view, has its pictures drawn meanwhile, and keeps a run's times as a take if that is wanted."""

import datetime as dt
from collections.abc import Generator, Iterable
from functools import partial

from msgspec.structs import replace
from PySide6.QtCore import QObject, Signal
from PySide6.QtGui import QGuiApplication
from PySide6.QtWidgets import QWidget

from studio.graphics.catalogue import catalogue
from studio.graphics.frame import FRAMES
from studio.graphics.look import Look, shipped_looks
from studio.model.episode import Episode
from studio.model.finding import Findings
from studio.model.rundown import Take
from studio.script.timing import Timing, time_script
from studio.window.dialogs import Choice
from studio.window.pictures_cache import SessionCache
from studio.window.pictures_order import Drawings, Drawn, Order
from studio.window.pictures_view import look_of
from studio.window.place import Workshop
from studio.window.prompt_page import PromptState
from studio.window.prompt_panel import PromptChoice
from studio.window.prompt_run import PromptRun
from studio.window.prompt_script import PromptPart, prompt_parts
from studio.window.prompt_view import PromptView
from studio.window.rundown_edit import with_rundown
from studio.window.rundown_rows import clock

_THUMB = (640, 360)
CHOICES = (
    Choice("rehearsal", "Keep as a rehearsal", by_enter=True), Choice("recorded", "Keep as the recorded take"),
    Choice("no", "Do not keep", by_escape=True),
)  # fmt: skip


class PromptDesk(QObject):
    """One view at a time. ``said`` gives a sentence for the window's foot."""

    said = Signal(str)

    def __init__(self, workshop: Workshop, names: dict[str, str], owner: QWidget) -> None:
        super().__init__(owner)
        self._workshop, self._names, self._owner = workshop, names, owner
        self._job: int | None = None
        self.view: PromptView | None = None

    def open(self, choice: PromptChoice, segment: int, timing: Timing | None = None) -> bool:
        """Open the view at this segment; False where there is nothing to say. ``timing`` is that of the episode as it
        is, if it is known already."""
        document = self._workshop.document
        episode, findings = document.episode, document.findings
        timing = timing or time_script(episode.rundown, findings, episode.units)
        parts = prompt_parts(episode, findings, timing)
        if not parts or self.view is not None:
            return False
        run = PromptRun(parts, _start_of(parts, episode, segment))
        state = PromptState(float(timing.words_per_minute), float(timing.total_s), self._names, {})
        self.view = PromptView(run, shipped_looks()["night_bay"], state, self._owner.window())
        self.view.finished.connect(self._finished)
        screens = QGuiApplication.screens()
        self.view.show_on(screens[min(choice.screen, len(screens) - 1)], mirrored=choice.mirrored)
        self._draw(episode, findings, dict.fromkeys(its for part in parts for its in part.pictures))
        return True

    def _draw(self, episode: Episode, findings: Findings, ids: Iterable[str]) -> None:
        wanted = tuple(id_ for id_ in ids if id_ in self._names)
        if wanted:
            self._job = self._workshop.jobs.run(
                "Pictures to prompt", partial(_pictures_job, episode, findings, look_of(episode), wanted),
                self._drawn, self._drawn_all, self._drawn_all, self._drawn_all_stopped, quiet=True,
            )  # fmt: skip

    def _drawn(self, drawn: Drawn) -> None:
        if self.view is not None and drawn.image is not None:
            self.view.take_image(drawn.order.picture, drawn.image)

    def _drawn_all(self, _result: object) -> None:
        self._job = None

    def _drawn_all_stopped(self) -> None:
        self._job = None

    def _finished(self) -> None:
        view, self.view = self.view, None
        if self._job is not None:
            self._workshop.jobs.stop(self._job)
        if view is None:
            return
        take = view.run.take(dt.date.today())
        view.deleteLater()
        if take is not None:
            self._offer(take)

    def _offer(self, take: Take) -> None:
        count = len(take.times)
        length = clock(take.times[-1].end_s - take.times[0].start_s)
        text = f"{count} segment{'s were' if count != 1 else ' was'} said in {length}. Their times teach your pace."
        answer = self._workshop.dialogs.choose("Keep the times of this take?", text, CHOICES)
        if answer == "no":
            return
        document = self._workshop.document
        kept = replace(take, recorded=answer == "recorded")
        takes = (*document.episode.rundown.takes, kept)
        document.edit("Keep a take", with_rundown(document.episode, takes=takes))
        self.said.emit(f"{count} times kept as {'the recorded take' if kept.recorded else 'a rehearsal'}")


def _start_of(parts: tuple[PromptPart, ...], episode: Episode, segment: int) -> int:
    """The first part of that segment, or of the next one that has any."""
    ids = [its.id for its in episode.rundown.segments[max(0, segment) :]]
    starts = {part.segment: number for number, part in reversed(list(enumerate(parts)))}
    return next((starts[id_] for id_ in ids if id_ in starts), 0)


def _pictures_job(
    episode: Episode, findings: Findings, look: Look, ids: tuple[str, ...]
) -> Generator[Drawn, None, None]:
    drawings = Drawings(catalogue, SessionCache())
    for id_ in ids:
        yield drawings.draw(
            Order(key=id_, picture=id_, episode=episode, findings=findings, frame=FRAMES["wide"], look=look,
                  size=_THUMB)
        )  # fmt: skip
