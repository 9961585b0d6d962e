"""The wear profile: grooves in true order, depths to the stated enlargement, doubts, causes as found."""

import pytest

from studio.decide import decide
from studio.graphics.catalogue import CannotShow, Request
from studio.graphics.draw import bounds
from studio.graphics.frame import FRAMES, Frame
from studio.graphics.look import shipped_looks
from studio.graphics.scene import Scene, Shape
from studio.graphics.wear_profile import WearProfile
from studio.model.quantity import depth
from studio.reference.tables import load_tables
from tests.decide.build import TENTHS, episode, reading, tire
from tests.graphics.lint import complaints

LOOKS = shipped_looks()
SHAPES = {**FRAMES, "small": Frame(1280, 720), "slim": Frame(640, 1100), "captions": Frame(1920, 1080, captions=True)}
SHOULDER, CENTER, INNER = (3.0, 6.0, 6.1, 3.1), (6.0, 3.5, 6.2), (6.5, 5.5, 4.0, 2.0)


def drawn(levels=INNER, shape="wide", look="chalk", *, units="metric", new=8.0, marking="225/60R17 99H") -> Scene:
    grid = tuple((mm,) * 3 for mm in levels)
    one = tire("front_left", reading(grid, unit="mm", gauge=TENTHS), marking=marking,
               depth_new=depth(new, "mm") if new else None)  # fmt: skip
    its = episode(one)
    data = WearProfile().data(its, decide(its, load_tables()), Request(units=units))
    return WearProfile().compose(data, SHAPES[shape], LOOKS[look])


def box(scene: Scene, name: str) -> tuple[float, float, float, float]:
    mark = scene.named(name)
    assert isinstance(mark, Shape)
    return bounds(mark.outline)


def text(scene: Scene, name: str) -> str:
    return " ".join(mark.text for mark in scene.texts if mark.name.startswith(name))


def scale_of(scene: Scene) -> tuple[float, float]:
    floor, labels = box(scene, "axis/ticks")[3], {}
    for mark in scene.texts:
        if mark.name.removeprefix("axis/").isdigit():
            labels[int(mark.text)] = mark.at[1] - mark.cap_height / 2
    return floor, (floor - labels[max(labels)]) / max(labels)


@pytest.mark.parametrize("levels", [INNER, CENTER, (0.0, 0.0, 0.0), (4.0,) * 8, (5.0, 3.0)])
@pytest.mark.parametrize("shape", SHAPES)
@pytest.mark.parametrize("look", LOOKS)
def test_nothing_overlaps_or_is_cut(levels, shape, look):
    for units, new in (("us", 8.0), ("metric", None)):
        scene = drawn(levels, shape, look, units=units, new=new)
        assert complaints(scene) == []
        assert [mark.text for mark in scene.texts if "…" in mark.text] == []


@pytest.mark.parametrize("shape", ["wide", "tall", "small"])
def test_the_doubts_stand_at_the_grooves_depths_from_outer_to_inner(shape):
    scene = drawn(INNER, shape)
    floor, scale = scale_of(scene)
    places = []
    for number, mm in enumerate(INNER, start=1):
        left, top, right, bottom = box(scene, f"groove{number}/doubt")
        assert floor - (top + bottom) / 2 == pytest.approx(mm * scale, abs=0.5)
        # half a step of 0.1 mm and 0.2 mm by hand (common practice, no source)
        assert (bottom - top) / 2 == pytest.approx(0.25 * scale, abs=0.5)
        assert text(scene, f"groove{number}/depth") == f"{mm:.1f}"
        places.append((left + right) / 2)
    assert places == sorted(places)
    assert [text(scene, f"groove{n}/name") for n in (1, 2, 3, 4)] == ["outer", "second", "third", "inner"]


def test_the_new_surface_and_the_bars_are_on_the_same_scale():
    scene = drawn(INNER)
    floor, scale = scale_of(scene)
    assert floor - box(scene, "tread/worn away")[1] == pytest.approx(8.0 * scale, abs=0.5)
    assert floor - box(scene, "tread/wear bars")[1] == pytest.approx(1.6 * scale, abs=0.5)  # 49 CFR 571.139 S5.4


@pytest.mark.parametrize("shape", ["wide", "tall", "square"])
def test_the_stated_enlargement_is_that_of_the_drawing(shape):
    scene = drawn(INNER, shape)
    said = text(scene, "scale/depths")
    times = float(said.split()[1])
    left, _, right, _ = box(scene, "tread/rubber")
    # the tread of a 225 mm section drawn between 0.72 and 0.90 of it, as in the picture of the section
    assert 0.72 * 225 <= (right - left) / (scale_of(scene)[1] / times) <= 0.90 * 225


def test_without_a_size_no_number_is_claimed():
    assert text(drawn(INNER, marking=""), "scale/depths") == "depths enlarged"


def test_causes_are_the_findings():
    # handbook patterns (common practice, no source)
    assert "negative camber" in text(drawn(INNER), "cause") and "alignment" in text(drawn(INNER), "check")
    assert "underinflation" in text(drawn(SHOULDER), "cause")
    assert "overinflation" in text(drawn(CENTER), "cause")
    assert not text(drawn((5.0, 5.1, 5.0)), "cause")


def test_the_difference_decides_and_comes_last():
    scene = drawn(INNER)
    number = next(mark for mark in scene.texts if mark.role == "deciding")
    assert number.text == "4.5" and number.step == len(scene.steps) - 1


def test_what_is_missing_is_said():
    bare = episode(tire("front_left"))
    with pytest.raises(CannotShow, match="no tire has a depth reading yet"):
        WearProfile().data(bare, decide(bare, load_tables()), Request())
    with pytest.raises(CannotShow, match="no groove was read"):
        WearProfile().data(bare, decide(bare, load_tables()), Request(specimens=("front_left",)))


def test_many_grooves_show_as_many_numbers_as_have_room_and_the_lowest_always():
    scene = drawn((5.0, 4.9, 4.8, 2.7, 4.6, 4.5, 4.4, 4.3), "tall", units="us")
    assert [mark.text for mark in scene.texts if "…" in mark.text] == [], "causes are left out whole, not cut"
    assert text(scene, "cause").startswith("Usual causes a groove molded deeper or less deep")
    shown = [mark.name for mark in scene.texts if mark.name.endswith("/depth")]
    assert "groove4/depth" in shown and {f"groove{n}/doubt" for n in range(1, 9)} <= {m.name for m in scene.marks}
