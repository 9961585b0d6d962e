"""A built wheel carries the tables, fonts, looks and demos, and works where the checkout is not."""

import json
import os
import subprocess
import sys
import zipfile
from pathlib import Path

import pytest

PROJECT = Path(__file__).resolve().parent.parent


def run(*command: str, where: Path, elsewhere: Path | None = None) -> str:
    env = dict(os.environ, QT_QPA_PLATFORM="offscreen")
    if elsewhere:
        env["PYTHONPATH"] = str(elsewhere)
    done = subprocess.run(command, cwd=where, env=env, capture_output=True, text=True, check=False, timeout=240)
    assert done.returncode == 0, done.stderr[-2000:]
    return done.stdout


@pytest.fixture(scope="module")
def installed(tmp_path_factory: pytest.TempPathFactory) -> Path:
    folder = tmp_path_factory.mktemp("wheel")
    run(sys.executable, "-m", "build", "--wheel", "--no-isolation", "--outdir", str(folder), where=PROJECT)
    (wheel,) = folder.glob("*.whl")
    with zipfile.ZipFile(wheel) as archive:
        archive.extractall(folder / "site")
    return folder / "site"


def test_the_wheel_carries_what_is_shipped(installed: Path) -> None:
    shipped = installed / "studio" / "_shipped"
    for folder, pattern in (("reference", "*.csv"), ("looks", "*.json"), ("fonts", "*.ttf")):
        here = sorted(path.name for path in (PROJECT / "resources" / folder).glob(pattern))
        assert here and sorted(path.name for path in (shipped / "resources" / folder).glob(pattern)) == here
    assert list((shipped / "demo_projects").glob("*.json"))
    assert list((shipped / "resources" / "fonts").glob("*OFL*"))


def test_the_wheel_works_somewhere_else(installed: Path, tmp_path: Path) -> None:
    studio = (sys.executable, "-m", "studio")
    where = run(sys.executable, "-c", "import studio; print(studio.__file__)", where=tmp_path, elsewhere=installed)
    assert Path(where.strip()).is_relative_to(installed)
    run(*studio, "new", "demo.json", "--demo", where=tmp_path, elsewhere=installed)
    findings = json.loads(run(*studio, "findings", "demo.json", "--json", where=tmp_path, elsewhere=installed))
    assert findings["findings"]
    asked = (*studio, "pictures", "demo.json", "--to", "out", "--only", "size_code", "--json")
    made = json.loads(run(*asked, where=tmp_path, elsewhere=installed))
    (picture,) = made["pictures"]
    assert (tmp_path / "out" / picture["file"]).stat().st_size > 10_000
