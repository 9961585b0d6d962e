"""The date code read out: week and year under their digits, the week's place in the year, the age among advice."""

import datetime as dt
import math

import pytest

from studio.decide import decide
from studio.graphics.catalogue import CannotShow, Request
from studio.graphics.date_code import DateCode
from studio.graphics.draw import bounds
from studio.graphics.frame import FRAMES, Frame
from studio.graphics.look import shipped_looks
from studio.graphics.scene import ArcText, Scene, Shape
from studio.reference.tables import load_tables
from tests.decide.build import episode, flat, tire
from tests.graphics.lint import complaints

LOOKS = shipped_looks()
SHAPES = {**FRAMES, "small": Frame(1280, 720), "slim": Frame(640, 1100), "captions": Frame(1920, 1080, captions=True)}
ON = dt.date(2026, 3, 1)
CODES = ("3618", "0126", "0109", "5323", "5320", "317", "010")


def drawn(code="3618", shape="wide", look="chalk", *, on=ON, request: Request | None = None) -> Scene:
    its = episode(tire("front_left", flat(6), date_code=code), on=on)
    data = DateCode().data(its, decide(its, load_tables()), request or Request())
    return DateCode().compose(data, SHAPES[shape], LOOKS[look])


def box(scene: Scene, name: str) -> tuple[float, float, float, float]:
    mark = scene.named(name)
    assert isinstance(mark, Shape)
    return bounds(mark.outline)


def text(scene: Scene, name: str) -> str:
    return " ".join(mark.text for mark in scene.texts if mark.name.startswith(name))


@pytest.mark.parametrize("code", ["3618", "0126", "5220", "317"])
@pytest.mark.parametrize("shape", SHAPES)
@pytest.mark.parametrize("look", LOOKS)
def test_nothing_overlaps_or_is_cut(code, shape, look):
    scene = drawn(code, shape, look)
    assert complaints(scene) == []
    assert [mark.text for mark in scene.texts if "…" in mark.text] == []


@pytest.mark.parametrize(
    ("code", "week", "year", "first"),
    # 49 CFR 574.5(b)(3) gives 0109 as Sunday 4 January 2009; the others are the handbook's, computed from that rule
    [("0109", "week 1", "2009", dt.date(2009, 1, 4)), ("3618", "week 36", "2018", dt.date(2018, 9, 9)),
     ("2324", "week 23", "2024", dt.date(2024, 6, 9)), ("5220", "week 52", "2020", dt.date(2020, 12, 27))],
)  # fmt: skip
def test_digits_week_year_and_the_weeks_place_in_the_year(code, week, year, first):
    scene = drawn(code)
    digits = scene.named("code/digits")
    assert isinstance(digits, ArcText) and digits.text == code
    assert (text(scene, "week/words"), text(scene, "made/words")) == (week, year)
    left, top, right, bottom = box(scene, "year/outer")
    mark = scene.named("year/week")
    assert isinstance(mark, Shape)
    _, x, y = mark.outline[0]
    angle = math.degrees(math.atan2(x - (left + right) / 2, (top + bottom) / 2 - y)) % 360
    assert angle == pytest.approx(360 * (first.timetuple().tm_yday - 1) / 365, abs=1.0)  # a leap day is one degree


@pytest.mark.parametrize(("code", "years"), [("3618", 7.474), ("0126", 0.15)])
def test_the_bar_ends_at_the_age_on_the_episodes_day(code, years):
    scene = drawn(code)
    left, _, right, _ = box(scene, "age/age")
    ten, five = box(scene, "advice_replace/line")[0], box(scene, "advice_inspect/line")[0]
    per_year = (ten - five) / 5
    assert ten - left == pytest.approx(10 * per_year, abs=0.5)
    assert right - left == pytest.approx(years * per_year, abs=0.01 * per_year + 0.5)


def test_advice_is_called_advice_with_its_standing():
    scene = drawn("3618")
    # British rubber makers' practice of June 2001; vehicle makers' handbooks (both published, restated)
    assert "10.0 years" in text(scene, "advice_replace/") and "advice: replace" in text(scene, "advice_replace/")
    assert "published, restated" in text(scene, "advice_replace/")
    assert "advice: plan a new one" in text(scene, "advice_plan/")


def test_three_digits_say_the_week_and_not_the_decade():
    # 64 FR 36807: three digits before July 2000; NHTSA letter 12375wkm reads 317 as week 31 of a year ending in 7
    scene = drawn("317")
    assert (text(scene, "week/words"), text(scene, "made/words")) == ("week 31", "decade unknown")
    assert "1997" in text(scene, "years/") and "ten or more years earlier" in text(scene, "years/")
    assert "at least" in text(scene, "age_now/") and scene.named("age/or older")
    assert not any("from" in mark.text for mark in scene.texts if mark.name.startswith("year/words"))


@pytest.mark.parametrize("code", CODES)
def test_every_kind_of_code_is_drawn(code):
    assert drawn(code, on=dt.date(2026, 6, 1)).title


def test_the_age_comes_last_and_the_gravest_tire_is_chosen():
    tires = (tire("front_left", date_code="2324"), tire("spare", date_code="0814"), tire("rear_left", date_code=""))
    its = episode(*tires, on=ON)
    findings = decide(its, load_tables())
    data = DateCode().data(its, findings, Request())
    assert data.findings == ("age.spare",)
    scene = DateCode().compose(data, FRAMES["wide"], LOOKS["chalk"])
    deciding = next(mark for mark in scene.texts if mark.role == "deciding")
    assert deciding.text == "12.0" and deciding.step == len(scene.steps) - 1
    with pytest.raises(CannotShow, match="date code is missing"):
        DateCode().data(its, findings, Request(specimens=("rear_left",)))


def test_without_a_code_it_says_what_is_missing():
    bare = episode(tire("front_left", flat(6), date_code=""))
    with pytest.raises(CannotShow, match="no tire has a date code that can be read"):
        DateCode().data(bare, decide(bare, load_tables()), Request())
