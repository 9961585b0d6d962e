"""Coins as gauges: true diameters and depths to one scale, what is covered, what the custom says and how sure it is."""

import pytest

from studio.decide import decide
from studio.graphics.catalogue import CannotShow, Request
from studio.graphics.coins import Coins
from studio.graphics.draw import bounds
from studio.graphics.frame import FRAMES, Frame
from studio.graphics.look import shipped_looks
from studio.graphics.scene import Scene, Shape
from studio.reference.tables import load_tables
from tests.decide.build import TENTHS, episode, four
from tests.graphics.lint import complaints

LOOKS = shipped_looks()
SHAPES = {**FRAMES, "small": Frame(1280, 720), "slim": Frame(640, 1100), "captions": Frame(1920, 1080, captions=True)}
MM = 25.4 / 32
# US Mint coin specifications; Council Regulation (EC) 975/98; Royal Mint (restated); Royal Canadian Mint
DIAMETERS = {"us_cent": 19.05, "us_quarter": 24.26, "us_cent_memorial": 19.05, "euro_1": 23.25, "euro_2": 25.75,
             "uk_20p": 21.4, "ca_2d": 28.0}  # fmt: skip
# what the trade says each coin shows, in mm (common practice, no source; the 2 euro and Canada's from memory)
DEPTHS = {"us_cent": 2 * MM, "us_quarter": 4 * MM, "us_cent_memorial": 6 * MM, "euro_1": 3.0, "euro_2": 4.0,
          "uk_20p": 1.6, "ca_2d": 5.0}  # fmt: skip


def drawn(read=4.0, shape="wide", look="chalk", *, unit="32nds", region="us", title="", units="us") -> Scene:
    gauge = {"gauge": TENTHS} if unit == "mm" else {}
    its = episode(*four((read + 3, read, read + 2, read + 1), unit=unit, **gauge), region=region)
    data = Coins().data(its, decide(its, load_tables()), Request(title=title, units=units))
    return Coins().compose(data, SHAPES[shape], LOOKS[look])


def box(scene: Scene, name: str) -> tuple[float, float, float, float]:
    mark = scene.named(name)
    assert isinstance(mark, Shape)
    return bounds(mark.outline)


def shown(scene: Scene) -> list[str]:
    return [mark.name.removesuffix("/disc") for mark in scene.marks
            if mark.name.endswith("/disc") and mark.name.count("/") == 1]  # fmt: skip


def scale_of(scene: Scene, coin: str) -> float:
    left, _, right, _ = box(scene, f"{coin}/disc")
    return (right - left) / DIAMETERS[coin]


@pytest.mark.parametrize("region", ["us", "de", "uk", "ca"])
@pytest.mark.parametrize("shape", SHAPES)
@pytest.mark.parametrize("look", LOOKS)
def test_nothing_overlaps_or_is_cut(region, shape, look):
    for read in (0.0, 2.0, 9.0):
        scene = drawn(read, shape, look, region=region)
        assert complaints(scene) == []
        assert [text.text for text in scene.texts if "…" in text.text] == []


@pytest.mark.parametrize("region", ["us", "de", "uk", "ca"])
@pytest.mark.parametrize("shape", SHAPES)
def test_diameters_are_to_one_scale_with_the_groove(region, shape):
    scene = drawn(4.0, shape, region=region)
    scale = scale_of(scene, shown(scene)[0])
    for coin in shown(scene):
        left, _, right, _ = box(scene, f"{coin}/disc")
        assert right - left == pytest.approx(DIAMETERS[coin] * scale, abs=0.5)
    _, rib, _, _ = box(scene, "groove 1/rib")
    _, floor, _, _ = box(scene, "groove 1/floor")
    assert floor - rib == pytest.approx(4 * MM * scale, abs=0.5)


@pytest.mark.parametrize("region", ["us", "de", "uk", "ca"])
@pytest.mark.parametrize("shape", SHAPES)
def test_each_coins_line_lies_at_the_depth_that_it_is_said_to_show(region, shape):
    scene = drawn(4.0, shape, region=region)
    for coin in shown(scene):
        _, _, _, foot = box(scene, f"{coin}/disc")
        _, line, _, _ = box(scene, f"{coin}/depth")
        assert foot - line == pytest.approx(DEPTHS[coin] * scale_of(scene, coin), abs=0.5)


def test_what_is_covered_follows_the_reading():
    deep, worn = drawn(9.0), drawn(0.0)
    assert any("/behind the rib/" in mark.name for mark in deep.marks)
    assert not any("/behind the rib/" in mark.name for mark in worn.marks)
    said = {text.name: text.text for text in deep.texts} | {"worn": drawn(1.0).named("us_cent/said").text}  # type: ignore
    assert said["us_cent/said"].startswith("the top of the") and said["worn"].startswith("the top of the")


def test_the_enlarged_foot_is_to_its_stated_times():
    scene = drawn(4.0)
    times = int(scene.named("scale/enlarged").text.split()[0])  # type: ignore[union-attr]
    near = next(coin for coin in shown(scene) if coin == "us_quarter")
    _, rib, _, _ = box(scene, "enlarged/rib")
    surface = min(y for y in (c[2] for c in scene.marks[[m.name for m in scene.marks].index("enlarged/rib")].outline  # type: ignore
                              if len(c) > 1))  # fmt: skip
    _, floor, _, _ = box(scene, "enlarged/floor")
    assert floor - surface == pytest.approx(4 * MM * scale_of(scene, near) * times, abs=0.5) and surface == rib


def test_the_nearest_coin_gives_the_sentence_and_is_never_left_out():
    assert drawn(4.0).title.startswith("US quarter") and drawn(2.0).title.startswith("US cent")
    for shape in SHAPES:
        assert "us_quarter" in shown(drawn(4.0, shape))


def test_the_customs_standing_is_said():
    euro = drawn(4.0, region="de", units="metric")
    assert euro.named("euro_1/standing").text == "common practice"  # type: ignore[union-attr]
    assert euro.named("euro_2/standing").text == "from memory"  # type: ignore[union-attr]
    assert any("trade practice, no source" in text.text for text in drawn(4.0).texts if text.name.startswith("source"))


def test_the_doubt_is_as_wide_as_the_gauge_is_unsure():
    # half a step of 1/32 in and 0.2 mm by hand (common practice, no source)
    scene = drawn(4.0)
    times = int(scene.named("scale/enlarged").text.split()[0])  # type: ignore[union-attr]
    _, top, _, bottom = box(scene, "doubt/mark")
    assert (bottom - top) / 2 == pytest.approx((0.5 * MM + 0.2) * scale_of(scene, "us_quarter") * times, abs=0.5)


def test_without_a_reading_or_a_coin_it_says_what_is_missing():
    empty = episode()
    with pytest.raises(CannotShow, match="no tire has a depth reading yet"):
        Coins().data(empty, decide(empty, load_tables()), Request())
    japan = episode(*four((4, 4, 4, 4)), region="jp")
    with pytest.raises(CannotShow, match="no coin"):
        Coins().data(japan, decide(japan, load_tables()), Request())


def test_the_deciding_number_comes_last():
    scene = drawn(4.0)
    assert scene.steps == ("coins in a groove", "US cent", "US quarter", "Old US cent", "the reading")
    assert scene.named("reading/line0a").step == len(scene.steps) - 1
