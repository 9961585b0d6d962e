"""The job runner: progress, results, errors and stopping reach the window's thread, and nothing outlives it."""

import gc
import threading
import time
import weakref
from dataclasses import dataclass, field
from functools import partial
from typing import Any

import pytest
from PySide6.QtCore import QObject, QThread, Signal
from PySide6.QtTest import QTest
from shiboken6 import delete

from studio.window.tasks import JobRunner, Progress


@dataclass
class Log:
    seen: list[Any] = field(default_factory=list)
    threads: set[Any] = field(default_factory=set)

    def note(self, value: Any = "stopped") -> None:
        self.seen.append(value)
        self.threads.add(threading.current_thread())


def three_steps():
    for done in range(3):
        yield Progress(done + 1, 3, f"step {done + 1}")
    return "result"


def test_progress_and_result_come_in_order_in_the_windows_thread(qtbot, jobs):
    log = Log()
    jobs.run("Three steps", three_steps, log.note, log.note, log.note)
    qtbot.waitUntil(lambda: not jobs.busy)
    assert [p.share for p in log.seen[:3]] == pytest.approx([1 / 3, 2 / 3, 1])
    assert log.seen[3:] == ["result"]
    assert log.threads == {threading.main_thread()}


def test_an_error_is_told_with_its_exception(qtbot, jobs, caplog):
    def broken():
        yield 0.5
        raise OSError("disk gone")

    log = Log()
    jobs.run("Broken", broken, on_error=log.note, on_done=log.note)
    qtbot.waitUntil(lambda: not jobs.busy)
    assert [str(error) for error in log.seen] == ["disk gone"]
    assert "Broken" in caplog.text


def test_a_stop_takes_effect_within_half_a_second_and_the_job_tidies_up(qtbot, jobs):
    tidied = threading.Event()

    def endless():
        try:
            while True:
                time.sleep(0.01)
                yield 0.0
        finally:
            tidied.set()

    log = Log()
    number = jobs.run("Endless", endless, on_done=log.note, on_stopped=log.note)
    qtbot.waitUntil(lambda: jobs.current() is not None and jobs.current()[1] is not None)
    jobs.stop(number)
    qtbot.waitUntil(lambda: not jobs.busy, timeout=500)
    assert tidied.is_set()
    assert log.seen == ["stopped"]


def test_closing_joins_all_threads_and_calls_nobody(qtbot, qapp):
    runner, log = JobRunner(), Log()

    def endless():
        while True:
            time.sleep(0.01)
            yield 0.0

    for name in "abc":  # one more than run at once
        runner.run(name, endless, on_done=log.note, on_stopped=log.note)
    assert runner.close()
    qapp.processEvents()
    assert (runner.busy, log.seen) == (False, [])


def test_the_job_runs_in_another_thread(qtbot, jobs):
    log = Log()

    def where():
        yield 0.0
        return QThread.currentThread() is QObject().thread() and threading.current_thread() is threading.main_thread()

    jobs.run("Where", where, on_done=log.note)
    qtbot.waitUntil(lambda: bool(log.seen))
    assert log.seen == [False]


def test_no_garbage_is_collected_in_a_jobs_thread(qtbot, jobs):
    """An object of the window that dies in another thread takes the program with it."""
    assert gc.isenabled()
    threads: set[threading.Thread] = set()

    def note(phase: str, _info: dict[str, int]) -> None:
        if phase == "start":
            threads.add(threading.current_thread())

    def littering():
        for _ in range(20):
            for _ in range(2_000):
                ring: list[Any] = []
                ring.append(ring)
            yield 0.0
            time.sleep(0.05)

    gc.set_threshold(700, 10, 10)
    gc.callbacks.append(note)
    try:
        jobs.run("Litter", littering)
        assert not gc.isenabled()
        qtbot.waitUntil(lambda: not jobs.busy)
    finally:
        gc.callbacks.remove(note)
    assert threads == {threading.main_thread()}
    assert gc.isenabled()


