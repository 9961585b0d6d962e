"""What is round about a center, and light that stays while a body turns."""

import math

import numpy as np
import pytest
from PySide6.QtGui import QColor, QImage, QPainter, QTransform

from studio.graphics.draw import circle, ellipse, polyline, rectangle, ring
from studio.graphics.paint.body import Body, is_round
from studio.graphics.paint.clip import Pixels, straight
from studio.graphics.scene import Linear, Outline, Scene, Shape
from tests.graphics.moving.stage import scene

CENTER = (80.0, 90.0)


@pytest.mark.parametrize(
    ("outline", "round_"),
    [
        (circle(CENTER, 40), True), (ring(CENTER, 40, 30), True), (circle((81.0, 90.0), 40), False),
        (ellipse(CENTER, 40, 35), False), (rectangle(60, 70, 40, 40), False),
        (rectangle(60, 70, 40, 40, 6), False), (polyline([CENTER]), False), ((), False),
        (circle(CENTER, 40) + circle((60.0, 90.0), 5), False),
        ((("M", 80.0, 50.0), ("C", 80.0, 90.0, 80.0, 90.0, 120.0, 90.0), ("Z",)), False),
    ],
)  # fmt: skip
def test_what_is_round(outline: Outline, round_: bool) -> None:
    assert is_round(outline, CENTER) is round_


def painted(body: Body, degrees: float) -> Pixels:
    image = QImage(320, 180, QImage.Format.Format_ARGB32_Premultiplied)
    image.fill(QColor(0, 0, 0, 0))
    painter = QPainter(image)
    turn = QTransform().translate(*CENTER).rotate(degrees).translate(-CENTER[0], -CENTER[1])
    body.paint(painter, turn, QTransform())
    painter.end()
    return straight(image)


def tire() -> Scene:
    light = Linear((40.0, 50.0), (120.0, 130.0), ((0.0, "#FFFFFF"), (1.0, "#000000")))
    spoke = Shape(name="spoke", outline=rectangle(70, 60, 20, 60), fill=light)
    return scene("any", Shape(name="rim", outline=circle(CENTER, 40), fill=light), spoke,
                 Shape(name="hub", outline=circle(CENTER, 8), fill="#FF0000"))  # fmt: skip


def test_a_round_body_looks_the_same_in_every_turn_and_its_light_stays() -> None:
    whole = tire()
    body = Body(whole, whole.marks, CENTER)
    still, turned = painted(body, 0).astype(int), painted(body, 90).astype(int)
    inside = np.hypot(np.arange(320) - CENTER[0], np.arange(180)[:, None] - CENTER[1]) < 38
    assert np.abs(still - turned)[inside].max() <= 3  # one light over all of it: a spoke's shade is the rim's
    assert still[65, 55, 0] > still[115, 105, 0] + 60


def test_what_is_not_round_turns() -> None:
    whole = scene("any", Shape(name="spoke", outline=rectangle(75, 55, 10, 20), fill="#FF0000"))
    body = Body(whole, whole.marks, CENTER)
    for degrees in (0, 90, 180):
        turn = math.radians(degrees)
        x, y = round(CENTER[0] + 25 * math.sin(turn)), round(CENTER[1] - 25 * math.cos(turn))
        assert painted(body, degrees)[y, x].tolist() == [255, 0, 0, 255]
