"""A request to end: it stops the verb even where what it raises is swallowed or turned into another error."""

import os
import signal
import subprocess
import sys
import threading
from pathlib import Path

import pytest

from studio.headless.stopping import Stopped, stopped_cleanly

pytestmark = [
    pytest.mark.skipif(os.name == "nt", reason="this system asks by other means"),
    pytest.mark.usefixtures("usual_signals"),
]
REPOSITORY = Path(__file__).parents[2]


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


@pytest.mark.parametrize("name", ["SIGINT", "SIGTERM", "SIGHUP"])
def test_what_is_ignored_stays_ignored_and_all_is_as_before(name: str) -> None:
    number, hook = getattr(signal, name), sys.unraisablehook
    signal.signal(number, signal.SIG_IGN)
    with stopped_cleanly():
        os.kill(os.getpid(), number)
    assert signal.getsignal(number) == signal.SIG_IGN
    assert sys.unraisablehook == hook


@pytest.mark.parametrize(("ignored", "code", "said"), [("HUP", 0, "went on\n"), ("INT", 0, "went on\n"), ("", 129, "")])
def test_a_verb_goes_on_after_what_its_shell_ignores(ignored: str, code: int, said: str) -> None:
    """As ``nohup`` starts it, or a shell in the background (POSIX sh, trap); 129 is 128 and SIGHUP's 1."""
    asked = f"SIG{ignored or 'HUP'}"
    script = (
        "import os, signal, sys; from studio.headless import main, new\n"
        f"new.run = lambda arguments: os.kill(os.getpid(), signal.{asked}) or print('went on') or 0\n"
        "sys.exit(main.main(['new', 'x.json']))"
    )
    shell = ["sh", "-c", f"trap '' {ignored}\n" * bool(ignored) + 'exec "$0" "$@"', sys.executable, "-c", script]
    done = subprocess.run(shell, cwd=REPOSITORY, capture_output=True, text=True, check=False)
    assert (done.returncode, done.stdout) == (code, said)
