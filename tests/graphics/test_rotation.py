"""Rotation: every arrow runs from a tire to the place that the pattern gives it, and only permitted patterns are drawn.

Maps of places: the trade's patterns (common practice, no source); the forward cross is the US treadwear course's
(49 CFR 575.104(e)): front to the same side rear, rear to the opposite front.
"""

import math
from itertools import pairwise

import pytest

from studio.decide import decide
from studio.graphics.catalogue import CannotShow, Request
from studio.graphics.draw import bounds
from studio.graphics.frame import FRAMES, Box, Frame
from studio.graphics.look import shipped_looks
from studio.graphics.parts.arrows import crossings, sampled
from studio.graphics.parts.car_plan import place_car
from studio.graphics.rotation import RotationPicture
from studio.graphics.rotation_paths import chain, paths
from studio.graphics.scene import Scene, Shape
from studio.model.car import Car, RotationDone
from studio.model.quantity import Quantity, length
from studio.reference.tables import load_tables
from tests.decide.build import ON, episode, flat, four, tire
from tests.graphics.lint import complaints
from tests.graphics.parts.test_car_plan import plan

LF, RF, LR, RR, SP = "front_left", "front_right", "rear_left", "rear_right", "spare"
MAPS = {
    "forward cross": {LF: LR, RF: RR, LR: RF, RR: LF},
    "rearward cross": {LR: LF, RR: RF, LF: RR, RF: LR},
    "X": {LF: RR, RR: LF, RF: LR, LR: RF},
    "front to back": {LF: LR, LR: LF, RF: RR, RR: RF},
    "side to side": {LF: RF, RF: LF, LR: RR, RR: LR},
    "five-wheel forward": {LF: LR, LR: RF, RF: RR, RR: SP, SP: LF},
    "five-wheel rearward": {LR: LF, LF: RR, RR: RF, RF: SP, SP: LR},
}
LOOKS = shipped_looks()
SIZES = {LF: "225/60R17 99H", RF: "225/60R17 99H", LR: "225/60R17 99H", RR: "225/60R17 99H"}
FRAMES_TRIED = {**FRAMES, "small": Frame(1280, 720), "slim": Frame(640, 1100), "captions": Frame(1080, 1920, True),
                "square captions": Frame(1080, 1080, True)}  # fmt: skip
CAR = place_car(plan(spare=(225.0, 700.0)), Box(0, 0, 600, 900))
GAP = 10.0


def car(drive: str = "front", **more: object) -> Car:
    return Car(drivetrain=drive, wheelbase=length(2800), front_track=length(1600), rear_track=length(1600),
               rotation_interval=Quantity(6000, "mi"),
               rotations=(RotationDone(on=ON.replace(year=2025), odometer=Quantity(40_000, "mi")),),
               **more)  # fmt: skip


def standing(depths=(6, 6, 6, 6), sizes=SIZES, miles=47_000.0, **more):
    places = zip((LF, RF, LR, RR), depths, strict=True)
    return tuple(
        tire(p, flat(d, odometer=Quantity(miles, "mi")), marking=sizes[p], **more) for p, d in places
    )


def drawn(*specimens, drive="front", frame=FRAMES["wide"], look="chalk", title="") -> Scene:
    its = episode(*specimens, car=car(drive))
    picture = RotationPicture()
    return picture.compose(picture.data(its, decide(its, load_tables()), Request(title=title)), frame, LOOKS[look])


def moves(scene: Scene) -> dict[str, str]:
    names = [mark.name for mark in scene.marks if mark.name.startswith("moves/") and mark.name.endswith("/path")]
    return dict(name.removeprefix("moves/").removesuffix("/path").split(" to ") for name in names)


def said(scene: Scene, prefix: str = "out/") -> str:
    return " ".join(mark.text for mark in scene.texts if mark.name.startswith(prefix))


