"""One job runner, owned by the window: work that lasts runs off the window's thread, shows progress, can be stopped.

A job is a generator. What it yields is its progress: a share from 0 to 1, or ``Progress(done, total, what)``. It is
stopped only where it yields, by GeneratorExit, so that its ``finally`` can leave no half file; it yields at least every
0.3 s. What it returns is its result. It must not touch widgets.

The threads are Python's own and keep their state of the interpreter from the first job to the last. A thread of Qt's
pool gets a new one for every job; a library that remembers the one it was imported under (pybind11 does) then waits
for Python's lock while it holds it, and the whole program stands still.
"""

import itertools
import logging
import threading
import time
from collections.abc import Callable, Generator
from concurrent.futures import Future, ThreadPoolExecutor, wait
from dataclasses import dataclass, field
from typing import Any

from PySide6.QtCore import QObject, Qt, QTimer, Signal, SignalInstance
from shiboken6 import isValid

from studio.graphics.look_parts import LookError
from studio.storage.errors import StorageError
from studio.window import collector

Job = Generator[Any, None, Any]
Factory = Callable[[], Job]
_AT_ONCE = 2
_COLLECT_MS = 500
_REFUSALS = (StorageError, LookError)
"""What is said of a file or a disk: told to the person in words, and no fault of the program."""
_LOG = logging.getLogger(__name__)


@dataclass(frozen=True)
class Progress:
    """How far a job is: ``done`` of ``total``, and what it works on now."""

    done: int
    total: int
    what: str = ""

    @property
    def share(self) -> float:
        """From 0 to 1."""
        return self.done / self.total if self.total else 0.0


@dataclass
class _Running:
    name: str
    on_progress: Callable[[Any], object] | None
    on_done: Callable[[Any], object] | None
    on_error: Callable[[BaseException], object] | None
    on_stopped: Callable[[], object] | None
    work: "_Work"
    future: Future[None]
    quiet: bool
    started: float = field(default_factory=time.monotonic)
    progress: Any = None


