"""Floating speed along tread, pressure and water, side by side over one scale of speed.

Each relation is drawn only where it was tested; where none was, the panel is hatched. Below the curve the water's tint
fades over the speed in which control goes: there is no edge from which a speed would be safe.
"""

from collections.abc import Sequence

from studio.graphics.charts.dress import free_of, hatched, pixel, round_values
from studio.graphics.charts.marks import new_figure, to_marks
from studio.graphics.charts.plane import Plane
from studio.graphics.charts.water_values import Floating, Panel
from studio.graphics.charts.water_words import TINT, text, words
from studio.graphics.color import faded, mix
from studio.graphics.draw import polyline
from studio.graphics.frame import Box, Frame
from studio.graphics.layout.text import font_size, width
from studio.graphics.look import Look
from studio.graphics.scene import Point, Shape, Stroke, Text
from studio.model.quantity import format_number

_FADES = 8


def water_chart(its: Floating, box: Box, frame: Frame, look: Look) -> tuple[tuple[Shape | Text, ...], dict[str, Point]]:
    """The chart as marks in ``box``; where the tire's point and the speed driven lie, in the last panel."""
    limits = _limits(its, box, frame)
    areas = _areas(its, limits, box, frame)
    figure = new_figure(box)
    drawn: list[tuple[Panel, Plane, Box]] = []
    for panel, area in zip(its.panels, areas, strict=True):
        axes = Plane(figure, box, area, _span(panel), limits)
        _panel(axes, its, panel, frame, look)
        drawn.append((panel, axes, area))
    back = [mark for panel, axes, area in drawn
            for mark in (*_water(axes, its, panel, box, look),
                         *_untested(axes, its, panel, area, box, frame, look))]  # fmt: skip
    texts = _texts(its, drawn, limits, box, frame, look)
    last, axes, _ = drawn[-1]
    anchors = {"floats": pixel(axes, box, last.own, its.speed), "driven": pixel(axes, box, _span(last)[1], its.driven)}
    return (*back, *to_marks(figure, box, its.steps), *texts), anchors


def _limits(its: Floating, box: Box, frame: Frame) -> tuple[float, float]:
    """From where control begins to go up to the fastest, with room for a word above it."""
    speeds = [y for panel in its.panels for curve in panel.curves for _, y in curve.points]
    low, high = max(0.0, min(*speeds, its.driven + its.gradual) - its.gradual), max(*speeds, its.driven)
    head = min(0.4, 2.6 * frame.cap_height("callout") / _high(box, frame))
    return low, high + (high - low) * head / (1 - head)


def _speeds(limits: tuple[float, float], box: Box, frame: Frame) -> list[float]:
    """Round speeds along the axis, no more than stand well above each other."""
    room = int(_high(box, frame) / (2.6 * frame.cap_height("callout")))
    return round_values(*limits, max(1, min(4, room)))


def _high(box: Box, frame: Frame) -> float:
    """How high the panels are: below their titles, above their values and units."""
    beyond = 1.5 * font_size(frame.cap_height("callout")) + 2.3 * font_size(frame.cap_height("small"))
    return max(2 * frame.grid, box.height - beyond)


def _span(panel: Panel) -> tuple[float, float]:
    """A little more than was tested, so that the end of the tests is seen; nothing below zero."""
    (low, high), own = panel.ends, panel.own
    low, high = min(low, own), max(high, own)
    more = 0.09 * (high - low)
    return max(0.0, low - more), high + more


def _areas(its: Floating, limits: tuple[float, float], box: Box, frame: Frame) -> list[Box]:
    cap, gap = frame.cap_height("callout"), 2.2 * frame.grid
    numbers = [format_number(value, 0) for value in _speeds(limits, box, frame)]
    unit = width(its.unit, frame.cap_height("small")) + 0.4 * frame.grid
    left = box.left + max([unit, *(width(number, cap) for number in numbers)]) + frame.grid
    top, high = box.top + 1.5 * font_size(cap), _high(box, frame)
    each = (box.right - left - gap * (len(its.panels) - 1)) / len(its.panels)
    return [Box(left + order * (each + gap), top, each, high) for order in range(len(its.panels))]


def _panel(axes: Plane, its: Floating, panel: Panel, frame: Frame, look: Look) -> None:
    thick = frame.short / 270
    for curve in panel.curves:
        main = curve.year == its.year
        xs, ys = zip(*curve.points, strict=True)
        axes.plot(xs, ys, color=look.ink if main else look.measure, linewidth=1.5 * thick if main else thick,
                  linestyle="solid" if main else (0, (3, 2)), gid="curve" if main else "other",
                  solid_capstyle="butt")  # fmt: skip
    axes.axhline(its.driven, color=look.ink, linewidth=thick * 0.75, linestyle=(0, (1, 2)), gid="driven")
    axes.plot([panel.own], [its.speed], linestyle="none", marker="o", markersize=thick * 6, gid="point",
              markerfacecolor=look.measure, markeredgecolor=look.ground, markeredgewidth=thick,
              clip_on=False)  # fmt: skip