def away(point, box: Box) -> float:
    """How far a point is from a box."""
    dx = max(box.left - point[0], 0.0, point[0] - box.right)
    dy = max(box.top - point[1], 0.0, point[1] - box.bottom)
    return math.hypot(dx, dy)


@pytest.mark.parametrize("name", MAPS)
def test_each_way_leads_from_the_tire_to_its_next_place(name):
    ordered = chain(MAPS[name])
    assert dict(ordered) == MAPS[name]
    for curve, (here, there) in zip(paths(CAR, ordered, GAP), ordered, strict=True):
        assert away(curve[0], CAR.tire(here)) == pytest.approx(GAP, abs=0.5)
        assert away(curve[3], CAR.tire(there)) == pytest.approx(GAP, abs=0.5)


@pytest.mark.parametrize("name", MAPS)
def test_no_way_runs_over_a_tire(name):
    for curve in paths(CAR, chain(MAPS[name]), GAP):
        for tire_ in CAR.plan.tires:
            assert all(away(point, CAR.tire(tire_.place)) > GAP / 3 for point in sampled(curve, 60)[2:-2])


@pytest.mark.parametrize(
    ("name", "times"),
    [("forward cross", 1), ("rearward cross", 1), ("front to back", 0), ("side to side", 0), ("X", 4),
     ("five-wheel forward", 1), ("five-wheel rearward", 1)],
)  # fmt: skip
def test_ways_cross_no_more_than_the_pattern_needs(name, times):
    curves = paths(CAR, chain(MAPS[name]), GAP)
    met = [t for i, curve in enumerate(curves) for other in curves[:i] for t in crossings(curve, other)]
    assert len(met) == times


@pytest.mark.parametrize("name", MAPS)
def test_the_moves_are_said_in_an_order_in_which_each_place_is_made_free(name):
    ordered = chain(MAPS[name])
    breaks = sum(there != following for (_, there), (following, _) in pairwise(ordered))
    cycles = {"X": 2, "front to back": 2, "side to side": 2}.get(name, 1)
    assert breaks == cycles - 1


def test_a_tire_that_stays_on_its_side_never_passes_the_middle_of_the_car():
    middle = CAR.body.center[0]
    ordered = chain(MAPS["front to back"])
    for curve, (here, _) in zip(paths(CAR, ordered, GAP), ordered, strict=True):
        sides = {point[0] < middle for point in sampled(curve)}
        assert sides == {here.endswith("left")}


def test_front_drive_is_drawn_as_forward_cross_and_all_wheel_drive_as_rearward_cross():
    assert moves(drawn(*standing())) == MAPS["forward cross"]
    assert moves(drawn(*standing(), drive="all")) == MAPS["rearward cross"]


def test_directional_tires_stay_on_their_side_and_the_reason_for_the_others_is_said():
    scene = drawn(*standing(tread="directional"))
    assert moves(scene) == MAPS["front to back"]
    assert "every other pattern" in said(scene) and "rolling direction" in said(scene)


def test_staggered_sizes_change_sides_only():
    sizes = {LF: "225/40R18 92Y", RF: "225/40R18 92Y", LR: "255/35R18 94Y", RR: "255/35R18 94Y"}
    assert moves(drawn(*standing(sizes=sizes), drive="rear")) == MAPS["side to side"]


def test_where_no_pattern_is_permitted_no_arrow_is_drawn_and_the_picture_says_so():
    sizes = {LF: "225/40R18 92Y", RF: "225/40R18 92Y", LR: "255/35R18 94Y", RR: "255/35R18 94Y"}
    scene = drawn(*standing(sizes=sizes, tread="directional"))
    assert moves(scene) == {} and "stay where they are" in scene.title
    assert {mark.text for mark in scene.texts if mark.name.endswith("/to")} == {"stays"}
    assert "front and rear sizes differ" in said(scene)


