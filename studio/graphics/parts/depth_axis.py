"""A scale of depths beside a drawing: ticks at whole thirty-seconds or millimeters, counted from the grooves' floor."""

from studio.graphics.draw import polyline
from studio.graphics.frame import Frame
from studio.graphics.layout.text import width
from studio.graphics.look import Look
from studio.graphics.scene import Outline, Shape, Stroke, Text
from studio.model.quantity import System, depth

_FINEST_PX = 8.0  # ticks closer than this flicker when the picture is shrunk


def axis_width(highest_mm: float, units: System, frame: Frame) -> float:
    """The room in px that labels and ticks take to the left of the axis."""
    cap = frame.cap_height("small")
    return max(width(f"{_count(highest_mm, units)}", cap), width(_unit(units), cap)) + 2.6 * frame.grid


def depth_axis(
    x: float, floor: float, scale: float, highest_mm: float, units: System, frame: Frame, look: Look, step: int = 0
) -> tuple[Shape | Text, ...]:
    """The scale at ``x``, its zero at ``floor`` (px), ``scale`` in px per mm, up to at least ``highest_mm``."""
    one = _step_mm(units) * scale
    count, cap = _count(highest_mm, units), frame.cap_height("small")
    each = next((n for n in (1, 2, 4, 8) if n * one >= 1.55 * cap), 16)
    fine = next((n for n in (1, 2, 4, 8) if n * one >= _FINEST_PX), 16)
    ticks: Outline = polyline(((x, floor), (x, floor - count * one)))
    texts = []
    for number in range(0, count + 1, fine):
        long = (1.2 if number % each == 0 else 0.6) * frame.grid
        y = floor - number * one
        ticks += polyline(((x - long, y), (x, y)))
        if number % each == 0 and number + each <= count + each / 2:
            texts.append(_label(f"axis/{number}", f"{number}", (x - 1.8 * frame.grid, y + cap / 2), frame, look, step))
    top = (x - 1.8 * frame.grid, floor - count * one - 0.4 * frame.grid)
    if texts and texts[-1].at[1] - cap - top[1] < 0.4 * cap:
        texts.pop()
    unit = _label("axis/unit", _unit(units), top, frame, look, step)
    line = Stroke(look.quiet, frame.short / 400, cap="flat")
    return (Shape(name="axis/ticks", step=step, outline=ticks, stroke=line), *texts, unit)


def last_tick(mm: float, units: System) -> float:
    """The depth in mm of the last tick that is not above ``mm``: a scale up to there stays below what it measures."""
    step = _step_mm(units)
    return max(1, int(mm / step + 1e-6)) * step - 1e-6


def _label(name: str, text: str, at: tuple[float, float], frame: Frame, look: Look, step: int) -> Text:
    return Text(name=name, step=step, text=text, at=at, cap_height=frame.cap_height("small"), fill=look.quiet,
                ground=look.ground, role="small", anchor="end")  # fmt: skip


def _unit(units: System) -> str:
    return "/32" if units == "us" else "mm"


def _step_mm(units: System) -> float:
    return depth(1.0, "32nds" if units == "us" else "mm").to("mm").value


def _count(highest_mm: float, units: System) -> int:
    return max(1, -int(-highest_mm // _step_mm(units)))
