"""The zone of repair: the crown drawn as wide as BS AU 159g's public summary has it, a hole where it was seen."""

import pytest

from studio.decide import decide
from studio.graphics.catalogue import CannotShow, Request
from studio.graphics.draw import bounds
from studio.graphics.frame import FRAMES, Frame
from studio.graphics.layout.cover import inside
from studio.graphics.look import shipped_looks
from studio.graphics.repair_zone import RepairZone
from studio.graphics.scene import Scene, Shape
from studio.model.quantity import length
from studio.model.specimen import Damage
from studio.reference.tables import load_tables
from tests.decide.build import episode, flat, tire
from tests.graphics.lint import complaints

LOOKS = shipped_looks()
SHAPES = {**FRAMES, "small": Frame(1280, 720), "slim": Frame(640, 1100),
          "captions": Frame(1920, 1080, captions=True), "low": Frame(1080, 1920, captions=True)}  # fmt: skip
# nominal section width and half of the crown in mm: 60 %, 65 % and 70 % of the width (BS AU 159g, public summary)
SIZES = {"155R13 78S": (155, 46.5), "185/65R15 88H": (185, 60.125), "225/60R17 99H": (225, 78.75),
         "LT315/75R16 127/124Q": (315, 110.25)}  # fmt: skip
ZONES = ("crown", "shoulder", "sidewall", "bead", "unknown")


def hole(zone="crown", size=4.0):
    return Damage(kind="puncture", zone=zone, size=length(size) if size else None)


def drawn(*damage, marking="225/60R17 99H", at=8, frame=FRAMES["wide"], look="chalk", **request) -> Scene:
    its = episode(tire("front_left", flat(at, damage=damage), marking=marking))
    picture = RepairZone()
    return picture.compose(picture.data(its, decide(its, load_tables()), Request(**request)), frame, LOOKS[look])


def outline(scene, name):
    mark = scene.named(name)
    assert isinstance(mark, Shape)
    return mark.outline


@pytest.mark.parametrize("marking", SIZES)
@pytest.mark.parametrize("shape", SHAPES)
@pytest.mark.parametrize("look", LOOKS)
def test_nothing_overlaps_or_leaves_the_safe_area(marking, shape, look):
    for damage in ((), (hole("shoulder"),)):
        scene = drawn(*damage, marking=marking, frame=SHAPES[shape], look=look)
        assert complaints(scene) == []
        assert [mark.text for mark in scene.texts if "…" in mark.text and not mark.name.startswith("sentence")] == []


@pytest.mark.parametrize("marking", SIZES)
@pytest.mark.parametrize("shape", SHAPES)
def test_bs_au_159g_the_crown_is_drawn_to_the_scale_of_the_section(marking, shape):
    width, half = SIZES[marking]
    scene = drawn(marking=marking, frame=SHAPES[shape])
    left, _, right, _ = bounds(outline(scene, "section/rubber"))
    scale = (right - left) / width
    for side in ("left", "right"):
        start, _, end, _ = bounds(outline(scene, f"crown/{side}/arrows"))
        assert end - start == pytest.approx(half * scale, abs=0.5)
    limits = bounds(outline(scene, "crown/limits"))
    assert limits[2] - limits[0] == pytest.approx(2 * half * scale, abs=0.5)


@pytest.mark.parametrize("marking", SIZES)
def test_all_but_the_crown_is_struck_out(marking):
    _, half = SIZES[marking]
    scene = drawn(marking=marking)
    zone, rubber = outline(scene, "never/zone"), outline(scene, "section/rubber")
    left, top, right, _ = bounds(rubber)
    middle, scale = (left + right) / 2, (right - left) / SIZES[marking][0]
    for x, y in [(command[-2], command[-1]) for command in rubber if len(command) > 1]:
        beyond = abs(x - middle) - half * scale
        if abs(beyond) > 1:
            in_tread = y < top + 35 * scale
            assert inside(zone, (x, min(max(y, bounds(zone)[1] + 1), bounds(zone)[3] - 1))) is (
                beyond > 0 or not in_tread
            )


@pytest.mark.parametrize("zone", ZONES)
def test_the_hole_is_drawn_in_the_zone_where_it_was_seen_as_wide_as_it_was_measured(zone):
    scene = drawn(hole(zone))
    if zone == "unknown":
        assert not any(mark.name.startswith("hole/channel") for mark in scene.marks)
        return
    left, top, right, low = bounds(outline(scene, "section/rubber"))
    scale, middle = (right - left) / 225, (left + right) / 2
    (ax, ay), (bx, by), (cx, cy), *_ = [command[1:] for command in outline(scene, "hole/channel") if len(command) > 1]
    assert ((bx - ax) ** 2 + (by - ay) ** 2) ** 0.5 == pytest.approx(max(4 * scale, 1080 / 200), abs=0.1)
    x = (ax + bx + cx) / 3 - middle
    assert (x < 78.75 * scale) is (zone == "crown")
    high = (low - (ay + by + cy) / 3) / (low - top)  # 0 at the bead, 1 at the tread
    within = {"crown": (0.8, 1), "shoulder": (0.7, 1), "sidewall": (0.35, 0.65), "bead": (0, 0.4)}[zone]
    assert within[0] < high <= within[1]


def test_the_referral_and_the_caution_stand_on_the_picture():
    for damage in ((), (hole(),), (hole("sidewall"),)):
        scene = drawn(*damage)
        said = " ".join(text.text for text in scene.texts)
        assert "Only a qualified tire professional, tire off the wheel, can judge it." in said
        assert "never in shoulder or sidewall" in said


def test_what_condemns_a_tire_leaves_no_zone():
    scene = drawn(Damage(kind="bulge", zone="sidewall"))
    said = " ".join(text.text for text in scene.texts)
    assert "past repair" in said and "nothing is repaired" in said and "Do not drive on it" in said
    assert not any(mark.name.startswith("crown") for mark in scene.marks)
    assert complaints(scene) == []


@pytest.mark.parametrize("damage", [(hole(size=9.0),), (hole(), Damage(kind="bulge", zone="sidewall"))])
def test_a_hole_that_is_not_repaired_though_it_is_in_the_crown_leaves_no_zone(damage):
    scene = drawn(*damage)
    assert any(mark.name == "hole/channel" for mark in scene.marks)
    assert not any(mark.name.startswith("crown") for mark in scene.marks)
    assert "not repairable" in scene.title and "Replace it." in scene.title


@pytest.mark.parametrize("shape", ["wide", "tall", "square"])
def test_a_hole_of_which_neither_place_nor_width_is_known(shape):
    assert complaints(drawn(hole("unknown", None), frame=SHAPES[shape])) == []


def test_the_numbers_are_the_findings():
    scene = drawn(hole())
    said = {mark.name: mark.text for mark in scene.texts}
    assert (said["crown/line0a"], said["crown/line0b"]) == ("3.10", "in")  # 78.75 mm / 25.4
    assert said["hole/line0a"] == "0.16 in" and said["hole_most/line0a"] == "0.24 in"
    assert said["depth_least/line0a"] == "2/32 in"
    assert scene.steps[0] == "the tire cut open" and scene.steps[-1] == "how far the crown reaches"


def test_without_a_marking_it_says_what_is_missing():
    with pytest.raises(CannotShow, match="marking"):
        drawn(marking="")
