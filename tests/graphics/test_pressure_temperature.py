"""Pressure over temperature: the line on absolute pressure, through the placard's point and the one that is set.

Worked by hand on absolute pressure, 14.696 psi outside: 36 psi at 20 F is (36 + 14.696) x 529.67 / 479.67 - 14.696 =
41.285 psi at 70 F; in proportion to the gauge it would be 36 x 529.67 / 479.67 = 39.753 psi, which is the usual error.
"""

import pytest

from studio.decide import decide
from studio.graphics.catalogue import CannotShow, Request
from studio.graphics.draw import bounds
from studio.graphics.frame import FRAMES, Frame
from studio.graphics.look import shipped_looks
from studio.graphics.pressure_temperature import PressureTemperature
from studio.graphics.scene import Scene, Shape
from studio.model.car import Car, Placard, PlacardTire
from studio.model.circumstances import Circumstances
from studio.model.quantity import Quantity
from studio.model.specimen import PressureReading
from tests.decide.build import TABLES, episode, flat, tire
from tests.graphics.lint import complaints, unbacked_numbers

LOOKS = shipped_looks()
TRIED = {**FRAMES, "small": Frame(1280, 720), "slim": Frame(640, 1100), "captions": Frame(1080, 1920, True)}
WIDE = FRAMES["wide"]
LONG = "Why the lamp comes on in the first cold morning of the winter although nobody has touched the tires since May"


def filled(here=70.0, there=20.0, front=36.0, rear=36.0, unit="psi", units="us", region="us", **more):
    lines = [PlacardTire(pressure=Quantity(value, unit)) for value in (front, rear)]
    placard = Placard(front=lines[0], rear=lines[1])
    around = Circumstances(filling_temperature=Quantity(here, "degF"), driving_temperature=Quantity(there, "degF"),
                           **more)  # fmt: skip
    read = flat(6, pressure=PressureReading(pressure=Quantity(front, unit), temperature=Quantity(here, "degF")))
    bound = Quantity(1500.0, "kPa")  # drawn however far the pressures are apart; what bounds them is another topic
    fitted = (tire(place, *reads, marking="P225/60R17 98H", max_pressure=bound)
              for place, reads in (("front_left", (read,)), ("rear_left", ())))  # fmt: skip
    return episode(*fitted, car=Car(placard=placard), circumstances=around, units=units, region=region)


UP = {"filling_altitude": Quantity(0.0, "ft"), "driving_altitude": Quantity(5280.0, "ft")}
DOWN = {"filling_altitude": Quantity(5280.0, "ft"), "driving_altitude": Quantity(0.0, "ft")}
CASES = {
    "ordinary": filled(), "two pressures": filled(rear=41.0, units="metric", region="de"),
    "much apart": filled(front=35.0, rear=80.0), "uphill": filled(**UP), "downhill": filled(**DOWN, units="metric"),
    "arctic": filled(here=80.0, there=-40.0, rear=38.0),
    "two degrees apart": filled(here=60.0, there=58.0), "bar": filled(front=2.3, rear=2.5, unit="bar", units="metric"),
}  # fmt: skip


def drawn(its, frame=WIDE, look="chalk", title="") -> Scene:
    request = Request(units=its.units, title=title)
    picture = PressureTemperature()
    return picture.compose(picture.data(its, decide(its, TABLES), request), frame, LOOKS[look])


def shapes(scene: Scene, start: str) -> list[Shape]:
    return [mark for mark in scene.marks if isinstance(mark, Shape) and mark.name.partition("/")[0] == start
            and mark.name.partition("/")[2].isdigit()]  # fmt: skip


def points(mark: Shape) -> list[tuple[float, float]]:
    return [(command[-2], command[-1]) for command in mark.outline if len(command) > 1]


def middle(mark: Shape) -> tuple[float, float]:
    left, top, right, bottom = bounds(mark.outline)
    return (left + right) / 2, (top + bottom) / 2


def level(scene: Scene, pressure: float) -> float:
    """Where a pressure lies, from two numbers of the axis; they stand with their middle at their value."""
    marks = [mark for mark in scene.texts if mark.name.startswith("axis/level")]
    (a, y), (b, z) = ((float(mark.text), mark.at[1] - mark.cap_height / 2) for mark in (marks[0], marks[-1]))
    return y + (pressure - a) / (b - a) * (z - y)


@pytest.mark.parametrize(("shape", "look"), [*((shape, "chalk") for shape in TRIED), ("wide", "night_bay")])
@pytest.mark.parametrize("case", CASES)
def test_nothing_is_wrong_at_any_temperature(case, shape, look):
    assert complaints(drawn(CASES[case], TRIED[shape], look)) == []


def test_a_long_title_fits_too():
    for shape in TRIED.values():
        assert complaints(drawn(CASES["ordinary"], shape, title=LONG)) == []


def test_every_number_comes_from_the_findings():
    for its in CASES.values():
        scene, findings = drawn(its), decide(its, TABLES)
        assert unbacked_numbers(scene, [findings.get(id_) for id_ in scene.findings], []) == []


