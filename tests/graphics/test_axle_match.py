"""Axle match: lengths to one scale, differences enlarged by exactly the factor that stands on the picture.

The lengths follow from plain geometry: a tire's tape circumference is pi times its diameter, so a depth difference d
makes 2 pi d of circumference (the reference's 2/32 in: 0.393 in).
"""

import math
import re

import pytest

from studio.decide import decide
from studio.graphics.axle_lanes import Pair, Roller, factor_for, lanes
from studio.graphics.axle_match import AxleMatch
from studio.graphics.catalogue import CannotShow, Request
from studio.graphics.draw import bounds
from studio.graphics.frame import FRAMES, Box, Frame
from studio.graphics.look import shipped_looks
from studio.graphics.scene import Scene
from studio.model.car import Car, Tolerance
from studio.model.quantity import Quantity, depth, length
from studio.reference.tables import load_tables
from tests.decide.build import TENTHS, episode, flat, four, tire
from tests.graphics.lint import complaints

LOOKS = shipped_looks()
FRAMES_TRIED = {**FRAMES, "small": Frame(1280, 720), "slim": Frame(640, 1100), "captions": Frame(1080, 1920, True),
                "square captions": Frame(1080, 1080, True)}  # fmt: skip
BOX = Box(96.0, 200.0, 1070.0, 660.0)
WIDE = FRAMES["wide"]
QUARTER_INCH = Tolerance(form="circumference", limit=length(0.25, "in"))
TWO_32NDS = Tolerance(form="depth", limit=depth(2, "32nds"))


def data(*specimens, tolerance=QUARTER_INCH, units="us", chosen=(), title="", **more):
    car = Car(drivetrain="all", tolerance=tolerance)
    its = episode(*specimens, car=car, **more)
    return AxleMatch().data(its, decide(its, load_tables()), Request(units=units, specimens=chosen, title=title))


def drawn(*specimens, frame=WIDE, look="chalk", **more) -> Scene:
    return AxleMatch().compose(data(*specimens, **more), frame, LOOKS[look])


def span(scene: Scene, name: str) -> tuple[float, float]:
    left, _, right, _ = bounds(scene.named(name).outline)
    return left, right


def long_of(scene: Scene, name: str) -> float:
    left, right = span(scene, name)
    return right - left


def factor(scene: Scene) -> int:
    (said,) = [mark.text for mark in scene.texts if mark.name.startswith("scale/")]
    return int(re.search(r"\d+", said)[0])


def pair(longer=737.1, shorter=729.6, limit=12.7, rim=457.2) -> Pair:
    rollers = [Roller(name=n, title=n, depths=("",), diameter_mm=d, rim_mm=rim) for n, d in
               (("front_left", longer), ("front_right", shorter))]  # fmt: skip
    return Pair(longer=rollers[0], shorter=rollers[1], apart_mm=math.pi * (longer - shorter), limit_mm=limit,
                verdict="replace")  # fmt: skip


def test_the_longer_tire_is_to_scale_and_rolls_its_own_circumference():
    its = lanes(pair(), BOX, WIDE)
    upper = its.upper
    assert upper.arrived.center[0] - upper.start.center[0] == pytest.approx(math.pi * 2 * upper.arrived.radius)
    assert upper.arrived.outer_mm == pytest.approx(737.1)
    assert upper.arrived.rim_mm / upper.arrived.outer_mm == pytest.approx(457.2 / 737.1)


def test_the_difference_and_the_limit_are_enlarged_by_the_same_factor():
    its = lanes(pair(), BOX, WIDE)
    scale = its.upper.arrived.scale
    gap = its.upper.arrived.center[0] - its.lower.arrived.center[0]
    assert gap == pytest.approx(its.factor * math.pi * 7.5 * scale)
    assert its.zone is not None and its.zone.width == pytest.approx(its.factor * 12.7 * scale)
    assert its.zone.right == pytest.approx(its.upper.arrived.center[0])
    assert its.lower.arrived.outer_mm == pytest.approx(737.1 - its.factor * 7.5)


def test_both_start_from_one_line_and_stand_on_their_ground():
    its = lanes(pair(), BOX, WIDE)
    assert its.upper.start.center[0] == pytest.approx(its.lower.start.center[0])
    for lane in (its.upper, its.lower):
        for face in (lane.start, lane.arrived):
            assert face.center[1] + face.radius == pytest.approx(lane.ground)


@pytest.mark.parametrize(
    ("longer", "shorter", "limit", "expected"),
    [(737.1, 729.6, 12.7, 20), (700.0, 700.0, 10.0, 50), (700.0, 660.0, None, 2), (700.0, 560.0, None, 1)],
)
def test_the_factor_is_a_round_one_that_leaves_a_tire_to_be_seen(longer, shorter, limit, expected):
    its = pair(longer, shorter, limit)
    assert factor_for(its) == expected
    if expected > 1:
        assert longer - expected * (longer - shorter) > its.shorter.rim_mm


def test_the_factor_stands_on_the_picture_and_holds_for_what_is_drawn():
    scene = drawn(*four([10, 5, 6, 6]))
    longer = long_of(scene, "lane/front_left/unrolled")
    apart = longer - long_of(scene, "lane/front_right/unrolled")
    # 5/32 in of tread: 2 pi 3.969 mm = 24.94 mm; new 10/32 in, so the longer tire has 701.8 mm of diameter
    assert apart / longer == pytest.approx(factor(scene) * 24.94 / (math.pi * 701.8), rel=0.005)
    assert long_of(scene, "finish/gap") == pytest.approx(apart, abs=0.5)