def _water(axes: Plane, its: Floating, panel: Panel, box: Box, look: Look) -> list[Shape]:
    """Above the curve the tire floats; below it the tint fades out over the speed in which control goes.

    Set as our own shapes: as many patches of matplotlib's would take half of the picture's time.
    """
    points = next((curve.points for curve in panel.curves if curve.year == its.year), ())
    curve, top = [pixel(axes, box, *point) for point in points], pixel(axes, box, 0, axes.get_ylim()[1])[1]
    deep = pixel(axes, box, 0, its.speed - its.gradual)[1] - pixel(axes, box, 0, its.speed)[1]

    def band(edge: list[Point], share: float) -> Shape:
        outline = polyline((*curve, *reversed(edge)), closed=True)
        fill = mix(look.ground, look.water, share)
        return Shape(name=f"water/{panel.name}", step=its.steps["water"], outline=outline, fill=fill)

    if not curve:
        return []
    faint = [band([(x, y + deep * (order + 1) / _FADES) for x, y in curve], 0.8 * TINT * (1 - (order + 0.5) / _FADES))
             for order in range(_FADES - 1, -1, -1)]  # fmt: skip
    return [*faint, band([(x, top) for x, _ in curve], TINT)]


def _untested(
    axes: Plane, its: Floating, panel: Panel, area: Box, box: Box, frame: Frame, look: Look
) -> list[Shape]:  # fmt: skip
    """Hatching where no relation was tested, and the panel's foot."""
    ends = [(curve.points[0][0], curve.points[-1][0]) for curve in panel.curves]
    left, right = _span(panel)
    low, high = (min(a for a, _ in ends), max(b for _, b in ends)) if ends else (right, right)
    marks = []
    for order, (start, end) in enumerate(((left, low), (high, right))):
        at, to = pixel(axes, box, start, its.speed)[0], pixel(axes, box, end, its.speed)[0]
        if to - at > frame.grid / 2:
            strip = Box(at, area.top, to - at, area.height)
            marks.append(hatched(f"untested/{panel.name}{order}", strip, frame, look))
    foot = polyline(((area.left, area.bottom), (area.right, area.bottom)))
    return [*marks, Shape(name=f"axis/{panel.name}", outline=foot, stroke=Stroke(look.quiet, frame.short / 360))]


def _texts(
    its: Floating, drawn: Sequence[tuple[Panel, Plane, Box]], limits: tuple[float, float], box: Box, frame: Frame,
    look: Look,
) -> list[Shape | Text]:  # fmt: skip
    cap, small, first = frame.cap_height("callout"), frame.cap_height("small"), drawn[0]
    unit = (box.left, first[2].top - 0.9 * frame.grid)
    found: list[Shape | Text] = [text("axis/speed/unit", its.unit, unit, small, look)]
    values = [v for v in _speeds(limits, box, frame) if pixel(first[1], box, 0, v)[1] - cap / 2 > unit[1] + small / 2]
    x, ticks = first[2].left - 0.8 * frame.grid, list[Text]()
    for value in values:
        y = pixel(first[1], box, 0, value)[1]
        ticks.append(text(f"axis/speed{value:g}", format_number(value, 0), (x, y + cap / 2), cap, look, "end"))
        for panel, _, area in drawn:
            line = Stroke(faded(look.quiet, 0.35), frame.short / 900)
            found.append(Shape(name=f"axis/{panel.name}/line", outline=polyline(((area.left, y), (area.right, y))),
                               stroke=line))  # fmt: skip
    found += free_of(ticks, 0.5 * frame.grid)
    for panel, axes, area in drawn:
        found += _names(panel, axes, area, box, frame, look)
    return [*found, *words(its, drawn, box, frame, look)]


def _names(panel: Panel, axes: Plane, area: Box, box: Box, frame: Frame, look: Look) -> tuple[Text, ...]:
    """The panel's title above it, its values and its unit below."""
    cap, small = frame.cap_height("callout"), frame.cap_height("small")
    base = area.bottom + 0.35 * font_size(small) + small
    title = text(f"axis/{panel.name}/title", panel.title, (area.left, area.top - 0.9 * frame.grid), cap, look,
                  weight="semibold", fill=look.ink)  # fmt: skip
    own = _tick(panel, axes, area, box, base, small, look, panel.own, panel.own_text, "own")
    ends = [_tick(panel, axes, area, box, base, small, look, end, text, which)
            for end, text, which in zip(panel.ends, panel.end_texts, ("low", "high"), strict=True)]  # fmt: skip
    unit = text(f"axis/{panel.name}/unit", panel.unit, (area.left, base + 1.15 * font_size(small)), small, look)
    return (title, *free_of((own, *ends), 0.6 * frame.grid), unit)


def _tick(
    panel: Panel, axes: Plane, area: Box, box: Box, base: float, cap: float, look: Look, value: float, words: str,
    which: str,
) -> Text:  # fmt: skip
    wide = width(words, cap, "semibold")
    x = pixel(axes, box, value, 0)[0]
    x = min(max(x, area.left + wide / 2), area.right - wide / 2)
    mine = which == "own"
    return text(f"axis/{panel.name}/{which}", words, (x, base), cap, look, "middle",
                 "semibold" if mine else "regular", look.ink if mine else look.quiet)  # fmt: skip
