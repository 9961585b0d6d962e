"""Every picture's sentence, numbers and callouts are read by a machine after 1920x1080 was shrunk to 640x360.

Numbers must come out digit by digit; words may differ by a letter here and there (``machine_reading.same``). How it is
read: ``tests/graphics/machine_reading.py``. The small print may be misread in one label of fifty.
"""

from pathlib import Path

import pytest
from msgspec.structs import replace

from studio.graphics.catalogue import CannotShow, scene_of
from studio.graphics.frame import FRAMES
from studio.graphics.look import shipped_looks
from studio.graphics.scene import Scene, Text
from tests.graphics.extremes import PICTURES
from tests.graphics.machine_reading import READER, labels, misread, numbers, same, words
from tests.graphics.test_every_picture import DEMOS, case

MEANING, SMALL_PRINT = ("deciding", "heading", "callout"), ("small",)
MOST_MISREAD = 1 / 50
reads = pytest.mark.skipif(READER is None, reason="tesseract is not installed (Debian: apt-get install tesseract-ocr)")


def drawn(picture: str, name: str, look: str) -> Scene | None:
    try:
        return scene_of(*case(name), picture, FRAMES["wide"], shipped_looks()[look])
    except CannotShow:
        return None


@reads
@pytest.mark.parametrize("look", shipped_looks())
@pytest.mark.parametrize("name", DEMOS)
@pytest.mark.parametrize("picture", PICTURES)
def test_the_deciding_number_and_all_callouts_are_read(picture: str, name: str, look: str, tmp_path: Path) -> None:
    scene = drawn(picture, name, look)
    if scene is None:
        pytest.skip(f"{picture} has nothing to show in {name}")
    wanted = labels(scene, MEANING)
    assert wanted
    assert misread(scene, wanted, tmp_path) == []


@reads
@pytest.mark.parametrize("look", shipped_looks())
@pytest.mark.parametrize("name", DEMOS)
def test_of_the_small_print_no_more_than_one_label_in_fifty_is_misread(name: str, look: str, tmp_path: Path) -> None:
    scenes = [scene for picture in PICTURES if (scene := drawn(picture, name, look))]
    wrong = [line for scene in scenes for line in misread(scene, labels(scene, SMALL_PRINT), tmp_path)]
    count = sum(len(labels(scene, SMALL_PRINT)) for scene in scenes)
    assert count > 50 and len(wrong) <= MOST_MISREAD * count, wrong


@reads
def test_what_is_too_small_too_pale_or_another_number_would_be_noticed(tmp_path: Path) -> None:
    scene = drawn("size_code", "minivan_one_new_tire", "chalk")
    assert scene is not None
    shown = next(mark for mark in scene.texts if mark.name == "sentence/line0")
    wanted = [label for label in labels(scene, MEANING) if label.name == shown.name]
    for other in (
        replace(shown, cap_height=shown.cap_height / 4),
        replace(shown, fill=scene.background or "#FFFFFF"),
        replace(shown, text=shown.text.replace("235", "285")),
    ):
        assert misread(_with(scene, shown, other), wanted, tmp_path) != [], other
    assert misread(scene, wanted, tmp_path) == []


def _with(scene: Scene, old: Text, new: Text) -> Scene:
    return replace(scene, marks=tuple(new if mark is old else mark for mark in scene.marks))


def test_numbers_are_held_to_every_digit_and_words_to_most_letters() -> None:
    assert numbers("2\u204432 in, 1.6 mm and 27,500 km") == ["2/32", "1.6", "27,500"]
    assert same("5/32 in", "5 / 32 in") and not same("5/32 in", "6/32 in") and not same("5.1 mm", "51 mm")
    assert same("rim diameter", "rim diametor") and not same("rim diameter", "overall width")
    assert not same("85.8 mm", "$5.8 mm") and not same("2/32 in", "2/32")
    assert words("“Tire D” is 5") == "tiredis" and words("1754 lb") == words("1754 |b") == words("1754 Ib")
