"""Gives every reader of outside text, files and tables inputs spoilt by chance; each is refused in one line or kept.

What a reader takes must read back equal, and nothing takes longer than a few seconds. A fault names the reader, the
seed and number of the input, and the input itself, cut down as far as the fault stays.
"""

import contextlib
import signal
import time
from collections.abc import Iterator
from random import Random
from types import FrameType
from typing import Any, NoReturn

from tests.campaigns.doors import DOORS, Broken, Door, one_line
from tests.campaigns.mutation import shrunk
from tests.campaigns.report import Report, main

COUNT = 1_000_000
SHORT = 2_000
LONGEST_S = 5.0
"""Of the processor's time for one input: a reader that takes longer has frozen, to the person who waits."""
_MOST_TOLD = 60


class _TooLongError(BaseException):
    """Raised by the watchdog; no reader catches it."""


def run(seed: int, count: int) -> Report:
    """``count`` inputs, spread over the readers by their weights."""
    done: dict[str, int | float] = {}
    faults: list[str] = []
    whole = sum(door.weight for door in DOORS)
    for door in DOORS:
        share = max(1, round(count * door.weight / whole))
        done |= {f"{door.name}, inputs": share, **_through(door, seed, share, faults)}
    told = faults[:_MOST_TOLD] + ([f"and {len(faults) - _MOST_TOLD} more"] if len(faults) > _MOST_TOLD else [])
    return Report(done=done, faults=tuple(told))


def _through(door: Door, seed: int, count: int, faults: list[str]) -> dict[str, int | float]:
    """Give one reader its inputs; how many it took, and its slowest in ms."""
    taken, slowest, known = 0, 0.0, set[str]()
    for number in range(count):
        given = door.made(Random(f"{seed}/{door.name}/{number}"))
        started = time.process_time()
        fault = fault_of(door, given)
        slowest = max(slowest, time.process_time() - started)
        taken += fault == ""
        if fault and (kind := _kind(fault)) not in known:  # a fault is told once
            known.add(kind)
            small = _small(door, given, kind)
            faults.append(f"{door.name}, seed {seed}, input {number}: {fault_of(door, small)}; {_cut(small)}")
    return {f"{door.name}, taken": taken, f"{door.name}, slowest ms": round(1000 * slowest)}


def fault_of(door: Door, given: Any) -> str | None:
    """What is wrong with how ``door`` met an input: empty where it took it, None where it refused it as it should."""
    try:
        with _watched():
            door.taken(given)
    except door.refuses as error:
        return _of_refusal(str(error))
    except Broken as error:
        return str(error)
    except _TooLongError:
        return f"took longer than {LONGEST_S:g} s"
    except Exception as error:
        return f"{type(error).__name__} at {_where(error)}: {str(error)[:120]!r}"
    return ""


def _of_refusal(message: str) -> str | None:
    try:
        one_line(message)
    except Broken as error:
        return str(error)
    return None


def _kind(fault: str) -> str:
    return fault.partition(":")[0]


def _small(door: Door, given: Any, kind: str) -> Any:
    return shrunk(given, lambda cut: _kind(fault_of(door, cut) or "") == kind)


def _where(error: Exception) -> str:
    """The innermost place in the program's own code."""
    trace, found = error.__traceback__, "?"
    while trace is not None:
        path = trace.tb_frame.f_code.co_filename.replace("\\", "/")
        if "/studio/" in path and "site-packages" not in path:
            found = f"{path.rpartition('/studio/')[2]} {trace.tb_lineno}"
        trace = trace.tb_next
    return found


def _cut(given: Any) -> str:
    text = repr(given)
    return text if len(text) <= 400 else f"{text[:260]} ... {text[-120:]} ({len(text)} signs)"


@contextlib.contextmanager
def _watched() -> Iterator[None]:
    """Stop what takes too long, where the system can count a process's own time (Windows cannot)."""
    if not hasattr(signal, "setitimer"):
        yield
        return
    before = signal.signal(signal.SIGVTALRM, _stop)
    signal.setitimer(signal.ITIMER_VIRTUAL, LONGEST_S)
    try:
        yield
    finally:
        signal.setitimer(signal.ITIMER_VIRTUAL, 0)
        signal.signal(signal.SIGVTALRM, before)


def _stop(number: int, frame: FrameType | None) -> NoReturn:
    raise _TooLongError


if __name__ == "__main__":
    main(run, __doc__, COUNT)
