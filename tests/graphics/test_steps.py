"""Steps are counted anew where a frame left one empty."""

from studio.graphics.frame import FRAMES
from studio.graphics.scene import Scene, Shape
from studio.graphics.steps import closed_up


def scene(*steps: int, names=("car", "limits", "number")) -> Scene:
    marks = tuple(Shape(name=f"m{order}", step=step, outline=(("M", 0.0, 0.0),)) for order, step in enumerate(steps))
    return Scene(picture="p", frame=FRAMES["wide"], background=None, marks=marks, steps=names)


def test_an_empty_step_goes_and_the_later_ones_move_up():
    closed = closed_up(scene(0, 2, 2))
    assert closed.steps == ("car", "number") and [mark.step for mark in closed.marks] == [0, 1, 1]


def test_a_scene_without_empty_steps_stays_as_it_is():
    whole = scene(0, 1, 2)
    assert closed_up(whole) is whole
