"""A year as a ring, January at the top, months as fields; one week marked at its edge."""

import calendar

import msgspec

from studio.graphics.color import mix
from studio.graphics.draw import circle, polar, sector
from studio.graphics.look import Look
from studio.graphics.scene import Point, Shape, Stroke, Text

_DAYS = (31, 28, 31, 30, 31, 30, 31, 31, 30, 31, 30, 31)
_YEAR = sum(_DAYS)
_BAND, _MARK = 0.25, 0.12  # shares of the radius
_WEEK = 7.0


class YearRing(msgspec.Struct, frozen=True, kw_only=True):
    """A ring about ``center`` with ``radius`` px, the mark included; ``day`` counts from 0 on 1 January."""

    center: Point
    radius: float
    day: float

    @property
    def outer(self) -> float:
        """The ring's own outer radius."""
        return self.radius * (1 - _MARK)

    @property
    def hole(self) -> float:
        """The radius of what is free inside."""
        return self.outer - _BAND * self.radius

    @property
    def week(self) -> tuple[float, float]:
        """The week's first and last angle, degrees clockwise from the top."""
        return (360 * self.day / _YEAR, 360 * (self.day + _WEEK) / _YEAR)


def year_ring(
    its: YearRing, look: Look, name: str, line: float, cap: float, step: int = 0, mark_step: int = 0
) -> tuple[Shape | Text, ...]:
    """The months, their initials where ``cap`` px fits, the week's mark."""
    marks: list[Shape | Text] = []
    fills = (look.plate, mix(look.plate, look.ink, 0.12))
    edge = Stroke(look.quiet, line / 3)
    day, named = 0, _BAND * its.radius >= 1.35 * cap
    for month, days in enumerate(_DAYS):
        start, end = 360 * day / _YEAR, 360 * (day + days) / _YEAR
        day += days
        field = sector(its.center, its.outer, its.hole, start, end)
        marks.append(Shape(name=f"{name}/month{month + 1}", step=step, outline=field, fill=fills[month % 2],
                           stroke=edge))  # fmt: skip
        if named:
            x, y = polar(its.center, (its.outer + its.hole) / 2, (start + end) / 2)
            marks.append(Text(name=f"{name}/initial{month + 1}", step=step, text=calendar.month_name[month + 1][0],
                              at=(x, y + cap / 2), anchor="middle", cap_height=cap, fill=look.ink,
                              ground=fills[month % 2], role="small"))  # fmt: skip
    rim = Stroke(look.ink, line / 2)
    for part, radius in (("outer", its.outer), ("inner", its.hole)):
        marks.append(Shape(name=f"{name}/{part}", step=step, outline=circle(its.center, radius), stroke=rim))
    week = sector(its.center, its.radius, its.outer + line / 2, *its.week)
    marks.append(Shape(name=f"{name}/week", step=mark_step, outline=week, fill=look.measure))
    return tuple(marks)
