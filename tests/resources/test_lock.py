"""The lock names every package in a version that the project's ranges allow; the command that renews it is careful."""

import importlib.util
import re
import sys
import tomllib
from collections.abc import Iterator
from pathlib import Path
from types import ModuleType

import pytest
from packaging.requirements import Requirement

PROJECT = Path(__file__).resolve().parents[2]
LOCK = PROJECT / "resources" / "lock"
TOLD = tomllib.loads((PROJECT / "pyproject.toml").read_text("utf-8"))
EXTRAS = TOLD["project"]["optional-dependencies"]
FOR_RUN = [*TOLD["project"]["dependencies"], *EXTRAS["clips"], *TOLD["build-system"]["requires"]]


def entries(name: str) -> dict[str, str]:
    """Package -> its whole entry, in ``run.txt`` or ``test.txt``."""
    text = re.sub(r"^#.*\n", "", (LOCK / f"{name}.txt").read_text("utf-8"), flags=re.MULTILINE)
    found = [entry for entry in re.split(r"\n(?=\S)", text) if entry.strip()]
    return {re.split(r"[= ]", entry)[0]: entry.rstrip() for entry in found}


def canonical(name: str) -> str:
    """A package's name as indexes compare it (PEP 503)."""
    return re.sub(r"[-_.]+", "-", name).lower()


@pytest.mark.parametrize(
    ("lock", "wanted"),
    [*(("run", each) for each in FOR_RUN), *(("test", each) for each in [*FOR_RUN, *EXTRAS["test"]])],
)
def test_each_package_that_is_asked_for_is_locked_within_its_range(lock: str, wanted: str) -> None:
    asked = Requirement(wanted)
    locked = re.match(r"\S+==(\S+)", entries(lock)[canonical(asked.name)])
    assert locked and asked.specifier.contains(locked[1])


@pytest.mark.parametrize("lock", ["run", "test"])
def test_every_entry_has_hashes_and_no_address(lock: str) -> None:
    found = entries(lock)
    assert len(found) > len(FOR_RUN)
    for entry in found.values():
        first, *hashes = entry.split(" \\\n    ")
        assert re.fullmatch(r"[a-z0-9-]+==[^\s;]+( ; .+)?", first)
        assert hashes and all(re.fullmatch("--hash=sha256:[0-9a-f]{64}", each) for each in hashes), first
    assert "://" not in "".join(found.values())


def test_the_tests_run_on_the_very_versions_of_the_window() -> None:
    assert entries("run").items() <= entries("test").items()


@pytest.mark.parametrize("wanted", FOR_RUN)
def test_what_is_installed_as_a_library_stops_before_a_next_major(wanted: str) -> None:
    assert any(each.operator == "<" for each in Requirement(wanted).specifier)


@pytest.fixture
def renewing(monkeypatch: pytest.MonkeyPatch, tmp_path: Path) -> Iterator[ModuleType]:
    """The command, with lock and new files in a folder of their own."""
    monkeypatch.syspath_prepend(str(PROJECT / "resources"))
    spec = importlib.util.spec_from_file_location("renew_lock", PROJECT / "resources" / "renew_lock.py")
    assert spec and spec.loader
    module = importlib.util.module_from_spec(spec)
    spec.loader.exec_module(module)
    for name, version in (("LOCK", "1.0"), ("FRESH", "2.0")):
        folder = tmp_path / "build" / name
        folder.mkdir(parents=True)
        monkeypatch.setattr(module, name, folder)
        for lock in ("run", "test"):
            (folder / f"{lock}.txt").write_text(f"# made\npint=={version} \\\n    --hash=sha256:00\n", "utf-8")
    monkeypatch.setattr(module, "PROJECT", tmp_path)
    monkeypatch.setattr(module, "find_uv", lambda: ["uv"])
    for step in ("compile_locks", "check_packages"):
        monkeypatch.setattr(module, step, lambda uv: None)
    monkeypatch.setattr(module, "held_back", lambda uv: [])
    yield module
    for name in ("set_up", "setting_up"):
        sys.modules.pop(name, None)


def lock_of(renewing: ModuleType) -> list[str]:
    return [renewing.versions(renewing.LOCK / f"{name}.txt")["pint"] for name in ("run", "test")]


def test_the_lock_follows_when_the_tests_pass_and_what_changed_is_said(
    renewing: ModuleType, monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]
) -> None:
    seen: list[list[str]] = []
    monkeypatch.setattr(renewing, "test", lambda: seen.append(lock_of(renewing)) or 0)
    assert renewing.renew(look=False) == 0
    assert seen == [["2.0", "2.0"]]  # the tests see the new lock
    assert lock_of(renewing) == ["2.0", "2.0"]
    said = capsys.readouterr().out
    assert "pint 1.0 -> 2.0\n" in said and "the tests passed" in said


def test_the_lock_stays_when_the_tests_fail_or_are_broken_off(
    renewing: ModuleType, monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]
) -> None:
    monkeypatch.setattr(renewing, "test", lambda: 1)
    assert renewing.renew(look=False) == 1
    assert lock_of(renewing) == ["1.0", "1.0"]
    assert "the tests FAILED" in capsys.readouterr().out

    def broken_off() -> int:
        raise KeyboardInterrupt

    monkeypatch.setattr(renewing, "test", broken_off)
    with pytest.raises(KeyboardInterrupt):
        renewing.renew(look=False)
    assert lock_of(renewing) == ["1.0", "1.0"]


def test_a_look_changes_nothing(renewing: ModuleType, capsys: pytest.CaptureFixture[str]) -> None:
    assert renewing.renew(look=True) == 0
    assert lock_of(renewing) == ["1.0", "1.0"]
    assert "pint 1.0 -> 2.0\n" in capsys.readouterr().out


def test_new_and_gone_packages_are_said_too(renewing: ModuleType) -> None:
    said = list(renewing.changed({"a": "1", "b": "1", "c": "1"}, {"b": "2", "c": "1", "d": "3"}))
    assert said == ["  a 1 -> (no longer needed)", "  b 1 -> 2", "  d (not there) -> 3"]
