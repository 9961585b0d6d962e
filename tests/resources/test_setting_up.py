"""Setting up says clearly what is missing, and follows lock and Python. CI installs for real, on a clean checkout."""

import hashlib
import importlib.util
import os
import shutil
import subprocess
import sys
import zipfile
from collections.abc import Callable
from pathlib import Path
from types import ModuleType

import pytest

SCRIPT = Path(__file__).resolve().parents[2] / "resources" / "setting_up.py"
posix = pytest.mark.skipif(os.name == "nt", reason="stand-ins are shell scripts")


@pytest.fixture
def script() -> ModuleType:
    spec = importlib.util.spec_from_file_location("setting_up", SCRIPT)
    assert spec and spec.loader
    module = importlib.util.module_from_spec(spec)
    spec.loader.exec_module(module)
    return module


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


class Trial:
    """An environment that is made and filled by stand-ins, which only take note."""

    def __init__(self, script: ModuleType, folder: Path, monkeypatch: pytest.MonkeyPatch) -> None:
        self.script, self.environment, self.lock = script, folder / ".venv", folder / "lock"
        self.python = self.environment / "bin" / "python"
        self.done: list[str] = []
        self.lock.mkdir()
        for name in ("run", "test"):
            (self.lock / f"{name}.txt").write_text(f"# {name}\n", "utf-8")
        monkeypatch.setattr(script, "make", self.make)
        monkeypatch.setattr(script, "install", lambda python, lock: self.done.append(lock.stem))

    def make(self, environment: Path) -> None:
        self.done.append("made")
        self.answering(f"exec '{sys.executable}' \"$@\"")

    def answering(self, line: str) -> None:
        self.python.parent.mkdir(parents=True, exist_ok=True)
        self.python.write_text(f"#!/bin/sh\n{line}\n", "utf-8")
        self.python.chmod(0o755)

    def set_up(self, name: str) -> list[str]:
        """What was done to set up for ``name``."""
        self.done.clear()
        assert self.script.set_up(self.environment, self.lock, name) == str(self.python)
        return self.done.copy()


@pytest.fixture
def trial(script: ModuleType, tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Trial:
    return Trial(script, tmp_path, monkeypatch)


@posix
def test_what_is_there_is_kept_and_only_what_is_missing_is_added(trial: Trial) -> None:
    assert trial.set_up("run") == ["made", "run"]
    assert trial.set_up("run") == []
    assert trial.set_up("test") == ["test"]
    assert trial.set_up("run") == []
    assert trial.set_up("test") == []


@posix
@pytest.mark.parametrize("name", ["run", "test"])
def test_another_lock_makes_the_environment_anew(trial: Trial, name: str) -> None:
    trial.set_up("test")
    (trial.lock / f"{name}.txt").write_text("# another\n", "utf-8")
    assert trial.set_up("test") == ["made", "test"]
    assert trial.set_up("test") == []


@posix
def test_an_environment_of_another_python_is_made_anew(trial: Trial, monkeypatch: pytest.MonkeyPatch) -> None:
    trial.set_up("run")
    monkeypatch.setattr(trial.script.sys, "version_info", (3, 12, 99) if sys.version_info[1] != 12 else (3, 13, 99))
    trial.set_up("run")
    assert trial.done == ["made", "run"]


@posix
def test_an_environment_that_broke_is_made_anew(trial: Trial) -> None:
    trial.set_up("run")
    trial.answering("exit 1")
    assert trial.set_up("run") == ["made", "run"]


@posix
def test_one_made_by_hand_is_filled_and_one_left_half_filled_is_gone_on_with(
    trial: Trial, monkeypatch: pytest.MonkeyPatch
) -> None:
    trial.make(trial.environment)

    def fails(python: str, lock: Path) -> None:
        raise trial.script.Missing("no network")

    with monkeypatch.context() as failing:
        failing.setattr(trial.script, "install", fails)
        with pytest.raises(trial.script.Missing):
            trial.script.set_up(trial.environment, trial.lock, "run")
    assert trial.set_up("run") == ["run"]


def test_a_broken_environment_is_replaced_for_real(script: ModuleType, tmp_path: Path) -> None:
    broken = tmp_path / "environment"
    python = broken / ("Scripts/python.exe" if script.os.name == "nt" else "bin/python")
    python.parent.mkdir(parents=True)
    python.write_text("#!/bin/false\n")
    script.make(broken)
    assert subprocess.run([python, "-c", "import pip"], check=False).returncode == 0


@pytest.mark.parametrize(("hashed", "taken"), [("", False), (" --hash=sha256:" + "0" * 64, False), ("right", True)])
def test_only_what_has_the_locked_hash_is_installed(
    script: ModuleType, tmp_path: Path, monkeypatch: pytest.MonkeyPatch, hashed: str, taken: bool
) -> None:
    """With pip itself, a package made here and no index."""
    wheel = tmp_path / "tiny-1.0-py3-none-any.whl"
    with zipfile.ZipFile(wheel, "w") as package:
        package.writestr("tiny.py", "")
        package.writestr("tiny-1.0.dist-info/METADATA", "Metadata-Version: 2.1\nName: tiny\nVersion: 1.0\n")
        package.writestr("tiny-1.0.dist-info/WHEEL", "Wheel-Version: 1.0\nRoot-Is-Purelib: true\nTag: py3-none-any\n")
        package.writestr("tiny-1.0.dist-info/RECORD", "")
    right = f" --hash=sha256:{hashlib.sha256(wheel.read_bytes()).hexdigest()}"
    (tmp_path / "run.txt").write_text(f"tiny==1.0{right if hashed == 'right' else hashed}\n", "utf-8")
    for name, value in {"CONFIG_FILE": os.devnull, "NO_INDEX": "1", "FIND_LINKS": str(tmp_path)}.items():
        monkeypatch.setenv(f"PIP_{name}", value)
    monkeypatch.setenv("PIP_TARGET", str(tmp_path / "target"))
    monkeypatch.setattr(script, "PROJECT", tmp_path / "no project")
    with pytest.raises(script.Missing, match="installing failed"):  # at the latest as there is no project
        script.install(sys.executable, tmp_path / "run.txt")
    assert (tmp_path / "target" / "tiny.py").exists() == taken
