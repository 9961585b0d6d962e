"""The set-up's door: any old Python can read it, and goes on with one that fits or says clearly which is missing."""

import ast
import importlib.util
import os
import subprocess
import sys
import tomllib
from collections.abc import Iterable
from pathlib import Path
from types import ModuleType

import pytest
from packaging.specifiers import SpecifierSet

PROJECT = Path(__file__).resolve().parents[2]
SCRIPT = PROJECT / "resources" / "set_up.py"
PYTHON, OWN = sys.executable, f"{sys.version_info[0]}.{sys.version_info[1]}"
YOUNGER_THAN_2_7 = (ast.JoinedStr, ast.AnnAssign, ast.Starred, ast.NamedExpr, ast.Nonlocal, ast.YieldFrom, ast.Await,
                    ast.AsyncFunctionDef, ast.MatMult)  # fmt: skip
"""What Python brought after 2.7 (PEP 498, 526, 448, 572, 3104, 380, 492, 465)."""


@pytest.fixture
def script() -> ModuleType:
    spec = importlib.util.spec_from_file_location("set_up", SCRIPT)
    assert spec and spec.loader
    module = importlib.util.module_from_spec(spec)
    spec.loader.exec_module(module)
    return module


def imported(tree: ast.AST) -> set[str]:
    named = {alias.name for node in ast.walk(tree) if isinstance(node, ast.Import) for alias in node.names}
    named |= {node.module or "" for node in ast.walk(tree) if isinstance(node, ast.ImportFrom)}
    return {name.split(".")[0] for name in named}


def test_it_needs_only_the_standard_library() -> None:
    door, work = (ast.parse(SCRIPT.with_name(name).read_text("utf-8")) for name in ("set_up.py", "setting_up.py"))
    assert imported(door) == {"glob", "os", "re", "subprocess", "sys", "setting_up"}  # all of it there in Python 2.7
    assert imported(work) <= set(sys.stdlib_module_names)


def test_an_old_python_can_read_the_door() -> None:
    text = SCRIPT.read_text("utf-8")
    assert text.isascii()  # without a line that tells its encoding, Python 2 takes nothing else
    for node in ast.walk(ast.parse(text)):
        assert not isinstance(node, YOUNGER_THAN_2_7), ast.unparse(node)
        if isinstance(node, ast.FunctionDef):
            assert node.returns is None and not node.args.kwonlyargs and not node.args.posonlyargs
            assert all(each.annotation is None for each in node.args.args)
        if isinstance(node, ast.Call):
            assert not (isinstance(node.func, ast.Name) and node.func.id == "print")
        if isinstance(node, ast.Raise):
            assert node.cause is None


@pytest.mark.parametrize("arguments", [[], ["everything"], ["window", "tests"]])
def test_anything_else_shows_the_two_commands(
    script: ModuleType, arguments: list[str], capsys: pytest.CaptureFixture[str]
) -> None:
    assert script.main(arguments) == 2
    said = capsys.readouterr().out
    assert "set_up.py window" in said and "set_up.py tests" in said


def test_the_versions_that_fit_are_those_of_the_project(script: ModuleType) -> None:
    told = SpecifierSet(tomllib.loads((PROJECT / "pyproject.toml").read_text("utf-8"))["project"]["requires-python"])
    fitting = script.fitting_versions()
    assert fitting == [f"3.{minor}" for minor in range(30, 0, -1) if f"3.{minor}" in told]
    readme = (PROJECT / "README.md").read_text("utf-8")
    assert f"Python {', '.join(fitting[:0:-1])} or {fitting[0]}" in readme


def test_a_python_that_fits_does_the_work_itself(script: ModuleType, monkeypatch: pytest.MonkeyPatch) -> None:
    work = ModuleType("setting_up")
    work.main = lambda task: {"window": 7}[task]  # type: ignore[attr-defined]
    monkeypatch.setitem(sys.modules, "setting_up", work)
    assert script.main(["window"]) == 7


def of_no_use(script: ModuleType, monkeypatch: pytest.MonkeyPatch, tmp_path: Path) -> None:
    """Started with a Python that does not fit, on a machine that has no other."""
    monkeypatch.setattr(script, "fitting_versions", lambda: [OWN])
    monkeypatch.setattr(script.sys, "executable", str(tmp_path / "nothing"))
    monkeypatch.setattr(script, "our_base", lambda: str(tmp_path / "nothing"))
    monkeypatch.setattr(script.glob, "glob", lambda pattern: [])
    monkeypatch.setenv("PATH", str(tmp_path))


