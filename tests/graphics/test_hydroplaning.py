"""Hydroplaning: each formula only where it was tested, one scale of speed, the tire's point where the finding says.

The speeds are those of FHWA-RD-79-31 equation 16 (handbook row E176: 4/32 in, 32 psi, 0.1 in, 0.04 in: 55.338 mph) and
of NASA TN D-2056 (10.35 times the root of the pressure in psi).
"""

import math

import pytest

from studio.decide import decide
from studio.graphics.catalogue import CannotShow, Request, scene_of
from studio.graphics.draw import bounds
from studio.graphics.frame import FRAMES, Frame
from studio.graphics.hydroplaning import Hydroplaning
from studio.graphics.hydroplaning_tire import tire_afloat
from studio.graphics.look import shipped_looks
from studio.graphics.scene import Scene
from studio.model.car import Car, Placard, PlacardTire
from studio.model.circumstances import Circumstances
from studio.model.quantity import Quantity, depth, length
from tests.decide.build import TABLES, episode, flat, tire
from tests.graphics.lint import complaints, unbacked_numbers

LOOKS = shipped_looks()
TRIED = {**FRAMES, "small": Frame(1280, 720), "slim": Frame(640, 1100), "captions": Frame(1080, 1920, True)}
WIDE = FRAMES["wide"]
LONG = "Why a tire that looks perfectly good from the outside can leave the road in the first heavy rain of the autumn"


def inches(value: float) -> Quantity:
    return Quantity(value, "in")


def wet(tread=4.0, psi=32.0, water=0.1, texture=0.04, units="us", speed=55.0):
    line = PlacardTire(pressure=Quantity(psi, "psi"))
    around = Circumstances(water_depth=inches(water), texture_depth=inches(texture), speed=Quantity(speed, "mph"))
    return episode(tire("rear_left", flat(tread), depth_new=depth(12, "32nds")), units=units, circumstances=around,
                   car=Car(placard=Placard(front=line, rear=line)))  # fmt: skip


CASES = {
    "ordinary": wet(), "new": wet(tread=10, speed=30), "bald, deep": wet(tread=0, water=0.8, speed=85),
    "van above the tests": wet(tread=2, psi=60, water=0.3, speed=70), "soft": wet(psi=18, tread=6, units="metric"),
    "thin water": wet(water=0.05, units="metric"), "both formulas at 40 psi": wet(tread=1, psi=40, water=0.2),
    "crawling": wet(speed=10), "only the older one": wet(tread=9, water=0.9),
}  # fmt: skip


def drawn(its, frame=WIDE, look="chalk", title="") -> Scene:
    request = Request(units=its.units, title=title)
    return Hydroplaning().compose(Hydroplaning().data(its, decide(its, TABLES), request), frame, LOOKS[look])


def named(scene: Scene, start: str):
    return [mark for mark in scene.marks if mark.name.startswith(start)]


def middle(mark) -> tuple[float, float]:
    left, top, right, bottom = bounds(mark.outline)
    return (left + right) / 2, (top + bottom) / 2


def points(mark) -> list[tuple[float, float]]:
    return [(command[-2], command[-1]) for command in mark.outline if len(command) > 1]


def height_of(scene: Scene, speed: float) -> float:
    """Where a speed lies, from two marks of the axis; its numbers stand with their middle at their value."""
    low, high = sorted((mark for mark in scene.texts if mark.name.startswith("axis/speed") and "unit" not in mark.name),
                       key=lambda mark: float(mark.text))[:2]  # fmt: skip
    (a, y), (b, z) = ((float(mark.text), mark.at[1] - mark.cap_height / 2) for mark in (low, high))
    return y + (speed - a) / (b - a) * (z - y)


@pytest.mark.parametrize(("shape", "look"), [*((shape, "chalk") for shape in TRIED), ("wide", "night_bay")])
@pytest.mark.parametrize("case", CASES)
def test_nothing_is_wrong_in_any_water(case, shape, look):
    assert complaints(drawn(CASES[case], TRIED[shape], look)) == []


def test_a_long_title_fits_too():
    for shape in TRIED.values():
        assert complaints(drawn(CASES["ordinary"], shape, title=LONG)) == []


def test_every_number_comes_from_the_finding():
    for its in CASES.values():
        scene = drawn(its)
        assert unbacked_numbers(scene, [decide(its, TABLES).get("wet.rear_left")], []) == []


def test_the_point_lies_at_e176s_55_mph_in_each_panel():
    scene = drawn(CASES["ordinary"])
    dots = [middle(mark)[1] for mark in named(scene, "point")]
    assert len(dots) == 3 and dots == pytest.approx([height_of(scene, 55.338)] * 3, abs=0.5)


def test_the_speed_driven_lies_at_its_speed_across_every_panel():
    scene = drawn(CASES["van above the tests"])
    lines = named(scene, "driven")
    levels = [y for mark in lines if getattr(mark, "stroke", None) and mark.stroke.dash for _, y in points(mark)]
    assert levels == pytest.approx([height_of(scene, 70)] * 6, abs=0.5)


