"""Keep or buy as rows: bars to one scale, what is out visibly out with its reason, the least marked by the numbers.

The outlays and distances are worked by hand in tests/decide/test_choices.py; here 20.00 for mounting and 100.00 for a
tire make 120.00, 240.00 and 480.00.
"""

import pytest
from msgspec.structs import replace

from studio.decide import decide
from studio.graphics.catalogue import CannotShow, Request
from studio.graphics.choices import Choices
from studio.graphics.draw import bounds
from studio.graphics.frame import FRAMES, Frame
from studio.graphics.look import shipped_looks
from studio.graphics.scene import Scene
from studio.model.car import Tolerance
from studio.model.circumstances import Prices
from studio.model.quantity import depth, length
from tests.decide.build import TABLES, damage, episode, flat, tire
from tests.decide.test_choices import car
from tests.graphics.lint import complaints, unbacked_numbers

LOOKS = shipped_looks()
TRIED = {**FRAMES, "small": Frame(1280, 720), "slim": Frame(640, 1100), "captions": Frame(1080, 1920, True),
         "square captions": Frame(1080, 1080, True)}  # fmt: skip
KINDS = ("keep", "one", "pair", "four", "shaved", "used_pair")
QUARTER_INCH = Tolerance(form="circumference", limit=length(0.25, "in"))
EVEN = (0.1,) * 4


def bulged(its):
    """The same car with a bulge on its first tire."""
    first = its.specimens[0]
    hurt = replace(first.readings[-1], damage=(damage("bulge"),))
    return replace(its, specimens=(replace(first, readings=(*first.readings[:-1], hurt)), *its.specimens[1:]))


CASES = {
    "two worn": car((2.6, 2.6, 5.6, 5.6)), "not legal": car((1.0, 5, 5, 5)), "one worn": car((2.6, 5, 5, 5)),
    "bound by the manual": car((5, 5, 5, 5), EVEN, drive="all", tolerance=QUARTER_INCH),
    "without prices": car((2.6, 5, 5, 5), prices=Prices()),
    "dear": car((2.6, 2.6, 5, 5), prices=Prices(currency="HUF", new_tire=48_900.0, used_tire=21_500.0, shaving=9_900.0,
                                                used_tire_depth=depth(5.6, "mm"), mounting=6_750.0)),
    "nothing to do": car((7.5, 7.5, 7.5, 7.5)), "in inches": car((2.6, 4.9, 5, 5), region="us", units="us"),
    "damaged": bulged(car((5, 5, 5, 5))),
}  # fmt: skip


def drawn(its, frame=FRAMES["wide"], look="chalk", title="") -> Scene:
    picture = Choices()
    data = picture.data(its, decide(its, TABLES), Request(units=its.units, title=title))
    return picture.compose(data, frame, LOOKS[look])


def found(its):
    return {finding.subject: finding for finding in decide(its, TABLES).of("choices")}


def long_of(scene: Scene, kind: str) -> float:
    left, _, right, _ = bounds(scene.named(f"{kind}/bar").outline)
    return right - left


def words(scene: Scene, kind: str) -> str:
    return " ".join(mark.text for mark in scene.texts if mark.name.startswith(f"{kind}/words"))


def barred(scene: Scene) -> set[str]:
    return {kind for kind in KINDS if any(mark.name == f"{kind}/bar" for mark in scene.marks)}


@pytest.mark.parametrize(("shape", "look"), [*((shape, "chalk") for shape in TRIED), ("wide", "night_bay")])
@pytest.mark.parametrize("case", CASES)
def test_nothing_is_wrong_with_any_car(case, shape, look):
    assert complaints(drawn(CASES[case], TRIED[shape], look)) == []


def test_every_number_comes_from_the_findings():
    for its in CASES.values():
        assert unbacked_numbers(drawn(its), list(found(its).values()), []) == []


@pytest.mark.parametrize("shape", FRAMES)
def test_bars_are_to_one_scale(shape):
    its = CASES["two worn"]
    scene, costs = drawn(its, FRAMES[shape]), {kind: f.figure("cost_until_next") for kind, f in found(its).items()}
    shown = barred(scene)
    assert shown == {kind for kind, cost in costs.items() if cost} and len(shown) >= 4
    scales = [long_of(scene, kind) / costs[kind].value for kind in shown]
    assert scales == pytest.approx([scales[0]] * len(scales), rel=1e-6)


