"""The headless door: find the verb, load only what it needs, turn what goes wrong into one line and an exit code."""

import argparse
import importlib
import io
import os
import sys
from collections.abc import Callable, Sequence
from pathlib import Path
from types import ModuleType
from typing import NoReturn

import studio
from studio.headless.opening import Refused
from studio.headless.stopping import Stopped, stopped_cleanly
from studio.storage.errors import StorageError, plain

PROGRAM = "python -m studio"
VERBS = {
    "new": "write a new episode, empty or a copy of a demo",
    "readings": "bring a gauge session in from a spreadsheet",
    "size": "what a tire's marking says, and how another size compares",
    "findings": "what an episode's readings say, with working and sources",
    "pictures": "write an episode's pictures into a folder",
    "sheet": "put every picture of an episode on one page",
    "script": "check the rundown: numbers, spoken length, chapters, duties",
    "answer": "a viewer's comment, read, computed and answered",
    "questions": "bring viewers' comments in from a table",
    "handoff": "make every file that the edit and the upload need",
}
EPILOG = f"""\
With no verb, or with an episode file, the window opens:
  {PROGRAM}
  {PROGRAM} demo_projects/minivan_one_new_tire.json

{PROGRAM} VERB --help shows a verb's options and an example.
Exit codes: 0 done, 1 a check found something wrong, 2 input that cannot be taken."""
CLOSED_PIPE = 141
STOPPED = 130


class OneLineParser(argparse.ArgumentParser):
    """A parser whose complaint is one line."""

    def error(self, message: str) -> NoReturn:
        self.exit(2, f"{self.prog}: {plain(message)}; see {self.prog} --help\n")


class _WideEnough(argparse.RawDescriptionHelpFormatter):
    """Help whose longest verb keeps its line beside it: argparse does not count that verbs stand deeper."""

    def __init__(self, prog: str) -> None:
        super().__init__(prog)
        self._action_max_length = max(map(len, VERBS)) + 4


def main(argv: Sequence[str] | None = None) -> int:
    """Run the verb that ``argv`` asks for and return the exit code."""
    given = list(sys.argv[1:] if argv is None else argv)
    return exit_code(lambda: _run_stoppable(given))


def exit_code(run: Callable[[], int]) -> int:
    """What ``run`` returns; what it refuses becomes one line on stderr and the exit code for it."""
    _speak_utf8()
    try:
        code = run()
        sys.stdout.flush()
        return code
    except SystemExit as leaving:  # argparse: --help, --version, or a complaint that it has printed
        return leaving.code if isinstance(leaving.code, int) else 2
    except (Refused, StorageError) as error:
        return _complain(str(error))
    except BrokenPipeError:
        return _leave_the_pipe()
    except OSError as error:
        return _complain(f"{error.filename or 'a file'}: {error.strerror or error}")
    except KeyboardInterrupt as stopped:
        print("stopped", file=sys.stderr)
        return stopped.exit_code if isinstance(stopped, Stopped) else STOPPED


def _run_stoppable(given: list[str]) -> int:
    with stopped_cleanly():
        return _run(given)


def _run(given: list[str]) -> int:
    verb = next((word for word in given if not word.startswith("-")), "")
    parser, module = _parser(verb)
    arguments = parser.parse_args(given)
    if module is None:
        parser.error("a verb was expected")
    return int(module.run(arguments))


def asks_for_window(given: Sequence[str]) -> bool:
    """Nothing at all, or the one name of an episode file."""
    if len(given) != 1:
        return not given
    name = given[0]
    return name not in VERBS and not name.startswith("-") and (name.lower().endswith(".json") or Path(name).exists())


def _parser(verb: str) -> tuple[OneLineParser, ModuleType | None]:
    """The parser of all verbs, of which only ``verb`` is loaded, and the module of ``verb``."""
    parser = OneLineParser(
        prog=PROGRAM,
        description="A studio for a person who makes videos explaining tire maintenance.",
        epilog=EPILOG,
        formatter_class=_WideEnough,
    )
    parser.add_argument("--version", action="version", version=studio.__version__)
    verbs = parser.add_subparsers(title="verbs", metavar="VERB", dest="verb", parser_class=OneLineParser)
    loaded = None
    for name, line in VERBS.items():
        if name == verb:
            loaded = importlib.import_module(f"studio.headless.{name}")
            loaded.add_parser(verbs)
        else:
            verbs.add_parser(name, help=line)
    return parser, loaded


def _complain(message: str) -> int:
    print(plain(message), file=sys.stderr)
    return 2


def _leave_the_pipe() -> int:
    """The reader of our output has gone, as ``head`` does: leave quietly, with nothing left to be flushed into it."""
    nowhere = os.open(os.devnull, os.O_WRONLY)
    os.dup2(nowhere, sys.stdout.fileno())
    return CLOSED_PIPE


def _speak_utf8() -> None:
    """Whatever the system's code page, output can be written; a name that is no text comes out escaped."""
    for stream in (sys.stdout, sys.stderr):
        if isinstance(stream, io.TextIOWrapper):
            stream.reconfigure(encoding="utf-8", errors="backslashreplace")
