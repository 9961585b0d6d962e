"""The headless door: verbs are found and loaded lazily, and what goes wrong is one line and an exit code."""

import argparse
import importlib
import os
import signal
import subprocess
import sys
import threading
import types
from collections.abc import Callable
from pathlib import Path

import pytest

from studio import __version__
from studio.__main__ import main as program
from studio.headless import main as door
from studio.headless.main import VERBS, main
from studio.headless.opening import fail
from studio.storage.beside import file_beside
from studio.storage.errors import StorageError

REPOSITORY = Path(__file__).parents[2]
Captured = pytest.CaptureFixture[str]


def studio(*arguments: str, **options: object) -> subprocess.CompletedProcess[str]:
    return subprocess.run(
        [sys.executable, "-m", "studio", *arguments], cwd=REPOSITORY, capture_output=True, text=True, check=False
    )


def one_line(text: str) -> bool:
    return text.endswith("\n") and text.count("\n") == 1


@pytest.fixture
def verb(monkeypatch: pytest.MonkeyPatch) -> Callable[[Callable[[argparse.Namespace], int]], None]:
    """Puts a made-up verb in the place of ``size``."""

    def enter(run: Callable[[argparse.Namespace], int]) -> None:
        module = types.ModuleType("studio.headless.size")
        module.add_parser = lambda verbs: verbs.add_parser("size").add_argument("--json", action="store_true")  # type: ignore[attr-defined]
        module.run = run  # type: ignore[attr-defined]
        monkeypatch.setitem(sys.modules, "studio.headless.size", module)

    return enter


def test_help_lists_every_verb_with_a_line(capsys: Captured) -> None:
    assert main(["--help"]) == 0
    said = capsys.readouterr().out
    for name, line in VERBS.items():
        assert f"    {name} " in said and line in said


def test_help_loads_no_verb_and_no_toolkit() -> None:
    script = (
        "import sys; from studio.headless.main import main; main(['--help'])\n"
        "print(sorted(name for name in sys.modules if name.startswith(('studio.headless.', 'studio.window', 'PySide6',"
        " 'matplotlib', 'reportlab', 'studio.decide', 'studio.graphics'))))"
    )
    said = subprocess.run(
        [sys.executable, "-c", script], cwd=REPOSITORY, capture_output=True, text=True, check=True
    ).stdout
    assert said.splitlines()[-1] == "['studio.headless.main', 'studio.headless.opening', 'studio.headless.stopping']"


@pytest.mark.parametrize("name", ["new", "readings"])
def test_the_help_of_a_verb_has_its_line_and_an_example(name: str, capsys: Captured) -> None:
    assert main([name, "--help"]) == 0
    said = capsys.readouterr().out
    assert f"python -m studio {name} my_episode.json" in said
    parser, module = door._parser(name)
    assert module is not None and f"    {name} " in parser.format_help()
    assert VERBS[name] in parser.format_help()


def test_the_version(capsys: Captured) -> None:
    assert main(["--version"]) == 0
    assert capsys.readouterr().out == f"{__version__}\n"


@pytest.mark.parametrize(
    ("given", "said"),
    [
        (["sise"], "invalid choice: 'sise' (choose from 'new', 'readings', 'size', 'findings', 'pictures'"),
        (["--verson"], "unrecognized arguments: --verson"),
        (["new"], "the following arguments are required: FILE; see python -m studio new --help"),
        (["new", "a.json", "b.json"], "unrecognized arguments: b.json"),
        (["readings", "a.json"], "the following arguments are required: CSV"),
        (["a.json", "b.json"], "invalid choice: 'a.json'"),
        (["ne\x1bw\n"], "invalid choice"),
    ],
)
def test_a_wrong_command_is_one_line_and_exit_code_2(given: list[str], said: str, capsys: Captured) -> None:
    assert main(given) == 2
    captured = capsys.readouterr()
    assert said in captured.err and one_line(captured.err) and captured.out == ""
    assert "\x1b" not in captured.err


@pytest.mark.parametrize("code", [0, 1])
def test_a_verbs_answer_is_the_exit_code(verb: Callable[..., None], code: int) -> None:
    verb(lambda arguments: code if arguments.json else 7)
    assert main(["size", "--json"]) == code


def refuse(_: argparse.Namespace) -> int:
    fail("size: '225' was read, expected a marking\nsuch as 225/60R17")


def storage(_: argparse.Namespace) -> int:
    raise StorageError("the disk is full")


def system(_: argparse.Namespace) -> int:
    raise OSError(28, "No space left on device", "out.png")


@pytest.mark.parametrize(
    ("run", "said"),
    [
        (refuse, "size: '225' was read, expected a marking\\u000asuch as 225/60R17\n"),
        (storage, "the disk is full\n"),
        (system, "out.png: No space left on device\n"),
    ],
)
def test_what_a_verb_refuses_is_one_line(
    verb: Callable[..., None], run: Callable[[argparse.Namespace], int], said: str, capsys: Captured
) -> None:
    verb(run)
    assert main(["size"]) == 2
    assert capsys.readouterr().err == said