def test_outlays_are_the_presenters_own_prices():
    scene = drawn(CASES["two worn"])
    said = {kind: scene.named(f"{kind}/outlay").text for kind in KINDS}
    assert said == {"keep": "nothing", "one": "120.00", "pair": "240.00", "four": "480.00", "shaved": "145.00",
                    "used_pair": "120.00"}  # fmt: skip
    assert "EUR" in scene.named("axis/head0").text


def test_what_is_out_is_quiet_and_hollow_and_says_why():
    """The manual's 1/4 in of circumference is 1.01 mm of tread (row E128); one new tire would be 3.0 mm deeper."""
    scene, quiet = drawn(CASES["bound by the manual"]), LOOKS["chalk"].quiet
    assert {kind for kind in KINDS if scene.named(f"{kind}/name").fill == quiet} == {"one", "pair"}
    for kind, group in (("one", "rear pair"), ("pair", "set")):
        assert words(scene, kind) == f"Out: {group} 18.8 mm apart, manual's 6.4 mm"
        bar = scene.named(f"{kind}/bar")
        assert bar.fill is None and bar.stroke.dash
    assert all(scene.named(f"{kind}/bar").fill for kind in barred(scene) - {"one", "pair"})


def test_the_law_that_rules_out_is_named_with_its_number():
    """StVZO section 36(3): 1.6 mm."""
    assert words(drawn(CASES["not legal"]), "keep") == "Out: front left 1.0 mm, legal minimum 1.6 mm"


def test_in_square_frames_reasons_are_the_last_to_go():
    scene = drawn(CASES["bound by the manual"], FRAMES["square"])
    assert words(scene, "one").endswith("rear pair 18.8 mm apart, manual's 6.4 mm")
    assert words(scene, "pair").endswith("set 18.8 mm apart, manual's 6.4 mm")


@pytest.mark.parametrize("case", ["two worn", "not legal", "bound by the manual", "in inches"])
def test_the_least_is_the_least_of_what_is_not_ruled_out(case):
    its = CASES[case]
    scene = drawn(its)
    marked = [mark.name.partition("/")[0] for mark in scene.texts if mark.name.endswith("/best")]
    costs = {kind: finding.figure("cost_until_next").value for kind, finding in found(its).items()
             if finding.figure("cost_until_next") and finding.word("ruled_out") != "yes"}  # fmt: skip
    assert marked == [min(costs, key=costs.get)] and len(costs) > 1
    assert scene.named(f"plate/{marked[0]}").outline
    number = scene.named(f"{marked[0]}/cost")
    assert number.role == "deciding" and number.step == len(scene.steps) - 1


def test_a_price_that_is_not_entered_is_asked_for_and_nothing_is_marked():
    scene = drawn(CASES["without prices"])
    assert words(scene, "four").startswith("Not entered: the price of a new tire")
    assert scene.named("four/outlay").text == "?" and barred(scene) == set()
    assert not [mark for mark in scene.marks if mark.name.endswith("/best")]


def test_keeping_is_the_headline_where_nothing_speaks_against_it():
    scene = drawn(CASES["nothing to do"])
    assert scene.title == found(CASES["nothing to do"])["keep"].sentence


def test_the_caution_is_the_gravest_that_matters():
    def said(its) -> str:
        return " ".join(mark.text for mark in drawn(its).texts if mark.name.startswith("caution"))

    assert said(CASES["damaged"]) == TABLES.cautions["damage"].text
    assert said(CASES["bound by the manual"]) == TABLES.cautions["mixing"].text
    used = car((2.6, 2.6, 5.6, 5.6), prices=replace(CASES["dear"].prices, used_tire=1.0, shaving=None))
    scene = drawn(used)
    assert scene.named("used_pair/best") and said(used) == TABLES.cautions["over_age"].text


def test_without_four_tires_or_readings_it_says_what_is_missing():
    with pytest.raises(CannotShow, match="a tire at each corner"):
        drawn(episode(tire("front_left", flat(6))))
    bare = episode(*(tire(place) for place in ("front_left", "front_right", "rear_left", "rear_right")))
    with pytest.raises(CannotShow, match="a depth reading"):
        drawn(bare)