def test_what_is_allowed_is_drawn_as_the_manual_says_and_the_gap_reaches_beyond_it_when_it_is_too_much():
    over, within = drawn(*four([10, 5, 6, 6])), drawn(*four([6.5, 6, 6, 6], gauge=TENTHS), tolerance=TWO_32NDS)
    ratio = long_of(over, "finish/gap") / long_of(over, "finish/allowed")
    assert ratio == pytest.approx(24.94 / 6.35, rel=0.005)  # 1/4 in = 6.35 mm
    assert long_of(within, "finish/gap") / long_of(within, "finish/allowed") == pytest.approx(0.25, abs=0.01)
    assert span(over, "finish/gap")[1] == pytest.approx(span(over, "finish/allowed")[1])


def test_the_numbers_are_the_findings_in_the_audiences_units():
    scene = drawn(*four([10, 5, 6, 6]))
    said = {mark.name: mark.text for mark in scene.texts}
    assert said["apart/line0a"] == "0.98" and said["apart/line0b"] == "in"  # 24.94 mm
    assert said["limit/line0a"] == "0.25 in"
    assert said["depth/line0a"] == "5/32 in"
    assert said["front_left/place"] == "Front left" and said["front_left/depth"].startswith("10/32 in")
    assert any("tolerance" in text for name, text in said.items() if name.startswith("limit/"))
    metric = {mark.name: mark.text for mark in drawn(*four([10, 5, 6, 6]), units="metric").texts}
    assert metric["apart/line0a"] == "24.9" and metric["limit/line0a"] == "6.4 mm"


def test_turns_in_a_mile_or_a_kilometer():
    scene = drawn(*four([10, 5, 6, 6]))
    said = [mark.text for mark in scene.texts if mark.name.startswith("turns/")]
    # 3.05 x 702 mm and 3.05 x 694 mm in 1,609,344 mm: 752 and 760 turns (UN R30 / ETRTO factor, restated)
    (turns,) = [int(text.split()[0]) for text in said if text.endswith("rev/mi")]
    assert turns == pytest.approx(8.6, abs=1)


def test_the_worst_pair_is_shown_and_a_chosen_axle_instead_if_asked_for():
    tires = four([6, 6, 10, 5])
    assert data(*tires).pair.longer.name == "rear_left"
    front = data(*tires, chosen=("front_left", "front_right"))
    assert {front.pair.longer.name, front.pair.shorter.name} == {"front_left", "front_right"}
    assert front.shown == ("matching.front_axle",)


def test_two_tires_that_no_finding_compares_are_refused():
    with pytest.raises(CannotShow, match="two tires of one axle"):
        data(*four([6, 6, 10, 5]), chosen=("front_left", "rear_left"))
    with pytest.raises(CannotShow, match="readings and markings"):
        data(tire("front_left", flat(6)))
    with pytest.raises(CannotShow, match="not in the episode"):
        data(*four([6, 6, 6, 6]), chosen=("front_left", "gone"))


def test_equal_tires_arrive_together_without_a_gap():
    scene = drawn(*four([6, 6, 6, 6]))
    assert "finish/gap" not in {mark.name for mark in scene.marks}
    assert span(scene, "lane/front_left/unrolled") == pytest.approx(span(scene, "lane/front_right/unrolled"))
    assert span(scene, "finish/allowed")[1] == pytest.approx(span(scene, "lane/front_left/unrolled")[1])


def test_a_verdict_without_a_limit_draws_no_allowed_zone():
    car = Car(drivetrain="front")
    its = episode(*four([3, 3, 6, 6]), car=car)
    picture = AxleMatch()
    shown = picture.data(its, decide(its, load_tables()), Request())
    assert shown.shown == ("matching.set",) and shown.pair.limit_mm is None
    scene = picture.compose(shown, WIDE, LOOKS["chalk"])
    assert "finish/allowed" not in {mark.name for mark in scene.marks}
    assert scene.named("axles/line0a").text == "3/32"


def test_the_tires_come_first_then_the_turn_then_the_notes_and_the_number_last():
    scene = drawn(*four([10, 5, 6, 6]))
    assert scene.steps[:2] == ("the two tires", "one turn")
    assert scene.named("lane/front_left/start").step == 0 and scene.named("lane/front_left/unrolled").step == 1
    deciding = [mark for mark in scene.texts if mark.role == "deciding"]
    assert [mark.step for mark in deciding] == [len(scene.steps) - 1]


@pytest.mark.parametrize("frame", FRAMES_TRIED.values(), ids=FRAMES_TRIED)
def test_the_drawing_stays_in_the_frame_and_the_tires_apart(frame):
    scene = drawn(*four([10, 5, 6, 6]), frame=frame)
    for name in ("front_left", "front_right"):
        left, top, right, bottom = bounds(scene.named(f"lane/{name}/tire/tread").outline)
        assert frame.titles.holds(Box(left, top, right - left, bottom - top), slack=1.0)
    upper = bounds(scene.named("lane/front_left/unrolled").outline)[3]
    assert upper <= bounds(scene.named("lane/front_right/tire/tread").outline)[1]


@pytest.mark.parametrize("look", LOOKS)
@pytest.mark.parametrize("frame", FRAMES_TRIED.values(), ids=FRAMES_TRIED)
@pytest.mark.parametrize(
    ("depths", "tolerance"), [((12, 2, 6, 6), QUARTER_INCH), ((6, 6, 6, 6), TWO_32NDS), ((6.5, 6, 6, 6), None)]
)
def test_nothing_lies_over_anything_in_any_frame_and_look(depths, tolerance, frame, look):
    tires = four(depths, marking="LT315/75R16 127/124Q M+S", depth_new=Quantity(18, "32nds"))
    assert complaints(drawn(*tires, tolerance=tolerance, frame=frame, look=look)) == []
