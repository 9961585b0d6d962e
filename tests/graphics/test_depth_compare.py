"""Depths compared: one floor, one scale; surfaces, limits, bars and doubts stand where the numbers say."""

import pytest

from studio.decide import decide
from studio.graphics.catalogue import CannotShow, Request
from studio.graphics.depth_compare import DepthCompare
from studio.graphics.draw import bounds
from studio.graphics.frame import FRAMES, Frame
from studio.graphics.look import shipped_looks
from studio.graphics.scene import Scene, Shape, Text
from studio.model.quantity import depth
from studio.reference.tables import load_tables
from tests.decide.build import TENTHS, episode, flat, four, tire
from tests.graphics.lint import complaints

LOOKS = shipped_looks()
SHAPES = {**FRAMES, "small": Frame(1280, 720), "slim": Frame(640, 1100), "narrow": Frame(720, 1600),
          "captions": Frame(1920, 1080, captions=True), "low": Frame(1080, 1920, captions=True)}  # fmt: skip
ALL = ("front_left", "front_right", "rear_left", "rear_right")
LONG = "Why this one tire, which looks perfectly good from the outside, has to come off before the first snow"
MM = 25.4 / 32


def drawn(depths, shape: str = "wide", look: str = "chalk", *, request: Request | None = None, **more) -> Scene:
    its = episode(*four(depths, **more))
    data = DepthCompare().data(its, decide(its, load_tables()), request or Request(specimens=ALL))
    return DepthCompare().compose(data, SHAPES[shape], LOOKS[look])


def box(scene: Scene, name: str) -> tuple[float, float, float, float]:
    mark = scene.named(name)
    assert isinstance(mark, Shape)
    return bounds(mark.outline)


def scale_of(scene: Scene) -> tuple[float, float]:
    """The floor's height and the scale in px per mm, read off the axis: its lowest and its labelled ticks."""
    floor = box(scene, "axis/ticks")[3]
    labels = {int(t.text): t.at[1] - t.cap_height / 2 for t in scene.texts if t.name.removeprefix("axis/").isdigit()}
    highest = max(labels)
    return floor, (floor - labels[highest]) / (highest * MM)


@pytest.mark.parametrize("depths", [(0, 0, 0, 0), (12, 9, 5, 2), (2, 2, 2, 2), (12, 12, 12, 12), (5.5, 6.5, 7.5, 10.5)])
@pytest.mark.parametrize("shape", SHAPES)
@pytest.mark.parametrize("look", LOOKS)
def test_nothing_overlaps_or_leaves_the_safe_area(depths, shape, look):
    new = {"depth_new": depth(12, "32nds")}
    for request in (Request(specimens=ALL), Request(), Request(specimens=ALL, title=LONG), Request(units="metric")):
        assert complaints(drawn(depths, shape, look, request=request, **new)) == []


@pytest.mark.parametrize("depths", [(0, 0, 0, 0), (12, 9, 5, 2), (5.5, 6.5, 7.5, 10.5)])
@pytest.mark.parametrize("shape", SHAPES)
@pytest.mark.parametrize("units", ["us", "metric"])
def test_no_number_and_no_label_is_cut(depths, shape, units):
    scene = drawn(depths, shape, request=Request(specimens=ALL, units=units))
    assert [text.text for text in scene.texts if "…" in text.text] == []


@pytest.mark.parametrize("shape", SHAPES)
def test_surfaces_stand_at_their_depths_on_one_scale(shape):
    scene = drawn((9, 4, 7, 6), shape)
    floor, scale = scale_of(scene)
    shown = [mark.name.split("/")[0] for mark in scene.marks if mark.name.endswith("/tread/rubber")]
    for place, read in zip(ALL, (9, 4, 7, 6), strict=True):
        if place in shown:
            assert floor - box(scene, f"{place}/tread/rubber")[1] == pytest.approx(read * MM * scale, abs=0.5)
    assert "front_right" in shown, "the most worn is never left out"


@pytest.mark.parametrize("shape", SHAPES)
def test_lines_and_bars_stand_at_their_heights(shape):
    scene = drawn((9, 4, 7, 6), shape)
    floor, scale = scale_of(scene)
    # 49 CFR 570.9: 2/32 in; common practice: 4/32 in on wet roads; 49 CFR 571.139 S5.4: bars of 1.6 mm
    assert floor - box(scene, "legal_minimum/line")[1] == pytest.approx(2 * MM * scale, abs=0.5)
    if shape != "square":  # there advice finds room only where the verdict rests on it
        assert floor - box(scene, "wet_advice/line")[1] == pytest.approx(4 * MM * scale, abs=0.5)
    assert floor - box(scene, "front_right/tread/wear bars")[1] == pytest.approx(1.6 * scale, abs=0.5)


def test_advice_stays_where_the_verdict_rests_on_it():
    scene = drawn((9, 3, 7, 6), "square")
    floor, scale = scale_of(scene)
    assert floor - box(scene, "wet_advice/line")[1] == pytest.approx(4 * MM * scale, abs=0.5)
    assert complaints(scene) == []


def test_the_doubt_is_as_wide_as_the_gauge_is_unsure():
    # half a step of 1/32 in and 0.2 mm by hand (common practice, no source): 0.397 + 0.2 mm
    scene = drawn((9, 4, 7, 6))
    _, scale = scale_of(scene)
    _, top, _, bottom = box(scene, "front_right/doubt")
    assert (bottom - top) / 2 == pytest.approx((0.5 * MM + 0.2) * scale, abs=0.5)
    said = " ".join(t.text for t in scene.texts if t.name.startswith("doubt/"))
    assert "±0.8/32 in" in said and "doubt" in said


