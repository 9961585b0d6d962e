"""Sizes side by side: every diameter to one scale, the step between them, numbers as the sizes' arithmetic gives them.

Diameters by hand: rim code x 25.4 mm + 2 x section width x aspect. 205/55R16: 406.4 + 225.5 = 631.9 mm; 195/65R15:
381 + 253.5 = 634.5 mm; 225/45R17: 431.8 + 202.5 = 634.3 mm; 235/60R18: 457.2 + 282 = 739.2 mm; T165/80D17:
431.8 + 264 = 695.8 mm; 255/40R17: 431.8 + 204 = 635.8 mm.
"""

import pytest
from msgspec.structs import replace

from studio.decide import decide
from studio.graphics.catalogue import CannotShow, Request
from studio.graphics.draw import bounds
from studio.graphics.frame import FRAMES, Frame
from studio.graphics.look import shipped_looks
from studio.graphics.scene import Scene
from studio.graphics.sizes_beside import SizesBeside
from studio.model.car import Car, Placard, PlacardTire
from studio.model.circumstances import Circumstances
from studio.model.quantity import Quantity
from studio.reference.tables import load_tables
from tests.decide.build import episode, four, tire
from tests.graphics.lint import complaints

LOOKS = shipped_looks()
FRAMES_TRIED = {**FRAMES, "small": Frame(1280, 720), "slim": Frame(640, 1100), "large": Frame(3840, 2160)}
WIDE = FRAMES["wide"]


def own(front: str, rear: str = "") -> Car:
    lines = [PlacardTire(marking=marking, pressure=Quantity(230, "kPa")) for marking in (front, rear or front)]
    return Car(placard=Placard(front=lines[0], rear=lines[1]))


def wishing(*wished: str, front: str = "205/55R16 91V", rear: str = "", spare: str = "", units: str = "metric", **more):
    tires = four((8, 8, 8, 8), marking=front)
    tires = tuple(replace(t, marking=rear) if rear and t.place.startswith("rear") else t for t in tires)
    tires += (tire("spare", marking=spare),) if spare else ()
    return episode(*tires, car=own(front, rear), units=units, region="de",
                   circumstances=Circumstances(sizes_wished=wished, speed=Quantity(80, "km/h")), **more)  # fmt: skip


def data(its, units="metric", **request):
    return SizesBeside().data(its, decide(its, load_tables()), Request(units=units, **request))


def drawn(its, frame: Frame = WIDE, look: str = "chalk", **more) -> Scene:
    return SizesBeside().compose(data(its, **more), frame, LOOKS[look])


def high(scene: Scene, name: str) -> float:
    """The height in px between the tips of a dimension line's arrows."""
    _, top, _, low = bounds(scene.named(f"{name}/diameter/arrows").outline)
    return low - top


def texts(scene: Scene) -> dict[str, str]:
    return {mark.name: mark.text for mark in scene.texts}


THREE = wishing("195/65R15 91V", front="225/45R17 91V", rear="255/40R17 94V")


@pytest.mark.parametrize("shape", FRAMES_TRIED)
@pytest.mark.parametrize("look", LOOKS)
@pytest.mark.parametrize(
    "its",
    [wishing("195/65R15 91T"), THREE, wishing("155R13", "285/70R17 117T", spare="T125/80D15 95M"),
     wishing(front="LT315/75R16 127/124Q", spare="T165/80D17 104M"),
     wishing("LT235/85R16 120/116R E", "HL245/40R19 101Y XL", front="LT225/75R16 115/112R", rear="LT245/75R16 120/116R",
             spare="T165/80D17 104M")],
)  # fmt: skip
def test_nothing_overlaps_or_leaves_the_safe_area(its, look, shape):
    assert complaints(drawn(its, FRAMES_TRIED[shape], look)) == []


@pytest.mark.parametrize("shape", FRAMES_TRIED)
def test_diameters_stand_to_one_scale_within_half_a_pixel(shape):
    scene = drawn(wishing("195/65R15 91T"), FRAMES_TRIED[shape])
    before, after = high(scene, "before"), high(scene, "after")
    assert before > 6 * FRAMES_TRIED[shape].grid
    assert after == pytest.approx(before / 631.9 * 634.5, abs=0.5)


def test_three_sizes_stand_to_one_scale_on_one_ground():
    scene = drawn(THREE)
    px = high(scene, "before") / 634.3
    assert high(scene, "after") == pytest.approx(634.5 * px, abs=0.5)
    assert high(scene, "rear") == pytest.approx(635.8 * px, abs=0.5)
    lows = {round(bounds(scene.named(f"{name}/diameter/arrows").outline)[3], 6) for name in ("before", "after", "rear")}
    (_, ground, *_) = bounds(scene.named("ground").outline)
    assert lows == {round(ground, 6)}