def test_a_stop_from_the_keyboard_is_no_traceback(verb: Callable[..., None], capsys: Captured) -> None:
    def stopped(_: argparse.Namespace) -> int:
        raise KeyboardInterrupt

    verb(stopped)
    assert main(["size"]) == 130
    assert capsys.readouterr().err == "stopped\n"


@pytest.mark.usefixtures("usual_signals")
@pytest.mark.skipif(os.name == "nt", reason="this system asks by other means")
@pytest.mark.parametrize("name", ["SIGINT", "SIGTERM", "SIGHUP"])
def test_a_request_to_end_clears_away_what_is_half_written(
    verb: Callable[..., None], capsys: Captured, tmp_path: Path, name: str
) -> None:
    """The exit code is 128 and the signal's number, as shells give it (POSIX sh, exit status)."""
    target, number = tmp_path / "clip.mov", getattr(signal, name)
    before = signal.getsignal(number)
    target.write_bytes(b"whole")

    def write(_: argparse.Namespace) -> int:
        with file_beside(target) as part:
            part.write_bytes(b"half")
            os.kill(os.getpid(), number)
        return 0

    verb(write)
    assert main(["size"]) == 128 + number
    assert capsys.readouterr().err == "stopped\n"
    assert [path.name for path in tmp_path.iterdir()] == ["clip.mov"] and target.read_bytes() == b"whole"
    assert signal.getsignal(number) == before


@pytest.mark.usefixtures("usual_signals")
def test_a_stop_while_a_module_is_loaded_waits_until_it_is(
    verb: Callable[..., None], capsys: Captured, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    """Interrupted in their loading, Qt's bindings abort the whole program."""
    source = "import signal\nsignal.raise_signal(signal.SIGINT)\nloaded = True\n"
    (tmp_path / "slow_to_load.py").write_text(source, "utf-8")
    monkeypatch.syspath_prepend(str(tmp_path))

    def load(_: argparse.Namespace) -> int:
        assert importlib.import_module("slow_to_load").loaded
        threading.Event().wait(20)
        return 0

    verb(load)
    assert main(["size"]) == 130
    assert capsys.readouterr().err == "stopped\n"


@pytest.mark.skipif(os.name == "nt", reason="pipes close otherwise there")
def test_a_reader_that_leaves_early_is_no_error() -> None:
    script = (
        "import sys; from studio.headless import main, new\n"
        "new.run = lambda arguments: [print('x' * 1000) for _ in range(1000)] and 0\n"
        "sys.exit(main.main(['new', 'x.json']))"
    )
    with subprocess.Popen(
        [sys.executable, "-c", script], cwd=REPOSITORY, stdout=subprocess.PIPE, stderr=subprocess.PIPE
    ) as child:
        assert child.stdout and child.stderr
        child.stdout.readline()
        child.stdout.close()
        assert child.stderr.read() == b""
    assert child.returncode == 141


@pytest.fixture
def window(monkeypatch: pytest.MonkeyPatch) -> list[Path | None]:
    """In the place of the window: what it was opened with."""
    opened: list[Path | None] = []
    module = types.ModuleType("studio.window.app")

    def run_window(path: Path | None) -> int:
        opened.append(path)
        return 0

    module.run_window = run_window  # type: ignore[attr-defined]
    monkeypatch.setitem(sys.modules, "studio.window.app", module)
    return opened


def test_without_a_verb_the_window_opens(window: list[Path | None]) -> None:
    assert program([]) == 0
    assert window == [None]


def test_with_an_episode_file_the_window_opens_on_it(window: list[Path | None], tmp_path: Path) -> None:
    path = tmp_path / "episode.json"
    path.write_text("{}")
    assert program([str(path)]) == 0
    assert window == [path]


def test_a_file_that_is_not_there_opens_nothing(window: list[Path | None], tmp_path: Path, capsys: Captured) -> None:
    assert program([str(tmp_path / "missing.json")]) == 2
    assert program([str(tmp_path)]) == 2
    said = capsys.readouterr().err
    assert "missing.json: there is no such file; python -m studio new " in said and said.count("\n") == 2
    assert window == []


def test_a_verb_reaches_its_room(window: list[Path | None], tmp_path: Path) -> None:
    assert program(["new", str(tmp_path / "new.json")]) == 0
    assert (tmp_path / "new.json").exists() and window == []


def test_the_program_itself() -> None:
    assert studio("--version").stdout == f"{__version__}\n"
    wrong = studio("nonsense")
    assert (wrong.returncode, wrong.stdout) == (2, "") and one_line(wrong.stderr)


def test_output_survives_a_narrow_code_page(tmp_path: Path) -> None:
    environment = {**os.environ, "PYTHONIOENCODING": "ascii"}
    made = subprocess.run(
        [sys.executable, "-m", "studio", "new", str(tmp_path / "Reifen – Übung.json")],
        cwd=REPOSITORY, capture_output=True, check=False, env=environment,
    )  # fmt: skip
    assert made.returncode == 0
    assert "Reifen – Übung" in made.stdout.decode("utf-8")
