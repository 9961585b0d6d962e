"""The placard read out: what was entered stands on the plate, cold; ratings of another label stand beside it.

Conversions by NIST SP 811, Appendix B: 36 psi is 248 kPa, 60 psi is 414 kPa, 3050 lb is 1383 kg.
"""

import pytest

from studio.decide import decide
from studio.graphics.catalogue import CannotShow, Request
from studio.graphics.draw import bounds
from studio.graphics.frame import FRAMES, Box, Frame
from studio.graphics.layout.text import box as box_of
from studio.graphics.look import shipped_looks
from studio.graphics.placard import PlacardPicture
from studio.graphics.scene import Scene
from studio.model.car import Car, Placard, PlacardTire
from studio.model.quantity import Quantity
from studio.reference.tables import load_tables
from tests.decide.build import episode
from tests.graphics.lint import complaints

LOOKS = shipped_looks()
FRAMES_TRIED = {**FRAMES, "small": Frame(1280, 720), "slim": Frame(640, 1100), "captions": Frame(1920, 1080, True)}
WIDE = FRAMES["wide"]


def line(marking="", pressure=0.0, unit="psi"):
    return PlacardTire(marking=marking, pressure=Quantity(pressure, unit) if pressure else None)


BOTH, SPARE = line("235/60R18 103H", 36), line("T165/80D17 104M", 60)
LONG = line("LT315/75R16 127/124Q M+S E", 6.5, "bar")


def car(front=BOTH, rear=BOTH, spare=None, **more):
    return episode(car=Car(placard=Placard(front=front, rear=rear, spare=spare or line()), **more))


RATED = {"front_axle_rating": Quantity(3050, "lb"), "rear_axle_rating": Quantity(3175, "lb")}


def drawn(its, frame: Frame = WIDE, look: str = "chalk", units="us", **request) -> Scene:
    picture = PlacardPicture()
    return picture.compose(picture.data(its, decide(its, load_tables()), Request(units=units, **request)), frame,
                           LOOKS[look])  # fmt: skip


def texts(scene: Scene) -> dict[str, str]:
    return {mark.name: mark.text for mark in scene.texts}


@pytest.mark.parametrize("shape", FRAMES_TRIED)
@pytest.mark.parametrize("look", LOOKS)
@pytest.mark.parametrize(
    "its",
    [car(spare=SPARE, **RATED), car(LONG, line("HL245/40R19 101Y XL", 6.2, "bar"), LONG, **RATED),
     car(line("155R13"), line()), car(line(), line(), SPARE), car(line("", 33), line("205/55R16 91V", 220, "kPa"))],
)  # fmt: skip
def test_nothing_overlaps_or_leaves_the_safe_area(its, look, shape):
    assert complaints(drawn(its, FRAMES_TRIED[shape], look)) == []


@pytest.mark.parametrize("shape", FRAMES_TRIED)
def test_the_plates_texts_stand_on_the_plate(shape):
    scene = drawn(car(LONG, BOTH, SPARE, **RATED), FRAMES_TRIED[shape])
    left, top, right, bottom = bounds(scene.named("placard/plate").outline)
    plate = Box(left, top, right - left, bottom - top)
    on_it = [mark for mark in scene.texts if mark.name.split("/")[0] in ("front", "rear", "spare")]
    assert len(on_it) >= 9 and all(plate.holds(box_of(mark)) for mark in on_it)
    assert {mark.ground for mark in on_it} == {LOOKS["chalk"].plate}


def test_the_values_are_those_of_the_placard_in_both_systems():
    said = texts(drawn(car(spare=SPARE)))
    assert said["front/title"] == "front and rear" and said["front/size"] in ("235/60R18 103H", "235/60R18")
    assert (said["front/pressure"], said["front/unit"], said["front/other"]) == ("36", "psi", "248 kPa")
    assert (said["spare/pressure"], said["spare/other"]) == ("60", "414 kPa")
    assert not any(name.startswith("rear/") for name in said)


def test_a_metric_audience_reads_kilopascals_first():
    said = texts(drawn(car(), units="metric"))
    assert (said["front/pressure"], said["front/unit"], said["front/other"]) == ("248", "kPa", "36 psi")


def test_axles_with_different_pressures_have_rows_of_their_own():
    scene = drawn(car(line("205/55R16 91V", 33), line("205/55R16 91V", 32)))
    said = texts(scene)
    assert (said["front/pressure"], said["rear/pressure"]) == ("33", "32")
    assert scene.named("front/wheels").outline != scene.named("rear/wheels").outline
    wheels, others = (bounds(scene.named(f"front/{part}").outline) for part in ("wheels", "other wheels"))
    assert wheels[2] < others[0]  # the front is at the left


def test_cold_and_the_sidewalls_maximum_are_told_beside_it():
    for frame in FRAMES_TRIED.values():
        said = " ".join(mark.text for mark in drawn(car(spare=SPARE, **RATED), frame).texts)
        assert "Cold" in said and "parked 3 hours or" in said
        assert "Sidewall number" in said and "that is the maximum" in said


def test_axle_ratings_stand_beside_the_plate_not_on_it():
    scene = drawn(car(**RATED))
    said = texts(scene)
    assert (said["front_rating/line0a"], said["front_rating/line0b"]) == ("3050 lb", "1383 kg")
    _, _, right, _ = bounds(scene.named("placard/plate").outline)
    assert box_of(scene.named("front_rating/line0a")).left > right


def test_what_is_not_entered_is_said_on_the_plate():
    said = texts(drawn(car(line("205/55R16 91V"), line("", 33))))
    assert said["front/pressure"] == "not entered" and said["rear/size"] == "size not entered"


def test_the_pressures_come_last():
    scene = drawn(car(spare=SPARE, **RATED))
    assert scene.steps[:2] == ("the door pillar", "the sizes") and scene.steps[-1] == "the cold pressures"
    last = len(scene.steps) - 1
    assert scene.named("front/pressure").step == scene.named("spare/pressure").step == last
    assert scene.named("front/size").step == 1 < scene.named("cold/line0a").step < last
    (number,) = [mark for mark in scene.texts if mark.role == "deciding"]
    assert number.text == "36"


def test_an_empty_placard_cannot_be_shown():
    with pytest.raises(CannotShow, match="sizes and cold pressures are missing"):
        drawn(car(line(), line()))


def test_a_title_of_the_presenter_replaces_the_sentence():
    assert drawn(car(), title="Where is it?").title == "Where is it?"
