"""Frames between wide, square and tall, as screens and posts have them, and the longest ones: checked as drawn."""

import pytest

from studio.graphics.catalogue import scene_of
from studio.graphics.frame import read_frame
from studio.graphics.look import shipped_looks
from tests.graphics.extremes import PICTURES, episode, findings_of
from tests.graphics.lint import complaints
from tests.graphics.test_every_picture import drawn

FRAMES = ("1440x1080", "1500x1000", "1350x1080", "1080x1350", "1080x1440", "2520x1080", "3840x600", "600x3840")


@pytest.mark.parametrize("frame", FRAMES)
@pytest.mark.parametrize("picture", PICTURES)
@pytest.mark.parametrize("name", ["minivan_one_new_tire", "estate_before_winter", "feed_truck_three_hurt_tires"])
def test_nothing_is_wrong_with_the_picture(picture: str, name: str, frame: str) -> None:
    assert complaints(drawn(picture, name, read_frame(frame), "chalk")) == []


def test_names_and_scale_of_a_low_wear_profile_keep_apart() -> None:
    """Four tires without a marking: their size is not known, so the words below say only that depths are enlarged."""
    its = episode("", 2)
    scene = scene_of(its, findings_of(its), "wear_profile", read_frame("square"), shipped_looks()["chalk"])
    assert any(mark.text.endswith("enlarged") for mark in scene.texts)
    assert complaints(scene) == []
