"""Charts: values lie where they belong, axes have round values as another library finds them, nothing is run beside."""

import json
import os
import subprocess
import sys
from pathlib import Path

import pytest
from hypothesis import assume, given
from hypothesis import strategies as st
from matplotlib.ticker import MaxNLocator  # an independent finder of round values

from studio.graphics.charts.dress import round_values, whole_values
from studio.graphics.charts.plane import Plane, marks_of
from studio.graphics.frame import Box
from studio.storage.folders import OVERRIDE

REPOSITORY = Path(__file__).parents[2]
AREA = Box(100, 50, 400, 200)


@given(st.floats(0, 500), st.floats(0.01, 1e6), st.integers(1, 6))
def test_round_values_are_those_of_another_library(low: float, reach: float, most: int) -> None:
    high = low + reach
    if low > 50 * reach:  # there it counts from an offset, which no axis of ours has
        return
    found = MaxNLocator(nbins=most, steps=[1, 2, 2.5, 5, 10]).tick_values(low, high)
    ours = round_values(low, high, most)
    assume(not any(0 < abs(value - end) < 1e-6 * reach for value in (*found, *ours) for end in (low, high)))
    assert ours == pytest.approx([value for value in found if low <= value <= high])


@given(st.floats(1, 400), st.integers(4, 5))
def test_whole_values_are_those_of_another_library(high: float, most: int) -> None:
    found = MaxNLocator(nbins=most, integer=True).tick_values(0, high)
    assert whole_values(high, most) == pytest.approx([value for value in found if 0 < value <= high + 1e-9])


def test_below_one_values_are_fractions() -> None:
    assert whole_values(0.31, 5) == pytest.approx([0.08, 0.16, 0.24])


def test_values_lie_where_they_belong_and_lines_are_cut_at_the_edges() -> None:
    plane = Plane(AREA, (0, 10), (20, 40))
    plane.line("rise", [(0, 20), (10, 40), (20, 60)], "#112233", 2, (3, 1))
    plane.dots("dots", [(5, 30)], 8, "#FFFFFF", "#000000", 1)
    plane.surface("band", [(0, 20), (5, 30), (5, 20)], "#112233", 0.5)
    band, rise, dot = marks_of([plane], {"dots": 3})
    assert [mark.name for mark in (band, rise, dot)] == ["band/0", "rise/1", "dots/2"]
    assert rise.outline == (("M", 100, 250), ("L", 500, 50), ("L", 900, -150))
    assert rise.stroke is not None and rise.stroke.dash == (6, 2)
    corners = {(x, y) for _, x, y in (rise.clip or ())[:4]}  # type: ignore[misc]
    assert corners == {(100, 50), (500, 50), (500, 250), (100, 250)}
    assert band.outline == (("M", 100, 250), ("L", 300, 150), ("L", 300, 250), ("Z",)) and band.fill == "#11223380"
    assert dot.clip is None and dot.step == 3 and dot.outline[0] == ("M", 300, 146)


def test_a_line_through_two_values_ends_at_the_edge_it_meets() -> None:
    plane = Plane(AREA, (0, 10), (0, 10))
    plane.through("steep", (4, 4), (5, 6), "#112233", 1)
    plane.through("level", (4, 4), (5, 4), "#112233", 1)
    steep, level = marks_of([plane], {})
    assert steep.outline == (("M", *plane.pixel(2, 0)), ("L", *plane.pixel(7, 10)))
    assert level.outline == (("M", *plane.pixel(0, 4)), ("L", *plane.pixel(10, 4)))


WATCHED = """
import json, sys
seen = []
def watch(event, given):
    if event in ("subprocess.Popen", "os.system", "os.exec", "os.posix_spawn", "os.fork", "os.spawn"):
        seen.append(["ran", str(given[0])])
    elif event == "open" and isinstance(given[1], str) and set(given[1]) & set("wax+"):
        seen.append(["wrote", str(given[0])])
    elif event in ("os.mkdir", "os.rename", "os.symlink", "os.link"):
        seen.append(["wrote", str(given[0])])
sys.addaudithook(watch)
from studio.__main__ import main
code = main(sys.argv[1:])
print(json.dumps([code, seen]))
"""


@pytest.mark.parametrize("picture", ["life_left", "hydroplaning", "pressure_temperature"])
def test_a_chart_runs_nothing_and_writes_only_where_it_was_told(picture: str, tmp_path: Path) -> None:
    demo = REPOSITORY / "demo_projects" / "minivan_one_new_tire.json"
    home, own, out = tmp_path / "home", tmp_path / "own", tmp_path / "out"
    home.mkdir()
    surroundings = {**os.environ, "HOME": str(home), "USERPROFILE": str(home), OVERRIDE: str(own)}
    for name in ("XDG_CONFIG_HOME", "XDG_CACHE_HOME", "XDG_DATA_HOME", "MPLCONFIGDIR"):
        surroundings.pop(name, None)
    command = [sys.executable, "-B", "-c", WATCHED, "pictures", str(demo), "--to", str(out), "--only", picture]
    done = subprocess.run(command, cwd=REPOSITORY, env=surroundings, capture_output=True, text=True, check=False)
    code, seen = json.loads(done.stdout.splitlines()[-1])
    assert code == 0 and list(out.glob("*.png"))
    assert [what for kind, what in seen if kind == "ran"] == []
    outside = [what for kind, what in seen if kind == "wrote" and not Path(what).is_relative_to(out)]
    assert [what for what in outside if not Path(what).is_relative_to(own)] == []
    assert list(home.iterdir()) == []
