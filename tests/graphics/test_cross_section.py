"""The cross-section: every dimension line is as long as what it says, at the scale of the drawing; so is the lens."""

import math

import pytest

from studio.decide import decide
from studio.graphics.catalogue import CannotShow, Request
from studio.graphics.cross_section import CrossSection
from studio.graphics.draw import bounds
from studio.graphics.frame import FRAMES, Frame
from studio.graphics.look import shipped_looks
from studio.graphics.scene import Scene, Shape, Text
from studio.model.specimen import Specimen
from studio.reference.tables import load_tables
from tests.decide.build import episode, flat, reading, tire
from tests.graphics.lint import complaints

LOOKS = shipped_looks()
SHAPES = {**FRAMES, "small": Frame(1280, 720), "slim": Frame(640, 1100), "narrow": Frame(720, 1600),
          "captions": Frame(1920, 1080, captions=True), "low": Frame(1080, 1920, captions=True)}  # fmt: skip
# marking: section width, section height, overall and rim diameter in mm (UN R30 6.1: H = S x aspect, D = d + 2 H)
SIZES = {
    "225/60R17 99H": (225.0, 135.0, 701.8, 431.8),
    "245/40R19 98Y": (245.0, 98.0, 678.6, 482.6),
    "155/80R13 79T": (155.0, 124.0, 578.2, 330.2),
    "LT315/75R16 127/124Q": (315.0, 236.25, 878.9, 406.4),
}


def drawn(specimen: Specimen, frame: Frame = FRAMES["wide"], look: str = "chalk", **request: object) -> Scene:
    its = episode(specimen)
    data = CrossSection().data(its, decide(its, load_tables()), Request(**request))
    return CrossSection().compose(data, frame, LOOKS[look])


def worn(marking: str = "225/60R17 99H", depth: float = 6) -> Specimen:
    return tire("front_left", flat(depth), marking=marking)


def box(scene: Scene, name: str) -> tuple[float, float, float, float]:
    mark = scene.named(name)
    assert isinstance(mark, Shape)
    return bounds(mark.outline)


def said(scene: Scene, name: str) -> str:
    return " ".join(mark.text for mark in scene.texts if mark.name.startswith(f"{name}/line"))


@pytest.mark.parametrize("marking", SIZES)
@pytest.mark.parametrize("shape", SHAPES)
@pytest.mark.parametrize("look", LOOKS)
def test_nothing_overlaps_or_leaves_the_safe_area(marking, shape, look):
    for depth in (0, 12):
        assert complaints(drawn(worn(marking, depth), SHAPES[shape], look)) == []


@pytest.mark.parametrize("marking", SIZES)
@pytest.mark.parametrize("shape", SHAPES)
@pytest.mark.parametrize("units", ["us", "metric"])
def test_no_number_and_no_label_is_cut(marking, shape, units):
    for depth in (0, 6.5, 12):
        scene = drawn(worn(marking, depth), SHAPES[shape], units=units)
        assert [text.text for text in scene.texts if "…" in text.text] == []


@pytest.mark.parametrize("marking", SIZES)
@pytest.mark.parametrize("shape", SHAPES)
def test_every_dimension_line_is_to_one_scale(marking, shape):
    width, height, outer, rim = SIZES[marking]
    scene = drawn(worn(marking), SHAPES[shape])
    left, _, right, _ = box(scene, "section/rubber")
    scale = (right - left) / width
    axis = box(scene, "axis/line")[1]
    _, upper, _, lower = box(scene, "section_height/arrows")
    assert (lower - upper) / scale == pytest.approx(height, abs=0.5 / scale)
    assert (axis - box(scene, "overall_diameter/arrows")[1]) / scale == pytest.approx(outer / 2, abs=0.5 / scale)
    assert (axis - box(scene, "rim_diameter/arrows")[1]) / scale == pytest.approx(rim / 2, abs=0.5 / scale)
    inner = [command[1] for command in scene.named("section_width/arrows").outline if len(command) > 1]
    tips = max(x for x in inner if x < (left + right) / 2), min(x for x in inner if x > (left + right) / 2)
    assert (tips[1] - tips[0]) / scale == pytest.approx(width, abs=0.5 / scale)


def test_another_size_looks_different():
    low, high = drawn(worn("245/40R19 98Y")), drawn(worn("155/80R13 79T"))
    shares = []
    for scene in (low, high):
        left, top, right, _ = box(scene, "section/rubber")
        shares.append((right - left) / (box(scene, "axis/line")[1] - top))
    assert shares[0] / shares[1] == pytest.approx((245 / 339.3) / (155 / 289.1), rel=0.03)


def test_the_values_are_those_of_the_standards_arithmetic():
    scene = drawn(worn())
    assert said(scene, "section_width").startswith("8.86 in")  # 225 mm
    assert said(scene, "section_height").startswith("5.31 in")  # 135 mm
    assert said(scene, "rim_diameter").startswith("17 in")
    assert said(scene, "overall_diameter").startswith("27.63 in")  # 701.8 mm
    metric = drawn(worn(), units="metric")
    assert said(metric, "section_width").startswith("225 mm")
    assert said(metric, "overall_diameter").startswith("701.8 mm")


