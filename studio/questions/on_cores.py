"""Many comments looked at on several cores: processes of our own, told what to do over pipes, ended at once on a stop.

Each holds nothing but the comments that it was given. One that ends by itself costs time only: its share is done here.
"""

import os
import signal
from collections.abc import Iterator, Sequence
from contextlib import suppress
from multiprocessing import get_context
from multiprocessing.connection import Connection, wait
from multiprocessing.context import SpawnProcess

from studio.questions.seen import Cleaned, cleaned

_LOT = 50
_WORTH_IT = 1_500
"""Comments: under that many a second process takes longer to start than it saves."""
_MOST = 4
_LOOK_S = 0.1


def one_by_one(comments: Sequence[str]) -> Iterator[list[Cleaned]]:
    """Each comment looked at, in order, one at a time."""
    for comment in comments:
        yield [cleaned(comment)]


def on_cores(comments: Sequence[str]) -> Iterator[list[Cleaned]]:
    """Each comment looked at, in order; an empty list at least every 0.1 s where nothing is ready yet.

    Only for programs whose main module can be imported again without running (Python's rule for spawned processes).
    """
    count = min(_MOST, os.cpu_count() or 1)
    if count < 2 or len(comments) < _WORTH_IT:
        yield from one_by_one(comments)
        return
    lots = [comments[at : at + _LOT] for at in range(0, len(comments), _LOT)]
    workers: dict[Connection, SpawnProcess] = {}
    try:
        for _ in range(count):
            ours, process = _started()
            workers[ours] = process
        yield from _shared_out(lots, list(workers))
    finally:
        for pipe, process in workers.items():
            process.kill()
            pipe.close()
        for process in workers.values():
            process.join()


def _started() -> tuple[Connection, SpawnProcess]:
    context = get_context("spawn")
    ours, theirs = context.Pipe()
    process = context.Process(target=_work, args=(theirs,), daemon=True)
    process.start()
    theirs.close()
    return ours, process


def _shared_out(lots: Sequence[Sequence[str]], pipes: list[Connection]) -> Iterator[list[Cleaned]]:
    """The lots' results in their order; each pipe has two lots at most, so that none waits for us."""
    ready: dict[int, list[Cleaned]] = {}
    given: dict[Connection, list[int]] = {pipe: [] for pipe in pipes}
    waiting = iter(range(len(lots)))
    for _ in range(2):
        for pipe in pipes:
            _give(pipe, lots, waiting, given, ready)
    at = 0
    while at < len(lots):
        if at in ready:
            yield ready.pop(at)
            at += 1
            continue
        done = wait([pipe for pipe, its in given.items() if its], _LOOK_S)
        for pipe in [pipe for pipe in given if pipe in done]:
            _take(pipe, lots, given, ready)
            _give(pipe, lots, waiting, given, ready)
        if not any(given.values()):  # every process has ended by itself
            number = next(waiting, at)
            ready[number] = [cleaned(comment) for comment in lots[number]]
        if at not in ready:
            yield []


def _give(
    pipe: Connection, lots: Sequence[Sequence[str]], waiting: Iterator[int], given: dict[Connection, list[int]],
    ready: dict[int, list[Cleaned]],
) -> None:  # fmt: skip
    number = next(waiting, None)
    if number is None:
        return
    if pipe in given:
        with suppress(OSError):
            pipe.send(list(lots[number]))
            given[pipe].append(number)
            return
    ready[number] = [cleaned(comment) for comment in lots[number]]


def _take(
    pipe: Connection, lots: Sequence[Sequence[str]], given: dict[Connection, list[int]],
    ready: dict[int, list[Cleaned]],
) -> None:  # fmt: skip
    try:
        ready[given[pipe][0]] = pipe.recv()
        del given[pipe][0]
    except (EOFError, OSError):
        for number in given.pop(pipe):
            ready[number] = [cleaned(comment) for comment in lots[number]]


def _work(pipe: Connection) -> None:
    """A process's whole life: lots in, results out, until the pipe ends."""
    for request in (getattr(signal, name) for name in ("SIGINT", "SIGHUP") if hasattr(signal, name)):
        signal.signal(request, signal.SIG_IGN)  # what the terminal asks of all is for the one who started us to answer
    with suppress(EOFError, OSError):
        while True:
            pipe.send([cleaned(comment) for comment in pipe.recv()])
