"""The size code spelled out: each field's letters held together, its value the finding's, in the marking's order."""

import math

import pytest

from studio.decide import decide
from studio.graphics.catalogue import CannotShow, Request
from studio.graphics.draw import bounds
from studio.graphics.frame import FRAMES, Frame
from studio.graphics.layout.text import arc_glyphs
from studio.graphics.look import shipped_looks
from studio.graphics.scene import ArcText, Scene, Shape
from studio.graphics.size_code import SizeCode
from studio.reference.tables import load_tables
from tests.decide.build import episode, flat, tire
from tests.graphics.lint import complaints

LOOKS = shipped_looks()
SHORTEST, ORDINARY, LONGEST = "155R13", "225/60R17 99H", "LT315/75R16 127/124Q M+S"
MARKINGS = (SHORTEST, ORDINARY, LONGEST, "HL245/40R19 101Y XL", "31x10.50R15LT 109Q", "T145/80D17 107M",
            "275/35ZR20 (102Y)", "205/65R16C 107/105T")  # fmt: skip
SHAPES = {**FRAMES, "small": Frame(1280, 720), "slim": Frame(640, 1100),
          "captions": Frame(1920, 1080, captions=True), "low": Frame(1080, 1920, captions=True)}  # fmt: skip
MM_IN = 25.4


def drawn(marking: str, frame: Frame = FRAMES["wide"], look: str = "chalk", **request: object) -> Scene:
    its = episode(tire("front_left", flat(6), marking=marking))
    findings = decide(its, load_tables())
    return SizeCode().compose(SizeCode().data(its, findings, Request(**request)), frame, LOOKS[look])


def note(scene: Scene, field: str) -> str:
    """All that is said beside the drawing of a field."""
    return " ".join(mark.text for mark in scene.texts if mark.name.startswith(f"{field}/line"))


def letters(scene: Scene) -> ArcText:
    mark = scene.named("marking")
    assert isinstance(mark, ArcText)
    return mark


@pytest.mark.parametrize("marking", MARKINGS)
@pytest.mark.parametrize("shape", SHAPES)
@pytest.mark.parametrize("look", LOOKS)
def test_nothing_overlaps_or_leaves_the_safe_area(marking, shape, look):
    assert complaints(drawn(marking, SHAPES[shape], look)) == []


@pytest.mark.parametrize("marking", MARKINGS)
@pytest.mark.parametrize("shape", SHAPES)
@pytest.mark.parametrize("units", ["us", "metric"])
def test_no_number_and_no_label_is_cut(marking, shape, units):
    scene = drawn(marking, SHAPES[shape], units=units)
    assert [text.text for text in scene.texts if "…" in text.text] == []


@pytest.mark.parametrize("marking", MARKINGS)
@pytest.mark.parametrize("shape", SHAPES)
def test_the_lettering_is_large_and_inside_the_safe_area(marking, shape):
    frame = SHAPES[shape]
    mark = letters(drawn(marking, frame))
    assert mark.text == marking
    assert mark.cap_height >= frame.short / 24 - 0.01
    for _, _, x, _, _, _ in arc_glyphs(mark):
        assert frame.titles.left - 1 <= x <= frame.titles.right + 1


@pytest.mark.parametrize("marking", MARKINGS)
@pytest.mark.parametrize("shape", SHAPES)
def test_the_tire_is_to_scale_and_the_lettering_stands_on_its_sidewall(marking, shape):
    scene = drawn(marking, SHAPES[shape])
    mark, flange = letters(scene), scene.named("tire/wheel/flange")
    assert isinstance(flange, Shape)
    left, _, right, _ = bounds(flange.outline)
    flange_radius = (right - left) / 2
    sidewall = scene.named("tire/sidewall")
    assert isinstance(sidewall, Shape)
    left, _, right, _ = bounds(sidewall.outline)
    assert flange_radius < mark.radius and mark.radius + mark.cap_height < (right - left) / 2


def test_the_ratio_of_tire_and_rim_is_that_of_the_size():
    # UN R30 6.1: D = d + 2H. 225/60R17: 431.8 + 2 x 135 = 701.8 mm; the flange stands 17.3 mm above the rim's diameter.
    scene = drawn(ORDINARY)
    crown, flange = scene.named("tire/tread/crown"), scene.named("tire/wheel/flange")
    assert isinstance(crown, Shape) and isinstance(flange, Shape)
    center = letters(scene).center
    outer = max(math.dist((float(c[-2]), float(c[-1])), center) for c in crown.outline if len(c) > 1)
    left, _, right, _ = bounds(flange.outline)
    assert 2 * outer / (right - left) == pytest.approx(701.8 / (431.8 + 2 * 17.3), abs=0.001)


