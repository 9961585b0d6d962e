"""Many comments looked at on several cores: processes of our own, told what to do over pipes, ended at once on a stop.

Each holds nothing but the comments that it was given. One that ends by itself costs time only: its share is done here.
"""

import os
import signal
from collections.abc import Callable, Iterator, Sequence
from contextlib import suppress
from multiprocessing import get_context
from multiprocessing.connection import Connection, wait
from multiprocessing.context import SpawnProcess
from typing import TypeVar

Found = TypeVar("Found")
Look = Callable[[str], Found]
Lots = Sequence[Sequence[str]]

_LOT = 50
_WORTH_IT = 1_500
"""Comments: under that many a second process takes longer to start than it saves."""
_MOST = 4
_LOOK_S = 0.1


def one_by_one(look: Look[Found], texts: Sequence[str]) -> Iterator[list[Found]]:
    """What ``look`` finds in each text, in order, one at a time."""
    for text in texts:
        yield [look(text)]


def on_cores(look: Look[Found], texts: Sequence[str]) -> Iterator[list[Found]]:
    """What ``look`` finds in each text, in order; an empty list at least every 0.1 s where nothing is ready yet.

    ``look`` is a function of a module. Only for programs whose main module can be imported again without running
    (Python's rule for spawned processes).
    """
    count = min(_MOST, os.cpu_count() or 1)
    if count < 2 or len(texts) < _WORTH_IT:
        yield from one_by_one(look, texts)
        return
    lots = [texts[at : at + _LOT] for at in range(0, len(texts), _LOT)]
    workers: dict[Connection, SpawnProcess] = {}
    try:
        for _ in range(count):
            ours, process = _started(look)
            workers[ours] = process
        yield from _shared_out(look, lots, list(workers))
    finally:
        for pipe, process in workers.items():
            process.kill()
            pipe.close()
        for process in workers.values():
            process.join()


def _started(look: Look[Found]) -> tuple[Connection, SpawnProcess]:
    context = get_context("spawn")
    ours, theirs = context.Pipe()
    process = context.Process(target=_work, args=(look, theirs), daemon=True)
    process.start()
    theirs.close()
    return ours, process


def _shared_out(look: Look[Found], lots: Lots, pipes: list[Connection]) -> Iterator[list[Found]]:
    """The lots' results in their order; each pipe has two lots at most, so that none waits for us."""
    ready: dict[int, list[Found]] = {}
    given: dict[Connection, list[int]] = {pipe: [] for pipe in pipes}
    waiting = iter(range(len(lots)))
    for _ in range(2):
        for pipe in pipes:
            _give(pipe, look, lots, waiting, given, ready)
    at = 0
    while at < len(lots):
        if at in ready:
            yield ready.pop(at)
            at += 1
            continue
        done = wait([pipe for pipe, its in given.items() if its], _LOOK_S)
        for pipe in [pipe for pipe in given if pipe in done]:
            _take(pipe, look, lots, given, ready)
            _give(pipe, look, lots, waiting, given, ready)
        if not any(given.values()):  # every process has ended by itself
            number = next(waiting, at)
            ready[number] = [look(text) for text in lots[number]]
        if at not in ready:
            yield []


def _give(
    pipe: Connection, look: Look[Found], lots: Lots, waiting: Iterator[int], given: dict[Connection, list[int]],
    ready: dict[int, list[Found]],
) -> None:  # fmt: skip
    number = next(waiting, None)
    if number is None:
        return
    if pipe in given:
        with suppress(OSError):
            pipe.send(list(lots[number]))
            given[pipe].append(number)
            return
    ready[number] = [look(text) for text in lots[number]]


def _take(
    pipe: Connection, look: Look[Found], lots: Lots, given: dict[Connection, list[int]],
    ready: dict[int, list[Found]],
) -> None:  # fmt: skip
    try:
        ready[given[pipe][0]] = pipe.recv()
        del given[pipe][0]
    except (EOFError, OSError):
        for number in given.pop(pipe):
            ready[number] = [look(text) for text in lots[number]]


def _work(look: Look[Found], pipe: Connection) -> None:
    """A process's whole life: lots in, results out, until the pipe ends."""
    for request in (getattr(signal, name) for name in ("SIGINT", "SIGHUP") if hasattr(signal, name)):
        signal.signal(request, signal.SIG_IGN)  # what the terminal asks of all is for the one who started us to answer
    with suppress(EOFError, OSError):
        while True:
            pipe.send([look(text) for text in pipe.recv()])
