"""A picture over something else keeps its legibility to itself."""

import pytest
from msgspec.structs import replace

from studio.graphics.backdrop import on_background
from studio.graphics.color import contrast
from studio.graphics.draw import circle, polyline, rectangle
from studio.graphics.frame import FRAMES
from studio.graphics.look import Look, shipped_looks
from studio.graphics.paint.raster import png
from studio.graphics.scene import ArcText, Scene, Shape, Stroke, Text
from tests.graphics.paint.samples import along, decoded, line, scene

LOOKS = pytest.mark.parametrize("look", shipped_looks().values(), ids=lambda look: look.id)
OVER = pytest.mark.parametrize("background", [None, "#00B140"])


def leader(look: Look, name: str = "a/leader", y: float = 200.0) -> Shape:
    return Shape(name=name, outline=polyline(((20, y), (460, y))), stroke=Stroke(look.measure, 3), step=1)


def over(look: Look, *marks: Shape | Text | ArcText, background: str | None = None) -> Scene:
    return on_background(scene(*marks, background=look.ground), look, background)


@LOOKS
def test_on_its_own_ground_a_picture_stays_as_it_is(look: Look) -> None:
    made = scene(line("x", ground=look.ground), leader(look), background=look.ground)
    assert on_background(made, look, look.ground.lower()) == made


@LOOKS
@OVER
def test_text_on_the_ground_gets_a_halo_and_text_on_a_plate_does_not(look: Look, background: str | None) -> None:
    ground, plate, own = (
        line("a", name="ground", ground=look.ground), line("b", name="plate", ground=look.plate),
        line("c", name="own", ground=look.ground, halo=look.plate),
    )  # fmt: skip
    made = over(look, ground, plate, own, background=background)
    assert made.background == background
    assert {mark.name: mark.halo for mark in made.texts} == {"ground": look.ground, "plate": None, "own": look.plate}


@LOOKS
def test_each_text_keeps_its_contrast_against_its_halo(look: Look) -> None:
    for fill in (look.ink, look.quiet, look.measure):
        (mark,) = over(look, line("a", fill=fill, ground=look.ground)).texts
        assert mark.halo is not None and contrast(mark.fill, mark.halo) >= 4.5


@LOOKS
def test_lines_get_a_casing_below_all_of_their_neighbours(look: Look) -> None:
    made = over(look, leader(look), leader(look, "b/leader", 220.0))
    assert [mark.name for mark in made.marks] == ["a/leader/casing", "b/leader/casing", "a/leader", "b/leader"]
    casing, drawn = made.named("a/leader/casing"), made.named("a/leader")
    assert isinstance(casing, Shape) and isinstance(drawn, Shape) and casing.stroke and drawn.stroke
    assert casing.stroke.color == look.ground and casing.stroke.width >= drawn.stroke.width + 2
    assert (casing.step, casing.outline) == (drawn.step, drawn.outline)


@LOOKS
def test_a_line_on_an_opaque_body_needs_none_unless_the_body_comes_later(look: Look) -> None:
    plate = Shape(name="plate", outline=rectangle(10, 150, 460, 100), fill=look.plate, step=1)
    assert [mark.name for mark in over(look, plate, leader(look)).marks] == ["plate", "a/leader"]
    for other in (replace(plate, step=2), replace(plate, fill=look.plate + "80"), replace(plate, fill=None)):
        assert any("casing" in mark.name for mark in over(look, other, leader(look)).marks)
    assert any("casing" in mark.name for mark in over(look, leader(look), plate).marks)
    hidden = replace(leader(look), outline=polyline(((20, 50), (20, 200), (460, 200))), clip=plate.outline)
    assert not any("casing" in mark.name for mark in over(look, plate, hidden).marks)


@LOOKS
def test_other_colours_and_marks_with_an_edge_or_casing_of_their_own_need_none(look: Look) -> None:
    edge = Shape(name="edge", outline=circle((200, 60), 50), stroke=Stroke(look.steel, 3))
    dot = Shape(name="dot", outline=circle((200, 60), 5), fill=look.measure, stroke=Stroke(look.ground, 2))
    own = Shape(name="a/leader/casing", outline=leader(look).outline, stroke=Stroke(look.ground, 9))
    assert [mark.name for mark in over(look, edge, dot, own, leader(look)).marks] == [
        "edge", "dot", "a/leader/casing", "a/leader",
    ]  # fmt: skip


@LOOKS
def test_texts_with_halos_come_last(look: Look) -> None:
    text, on_plate = line("a", name="text", ground=look.ground), line("b", name="on plate", ground=look.plate)
    made = over(look, text, on_plate, leader(look))
    assert [mark.name for mark in made.marks] == ["on plate", "a/leader/casing", "a/leader", "text"]


@LOOKS
def test_a_small_sign_gets_one(look: Look) -> None:
    dot = Shape(name="dot", outline=circle((200, 60), 2), fill=look.measure)
    assert [mark.name for mark in over(look, dot).marks] == ["dot/casing", "dot"]


@LOOKS
def test_text_along_an_arc_on_the_ground_gets_its_halo_as_a_shape(look: Look) -> None:
    made = over(look, along("225", ground=look.ground), along("45", name="on rubber", ground=look.rubber))
    assert list(dict.fromkeys(mark.name for mark in made.marks)) == ["arc/halo", "arc", "on rubber"]


@LOOKS
@pytest.mark.parametrize("behind", ["#000000", "#FFFFFF", "#00B140", "#808080"])
def test_a_line_can_be_told_from_anything_behind(look: Look, behind: str) -> None:
    """WCAG 2.2, 1.4.11: across the line, either side of it has 3:1 to the line, whatever colour is behind."""
    cased = on_background(scene(leader(look), background=look.ground, frame=FRAMES["wide"]), look, None)
    made = decoded(png(replace(cased, background=behind))).convert("RGB")
    across = ["#{:02X}{:02X}{:02X}".format(*made.getpixel((240, y))) for y in range(190, 211)]  # type: ignore[misc]
    middle = across.index(next(color for color in across if color == look.measure))
    assert any(contrast(color, look.measure) >= 3 for color in across[:middle])
    assert any(contrast(color, look.measure) >= 3 for color in across[middle:])