@pytest.mark.parametrize("shape", ["wide", "tall", "small"])
@pytest.mark.parametrize("depth", [2.0, 6.0, 10.0])
def test_the_lens_shows_the_depth_as_many_times_larger_as_it_says(shape, depth):
    scene = drawn(worn(depth=depth), SHAPES[shape])
    left, _, right, _ = box(scene, "section/rubber")
    scale = (right - left) / 225.0
    stated = scene.named("scale/lens")
    assert isinstance(stated, Text)
    times = int(stated.text.split()[0])
    _, top, _, bottom = box(scene, "lens/depth/arrows")
    assert bottom - top == pytest.approx(depth * 25.4 / 32 * scale * times, abs=0.5)


@pytest.mark.parametrize("shape", SHAPES)
def test_the_lens_lies_clear_of_the_section_and_on_what_it_shows(shape):
    scene = drawn(worn(), SHAPES[shape])
    left, _, right, bottom = box(scene, "lens/rim")
    rubber = box(scene, "section/rubber")
    assert right <= rubber[0] or left >= rubber[2] or bottom <= rubber[1]
    place = box(scene, "lens/place")
    assert rubber[0] < place[0] and place[2] < rubber[2]


def test_the_depth_is_the_lowest_reading_and_comes_last():
    grid = ((7, 7, 7), (6, 6, 6), (7, 5, 7))
    scene = drawn(tire("front_left", reading(grid)))
    assert said(scene, "tread_depth").startswith("5/32 in")
    assert said(scene, "tread_depth_new").startswith("10/32 in")
    steps = {mark.name.split("/")[0]: mark.step for mark in scene.texts if "/line0" in mark.name}
    order = ("section_width", "section_height", "rim_diameter", "overall_diameter", "tread_depth_new", "tread_depth")
    assert [steps[name] for name in order] == [1, 2, 3, 4, 5, 6]
    assert len(scene.steps) == 7


def test_the_lens_looks_at_the_groove_that_is_lowest():
    low_left, low_right = (drawn(tire("front_left", reading(grid))) for grid in (
        ((4, 4, 4), (6, 6, 6), (7, 7, 7)), ((7, 7, 7), (6, 6, 6), (4, 4, 4))))  # fmt: skip
    middle = sum(box(low_left, "section/rubber")[::2]) / 2
    assert sum(box(low_left, "lens/place")[::2]) / 2 < middle < sum(box(low_right, "lens/place")[::2]) / 2


def test_without_a_reading_there_is_no_lens_and_no_step_for_it():
    scene = drawn(tire("front_left", depth_new=None))
    assert not any(mark.name.startswith(("lens", "tread_depth")) for mark in scene.marks)
    assert scene.findings == ("size.front_left",) and len(scene.steps) == 5
    assert complaints(scene) == []


def test_where_there_is_no_room_the_lens_goes_whole():
    title = "Why this one tire, which looks perfectly good from the outside, has to come off before the first snow"
    scene = drawn(worn("LT315/75R16 127/124Q"), FRAMES["square"], title=title)
    lens = {mark.name.split("/")[0] for mark in scene.marks} & {"lens", "tread_depth", "scale"}
    assert lens in (set(), {"lens", "tread_depth", "scale"})
    assert complaints(scene) == []


def test_a_worn_out_tread_brings_its_own_caution():
    sound, done = drawn(worn(depth=8)), drawn(worn(depth=1))
    cautions = [" ".join(t.text for t in scene.texts if t.name.startswith("caution")) for scene in (sound, done)]
    assert cautions[0] != cautions[1] and "tread" in cautions[1].lower()


def test_the_most_urgent_tire_is_shown_unless_another_is_asked_for():
    its = episode(tire("front_left", flat(8)), tire("rear_right", flat(3), marking="205/55R16 91V"))
    findings = decide(its, load_tables())
    assert CrossSection().data(its, findings, Request()).findings[0] == "size.rear_right"
    assert CrossSection().data(its, findings, Request(specimens=("front_left",))).findings[0] == "size.front_left"


def test_without_a_marking_it_says_what_is_missing():
    its = episode(tire("front_left", marking=""))
    findings = decide(its, load_tables())
    for request in (Request(), Request(specimens=("front_left",))):
        with pytest.raises(CannotShow, match="marking"):
            CrossSection().data(its, findings, request)


def test_the_axis_is_a_chain_line_through_the_middle_of_the_wheel():
    scene = drawn(worn())
    line = scene.named("axis/line")
    assert isinstance(line, Shape) and line.stroke is not None and len(line.stroke.dash) == 4  # ISO 128: long, short
    left, top, right, bottom = bounds(line.outline)
    assert math.isclose(top, bottom) and right > left
