"""An export can be repeated: the same bytes from another process on another day's machine; 4K is 1080p, twice as large.

The other process has another hash seed, time zone, language, home and working folder: nothing of that may show.
"""

import io
import os
import subprocess
import sys
from pathlib import Path

import PIL.Image
import PIL.ImageChops
import pytest

from studio import shipped
from studio.graphics.catalogue import CannotShow, scene_of
from studio.graphics.frame import Frame
from studio.graphics.look import shipped_looks
from studio.graphics.scene import AnyMark, ArcText, Image, Radial, Scene, Shape, Text
from tests.graphics.extremes import PICTURES
from tests.graphics.test_every_picture import DEMOS, case

PROJECT = Path(__file__).resolve().parents[2]
HALF_A_PX = 0.5  # of the smaller picture
ONE_PX = 1.0  # a hairline is never thinner than the screen can show, so it may be that much thicker in the smaller one
# Patterns that are drawn as fine as the frame holds without flicker: a larger frame has room for finer ones.
TEXTURES = ("/blocks", "/sipes", "/studs")
EXPORTS = [
    *((name, form, ()) for name in DEMOS for form in ("png", "svg")), ("feed_truck_three_hurt_tires", "pdf", ()),
    ("minivan_one_new_tire", "png", ("--background", "clear", "--frame", "1280x720")),
    ("minivan_one_new_tire", "svg", ("--outlined", "--steps", "all", "--frame", "tall")),
]  # fmt: skip


def exported(folder: Path, name: str, form: str, more: tuple[str, ...], **surroundings: str) -> dict[str, bytes]:
    """Every file that the verb ``pictures`` writes in a process of its own, by its path in the folder."""
    home = folder / "home"
    home.mkdir(parents=True)
    where = os.environ | {"PYTHONPATH": str(PROJECT), "HOME": str(home), "TIRE_EPISODE_STUDIO_HOME": str(home),
                          "QT_QPA_PLATFORM": "offscreen", **surroundings}  # fmt: skip
    episode = shipped.demos() / f"{name}.json"
    command = [sys.executable, "-m", "studio", "pictures", str(episode), "--to", "made", "--format", form, *more]
    done = subprocess.run(command, cwd=folder, env=where, capture_output=True, text=True, timeout=240)
    assert done.returncode == 0, done.stderr
    made = folder / "made"
    return {str(path.relative_to(made)): path.read_bytes() for path in sorted(made.rglob("*")) if path.is_file()}


@pytest.mark.parametrize(("name", "form", "more"), EXPORTS, ids=lambda value: str(value).strip("()"))
def test_two_processes_write_the_same_bytes(name: str, form: str, more: tuple[str, ...], tmp_path: Path) -> None:
    one = exported(tmp_path / "one", name, form, more, PYTHONHASHSEED="0", TZ="UTC", LC_ALL="C.UTF-8")
    other = exported(tmp_path / "two", name, form, more, PYTHONHASHSEED="4242", TZ="Asia/Tokyo", LC_ALL="C")
    assert list(one) == list(other) and sum(file.endswith(f".{form}") for file in one) >= 10
    assert [_difference(file, one[file], other[file]) for file in one if one[file] != other[file]] == []


def _difference(file: str, one: bytes, other: bytes) -> str:
    """Where two files differ: the box of pixels, or the first byte with what stands round it."""
    if file.endswith(".png"):
        pictures = [PIL.Image.open(io.BytesIO(content)).convert("RGBA") for content in (one, other)]
        return f"{file}: pixels in {PIL.ImageChops.difference(*pictures).getbbox(alpha_only=False)}"
    at = next((at for at, (a, b) in enumerate(zip(one, other, strict=False)) if a != b), min(len(one), len(other)))
    return f"{file}, byte {at}: {one[max(0, at - 40) : at + 40]!r} and {other[max(0, at - 40) : at + 40]!r}"


def numbers(mark: AnyMark, frame: Frame) -> list[float]:
    """All lengths in px that say where a mark stands and how large it is, as far as the frame shows it."""
    if isinstance(mark, Text):
        return [*mark.at, mark.cap_height]
    if isinstance(mark, ArcText):
        return [*mark.center, mark.radius, mark.cap_height]
    if isinstance(mark, Image):
        return [mark.box.left, mark.box.top, mark.box.width, mark.box.height]
    edges = frame.width, frame.height
    values = [min(max(value, 0.0), edges[order % 2]) for command in mark.outline
              for order, value in enumerate(command[1:])]  # fmt: skip
    if isinstance(mark.fill, Radial):
        values += [*mark.fill.center, mark.fill.radius]
    return values


def line_width(mark: AnyMark) -> float:
    return mark.stroke.width if isinstance(mark, Shape) and mark.stroke else 0.0


def unlike(small: Scene, large: Scene) -> list[str]:
    """The marks of ``large`` that are not those of ``small`` at twice the size."""
    names = [[mark.name for mark in scene.marks] for scene in (small, large)]
    if names[0] != names[1]:
        return [f"the marks differ: {sorted(set(names[0]) ^ set(names[1]))}"]
    wrong = []
    for mark, its in zip(small.marks, large.marks, strict=True):
        if mark.name.endswith(TEXTURES) and isinstance(mark, Shape):
            continue
        mine, other = numbers(mark, small.frame), numbers(its, large.frame)
        if len(mine) != len(other):
            wrong.append(f"{mark.name} has {len(mine)} numbers, then {len(other)}")
        elif off := max((abs(a - b / 2) for a, b in zip(mine, other, strict=True)), default=0.0):
            wrong += [f"{mark.name} is {off:.2f} px off"] if off > HALF_A_PX + 1e-6 else []
        if abs(line_width(mark) - line_width(its) / 2) > ONE_PX:
            wrong.append(f"{mark.name} has a line of {line_width(mark):.1f} px, then {line_width(its):.1f}")
        if isinstance(mark, Text) and isinstance(its, Text) and mark.text != its.text:
            wrong.append(f"{mark.name} says {mark.text!r}, then {its.text!r}")
    return wrong


@pytest.mark.parametrize("look", shipped_looks())
@pytest.mark.parametrize("name", DEMOS)
@pytest.mark.parametrize("picture", PICTURES)
def test_4k_is_1080p_twice_as_large(picture: str, name: str, look: str) -> None:
    try:
        small, large = (scene_of(*case(name), picture, frame, shipped_looks()[look])
                        for frame in (Frame(1920, 1080), Frame(3840, 2160)))  # fmt: skip
    except CannotShow as reason:
        pytest.skip(str(reason))
    assert unlike(small, large) == []


def test_another_composition_would_be_noticed() -> None:
    scenes = [scene_of(*case("minivan_one_new_tire"), "size_code", frame, shipped_looks()["chalk"])
              for frame in (Frame(1920, 1080), Frame(3840, 2100), Frame(3840, 2160, captions=True))]  # fmt: skip
    assert unlike(scenes[0], scenes[1]) != [] and unlike(scenes[0], scenes[2]) != []
