"""``python -m studio``: a verb runs headless; with no verb, or with an episode file, the window opens."""

import sys
from collections.abc import Sequence
from pathlib import Path

from studio.headless.main import PROGRAM, asks_for_window, exit_code
from studio.headless.main import main as run_verb
from studio.headless.opening import fail


def main(argv: Sequence[str] | None = None) -> int:
    """Do what ``argv`` asks for and return the exit code."""
    given = list(sys.argv[1:] if argv is None else argv)
    if asks_for_window(given):
        return exit_code(lambda: _open_window(Path(given[0]) if given else None))
    return run_verb(given)


def _open_window(path: Path | None) -> int:
    if path is not None and not path.is_file():
        fail(f"{path}: there is no such file; {PROGRAM} new {path} writes a new episode")
    from studio.window.app import run_window

    return run_window(path)


if __name__ == "__main__":
    sys.exit(main())