@pytest.mark.parametrize("shape", SHAPES)
def test_brackets_and_notes_come_in_the_markings_order(shape):
    scene = drawn(ORDINARY, SHAPES[shape])
    brackets = [mark for mark in scene.marks if mark.name.endswith("/bracket")]
    assert [mark.name.split("/")[0] for mark in brackets] == [
        "width_mm", "aspect_percent", "construction", "rim_diameter_in", "load_index", "speed_symbol",
    ]  # fmt: skip
    assert [mark.step for mark in brackets] == [1, 2, 3, 4, 5, 6]
    middles = [sum(bounds(mark.outline)[::2]) / 2 for mark in brackets]
    assert middles == sorted(middles), "from left to right along the arc"
    assert scene.steps[0] == "the sidewall" and len(scene.steps) == 7


def test_values_are_those_of_the_published_tables():
    # Load index 99: 775 kg, speed symbol H: 210 km/h (UN R30, annexes); 1708.6 lb and 130.5 mph by exact factors.
    scene = drawn(ORDINARY)
    assert note(scene, "width_mm").startswith("225 mm") and "section width" in note(scene, "width_mm")
    assert note(scene, "aspect_percent").startswith("60 %")
    assert note(scene, "construction").startswith("radial")
    assert note(scene, "rim_diameter_in").startswith("17 in")
    assert note(scene, "load_index").startswith("1709 lb")
    assert note(scene, "speed_symbol").startswith("130 mph")
    metric = drawn(ORDINARY, units="metric")
    assert note(metric, "load_index").startswith("775 kg") and note(metric, "speed_symbol").startswith("210 km/h")


def test_the_width_is_never_called_tread_and_the_aspect_ratio_is_no_length():
    for frame in SHAPES.values():
        scene = drawn(ORDINARY, frame)
        assert "tread" not in note(scene, "width_mm")
        assert "%" in note(scene, "aspect_percent")


def test_fields_of_other_markings_are_named_for_what_they_are():
    assert "temporary spare" in note(drawn("T145/80D17 107M"), "prefix")
    assert "diagonal" in note(drawn("T145/80D17 107M"), "construction")
    assert "light truck" in note(drawn(LONGEST), "prefix")
    assert note(drawn("275/35ZR20 (102Y)"), "speed_symbol").startswith("over 186 mph")  # above 300 km/h: bracketed Y
    flotation = drawn("31x10.50R15LT 109Q")
    assert note(flotation, "overall_diameter_in").startswith("31 in")
    assert note(flotation, "section_width_in").startswith("10.50 in")


def test_a_pointer_joins_each_bracket_to_its_note():
    scene = drawn(ORDINARY)
    for field in ("width_mm", "speed_symbol"):
        dot, outside = scene.named(f"{field}/dot"), scene.named(f"{field}/pointer outside")
        assert isinstance(dot, Shape) and isinstance(outside, Shape)
        left, top, right, bottom = bounds(dot.outline)
        end = outside.outline[-1]
        assert math.dist((float(end[-2]), float(end[-1])), ((left + right) / 2, (top + bottom) / 2)) < 0.5


def test_a_field_that_finds_no_room_has_neither_note_nor_bracket():
    scene = drawn(LONGEST, FRAMES["square"])
    noted = {mark.name.split("/")[0] for mark in scene.texts if "/line0" in mark.name}
    noted -= {"sentence", "caution", "sources"}
    assert noted == {mark.name.split("/")[0] for mark in scene.marks if mark.name.endswith("/bracket")}
    assert {"width_mm", "aspect_percent", "rim_diameter_in"} <= noted, "what matters most is kept"


def test_the_tire_asked_for_is_shown_and_a_title_replaces_the_sentence():
    its = episode(tire("front_left", flat(6)), tire("bench", id="old", marking="205/55R16 91V"))
    findings = decide(its, load_tables())
    data = SizeCode().data(its, findings, Request(specimens=("old",), title="What this means"))
    assert data.marking == "205/55R16 91V" and data.words.sentence == "What this means"
    assert data.findings == ("size.old",)


def test_without_a_marking_it_says_what_is_missing():
    its = episode(tire("front_left", marking=""))
    with pytest.raises(CannotShow, match="marking"):
        SizeCode().data(its, decide(its, load_tables()), Request())
    with pytest.raises(CannotShow, match="no tire"):
        SizeCode().data(episode(), decide(episode(), load_tables()), Request())
    with pytest.raises(CannotShow, match="gone"):
        SizeCode().data(its, decide(its, load_tables()), Request(specimens=("gone",)))


def test_someone_who_cannot_see_it_hears_every_field():
    said = drawn(ORDINARY).alternative
    for words in ("225/60R17 99H", "225 mm", "60 %", "radial", "17 in", "1709 lb", "130 mph"):
        assert words in said
