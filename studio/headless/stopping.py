"""Stopping a verb by Ctrl+C or another request to end, so that what is half written is cleared away."""

import contextlib
import signal
import sys
import threading
import time
from collections.abc import Callable, Iterator
from types import FrameType
from typing import Any

_REQUESTS = ("SIGINT", "SIGTERM", "SIGHUP")
_SOON_S, _PATIENCE_S = 0.05, 1.0
"""How soon a stop that had to wait is tried again; how long clearing away is left alone."""


class Stopped(KeyboardInterrupt):
    """A signal asked to stop."""

    def __init__(self, number: int) -> None:
        super().__init__(number)
        self.number = number

    @property
    def exit_code(self) -> int:
        """128 and the signal's number, as shells give it."""
        return 128 + self.number


@contextlib.contextmanager
def stopped_cleanly() -> Iterator[None]:
    """Within, a request to end raises Stopped; one that is ignored, as under nohup, stays so.

    Compiled code may turn what is raised in it into an error of its own: whatever comes out after a request is Stopped.
    """
    requests, before = _Requests(), list[tuple[int, Any]]()
    for number in (getattr(signal, name) for name in _REQUESTS if hasattr(signal, name)):
        if (handler := signal.getsignal(number)) in (signal.SIG_DFL, signal.default_int_handler):
            with contextlib.suppress(ValueError):  # not in the main thread
                signal.signal(number, requests.take)
                before.append((number, handler))
    usual_hook, sys.unraisablehook = sys.unraisablehook, requests.hook(sys.unraisablehook)
    try:
        yield
    except Exception as error:
        if requests.number is None:
            raise
        raise Stopped(requests.number) from error
    finally:
        requests.again.cancel()
        sys.unraisablehook = usual_hook
        for number, handler in before:
            signal.signal(number, handler)


class _Requests:
    """What was asked; it is asked again for as long as the verb goes on, since a stop can be lost on its way."""

    def __init__(self) -> None:
        self.number: int | None = None
        self._last = 0.0
        self.again = threading.Timer(0, _ask, (0,))

    def take(self, number: int, frame: FrameType | None) -> None:
        """The signals' handler."""
        if _loading(frame):  # Qt's bindings abort the whole program where their loading is interrupted
            self._ask_again(number, _SOON_S)
            return
        self._ask_again(number, _PATIENCE_S)
        if self.number is None or time.monotonic() - self._last > _PATIENCE_S / 2:
            self.number, self._last = number, time.monotonic()
            raise Stopped(number)

    def hook(self, usual: Callable[["sys.UnraisableHookArgs"], Any]) -> Callable[["sys.UnraisableHookArgs"], Any]:
        """Nothing is told of a stop that was lost in a finalizer."""
        return lambda lost: None if isinstance(lost.exc_value, Stopped) else usual(lost)

    def _ask_again(self, number: int, after_s: float) -> None:
        self.again.cancel()
        self.again = threading.Timer(after_s, _ask, (number,))
        self.again.daemon = True
        self.again.start()


def _ask(number: int) -> None:
    main_thread = threading.main_thread().ident
    if main_thread is not None and hasattr(signal, "pthread_kill"):
        signal.pthread_kill(main_thread, number)  # also out of a wait
    else:
        signal.raise_signal(number)


def _loading(frame: FrameType | None) -> bool:
    """Whether a module is being imported in ``frame`` or above it."""
    while frame is not None:
        if frame.f_globals.get("__name__") == "importlib._bootstrap":
            return True
        frame = frame.f_back
    return False
