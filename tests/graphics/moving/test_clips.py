"""Clips as data: exact counts of frames, everything appears by a movement, what stands is the still."""

from fractions import Fraction
from math import ceil

import pytest
from hypothesis import given
from hypothesis import strategies as st
from msgspec.structs import replace

from studio.graphics.motion import Draw, Fade, Morph, Movement, Travel, paced
from studio.graphics.moving.clips import clip_of
from studio.graphics.moving.cues import Clock
from studio.graphics.moving.pose import opacity
from studio.graphics.scene import Shape, Stroke
from studio.graphics.timing import step_holds
from studio.model.rate import RATES
from studio.model.rundown import Rate
from tests.graphics.moving.stage import beside, noted, rotated, scene, text, worn

SCENES = {"note": noted(), "rotation": rotated(), "worn": worn(), "beside": beside()}


@pytest.mark.parametrize(
    ("rate", "drawing", "line", "label"),
    [("24000/1001", 10, 6, 5), ("25", 10, 6, 5), ("30000/1001", 12, 7, 6), ("60", 24, 15, 12)],
)
def test_frame_counts_by_hand(rate: Rate, drawing: int, line: int, label: int) -> None:
    """400, 250, 200 ms: 9.59, 5.99, 4.80 frames of 24000/1001; 10, 6.25, 5 of 25; 11.99, 7.49, 5.99 of 30000/1001."""
    clock = Clock(rate)
    assert [clock.frames(ms) for ms in (400, 250, 200)] == [drawing, line, label]


@pytest.mark.parametrize("rate", RATES)
@pytest.mark.parametrize("name", SCENES)
def test_steps_follow_one_another_and_hold_as_long_as_they_take_to_read(name: str, rate: Rate) -> None:
    picture = SCENES[name]
    clip = clip_of(picture, rate)
    assert [times.start for times in clip.steps] == [clip.opening, *(times.end for times in clip.steps[:-1])]
    for times, hold in zip(clip.steps, step_holds(picture), strict=True):
        assert times.end - times.still == ceil(hold * RATES[rate])
        assert Fraction(times.end - times.still, 1) / RATES[rate] >= 2
    assert clip.frames == clip.steps[-1].end and clip.opening > 1


@pytest.mark.parametrize("name", SCENES)
def test_every_mark_appears_by_a_movement_of_its_own_step(name: str) -> None:
    clip = clip_of(SCENES[name], "25")
    for index, mark in enumerate(clip.marks):
        own = [m for m in clip.movements if index in m.marks]
        step = clip.steps[clip.step_at(own[0].start)]
        assert own, mark.name
        assert opacity(own, step.start - 1) == 0.0
        guest = index >= len(clip.scene.marks)
        assert opacity(own, step.still) == (0.0 if guest and any(isinstance(m, Fade) and m.away for m in own) else 1.0)
        assert all(movement.end <= step.still for movement in own)
        assert guest or clip.step_at(own[0].start) == mark.step


def test_first_and_last_frames_hold() -> None:
    clip = clip_of(noted(), "25")
    assert [clip.still_at(n) for n in (0, clip.opening - 1)] == [noted().up_to(-1)] * 2
    last = clip.still_at(clip.frames - 1)
    assert last == noted() and clip.still_at(clip.frames - 40) == last
    assert clip.still_at(clip.opening) is None
    for beyond in (-1, clip.frames):
        with pytest.raises(IndexError, match="there is no frame"):
            clip.still_at(beyond)


def test_the_drawing_first_then_the_leader_from_its_dot_then_the_label_the_number_last() -> None:
    clip = clip_of(noted(), "25")
    names = [mark.name for mark in clip.scene.marks]

    def start(name: str) -> int:
        return next(m.start for m in clip.movements if names.index(name) in m.marks)

    order = ("disc", "sentence/line0", "note/dot", "note/line0a", "number/line1a", "number/line0a")
    assert sorted(order, key=start) == list(order)
    assert start("number/line0b") == start("number/line0a")  # a number comes with its unit
    leader = next(m for m in clip.movements if names.index("note/leader") in m.marks)
    assert isinstance(leader, Draw) and leader.backwards and leader.start == start("note/dot")


def test_a_leader_that_starts_on_the_thing_is_drawn_forwards() -> None:
    picture = noted()
    marks = list(picture.marks)
    leader = next(mark for mark in marks if mark.name == "note/leader")
    turned = tuple(("M" if order == 0 else "L", *point[1:]) for order, point in enumerate(reversed(leader.outline)))  # type: ignore[union-attr]
    marks[marks.index(leader)] = type(leader)(name=leader.name, step=1, outline=turned, stroke=leader.stroke)  # type: ignore
    clip = clip_of(scene("any", *marks), "25")
    drawn = [m for m in clip.movements if isinstance(m, Draw)]
    assert len(drawn) == 1 and not drawn[0].backwards


@pytest.mark.parametrize("dash", [(), (6.0, 4.0)])
def test_a_casing_is_drawn_as_its_line_is(dash: tuple[float, ...]) -> None:
    marks = list(noted().marks)
    leader = next(mark for mark in marks if isinstance(mark, Shape) and mark.name == "note/leader")
    cased = [replace(leader, name="note/leader/casing", stroke=Stroke("#FFFFFF", 6.0)),
             replace(leader, stroke=Stroke("#000000", 2.0, dash))]  # fmt: skip
    marks[marks.index(leader) : marks.index(leader) + 1] = cased
    drawn = [m for m in clip_of(scene("any", *marks), "25").movements if isinstance(m, Draw)]
    assert len(drawn) == 1 and len(drawn[0].marks) == 2
    assert drawn[0].backwards is (not dash)  # dashes would crawl


@given(share=st.floats(0.0, 1.0))
def test_nothing_bounces(share: float) -> None:
    for pace in ("out", "rolling"):
        assert 0.0 <= paced(share, pace) <= 1.0
        assert paced(share, pace) <= paced(min(1.0, share + 0.01), pace) + 1e-12
    assert paced(0.0, "rolling") == paced(0.0, "out") == 0.0
    assert paced(1.0, "rolling") == paced(1.0, "out") == 1.0


def test_a_movement_has_its_frames_between_what_was_and_what_is() -> None:
    movement = Movement(marks=(0,), start=10, frames=3)
    assert movement.share(9) == 0.0 and movement.share(movement.end) == 1.0
    between = [movement.share(frame) for frame in (10, 11, 12)]
    assert between == [0.4375, 0.75, 0.9375]  # s (2 - s) at a quarter, a half, three quarters


def test_a_picture_of_one_still_step_is_a_clip_too() -> None:
    clip = clip_of(scene("any", text("sentence/line0", "Worn", (10.0, 20.0))), "60")
    assert len(clip.steps) == 1 and clip.frames == 12 + 12 + 120


def test_the_specials_move_what_they_are_about() -> None:
    assert any(isinstance(m, Travel) for m in clip_of(rotated(), "25").movements)
    assert any(isinstance(m, Morph) for m in clip_of(worn(), "25").movements)
    assert sum(isinstance(m, Travel) and m.lit for m in clip_of(beside(), "25").movements) == 2
