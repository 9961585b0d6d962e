"""The set-up script says clearly what is missing. What it installs is proven by running it on a clean checkout (CI)."""

import ast
import importlib.util
import shutil
import subprocess
import sys
from collections.abc import Callable
from pathlib import Path
from types import ModuleType

import pytest

SCRIPT = Path(__file__).resolve().parent.parent.parent / "resources" / "set_up.py"


@pytest.fixture
def script() -> ModuleType:
    spec = importlib.util.spec_from_file_location("set_up", SCRIPT)
    assert spec and spec.loader
    module = importlib.util.module_from_spec(spec)
    spec.loader.exec_module(module)
    return module


def test_it_needs_only_the_standard_library() -> None:
    tree = ast.parse(SCRIPT.read_text("utf-8"))
    named = {alias.name for node in ast.walk(tree) if isinstance(node, ast.Import) for alias in node.names}
    named |= {node.module or "" for node in ast.walk(tree) if isinstance(node, ast.ImportFrom)}
    assert {name.split(".")[0] for name in named} <= set(sys.stdlib_module_names)


def test_an_old_python_can_read_it_and_is_told(
    script: ModuleType, monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]
) -> None:
    ast.parse(SCRIPT.read_text("utf-8"), feature_version=(3, 7))
    monkeypatch.setattr(script.sys, "version_info", (3, 9, 2))
    assert script.main(["tests"]) == 2
    assert "Python 3.9; the studio needs 3.11 or newer" in capsys.readouterr().out


@pytest.mark.parametrize("arguments", [[], ["everything"], ["window", "tests"]])
def test_anything_else_shows_the_two_commands(
    script: ModuleType, arguments: list[str], capsys: pytest.CaptureFixture[str]
) -> None:
    assert script.main(arguments) == 2
    said = capsys.readouterr().out
    assert "set_up.py window" in said and "set_up.py tests" in said


def without(*missing: str) -> Callable[[str], str | None]:
    return lambda name: None if name in missing else f"/usr/bin/{name}"


def test_without_apt_the_packages_are_named(script: ModuleType, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(shutil, "which", without("apt-get"))
    with pytest.raises(script.Missing, match=r"Qt is missing.*install the equivalents of: libegl1"):
        script.bring_packages("libegl1", "Qt is missing")


def test_without_the_right_to_install_the_command_is_given(
    script: ModuleType, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr(shutil, "which", without("sudo"))
    monkeypatch.setattr(script.os, "geteuid", lambda: 1000, raising=False)
    with pytest.raises(script.Missing, match=r"sudo apt-get update && sudo apt-get install -y libegl1"):
        script.bring_packages("libegl1", "Qt is missing")


def test_a_failed_step_is_named(script: ModuleType) -> None:
    with pytest.raises(script.Missing, match="failed; the lines above say why"):
        script.check([sys.executable, "-c", "raise SystemExit(3)"])


def test_a_broken_environment_is_made_anew(
    script: ModuleType, monkeypatch: pytest.MonkeyPatch, tmp_path: Path
) -> None:
    broken = tmp_path / "environment"
    python = broken / ("Scripts" if script.os.name == "nt" else "bin") / "python"
    python.parent.mkdir(parents=True)
    python.write_text("#!/bin/false\n")
    python.chmod(0o755)
    monkeypatch.setattr(script, "ENVIRONMENT", broken)
    made = script.environment()
    assert subprocess.run([made, "-c", "import pip"], check=False).returncode == 0
