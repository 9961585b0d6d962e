"""Life left: law and advice are told apart by their lines, the number that decides stands in every frame."""

from itertools import pairwise

import pytest

from studio.decide import decide
from studio.graphics.catalogue import scene_of
from studio.graphics.frame import FRAMES
from studio.graphics.layout.text import box as box_of
from studio.graphics.look import shipped_looks
from studio.graphics.scene import Scene, Shape, Text
from studio.reference.tables import load_tables
from studio.shipped import demos
from studio.storage.episode_file import decode

CHALK = shipped_looks()["chalk"]
WINTER_LAW = "feed_truck_three_hurt_tires"  # British Columbia's rules ask for 3.5 mm in winter: law, not advice
ADVICE = "minivan_one_new_tire"


def drawn(demo: str, picture: str = "life_left", shape: str = "wide") -> Scene:
    episode = decode((demos() / f"{demo}.json").read_bytes())
    return scene_of(episode, decide(episode, load_tables()), picture, FRAMES[shape], CHALK)


def dashed(scene: Scene, name: str) -> bool:
    found = [mark for mark in scene.marks if isinstance(mark, Shape) and mark.name.startswith(name) and mark.stroke]
    assert found
    return any(mark.stroke is not None and bool(mark.stroke.dash) for mark in found)


def test_law_is_a_full_line_and_advice_a_dashed_one() -> None:
    assert not dashed(drawn(WINTER_LAW), "limit/winter_minimum")
    assert not dashed(drawn(WINTER_LAW), "limit/legal_minimum")
    assert dashed(drawn(ADVICE), "limit/wet_advice")


def test_depth_by_wheel_draws_and_names_a_winter_minimum_as_law() -> None:
    law, advice = drawn(WINTER_LAW, "depth_by_wheel"), drawn(ADVICE, "depth_by_wheel")
    assert not dashed(law, "rear_left/chart/advice") and dashed(advice, "rear_left/chart/advice")
    said = " ".join(mark.text for mark in law.texts if mark.name.startswith("key/"))
    assert "winter law" in said or "winter minimum" in said
    assert "advice" not in said


@pytest.mark.parametrize("demo", [WINTER_LAW, ADVICE, "estate_before_winter"])
@pytest.mark.parametrize("shape", FRAMES)
def test_the_number_that_decides_is_the_largest_text_in_every_frame(demo: str, shape: str) -> None:
    scene = drawn(demo, shape=shape)
    largest = max(scene.texts, key=lambda mark: mark.cap_height)
    assert largest.role == "deciding" and largest.name.startswith("left/legal_minimum")


@pytest.mark.parametrize("demo", [WINTER_LAW, ADVICE, "estate_before_winter"])
@pytest.mark.parametrize("shape", FRAMES)
def test_distances_on_the_axis_keep_apart(demo: str, shape: str) -> None:
    marks = [mark for mark in drawn(demo, shape=shape).marks if isinstance(mark, Text)]
    boxes = sorted((box_of(mark) for mark in marks if mark.name.startswith("axis/x/")), key=lambda box: box.left)
    assert len(boxes) >= 2
    assert all(one.right + 0.3 * one.height < two.left for one, two in pairwise(boxes))