def test_the_tire_itself_is_as_high_as_its_dimension_line():
    scene = drawn(wishing("195/65R15 91T"))
    for name in ("before", "after"):
        left, top, right, low = bounds(scene.named(f"{name}/tire/tread/crown").outline)
        assert low - top == pytest.approx(high(scene, name), abs=0.5)
        assert right - left == pytest.approx(low - top, rel=0.01)


def test_the_step_lies_between_the_two_tops():
    scene = drawn(wishing("285/70R17 117T"))
    tops = sorted(bounds(scene.named(f"{name}/diameter/arrows").outline)[1] for name in ("before", "after"))
    _, top, _, low = bounds(scene.named("step/heads").outline)
    assert (top, low) == pytest.approx(tuple(tops), abs=0.01)
    level = bounds(scene.named("step/level").outline)
    assert level[1] == pytest.approx(tops[1], abs=0.01)  # the placard's, the lower one, is carried across


def test_the_numbers_are_those_of_plain_arithmetic():
    said = texts(drawn(wishing("195/65R15 91T")))
    assert (said["before/line0"], said["after/line0"]) == ("631.9 mm", "634.5 mm")
    assert (said["before/line1"], said["after/line1"]) == ("205/55R16", "195/65R15")
    assert said["apart/line0a"] == "0.41"  # 634.5 / 631.9 = 1.00411
    assert said["diameter/line0a"] == "2.6 mm"
    assert said["speed/line0a"] == "80.3 km/h"  # 80 x 634.5 / 631.9 = 80.33
    assert said["speed/line1a"].endswith("80.0 km/h shown")
    assert said["rolled/line0a"] == "8.2 mm"  # pi x (634.5 - 631.9) = 8.17, of the same basis as the diameters


def test_an_audience_in_other_units_reads_whole_speeds_in_its_own():
    said = texts(drawn(wishing("195/65R15 91T"), units="us"))
    assert said["before/line0"] == "24.88 in" and said["speed/line0a"] == "50 mph"


def test_a_spare_of_its_own_size_is_compared_with_the_tire_beside_it():
    scene = drawn(wishing(front="235/60R18 103H", spare="T165/80D17 104M"))
    said = texts(scene)
    worn = 739.2 - 2 * 2 * 25.4 / 32  # 8/32 left of 10/32: 736.0 mm
    assert said["apart/line0a"] == "5.5"  # 695.8 / 736.0 = 0.9454
    assert high(scene, "spare") == pytest.approx(high(scene, "main") / worn * 695.8, abs=0.5)
    assert said["main/line2"] == "front left" and said["spare/line2"] == "spare"
    assert scene.findings == ("spare.spare",)


def test_two_axles_of_different_sizes_are_compared_where_nothing_else_is():
    scene = drawn(wishing(front="225/45R17 91V", rear="255/40R17 94V"))
    said = texts(scene)
    assert said["apart/line0a"] == "0.24"  # 635.8 / 634.3 = 1.00236
    assert (said["front/line2"], said["rear/line2"]) == ("placard, front", "placard, rear")


def test_a_third_size_names_the_axle_it_is_compared_with():
    said = texts(drawn(THREE))
    assert said["before/line2"] == "placard, front" and said["rear/line2"] == "placard, rear"


def test_the_gravest_size_wished_is_compared_and_four_stand_at_most():
    its = wishing("195/65R15 91V", "285/70R17 117T", "215/55R16 97V", "225/50R16 92V", spare="T125/80D15 95M")
    shown = data(its)
    assert len(shown.tires) == 4 and shown.tires[-1].size == "285/70R17"
    assert len({tire.size for tire in shown.tires}) == 4


def test_the_size_of_a_tire_chosen_is_compared():
    bench = tuple(tire("bench", id=f"winter_{n}", marking="195/65R15 91T") for n in (1, 2))
    its = wishing("285/70R17 117T")
    its = replace(its, specimens=(*its.specimens, *bench))
    shown = data(its, specimens=("winter_1",))
    assert shown.tires[-1].size == "195/65R15" and shown.tires[-1].whose == "on hand"
    with pytest.raises(CannotShow, match="placard's size"):
        data(its, specimens=("front_left",))


def test_steps_bring_the_tires_first_and_the_number_that_decides_last():
    scene = drawn(THREE)
    assert scene.steps[0] == "placard, rear: 255/40R17 and placard, front: 225/45R17"
    assert scene.named("apart/line0a").step == len(scene.steps) - 1 == scene.named("step/heads").step
    assert scene.named("after/line1").step < scene.named("after/diameter/line").step


def test_one_size_alone_cannot_be_compared():
    with pytest.raises(CannotShow, match="another is wished for"):
        data(wishing())
    with pytest.raises(CannotShow):
        data(episode())


def test_a_title_of_the_presenter_replaces_the_sentence():
    scene = drawn(wishing("195/65R15 91T"), title="<b>Which one?</b>")
    assert scene.title == "<b>Which one?</b>" == scene.named("sentence/line0").text
