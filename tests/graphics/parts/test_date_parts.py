"""The parts of a date code: digits in two groups on a plate, a week on the year's ring, years along a line."""

import math

import pytest

from studio.graphics.draw import bounds
from studio.graphics.frame import FRAMES, Box
from studio.graphics.look import shipped_looks
from studio.graphics.parts.age_line import AgeLine, advice_mark, age_line
from studio.graphics.parts.date_plate import DatePlate, date_plate, group_bracket
from studio.graphics.parts.year_ring import YearRing, year_ring
from studio.graphics.scene import ArcText, Shape, Text

LOOK = shipped_looks()["chalk"]
BOX = Box(100.0, 100.0, 640.0, 380.0)


def named(marks, name):
    return next(mark for mark in marks if mark.name == name)


@pytest.mark.parametrize("digits", ["3618", "0109", "317"])
@pytest.mark.parametrize("box", [BOX, Box(0, 0, 500, 120), Box(0, 0, 300, 700)])
def test_the_digits_stand_on_their_plate_inside_the_piece(digits, box):
    marks = date_plate(DatePlate(box=box, digits=digits), LOOK, "p", 4)
    letters = named(marks, "p/digits")
    assert isinstance(letters, ArcText) and letters.text == digits
    left, top, right, bottom = bounds(named(marks, "p/plate").outline)
    assert box.left < left and right < box.right and box.top < top and bottom < box.bottom


@pytest.mark.parametrize("digits", ["3618", "317"])
def test_the_week_is_the_first_two_digits_and_the_year_the_rest(digits):
    plate = DatePlate(box=BOX, digits=digits)
    (start, end), (next_, last) = plate.groups()
    assert start < end < next_ < last
    share = (end - start) / (last - start)
    assert share == pytest.approx(2 / len(digits), abs=0.15)
    for group in (0, 1):
        _, _, _, low = bounds(named(group_bracket(plate, group, LOOK, "g", 4), "g/pointer").outline)
        assert low == BOX.bottom


@pytest.mark.parametrize(("day", "angle"), [(0.0, 0.0), (90.0, 360 * 90 / 365), (357.0, 360 * 357 / 365)])
def test_the_weeks_mark_lies_at_its_day_clockwise_from_the_top(day, angle):
    ring = YearRing(center=(500.0, 500.0), radius=200.0, day=day)
    week = named(year_ring(ring, LOOK, "y", 4, 30), "y/week")
    _, x, y = week.outline[0]
    assert math.degrees(math.atan2(x - 500, 500 - y)) % 360 == pytest.approx(angle, abs=0.01)
    assert ring.week[1] - ring.week[0] == pytest.approx(7 / 365 * 360)


def test_months_are_named_only_where_their_initials_find_room():
    large = year_ring(YearRing(center=(500.0, 500.0), radius=200.0, day=0), LOOK, "y", 4, 30)
    small = year_ring(YearRing(center=(500.0, 500.0), radius=100.0, day=0), LOOK, "y", 4, 30)
    assert "".join(mark.text for mark in large if isinstance(mark, Text)) == "JFMAMJJASOND"
    assert not any(isinstance(mark, Text) for mark in small)


@pytest.mark.parametrize("years", [0.0, 0.4, 8.4, 29.3])
def test_the_bar_ends_at_the_age_and_advice_stands_at_its_own(years):
    line = AgeLine(left=100.0, right=1100.0, base=600.0, years=years, last=40.0)
    bar = named(age_line(line, LOOK.steel, FRAMES["wide"], LOOK, "a"), "a/age")
    assert bounds(bar.outline)[2] == pytest.approx(100 + 1000 * years / 40)
    mark = advice_mark(line, 10.0, 60.0, FRAMES["wide"], LOOK, "ten")[-1]
    left, top, right, bottom = bounds(mark.outline)
    assert left == right == pytest.approx(350.0) and bottom == 600.0 and top < 540.0


def test_an_open_decade_is_drawn_dashed_beyond_the_least_age():
    line = AgeLine(left=100.0, right=1100.0, base=600.0, years=29.3, last=39.3, open=True)
    beyond = named(age_line(line, LOOK.steel, FRAMES["wide"], LOOK, "a"), "a/or older")
    assert isinstance(beyond, Shape) and beyond.stroke and beyond.stroke.dash
    assert bounds(beyond.outline)[0] == pytest.approx(line.x(29.3))