def test_a_temporary_spare_takes_no_part_and_says_that_it_stays():
    scene = drawn(*standing(), tire(SP, flat(4), marking="T145/80D17 107M"))
    assert SP not in moves(scene) and SP not in moves(scene).values()
    assert "temporary spare" in said(scene)
    assert scene.named("spare/name").text == "Spare stays"


def test_a_matching_spare_takes_part():
    scene = drawn(*standing(), tire(SP, flat(8)), drive="all")
    assert moves(scene) == MAPS["five-wheel rearward"]
    assert scene.named("spare/name").text == "Spare to rear left"


def test_places_are_named_and_each_says_where_its_tire_goes():
    scene = drawn(*standing())
    assert scene.named("front_left/name").text == "Front left"
    assert scene.named("front_left/to").text == "to rear left"
    assert scene.named("rear_left/to").text == "to front right"


def test_the_number_is_the_findings_distance_and_comes_last():
    scene = drawn(*standing())
    deciding = [mark for mark in scene.texts if mark.role == "deciding"]
    assert [mark.text for mark in deciding] == ["7000"]  # 47,000 - 40,000 mi
    assert deciding[0].step == len(scene.steps) - 1
    early = drawn(*standing(miles=42_000.0))
    assert [mark.text for mark in early.texts if mark.role == "deciding"] == ["4000"]  # 6,000 - 2,000 mi left


def test_steps_are_the_car_each_move_the_reasons_and_the_number():
    scene = drawn(*standing())
    moved = ("front left to rear left", "rear left to front right", "front right to rear right",
             "rear right to front left")  # fmt: skip
    assert scene.steps == ("the car", *moved, "why other patterns are out", "the number that decides")
    assert {mark.step for mark in scene.marks if mark.name.startswith("moves/front_left")} == {1}


def test_the_later_of_two_that_cross_passes_over_with_a_gap_in_the_bodys_colour():
    scene = drawn(*standing())
    gaps = [mark for mark in scene.marks if mark.name.endswith("/gap")]
    assert len(gaps) == 1 and isinstance(gaps[0], Shape)
    body = bounds(scene.named("car/body").outline)
    left, top, right, bottom = bounds(gaps[0].outline)
    assert body[0] < left and body[1] < top and right < body[2] and bottom < body[3]


def test_nothing_is_moved_before_a_worn_out_tire_is_replaced_so_its_arrows_are_dashed():
    scene = drawn(*standing(depths=(6, 6, 1, 6)))
    lines = [mark for mark in scene.marks if mark.name.startswith("moves/") and mark.name.endswith("/path")]
    assert lines and all(mark.stroke.dash for mark in lines)
    sound = [mark for mark in drawn(*standing()).marks if mark.name.endswith("/path")]
    assert all(not mark.stroke.dash for mark in sound)


def test_three_tires_cannot_be_rotated():
    its = episode(*four([6, 6, 6, 6])[:3], car=car())
    with pytest.raises(CannotShow, match="a tire at each corner"):
        RotationPicture().data(its, decide(its, load_tables()), Request())


SPARES = {
    "no spare": (), "temporary": (tire(SP, flat(4), marking="T145/80D17 107M"),), "matching": (tire(SP, flat(8)),),
}  # fmt: skip
KINDS = [("directional", "no spare"), ("plain", "temporary"), ("plain", "matching")]


@pytest.mark.parametrize("look", LOOKS)
@pytest.mark.parametrize("frame", FRAMES_TRIED.values(), ids=FRAMES_TRIED)
@pytest.mark.parametrize(("tread", "spare"), KINDS)
def test_nothing_lies_over_anything_in_any_frame_and_look(tread, spare, frame, look):
    scene = drawn(*standing(tread=tread), *SPARES[spare], drive="all", frame=frame, look=look)
    assert complaints(scene) == []


def test_the_longest_sentence_keeps_clear_of_the_drawing():
    title = "Why these four tires, bought together and worn alike, still have to change their places before the snow"
    for frame in FRAMES_TRIED.values():
        assert complaints(drawn(*standing(), frame=frame, title=title)) == []