def test_the_line_goes_through_placard_and_set_pressure_on_absolute_pressure():
    scene = drawn(CASES["ordinary"])
    (cold_x, cold), (warm_x, warm) = points(shapes(scene, "line")[0])
    assert (cold, warm) == pytest.approx((level(scene, 36), level(scene, 41.285)), abs=0.5)
    assert abs(warm - level(scene, 39.753)) > 5, "in proportion to the gauge it would be seen to be wrong"
    placard, to_set = (shapes(scene, name)[-1] for name in ("placard", "set"))
    assert middle(placard) == pytest.approx((cold_x, cold), abs=0.5)
    assert middle(to_set) == pytest.approx((warm_x, warm), abs=0.5)


def test_the_temperatures_stand_under_their_points():
    scene = drawn(CASES["arctic"])
    (driven_x, _), (filled_x, _) = points(shapes(scene, "line")[0])
    assert scene.named("axis/driven").at[0] == pytest.approx(driven_x) and driven_x < filled_x
    assert scene.named("axis/filled").at[0] == pytest.approx(filled_x)
    assert scene.named("axis/driven").text == "−40 °F"


def test_the_line_goes_on_dashed_and_straight_beyond_both_points():
    scene = drawn(CASES["ordinary"])
    beyond, line = points(shapes(scene, "beyond")[0]), points(shapes(scene, "line")[0])
    slopes = [(b[1] - a[1]) / (b[0] - a[0]) for a, b in (beyond[:2], line)]
    assert slopes[0] == pytest.approx(slopes[1], rel=1e-3) and shapes(scene, "beyond")[0].stroke.dash


def test_49_cfr_571_138_the_lamps_level_is_drawn_where_that_rule_holds_and_nowhere_else():
    """25 % under 36 psi is 27 psi."""
    scene = drawn(CASES["ordinary"])
    assert [y for _, y in points(shapes(scene, "lamp")[0])] == pytest.approx([level(scene, 27)] * 2, abs=0.5)
    assert scene.named("lamp/line0a").text == "27 psi"
    assert not shapes(drawn(CASES["two pressures"]), "lamp")


def test_front_and_rear_have_each_its_line_and_its_name():
    scene = drawn(CASES["two pressures"])
    assert len(shapes(scene, "line")) == 2
    assert {mark.text for mark in scene.texts if mark.name in ("word/front", "word/rear")} == {"front", "rear"}
    both = decide(CASES["two pressures"], TABLES).get("pressure.car")
    assert scene.named("set/rear/line0a").text == both.figure("set_rear").in_system("metric").text()


@pytest.mark.parametrize(("case", "word"), [("uphill", "higher up"), ("downhill", "lower down")])
def test_another_altitude_is_a_step_off_the_line_with_its_reason(case, word):
    """At 5280 ft 2.596 psi less presses from outside (U.S. Standard Atmosphere 1976): 36 - 2.596 = 33.404 psi."""
    scene = drawn(CASES[case])
    assert scene.named("word/climb").text == word
    end = points(shapes(scene, "line")[0])[0][1]
    if case == "uphill":
        assert end == pytest.approx(level(scene, 33.404), abs=0.6)
    dot = middle(shapes(scene, "placard")[-1])[1]
    assert (dot < end) == (case == "uphill")


def test_both_units_stand_with_the_number_that_decides_which_comes_last():
    scene = drawn(CASES["ordinary"])
    finding = decide(CASES["ordinary"], TABLES).get("pressure.car")
    number, unit = (scene.named(f"set/front/line0{part}") for part in "ab")
    assert f"{number.text} {unit.text}" == finding.figure("set_front").text() == "41.3 psi"
    said = " ".join(mark.text for mark in scene.texts if mark.name.startswith("set/front/"))
    assert finding.figure("set_front").to("kPa").text() in said
    assert number.step == len(scene.steps) - 1 and number.cap_height == max(mark.cap_height for mark in scene.texts)
    assert scene.named("word/more").text == f"+{finding.figure('more').text()}"


def test_the_caution_of_filling_stands():
    for its in CASES.values():
        said = " ".join(mark.text for mark in drawn(its).texts if mark.name.startswith("caution"))
        assert said == TABLES.cautions["inflating"].text


def test_without_placard_or_two_temperatures_it_says_what_is_missing():
    with pytest.raises(CannotShow, match="a temperature where the tires are filled and one where"):
        drawn(episode(tire("front_left", flat(6))))
    bare = episode(circumstances=Circumstances(filling_temperature=Quantity(70.0, "degF"),
                                               driving_temperature=Quantity(20.0, "degF")))  # fmt: skip
    with pytest.raises(CannotShow, match="the placard's cold pressure"):
        drawn(bare)
    with pytest.raises(CannotShow, match="two that differ"):
        drawn(filled(here=50.0, there=50.0, **DOWN))
    for warmer_or_higher in (filled(here=-20.0, there=105.0), filled(here=50.0, there=50.0, **UP)):
        with pytest.raises(CannotShow, match="no air is let out"):
            drawn(warmer_or_higher)