def python_in(path: Path, *refused: str) -> None:
    """A command that is this Python, and fails where its code holds one of the words ``refused``."""
    path.parent.mkdir(parents=True, exist_ok=True)
    checks = "".join(f"case \"$2\" in *{word}*) exit 1;; esac\n" for word in refused)
    path.write_text(f"#!/bin/sh\n{checks}exec '{PYTHON}' \"$@\"\n", "utf-8")
    path.chmod(0o755)


posix = pytest.mark.skipif(os.name == "nt", reason="stand-ins are shell scripts")


@posix
def test_an_unsuitable_python_goes_on_with_one_that_fits_and_says_so(
    script: ModuleType, monkeypatch: pytest.MonkeyPatch, tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    of_no_use(script, monkeypatch, tmp_path)
    python_in(tmp_path / f"python{OWN}")
    called: list[list[str]] = []
    monkeypatch.setattr(script.subprocess, "call", lambda command: called.append(command) or 5)
    assert script.main(["tests"]) == 5
    assert called == [[f"python{OWN}", str(SCRIPT), "tests"]]
    said = f"this is Python {OWN}; going on with the Python {OWN} found as python{OWN}"
    assert capsys.readouterr().out == f"set up: {said}\n"


@posix
def test_one_that_can_make_environments_is_taken_before_one_that_cannot(
    script: ModuleType, monkeypatch: pytest.MonkeyPatch, tmp_path: Path
) -> None:
    of_no_use(script, monkeypatch, tmp_path)
    python_in(tmp_path / f"python{OWN}", "ensurepip")
    kept = tmp_path / "kept" / "python3"

    def globbed(pattern: str) -> Iterable[str]:
        return [str(kept)] if "versions" in pattern else []

    assert script.find([OWN]) == [f"python{OWN}"]
    python_in(kept)
    monkeypatch.setattr(script.glob, "glob", globbed)
    assert script.find([OWN]) == [str(kept)]


@posix
def test_the_python_of_our_environment_comes_first(
    script: ModuleType, monkeypatch: pytest.MonkeyPatch, tmp_path: Path
) -> None:
    of_no_use(script, monkeypatch, tmp_path)
    python_in(tmp_path / f"python{OWN}")
    python_in(tmp_path / "base" / "python3")
    monkeypatch.undo()
    monkeypatch.setattr(script, "PROJECT", str(tmp_path))
    (tmp_path / ".venv").mkdir()
    (tmp_path / ".venv" / "pyvenv.cfg").write_text(f"home = {tmp_path / 'base'}\nversion = 3\n", "utf-8")
    assert script.find([OWN]) == [str(tmp_path / "base" / "python3")]


def test_without_any_it_gives_up_in_one_line(
    script: ModuleType, monkeypatch: pytest.MonkeyPatch, tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    of_no_use(script, monkeypatch, tmp_path)
    monkeypatch.setattr(script, "fitting_versions", lambda: ["3.13", "3.12", "3.11"])
    monkeypatch.setattr(script.sys, "version_info", (3, 14, 0))
    assert script.main(["tests"]) == 2
    said = capsys.readouterr().out
    assert said.count("\n") == 1
    assert "this is Python 3.14, and no Python 3.11 to 3.13 was found on this machine" in said


def test_a_32_bit_python_or_none_at_all_does_not_fit(script: ModuleType, monkeypatch: pytest.MonkeyPatch) -> None:
    assert script.version_of([sys.executable]) == OWN
    assert script.version_of([str(SCRIPT)]) == ""
    monkeypatch.setattr(script, "answer", lambda command, code: f"3.12 32 {sys.platform}")
    assert script.version_of(["python"]) == ""


@pytest.mark.parametrize("version", ["2.7", "3.6", "3.8", "3.10"])
def test_old_ones_that_are_here_read_it_for_real(script: ModuleType, version: str) -> None:
    own = "import sys; print('%d.%d' % sys.version_info[:2])"
    here = next((each for each in script.candidates([version]) if script.answer(each, own) == version), None)
    if here is None:
        pytest.skip("not on this machine")
    done = subprocess.run([*here, str(SCRIPT)], capture_output=True, text=True, check=False, timeout=60)
    assert done.returncode == 2 and "set_up.py window" in done.stdout
