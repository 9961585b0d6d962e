"""The code keeps to the rules that machines can check: types, lint, sizes, the top level, the README's commands."""

import re
import subprocess
import sys
from pathlib import Path

import pytest

PROJECT = Path(__file__).resolve().parent.parent
TOP_LEVEL = {"README.md", "DEVELOPERS.md", "pyproject.toml", "studio", "resources", "tests", "demo_projects"}
SOURCES = sorted((PROJECT / "studio").rglob("*.py"))


def run(*command: str) -> subprocess.CompletedProcess[str]:
    return subprocess.run(command, cwd=PROJECT, capture_output=True, text=True, check=False, timeout=280)


def test_types_are_strict() -> None:
    done = run(sys.executable, "-m", "mypy")
    assert done.returncode == 0, done.stdout[-4000:]


def test_nothing_to_lint() -> None:
    done = run(sys.executable, "-m", "ruff", "check", "--no-cache", ".")
    assert done.returncode == 0, done.stdout[-4000:]


@pytest.mark.parametrize("path", SOURCES, ids=lambda path: str(path.relative_to(PROJECT)))
def test_no_file_is_longer_than_a_person_reads_at_once(path: Path) -> None:
    assert len(path.read_text(encoding="utf-8").splitlines()) <= 400


def test_the_top_level_holds_nothing_else() -> None:
    listed = run("git", "ls-files")
    if listed.returncode != 0:
        pytest.skip("not a git checkout")
    top = {line.split("/")[0] for line in listed.stdout.splitlines()}
    assert {name for name in top if not name.startswith(".")} == TOP_LEVEL


def test_ci_calls_the_test_command_of_the_readme() -> None:
    readme = (PROJECT / "README.md").read_text("utf-8")
    commands = re.findall(r"^python3 resources/set_up\.py \w+$", readme, re.MULTILINE)
    assert commands == ["python3 resources/set_up.py window", "python3 resources/set_up.py tests"]
    assert commands[1] in (PROJECT / ".ci" / "run").read_text("utf-8").splitlines()


def test_the_pictures_of_the_readme_are_there() -> None:
    named = re.findall(r"!\[[^\]]*\]\(([^)]+)\)", (PROJECT / "README.md").read_text("utf-8"))
    assert len(named) >= 3
    assert [name for name in named if not (PROJECT / name).is_file()] == []
