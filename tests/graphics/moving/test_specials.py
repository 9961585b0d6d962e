"""What pictures do of their own: wheels along their ways, tread that wears, tires that drift apart."""

import itertools
import math

import pytest

from studio.graphics.draw import bounds, polyline, rectangle
from studio.graphics.motion import Draw, Morph, Movement, Travel, Uncover
from studio.graphics.moving.clips import clip_of
from studio.graphics.moving.cues import Act, Clock
from studio.graphics.moving.pose import front, place, posed
from studio.graphics.moving.rolling import act as roll
from studio.graphics.moving.rotation import act as rotate
from studio.graphics.moving.rotation import turns
from studio.graphics.moving.trace import way
from studio.graphics.moving.wearing import act as wear
from studio.graphics.scene import Linear, Outline, Shape, Stroke
from tests.graphics.moving.stage import CLOCK, beside, noted, rotated, scene, worn


def only(act: Act, kind: type[Movement]) -> list[Movement]:
    return [movement for movement in act.movements if isinstance(movement, kind)]


def test_a_wheel_goes_from_its_place_to_the_one_its_arrow_shows() -> None:
    act = rotate(rotated(), 1, CLOCK)
    (travel,) = only(act, Travel)
    assert isinstance(travel, Travel)
    assert travel.way[0] == pytest.approx((60.0, 40.0)) and travel.way[-1] == pytest.approx((240.0, 140.0))
    near = min(math.dist(point, (150.0, 90.0)) for point in travel.way)
    assert near < 4  # the middle of the arrow's curve
    assert travel.turns[0] == travel.turns[-1] == pytest.approx(0.0)
    drawn = [m for m in act.movements if isinstance(m, Draw)]
    assert [(m.start, m.end) for m in drawn] == [(travel.start, travel.end)]  # arrow and wheel go together
    assert {guest.mark.name.split("/")[0] for guest in act.guests} == {"rolling"}


def test_a_wheel_stands_along_its_way_and_never_jumps() -> None:
    straight = way(((0.0, 0.0), (0.0, 100.0)), 50)
    assert turns(straight, 0.0, 0.0) == pytest.approx((0.0,) * 51)
    slant = turns(way(((0.0, 0.0), (100.0, 100.0)), 50), 0.0, 0.0)
    assert slant[25] == pytest.approx(-45.0)  # down to the right: leaning to the left, seen from above
    across = turns(way(((0.0, 0.0), (100.0, 0.0)), 50), 0.0, 0.0)
    assert abs(across[25]) == pytest.approx(90.0)
    to_spare = turns(way(((0.0, 0.0), (0.0, 60.0), (50.0, 80.0)), 50), 0.0, 90.0)
    assert to_spare[0] == pytest.approx(0.0) and abs(to_spare[-1]) == pytest.approx(90.0)
    for found in (slant, across, to_spare):
        assert max(abs(b - a) for a, b in itertools.pairwise(found)) < 12


def test_what_is_held_back_is_not_acted_out() -> None:
    act = rotate(rotated(dashed=True), 1, CLOCK)
    assert not act.guests and not only(act, Travel) and only(act, Draw)
    assert rotate(rotated(), 0, CLOCK) == Act() == rotate(noted(), 1, CLOCK)


def test_tread_wears_from_new_to_now() -> None:
    """8 mm of tread, 3 mm now, 12 px a mm, floor at 150: the surface sinks from 54 to 114."""
    act = wear(worn(), 0, CLOCK)
    (morph,) = only(act, Morph)
    assert isinstance(morph, Morph)
    *others, guest = (guest.mark for guest in act.guests)
    assert [other.outline for other in others] == list(morph.begins[:-1])  # bars and rubber stay as they are
    assert bounds(morph.begins[-1])[1] == pytest.approx(54.0)
    assert bounds(guest.outline)[1] == pytest.approx(114.0)
    last = morph.marks[-1]
    tops = [bounds(_outline(posed(guest, last, (morph,), frame)))[1] for frame in range(morph.start, morph.end)]
    assert tops == sorted(tops) and 54.0 < tops[0] < 70.0 and 113.0 < tops[-1] < 114.0
    (shown,) = only(act, Uncover)
    assert isinstance(shown, Uncover) and (shown.start, shown.end) == (morph.start, morph.end)