class Listener(QObject):
    """A part of the window that may go while a job of its own runs."""

    heard = Signal(object)

    def hear(self, value: Any) -> None:
        self.heard.emit(value)


@pytest.mark.parametrize("fails", [False, True])
def test_a_part_that_has_gone_is_not_told(qtbot, jobs, caplog, fails):
    gone = threading.Event()

    def waits():
        yield 0.5
        assert gone.wait(10)
        if fails:
            raise ValueError("too late")
        yield 1.0

    listener = Listener()
    jobs.run("Waits", waits, listener.hear, listener.hear, listener.hear)
    with qtbot.waitSignal(listener.heard):
        pass
    delete(listener)
    gone.set()
    with caplog.at_level("CRITICAL", logger="studio.window.tasks"):
        qtbot.waitUntil(lambda: not jobs.busy)


class Material:
    """What a job is made from."""


def test_ended_jobs_keep_nothing_alive(qtbot, jobs, caplog):
    """However it ends; a long evening has thousands of jobs."""
    kept = weakref.WeakSet[Material]()

    def start(ends: str) -> None:
        material = Material()
        kept.add(material)

        def job():
            own = Material()
            kept.add(own)
            yield material
            if ends == "error":
                raise ValueError("refused")
            while ends == "stopped":
                time.sleep(0.001)
                yield 0.0
            return own

        number = jobs.run("Made", job)
        if ends == "stopped":
            jobs.stop(number)

    gc.collect()
    known = len(gc.get_objects())
    with caplog.at_level("CRITICAL", logger="studio.window.tasks"):  # what is logged is kept, with its frames
        for number in range(60):
            start(("done", "error", "stopped")[number % 3])
        qtbot.waitUntil(lambda: not len(jobs), timeout=30_000)
    qtbot.waitUntil(lambda: not len(kept))
    gc.collect()
    assert len(gc.get_objects()) - known < 60


def test_a_jobs_thread_keeps_its_python_state_from_job_to_job(qtbot, jobs):
    """Libraries remember the state they were imported under: where it is another, the program stops for ever."""
    own, log = threading.local(), Log()

    def first():
        yield 0.0
        own.mark = threading.get_ident()

    def second():
        yield 0.0
        return getattr(own, "mark", None) == threading.get_ident()

    jobs.run("First", first)
    qtbot.waitUntil(lambda: not len(jobs))
    jobs.run("Second", second, on_done=log.note)
    qtbot.waitUntil(lambda: not len(jobs))
    assert log.seen == [True]


def test_two_run_at_once_and_the_others_in_turn(qtbot, jobs):
    begun: list[str] = []
    go_on = threading.Event()

    def waits(name: str):
        begun.append(name)
        while not go_on.is_set():
            time.sleep(0.001)
            yield 0.0

    for name in "abcd":
        jobs.run(name, partial(waits, name))
    qtbot.waitUntil(lambda: len(begun) == 2)
    QTest.qWait(50)
    assert sorted(begun) == ["a", "b"]
    go_on.set()
    qtbot.waitUntil(lambda: not len(jobs))
    assert sorted(begun[2:]) == ["c", "d"]


def test_a_job_that_will_not_end_is_told_at_closing_and_says_nothing_later(qtbot, qapp):
    runner, log, go_on, over = JobRunner(), Log(), threading.Event(), threading.Event()

    def deaf():
        go_on.wait(30)
        over.set()
        yield 0.0

    runner.run("Deaf", deaf, log.note, log.note, log.note, log.note)
    assert not runner.close(wait_ms=50)
    go_on.set()
    assert over.wait(30)
    assert runner.close()
    QTest.qWait(50)
    assert (len(runner), log.seen, gc.isenabled()) == (0, [], True)


def test_a_closed_runner_begins_nothing(qtbot, qapp):
    runner, log = JobRunner(), Log()
    assert runner.close()
    runner.run("Late", three_steps, log.note, log.note, log.note)
    QTest.qWait(50)
    assert (len(runner), log.seen) == (0, [])