class JobRunner(QObject):
    """Runs jobs in threads of its own, two at once, in turn. ``changed`` says that a job began, went on or ended."""

    changed = Signal()
    _progressed = Signal(object, object)
    _ended = Signal(object, object, object)  # number, how, value

    def __init__(self, parent: QObject | None = None) -> None:
        super().__init__(parent)
        self._pool = ThreadPoolExecutor(_AT_ONCE, "job")
        self._door = threading.Lock()
        self._closed = False
        self._jobs: dict[int, _Running] = {}
        self._numbers = itertools.count(1)
        self._collecting = QTimer(self)
        self._collecting.setInterval(_COLLECT_MS)
        self._collecting.timeout.connect(collector.collect)
        self._progressed.connect(self._take_progress, Qt.ConnectionType.QueuedConnection)
        self._ended.connect(self._take_end, Qt.ConnectionType.QueuedConnection)

    def run(
        self,
        name: str,
        factory: Factory,
        on_progress: Callable[[Any], object] | None = None,
        on_done: Callable[[Any], object] | None = None,
        on_error: Callable[[BaseException], object] | None = None,
        on_stopped: Callable[[], object] | None = None,
        quiet: bool = False,
    ) -> int:
        """Run the generator that ``factory`` makes in another thread; its number, for ``stop``.

        The callbacks are bound methods and are called in the window's thread: ``on_progress`` with what was yielded,
        then exactly one of ``on_done`` with the result, ``on_error`` with the exception, ``on_stopped``.
        A ``quiet`` job only redraws what is on the window: nobody waits for it, so ``busy``, ``current`` and
        ``changed`` do not speak of it. Once the runner is closed, nothing is begun any more.
        """
        number = next(self._numbers)
        if self._closed:
            return number
        work = _Work(factory)
        collector.hold()
        self._collecting.start()
        future = self._pool.submit(self._do, number, name, work)
        self._jobs[number] = _Running(name, on_progress, on_done, on_error, on_stopped, work, future, quiet)
        self._say_changed(quiet)
        return number

    @property
    def busy(self) -> bool:
        """Whether any job runs or waits."""
        return any(not job.quiet for job in self._jobs.values())

    def current(self) -> tuple[str, Any, float] | None:
        """Name, last progress and seconds since its start of the oldest running job; None where none runs."""
        job = next((job for job in self._jobs.values() if not job.quiet), None)
        return (job.name, job.progress, time.monotonic() - job.started) if job else None

    def __len__(self) -> int:
        return len(self._jobs)

    def __bool__(self) -> bool:
        return True

    def stop(self, number: int | None = None) -> None:
        """Ask one job, or all that somebody waits for, to stop; they do where they yield next."""
        for mine, job in self._jobs.items():
            if mine == number or (number is None and not job.quiet):
                job.work.stopping.set()

    def close(self, wait_ms: int = 5000) -> bool:
        """Stop all jobs and wait for their threads; whether all have ended. No callback is called any more.

        Where one has not ended it may be asked again; until then garbage is not collected by chance.
        """
        with self._door:
            self._closed = True
        for job in self._jobs.values():
            job.work.stopping.set()
        self._pool.shutdown(wait=False, cancel_futures=True)
        begun = [job.future for job in self._jobs.values() if not job.future.cancelled()]
        ended = not wait(begun, wait_ms / 1000).not_done
        self._collecting.stop()
        if ended:
            self._pool.shutdown()
            collector.release(len(self._jobs))
            self._jobs.clear()
        return ended

    def _do(self, number: int, name: str, work: "_Work") -> None:
        """Runs in a job's thread."""
        how, value = work.drive(lambda progress: self._tell(self._progressed, number, progress))
        if how == "error":
            if not isinstance(value, _REFUSALS):
                _LOG.error("job %s failed", name, exc_info=value)
            value = value.with_traceback(None)  # it would keep alive all that was at hand where it happened
        self._tell(self._ended, number, how, value)

    def _tell(self, signal: SignalInstance, *what: object) -> None:
        """Send word to the window's thread, unless the runner is closed: it may then be gone at any moment."""
        with self._door:
            if not self._closed:
                signal.emit(*what)

    def _say_changed(self, quiet: bool) -> None:
        if not quiet:
            self.changed.emit()

    def _take_progress(self, number: int, value: Any) -> None:
        if (job := self._jobs.get(number)) and not self._closed:
            job.progress = value
            self._say_changed(job.quiet)
            if job.on_progress and _is_there(job.on_progress):
                job.on_progress(value)

    def _take_end(self, number: int, how: str, value: Any) -> None:
        if self._closed or (job := self._jobs.pop(number, None)) is None:
            return
        job.work.let_go()
        collector.release()
        if not self._jobs:
            self._collecting.stop()
        self._say_changed(job.quiet)
        if how == "done" and job.on_done and _is_there(job.on_done):
            job.on_done(value)
        elif how == "stopped" and job.on_stopped and _is_there(job.on_stopped):
            job.on_stopped()
        elif how == "error" and job.on_error and _is_there(job.on_error):
            job.on_error(value)


def _is_there(callback: Callable[..., object]) -> bool:
    """Whether the object to be told still exists: a part of the window may have gone while its job ran."""
    owner = getattr(callback, "__self__", None)
    return not isinstance(owner, QObject) or isValid(owner)


class _Work:
    """Drives one generator in a job's thread."""

    def __init__(self, factory: Factory) -> None:
        self.stopping = threading.Event()
        self._factory = factory

    def let_go(self) -> None:
        """Forget what the job was made from, in the window's thread: a part of the window may end with it."""
        del self._factory

    def drive(self, progressed: Callable[[Any], object]) -> tuple[str, Any]:
        """Drive the generator to its end ("done"), its error ("error") or the request to stop ("stopped")."""
        if self.stopping.is_set():
            return "stopped", None
        try:
            job = self._factory()
            try:
                while not self.stopping.is_set():
                    try:
                        progressed(next(job))
                    except StopIteration as end:
                        return "done", end.value
                return "stopped", None
            finally:
                job.close()
        except BaseException as error:  # whatever a job raises is told to the window
            return "error", error