def test_the_curve_over_pressure_ends_where_the_tests_did():
    """18 and 40 psi; equation 16 takes the pressure to the power of 0.3."""
    scene = drawn(CASES["ordinary"])
    curve = points(named(scene, "curve")[2])
    dot = middle(named(scene, "point")[2])
    across = (curve[-1][0] - curve[0][0]) / (40 - 18)
    assert dot[0] == pytest.approx(curve[0][0] + (32 - 18) * across, abs=0.5)
    assert curve[-1][1] == pytest.approx(height_of(scene, 55.338 * (40 / 32) ** 0.3), abs=0.5)
    assert curve[0][1] == pytest.approx(height_of(scene, 55.338 * (18 / 32) ** 0.3), abs=0.5)


def test_what_nobody_tested_is_hatched_and_holds_no_curve():
    scene = drawn(CASES["ordinary"])
    hatches = [bounds(mark.outline) for mark in named(scene, "untested/")]
    assert {mark.name for mark in named(scene, "untested/")} == {
        "untested/tread1", "untested/water0", "untested/water1", "untested/pressure0", "untested/pressure1",
    }  # fmt: skip
    for mark in (*named(scene, "curve"), *named(scene, "other")):
        for x, _ in points(mark):
            assert not any(left + 0.5 < x < right - 0.5 for left, _, right, _ in hatches)


def test_above_40_psi_only_the_formula_of_1963_goes_on():
    """10.35 x root of 60 psi is 80.17 mph."""
    scene = drawn(CASES["van above the tests"])
    newer, = named(scene, "other")
    older = named(scene, "curve")[-1]
    dot = middle(named(scene, "point")[-1])
    assert points(newer)[-1][0] < points(older)[-1][0] == pytest.approx(dot[0], abs=0.5)
    assert points(newer)[-1][0] == pytest.approx(
        points(older)[0][0] + (points(older)[-1][0] - points(older)[0][0]) * (40 - 18) / (60 - 18), abs=0.5
    )
    assert dot[1] == pytest.approx(height_of(scene, 10.35 * math.sqrt(60)), abs=0.5)
    assert scene.named("formula/line0a").text == "formula of 1963"
    assert "NASA TN D-2056" in " ".join(mark.text for mark in named(scene, "sources"))


def test_where_two_formulas_are_drawn_each_has_its_year_and_a_line_of_its_own():
    scene = drawn(CASES["both formulas at 40 psi"])
    assert {mark.text for mark in named(scene, "year/")} == {"1963", "1979"}
    dashed, solid = named(scene, "other"), named(scene, "curve")
    assert all(mark.stroke.dash for mark in dashed) and not any(mark.stroke.dash for mark in solid)


def test_the_water_fades_below_the_curve_and_has_no_edge_there():
    """From a floor with an edge a viewer would read a safe speed."""
    scene = drawn(CASES["ordinary"])
    bands = named(scene, "water/tread")[:8]
    reds = [int(mark.fill[1:3], 16) for mark in bands]
    ground = int(LOOKS["chalk"].ground[1:3], 16)
    assert reds == sorted(reds, reverse=True) and 0 < ground - reds[0] <= 6


def test_it_never_calls_a_speed_safe_and_the_caution_stands():
    for its in CASES.values():
        said = " ".join(mark.text for mark in drawn(its).texts).lower()
        assert " safe" not in said and "below any computed speed" in said


def test_the_deciding_number_is_the_findings_and_comes_last():
    its = CASES["soft"]
    scene, finding = drawn(its), decide(its, TABLES).get("wet.rear_left")
    number, unit = (scene.named(f"floats/line0{part}") for part in "ab")
    assert f"{number.text} {unit.text}" == finding.figure("floating_1979").to("km/h").text()
    assert number.step == len(scene.steps) - 1 and scene.steps[0] == "tire and axes"
    assert number.cap_height == max(mark.cap_height for mark in scene.texts)


def test_the_tire_is_lifted_off_the_road_and_keeps_its_proportions():
    box, road = FRAMES["wide"].titles, 900.0
    marks = {mark.name: mark for mark in tire_afloat(box, road, 676.0, 431.8, 0.3, WIDE, LOOKS["chalk"])}
    _, top, _, foot = bounds(marks["afloat/tire/tread/crown"].outline)
    assert foot < road - 5 and bounds(marks["afloat/water"].outline)[3] == road
    left, _, right, _ = bounds(marks["afloat/tire/sidewall"].outline)
    assert (right - left) / (foot - top) < 1
    assert marks["scale/line0"].text == "water drawn deeper"


def test_without_water_or_outside_all_tests_it_says_what_is_missing():
    dry = episode(tire("rear_left", flat(4)))
    with pytest.raises(CannotShow, match="no water on the road"):
        scene_of(dry, decide(dry, TABLES), "hydroplaning", WIDE, LOOKS["chalk"])
    with pytest.raises(CannotShow, match=r"water from 0\.05 in"):
        drawn(wet(water=0.03))
    unread = episode(tire("rear_left", flat(4)), circumstances=Circumstances(water_depth=length(5)))
    with pytest.raises(CannotShow, match="a cold pressure"):
        drawn(unread)