def test_doubt_and_casing_wait_for_the_surface() -> None:
    """A casing of what has gone would shine round the new tread, and a reading has no doubt before it is there."""
    marks = list(worn().marks)
    gone = next(mark for mark in marks if mark.name.endswith("worn away"))
    assert isinstance(gone, Shape)
    casing = Shape(name=f"{gone.name}/casing", outline=gone.outline, stroke=Stroke("#FFFFFF", 6.0))
    doubt = Shape(name="one/doubt", outline=polyline(((190.0, 100.0), (190.0, 120.0))), stroke=Stroke("#000000", 2.0))
    picture = scene("depth_compare", casing, *marks, doubt)
    act = wear(picture, 0, CLOCK)
    (shown,) = only(act, Uncover)
    assert {picture.marks[index].name for index in shown.marks} == {gone.name, casing.name}
    late = next(m for m in act.movements if len(picture.marks) - 1 in m.marks)
    assert late.start == shown.end


def test_a_tread_that_shows_nothing_gone_does_not_wear() -> None:
    marks = [mark for mark in worn().marks if not mark.name.endswith("worn away")]
    assert wear(scene("depth_compare", *marks), 0, CLOCK) == Act()


@pytest.mark.parametrize(("left", "right", "way_"), [(30.0, 40.0, 1), (40.0, 30.0, -1)])
def test_tires_turn_as_often_and_drift_apart(left: float, right: float, way_: int) -> None:
    """Half a turn each is half of pi times the diameter; the larger one runs ahead, away from the other."""
    act = roll(beside(left, right), 0, CLOCK)
    first, last = (m for m in act.movements if isinstance(m, Travel) and m.lit)
    far = [m.way[-1][0] - m.way[0][0] for m in (first, last)]
    assert far == pytest.approx([way_ * math.pi * left, way_ * math.pi * right])
    assert first.turns == last.turns == (-180.0 * way_, 0.0) and (first.start, first.end) == (last.start, last.end)
    gaps = [place(last, n)[0][0] - place(first, n)[0][0] for n in range(first.start, first.end)]
    assert gaps == sorted(gaps) and gaps[-1] - gaps[0] == pytest.approx(math.pi * 10, rel=0.05)
    assert act.moved >= set(range(6))


def test_what_is_unrolled_on_the_road_is_one_turn_long() -> None:
    marks = list(beside(40.0, 30.0).marks)
    tape = rectangle(20, 160, 100, 4)
    tapes = [Shape(name=f"{name}/unrolled", outline=tape, fill="#000000") for name in ("small", "large")]
    act = roll(scene("axle_match", *marks, *tapes), 0, CLOCK)
    lit = [m for m in act.movements if isinstance(m, Travel) and m.lit]
    assert [m.way[-1][0] - m.way[0][0] for m in lit] == pytest.approx([math.pi * 80.0, math.pi * 60.0])
    assert [m.turns for m in lit] == [(-360.0, 0.0)] * 2 and len(only(act, Uncover)) == 2


def test_a_single_tire_does_not_roll_alone() -> None:
    marks = [mark for mark in beside().marks if not mark.name.startswith("large")]
    assert roll(scene("sizes_beside", *marks), 0, CLOCK) == Act()


def test_light_stays_where_it_comes_from_while_a_tire_turns() -> None:
    marks = list(beside().marks)
    shade = Linear((120.0, 90.0), (180.0, 150.0), ((0.0, "#FFFFFF"), (1.0, "#000000")))
    tread = next(mark for mark in marks if mark.name == "small/tire/tread")
    index = marks.index(tread)
    marks[index] = Shape(name=tread.name, outline=_outline(tread), fill=shade)
    clip = clip_of(scene("sizes_beside", *marks), "25")
    own = [m for m in clip.movements if index in m.marks]
    travel = next(m for m in own if isinstance(m, Travel))
    moved = posed(clip.scene.marks[index], index, own, (travel.start + travel.end) // 2)
    assert isinstance(moved, Shape) and isinstance(moved.fill, Linear)
    (x0, y0), (x1, y1) = moved.fill.start, moved.fill.end
    assert (x1 - x0, y1 - y0) == pytest.approx((60.0, 60.0)) and y0 == pytest.approx(90.0) and x0 < 100


def test_what_lies_on_the_road_is_uncovered_up_to_the_wheel() -> None:
    movement = Uncover(marks=(0,), start=0, frames=1, origin=(10.0, 50.0), target=(90.0, 50.0))
    left, _, right, _ = bounds(front(movement, 0, 1000.0))
    assert right == pytest.approx(10 + 80 * 0.75) and left < -500


def test_a_special_lets_the_general_build_up_do_the_rest() -> None:
    clip = clip_of(rotated(), "25")
    index = next(i for i, mark in enumerate(clip.scene.marks) if mark.name == "front_left/to")
    label = next(m for m in clip.movements if index in m.marks)
    assert label.start == clip.steps[1].start + rotate(rotated(), 1, Clock("25")).frames


def _outline(mark: object) -> Outline:
    assert isinstance(mark, Shape)
    return mark.outline
