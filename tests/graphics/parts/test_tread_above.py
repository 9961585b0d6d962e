"""A tire from above: its true width and diameter, a pattern that wears, mirrors and points the right way."""

import pytest

from studio.graphics.color import luminance
from studio.graphics.draw import bounds
from studio.graphics.look import shipped_looks
from studio.graphics.parts.tread_above import TreadView, box_of, tire_above
from studio.graphics.scene import Linear, Shape

CHALK = shipped_looks()["chalk"]
CENTER, WIDE, LONG = (400.0, 300.0), 90.0, 280.0


def drawn(look=CHALK, turn="up", **view):
    return tire_above(TreadView(**view), CENTER, WIDE, LONG, look, "t", turn=turn)


def part(marks: tuple[Shape, ...], name: str) -> Shape:
    return next(mark for mark in marks if mark.name == f"t/{name}")


def polygons(mark: Shape) -> list[list[tuple[float, float]]]:
    pieces: list[list[tuple[float, float]]] = []
    for command in mark.outline:
        if command[0] == "M":
            pieces.append([])
        if len(command) > 1:
            pieces[-1].append((command[-2], command[-1]))
    return pieces


@pytest.mark.parametrize("turn", ["up", "across"])
@pytest.mark.parametrize("look", shipped_looks().values(), ids=lambda look: look.id)
def test_it_is_as_wide_as_its_section_and_as_long_as_its_diameter(look, turn):
    left, top, right, bottom = bounds(part(drawn(look, turn), "tire").outline)
    wide, high = (WIDE, LONG) if turn == "up" else (LONG, WIDE)
    assert (right - left, bottom - top) == pytest.approx((wide, high), abs=0.5)
    assert ((left + right) / 2, (top + bottom) / 2) == pytest.approx(CENTER)
    box = box_of(CENTER, WIDE, LONG, turn)
    assert (box.left, box.top, box.right, box.bottom) == pytest.approx((left, top, right, bottom))


@pytest.mark.parametrize("family", ["all_season", "winter", "directional", "asymmetric", "all_terrain", "temporary"])
def test_blocks_stay_on_the_tread(family):
    for worn in (0.0, 0.5, 1.0):
        marks = drawn(family=family, worn=worn)
        left, top, right, bottom = bounds(part(marks, "blocks").outline)
        outer = bounds(part(marks, "tire").outline)
        assert outer[0] < left and outer[1] < top and right < outer[2] and bottom < outer[3]


def test_blocks_get_shorter_towards_the_ends_as_a_cylinder_turns_away():
    pieces = polygons(part(drawn(family="temporary", worn=0.2), "blocks"))
    column = sorted((piece for piece in pieces if min(x for x, _ in piece) < 370), key=lambda p: min(y for _, y in p))
    heights = [max(y for _, y in piece) - min(y for _, y in piece) for piece in column]
    middle = len(heights) // 2
    assert heights[1] < heights[middle] and heights[-2] < heights[middle]


def test_grooves_grow_pale_and_slots_close_with_wear():
    def groove(worn: float) -> float:
        fill = part(drawn(worn=worn), "grooves").fill
        assert isinstance(fill, Linear)
        return luminance(fill.stops[3][1])

    assert groove(0.0) < groove(0.5) < groove(1.0)
    new, done = (polygons(part(drawn(worn=worn), "blocks")) for worn in (0.0, 1.0))
    assert len(done) < len(new), "the slots of the inner ribs have worn away"


def test_sipes_are_gone_when_the_tread_is_done_and_studs_only_where_there_are_any():
    names = {mark.name for mark in drawn(family="winter", siped=True, studded=True)}
    assert {"t/sipes", "t/studs"} <= names
    assert "t/sipes" not in {mark.name for mark in drawn(family="winter", siped=True, worn=1.0)}
    assert "t/studs" not in {mark.name for mark in drawn(family="winter", siped=True)}


def test_an_asymmetric_tread_is_mirrored_on_the_other_side_of_the_car():
    left, right = (polygons(part(drawn(family="asymmetric", outer_left=side), "blocks")) for side in (True, False))
    mirrored = [[(2 * CENTER[0] - x, y) for x, y in piece] for piece in right]
    for piece, other in zip(left, mirrored, strict=True):
        assert [c for point in piece for c in point] == pytest.approx([c for point in other for c in point])


def test_a_directional_tread_points_forward_seen_from_above():
    """The middle of a V meets the road first, so on the crest it lies ahead: common practice, no source."""

    def lead(arrow_up: bool) -> float:
        piece = max(polygons(part(drawn(family="directional", arrow_up=arrow_up), "blocks")), key=len)
        inner = min(piece, key=lambda point: abs(point[0] - CENTER[0]))
        outer = max(piece, key=lambda point: abs(point[0] - CENTER[0]))
        return outer[1] - inner[1]

    assert lead(arrow_up=True) > 0 > lead(arrow_up=False)


def test_parts_carry_the_step():
    assert {mark.step for mark in tire_above(TreadView(), CENTER, WIDE, LONG, CHALK, "t", step=4)} == {4}
