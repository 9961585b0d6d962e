"""Wear bars: both grooves on one floor and scale, bars of the finding's height, flush where worn down to them."""

import pytest

from studio.decide import decide
from studio.graphics.catalogue import CannotShow, Request
from studio.graphics.draw import bounds
from studio.graphics.frame import FRAMES, Frame
from studio.graphics.look import shipped_looks
from studio.graphics.scene import Scene, Shape
from studio.graphics.wear_bars import WearBars
from studio.reference.tables import load_tables
from tests.decide.build import TENTHS, episode, four
from tests.graphics.lint import complaints

LOOKS = shipped_looks()
SHAPES = {**FRAMES, "small": Frame(1280, 720), "slim": Frame(640, 1100), "captions": Frame(1920, 1080, captions=True)}
MM = 25.4 / 32
BAR = 1.6  # 49 CFR 571.139 S5.4
MOST = 2.2  # UN Regulation No. 30: tolerance +0.6 mm, as the French order on tires cites it


def drawn(read=4.0, shape="wide", look="chalk", *, unit="32nds", units="us", title="") -> Scene:
    gauge = {"gauge": TENTHS} if unit == "mm" else {}
    its = episode(*four((read + 3, read, read + 2, read + 1), unit=unit, **gauge))
    data = WearBars().data(its, decide(its, load_tables()), Request(units=units, title=title))
    return WearBars().compose(data, SHAPES[shape], LOOKS[look])


def box(scene: Scene, name: str) -> tuple[float, float, float, float]:
    mark = scene.named(name)
    assert isinstance(mark, Shape)
    return bounds(mark.outline)


def scale_of(scene: Scene) -> tuple[float, float]:
    """The floor's height and the scale in px per mm, read off the axis."""
    floor = box(scene, "axis/ticks")[3]
    labels = {int(t.text): t.at[1] - t.cap_height / 2 for t in scene.texts if t.name.removeprefix("axis/").isdigit()}
    highest = max(labels)
    unit = MM if scene.named("axis/unit").text == "/32" else 1.0  # type: ignore[union-attr]
    return floor, (floor - labels[highest]) / (highest * unit)


@pytest.mark.parametrize("read", [0.0, 1.0, 2.0, 12.0])
@pytest.mark.parametrize("shape", SHAPES)
@pytest.mark.parametrize("look", LOOKS)
def test_nothing_overlaps_or_is_cut(read, shape, look):
    for units in ("us", "metric"):
        scene = drawn(read, shape, look, units=units)
        assert complaints(scene) == []
        assert [text.text for text in scene.texts if "…" in text.text] == []


@pytest.mark.parametrize("shape", ["wide", "tall", "small", "slim"])
@pytest.mark.parametrize("units", ["us", "metric"])
def test_surface_bars_and_lines_stand_at_their_heights(shape, units):
    scene = drawn(4.0, shape, units=units)
    floor, scale = scale_of(scene)
    assert floor - box(scene, "this tire/rubber")[1] == pytest.approx(4 * MM * scale, abs=0.5)
    assert floor - box(scene, "this tire/wear bars")[1] == pytest.approx(BAR * scale, abs=0.5)
    assert floor - box(scene, "bar/line")[1] == pytest.approx(BAR * scale, abs=0.5)
    assert floor - box(scene, "bar_most/line")[1] == pytest.approx(MOST * scale, abs=0.5)


@pytest.mark.parametrize("shape", SHAPES)
def test_flush_means_that_surface_and_bar_are_one(shape):
    scene = drawn(4.0, shape)
    assert box(scene, "flush/rubber")[1] == pytest.approx(box(scene, "flush/wear bars")[1], abs=0.01)
    assert box(scene, "flush/rubber")[3] == box(scene, "this tire/rubber")[3]


def test_a_tread_below_its_bars_has_worn_them_too():
    scene = drawn(1.0)
    assert box(scene, "this tire/wear bars")[1] == pytest.approx(box(scene, "this tire/rubber")[1], abs=0.01)


def test_the_doubt_is_as_wide_as_the_gauge_is_unsure():
    # half a step of 0.1 mm and 0.2 mm by hand (common practice, no source)
    scene = drawn(4.0, unit="mm", units="metric")
    _, scale = scale_of(scene)
    _, top, _, bottom = box(scene, "doubt/mark")
    assert (bottom - top) / 2 == pytest.approx(0.25 * scale, abs=0.5)


def test_the_sentence_is_the_findings_and_the_reading_comes_last():
    scene = drawn(2.0)
    assert scene.title.startswith("Wear bars, front right") and scene.findings == ("gauges.bars",)
    assert scene.named("reading/line0a").step == len(scene.steps) - 1


def test_without_a_reading_it_says_what_is_missing():
    empty = episode()
    with pytest.raises(CannotShow, match="no tire has a depth reading yet"):
        WearBars().data(empty, decide(empty, load_tables()), Request())
