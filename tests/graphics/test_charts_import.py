"""The first chart starts no other program, looks for no fonts of the system and writes only what was asked for."""

import os
import subprocess
import sys
from pathlib import Path

SCRIPT = """
import sys
seen = []
def watch(event, args):
    if event in ("subprocess.Popen", "os.exec", "os.posix_spawn", "os.system"):
        seen.append(("started", str(args[0])))
    if event == "open" and isinstance(args[0], str) and isinstance(args[2], int) and args[2] & 3:
        seen.append(("written", args[0]))
    if event == "open" and str(args[0]).endswith((".ttf", ".otf", ".ttc", ".afm")):
        seen.append(("font", str(args[0])))
sys.addaudithook(watch)
from studio.headless.main import main
assert main(["pictures", sys.argv[1], "--only", "hydroplaning", "--to", sys.argv[2], "--format", "svg"]) == 0
for kind, what in seen:
    print(kind, what)
"""
PROJECT = Path(__file__).parents[2]


def test_the_first_chart_looks_for_no_fonts_and_writes_nothing_elsewhere(tmp_path: Path) -> None:
    home, out, between = tmp_path / "home", tmp_path / "out", tmp_path / "between"
    for folder in (home, between):
        folder.mkdir()
    surroundings = {
        **{name: value for name, value in os.environ.items() if not name.startswith(("XDG_", "MPL"))},
        "HOME": str(home), "USERPROFILE": str(home), "TMPDIR": str(between), "PYTHONDONTWRITEBYTECODE": "1",
    }  # fmt: skip
    episode = PROJECT / "demo_projects" / "minivan_one_new_tire.json"
    done = subprocess.run(
        [sys.executable, "-c", SCRIPT, str(episode), str(out)], cwd=PROJECT, env=surroundings, capture_output=True,
        text=True, check=False, timeout=200,
    )  # fmt: skip
    assert done.returncode == 0, done.stderr
    lines = [line for line in done.stdout.splitlines() if line.startswith(("started ", "written ", "font "))]
    assert any("hydroplaning" in line for line in lines), "the picture was not written where it was watched"
    assert not [line for line in lines if line.startswith("started ")]
    fonts = [line for line in lines if line.startswith("font ")]
    assert not [line for line in fonts if str(PROJECT / "resources") not in line]
    written = [line.split(" ", 1)[1] for line in lines if line.startswith("written ")]
    assert not [path for path in written if not path.startswith((str(out), str(between), os.devnull))]
    assert not list(home.rglob("*")) and not list(between.iterdir())
