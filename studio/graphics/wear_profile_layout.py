"""Where the parts of a wear profile stand: the axis, the tread as wide as there is room, numbers above, names below.

Depths are enlarged by a round number of times the tread's width, where the tire's size is known; that is stated.
"""

from collections.abc import Sequence
from typing import Literal

import msgspec

from studio.graphics.frame import Box, Frame
from studio.graphics.layout.notes import LINE_STEP
from studio.graphics.layout.text import font_size, width
from studio.graphics.parts.depth_axis import axis_width, last_tick
from studio.graphics.parts.tire_section import SectionView
from studio.graphics.parts.tread_across import TreadAcross
from studio.graphics.scene import Point
from studio.model.quantity import System

_BASE = 2.0  # the rubber under the grooves, in grid units
_LOW = 34.0  # in grid units: a drawing no higher than this has one row of words below it
_MOST_TIMES = 14  # enlarged more than this, ribs look like pillars
_LEAST_MM = 4.0  # where the depth when new is not known the scale reaches at least so far
_WIDTH_MM, _OUTER_MM, _RIM_MM = 205.0, 640.0, 406.0  # a neutral tire where the size is not known; nothing is said of it


class Groove(msgspec.Struct, frozen=True, kw_only=True):
    """A groove that was read: its number from the outer side, its name, its depth as text, as bare number, in mm."""

    number: int
    name: str
    value: str
    count: str
    unit: str
    mm: float


class Section(msgspec.Struct, frozen=True, kw_only=True):
    """What is cut: mm throughout, None where it is not known."""

    grooves: tuple[Groove, ...]
    units: System
    new_mm: float | None
    bar_mm: float | None
    doubt_mm: float
    outer_mm: float | None
    rim_mm: float | None
    width_mm: float | None

    @property
    def sized(self) -> bool:
        """Whether the tire's dimensions are known."""
        return None not in (self.outer_mm, self.rim_mm, self.width_mm)

    def view(self) -> SectionView:
        """The tire's section, for where its grooves lie."""
        count = self.grooves[-1].number
        return SectionView(
            outer_mm=self.outer_mm or _OUTER_MM, rim_mm=self.rim_mm or _RIM_MM, width_mm=self.width_mm or _WIDTH_MM,
            scale=1.0, center=(0.0, 0.0), depths_mm=(1.0,) * count,
        )  # fmt: skip


class Arranged(msgspec.Struct, frozen=True, kw_only=True):
    """The drawing laid out; ``names`` are those that find room, ``said`` is how depths are enlarged."""

    across: TreadAcross
    axis_x: float
    highest_mm: float
    value_cap: float
    values: dict[int, str]
    values_base: float
    names: dict[int, str]
    names_base: float
    said: str
    said_at: Point
    said_anchor: Literal["start", "middle"]


def arrange(section: Section, body: Box, frame: Frame) -> Arranged:
    """Lay the tread out in ``body``."""
    grid, small, cap = frame.grid, frame.cap_height("small"), frame.cap_height("callout")
    line = LINE_STEP * font_size(small)
    highest = max(section.new_mm or _LEAST_MM, *(groove.mm + section.doubt_mm for groove in section.grooves))
    axis_x = body.left + axis_width(highest, section.units, frame)
    left, right = axis_x + 1.2 * grid, body.right
    view = section.view()
    px = (right - left) / view.tread_mm
    low = body.height < _LOW * grid
    floor = body.bottom - (1 if low else 2) * line - (0.8 + _BASE) * grid
    values_base = body.top + 1.1 * cap
    scale = (floor - values_base - (1.0 if low else 2.0) * grid - (0.0 if low else small)) / highest
    said, times = "depths enlarged", int(2 * scale / px) / 2
    if section.sized and times >= 1:
        room, times = scale * highest, min(times, _MOST_TIMES)
        scale, said = times * px, f"depths {times:g} × the scale of the width"
        floor -= (room - scale * highest) / 2
    if low or width(said, small) > right - left:
        said = said.replace(" the scale of the width", "")
    places = [(left + (view.grooves_mm[groove.number - 1] + view.tread_mm / 2) * px, groove.mm)
              for groove in section.grooves]  # fmt: skip
    across = TreadAcross(left=left, right=right, floor=floor, scale=scale, grooves=tuple(places),
                         groove=view.groove_mm * px, base=_BASE * grid, new_mm=section.new_mm,
                         bar_mm=section.bar_mm)  # fmt: skip
    names_base = floor + _BASE * grid + 0.8 * grid + small
    names = _names(section.grooves, [x for x, _ in places], frame, width(said, small) if low else 0.0)
    if low:
        said = _between(said, section.grooves, [x for x, _ in places], frame)
    return Arranged(
        across=across, axis_x=axis_x, highest_mm=last_tick(highest, section.units), value_cap=cap,
        values=_values(section.grooves, [x for x, _ in places], frame),
        values_base=across.height(highest) - (0.6 if low else 1.6) * grid, names=names, names_base=names_base,
        said=said,
        said_at=((left + right) / 2, names_base) if low else (left, names_base + line),
        said_anchor="middle" if low else "start",
    )  # fmt: skip


def _names(grooves: Sequence[Groove], places: Sequence[float], frame: Frame, said: float) -> dict[int, str]:
    """The grooves' names; only the outermost two where the others, or words ``said`` px long among them, lack room."""
    cap, gap = frame.cap_height("small"), 1.2 * frame.grid
    wide = [width(groove.name, cap, "semibold") for groove in grooves]
    fits = all(
        places[i + 1] - places[i] >= (wide[i] + wide[i + 1]) / 2 + gap for i in range(len(grooves) - 1)
    )
    kept = grooves if fits and not said else (grooves[0], grooves[-1])
    return {groove.number: groove.name for groove in kept}


def _between(said: str, grooves: Sequence[Groove], places: Sequence[float], frame: Frame) -> str:
    """``said``, or less of it, as it finds room between the outermost two names."""
    cap = frame.cap_height("small")
    ends = (width(grooves[0].name, cap, "semibold") + width(grooves[-1].name, cap, "semibold")) / 2
    room = places[-1] - places[0] - ends - 2 * frame.grid
    return said if width(said, cap) <= room else said.removeprefix("depths ")


def _values(grooves: Sequence[Groove], places: Sequence[float], frame: Frame) -> dict[int, str]:
    """What is written above each groove: its depth, as bare number where room is scarce; the lowest and the outermost
    ones before the others.
    """
    cap, gap = frame.cap_height("callout"), frame.grid
    for texts in ([groove.value for groove in grooves], [groove.count for groove in grooves]):
        wide = [width(text, cap, "bold") for text in texts]
        if all(places[i + 1] - places[i] >= (wide[i] + wide[i + 1]) / 2 + gap for i in range(len(texts) - 1)):
            return {groove.number: text for groove, text in zip(grooves, texts, strict=True)}
    last = len(grooves) - 1
    kept: list[int] = []
    for i in sorted(range(len(grooves)), key=lambda i: (grooves[i].mm, i not in (0, last))):
        if all(abs(places[i] - places[j]) >= (wide[i] + wide[j]) / 2 + gap for j in kept):
            kept.append(i)
    return {grooves[i].number: texts[i] for i in kept}
