"""A request to end: it stops the verb even where what it raises is swallowed or turned into another error."""

import os
import signal
import sys
import threading

import pytest

from studio.headless.stopping import Stopped, stopped_cleanly

pytestmark = pytest.mark.skipif(os.name == "nt", reason="this system asks by other means")


def test_an_error_that_compiled_code_made_of_the_stop_is_the_stop() -> None:
    with pytest.raises(Stopped) as stopped, stopped_cleanly():
        try:
            os.kill(os.getpid(), signal.SIGTERM)
        except KeyboardInterrupt:
            raise ValueError("not a matrix") from None
    assert stopped.value.exit_code == 128 + 15  # POSIX sh, exit status; SIGTERM is 15


def test_a_stop_that_was_swallowed_is_asked_again() -> None:
    swallowed = 0
    with pytest.raises(Stopped), stopped_cleanly():
        try:
            os.kill(os.getpid(), signal.SIGINT)
        except KeyboardInterrupt:
            swallowed += 1
        threading.Event().wait(20)
    assert swallowed == 1


def test_an_error_without_a_stop_stays_what_it_is() -> None:
    with pytest.raises(ValueError, match="mine"), stopped_cleanly():
        raise ValueError("mine")


def test_what_is_ignored_stays_ignored_and_all_is_as_before() -> None:
    before = signal.signal(signal.SIGHUP, signal.SIG_IGN), sys.unraisablehook
    try:
        with stopped_cleanly():
            os.kill(os.getpid(), signal.SIGHUP)
        assert signal.getsignal(signal.SIGHUP) == signal.SIG_IGN
        assert sys.unraisablehook == before[1]
    finally:
        signal.signal(signal.SIGHUP, before[0])