def test_a_finer_gauge_is_less_unsure():
    scene = drawn((5.0, 4.0, 3.0, 6.0), unit="mm", gauge=TENTHS, request=Request(specimens=ALL, units="metric"))
    assert "±0.3 mm" in " ".join(t.text for t in scene.texts)  # 0.05 + 0.2 mm, rounded half away from zero


def test_columns_go_from_deep_to_worn_with_the_new_tread_first():
    scene = drawn((9, 4, 7, 6))
    lefts = {m.name.split("/")[0]: bounds(m.outline)[0] for m in scene.marks
             if isinstance(m, Shape) and m.name.endswith("/tread/rubber")}  # fmt: skip
    order = sorted(lefts, key=lambda name: lefts[name])
    assert order == ["new", "front_left", "rear_left", "rear_right", "front_right"]


def test_numbers_are_the_findings_texts_and_the_worst_decides():
    scene = drawn((9, 4, 7, 6))
    numbers = {t.name.split("/")[0]: t for t in scene.texts if t.name.endswith("/depth")}
    assert {name: mark.text for name, mark in numbers.items()} == {
        "new": "10/32", "front_left": "9/32", "rear_left": "7/32", "rear_right": "6/32", "front_right": "4/32",
    }  # fmt: skip
    deciding = [name for name, mark in numbers.items() if mark.role == "deciding"]
    assert deciding == ["front_right"]
    assert numbers["front_right"].step == len(scene.steps) - 1, "the deciding number comes last"
    assert numbers["front_right"].cap_height == max(t.cap_height for t in scene.texts)


def test_each_tire_carries_the_sign_of_its_verdict():
    scene = drawn((9, 1, 7, 3))
    fills = LOOKS["chalk"].verdicts
    signs = {place: scene.named(f"{place}/sign/tread") for place in ALL}
    found = {place: mark.fill for place, mark in signs.items() if isinstance(mark, Shape)}
    assert found == {"front_left": fills.keep, "front_right": fills.replace, "rear_left": fills.keep,
                     "rear_right": fills.watch}  # fmt: skip


def test_what_has_worn_away_is_shown_only_where_the_new_depth_is_known():
    assert any(m.name.endswith("worn away") for m in drawn((9, 4, 7, 6)).marks)
    unknown = drawn((9, 4, 7, 6), depth_new=None)
    assert not any(m.name.endswith("worn away") or m.name.startswith("new/") for m in unknown.marks)
    assert complaints(unknown) == []


def test_tires_of_different_new_depths_have_no_common_new_column():
    its = episode(tire("front_left", flat(6)), tire("front_right", flat(6), depth_new=depth(12, "32nds")))
    data = DepthCompare().data(its, decide(its, load_tables()), Request(specimens=("front_left", "front_right")))
    assert [column.name for column in data.columns] == ["front_left", "front_right"]


def test_without_a_choice_the_most_urgent_tire_stands_beside_a_new_tread():
    scene = drawn((9, 4, 7, 3), request=Request())
    shown = {mark.name.split("/")[0] for mark in scene.marks if mark.name.endswith("/tread/rubber")}
    assert shown == {"new", "rear_right"} and scene.findings == ("tread_left.rear_right",)


@pytest.mark.parametrize("shape", ["square", "slim"])
def test_where_room_is_scarce_the_least_worn_go_and_law_stays(shape):
    scene = drawn((9, 4, 7, 6), shape, request=Request(specimens=ALL, title=LONG))
    shown = [mark.name.split("/")[0] for mark in scene.marks if mark.name.endswith("/tread/rubber")]
    assert shown[-1] == "front_right"
    assert any(mark.name == "legal_minimum/line" for mark in scene.marks)
    floor, _ = scale_of(scene)
    assert floor - box(scene, "axis/ticks")[1] > 10 * scene.frame.grid


def test_the_magnification_can_be_read_off_the_scale():
    scene = drawn((9, 4, 7, 6))
    unit = scene.named("axis/unit")
    assert isinstance(unit, Text) and unit.text == "/32"
    metric = drawn((9, 4, 7, 6), request=Request(specimens=ALL, units="metric")).named("axis/unit")
    assert isinstance(metric, Text) and metric.text == "mm"


def test_a_tire_without_a_reading_is_left_out_and_none_at_all_is_said():
    its = episode(tire("front_left", flat(6)), tire("front_right"))
    findings = decide(its, load_tables())
    data = DepthCompare().data(its, findings, Request(specimens=("front_left", "front_right")))
    assert data.findings == ("tread_left.front_left",)
    with pytest.raises(CannotShow, match="reading"):
        DepthCompare().data(its, findings, Request(specimens=("front_right",)))
    with pytest.raises(CannotShow, match="reading"):
        DepthCompare().data(episode(), decide(episode(), load_tables()), Request())


def test_a_tire_off_the_car_goes_by_its_name():
    its = episode(tire("bench", flat(6), id="old_one", name="Barn find"))
    data = DepthCompare().data(its, decide(its, load_tables()), Request(specimens=("old_one",)))
    assert data.columns[-1].title == "Barn find"
