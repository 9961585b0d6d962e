"""Where sizes stand beside each other: on one ground line, to one scale, each with its diameter and its name below."""

from collections.abc import Sequence

import msgspec

from studio.graphics.color import mix
from studio.graphics.draw import polyline
from studio.graphics.frame import Box, Frame
from studio.graphics.layout.notes import LINE_STEP, badge_radius
from studio.graphics.layout.text import font_size, width
from studio.graphics.look import Look
from studio.graphics.parts.dimension import dimension_line, extension_lines
from studio.graphics.parts.height_step import carried_level, height_step, step_reach
from studio.graphics.parts.tire_face import Face, ground_shadow, small_tire_face, tire_face
from studio.graphics.scene import Point, Role, Shape, Stroke, Text, Weight

_TO_LINE = 2.6  # grid units from a tire to its dimension line at the left
_BETWEEN, _MOST_BETWEEN = 2.2, 9.0  # grid units between one tire's room and the next one's line
_ASIDE = 3.0  # grid units right of the last tire, for the step that it makes
_UNDER = 1.1  # grid units from the ground to the names
_LARGE = 14.0  # grid units of radius from which a tire is drawn with all its detail


class Standing(msgspec.Struct, frozen=True, kw_only=True):
    """One size: what marks are named by, its designation, whose it is, its diameters in mm, its diameter in words."""

    name: str
    size: str
    whose: str
    outer_mm: float
    rim_mm: float
    diameter: str
    step: int


class Row(msgspec.Struct, frozen=True, kw_only=True):
    """All sizes placed; the last one is compared with the one before it."""

    frame: Frame
    tires: tuple[Standing, ...]
    faces: tuple[Face, ...]
    lines: tuple[float, ...]
    ground: float
    broken: bool
    steps: tuple[int, int]  # in which diameters are measured, in which the step is shown

    @property
    def tops(self) -> tuple[float, float]:
        """The height of the size compared with, and of the one that is compared."""
        before, after = self.faces[-2:]
        return before.center[1] - before.radius, after.center[1] - after.radius

    @property
    def step_x(self) -> float:
        """Where the step between the last two tires is measured."""
        last = self.faces[-1]
        return last.center[0] + last.radius + 1.5 * self.frame.grid


def fitting(tires: tuple[Standing, ...], box: Box, frame: Frame, most: int) -> tuple[Standing, ...]:
    """As many as ``box`` has room to name, at most ``most``; the first go first, the last two stay."""
    kept = tires[-most:]
    while len(kept) > 2 and _labels_wide(kept, frame, True) + _gaps(kept, frame) > box.width:
        kept = kept[1:]
    return kept


def row(tires: Sequence[Standing], box: Box, frame: Frame, steps: tuple[int, int]) -> Row:
    """The sizes side by side as large as ``box`` lets them stand."""
    broken = _labels_wide(tires, frame, False) + _gaps(tires, frame) > box.width
    high = box.height - _labels_high(frame, broken) - 1.2 * frame.grid
    tallest = max(tire.outer_mm for tire in tires)
    scale = _scale(tires, box, high, frame, broken)
    spare = box.width - _wide(tires, scale, frame, broken)
    gap = _BETWEEN * frame.grid + min(spare / max(1, len(tires) - 1), (_MOST_BETWEEN - _BETWEEN) * frame.grid)
    unused = max(0.0, high - scale * tallest - _above(tires, scale, frame))
    ground = box.top + _above(tires, scale, frame) + scale * tallest + unused / 2
    x, faces, lines = box.left, [], []
    for tire in tires:
        lines.append(x + 0.6 * frame.grid)
        radius = tire.outer_mm / 2 * scale
        center = (lines[-1] + _TO_LINE * frame.grid + radius, ground - radius)
        faces.append(Face(outer_mm=tire.outer_mm, rim_mm=tire.rim_mm, scale=scale, center=center))
        x += _room(tire, scale, frame, broken) + gap
    return Row(frame=frame, tires=tuple(tires), faces=tuple(faces), lines=tuple(lines), ground=ground, broken=broken,
               steps=steps)  # fmt: skip


def _scale(tires: Sequence[Standing], box: Box, high: float, frame: Frame, broken: bool) -> float:
    """The largest scale in px per mm at which the tires fit into the width of ``box`` and into ``high`` px."""
    outers = [tire.outer_mm for tire in tires]
    labels = [_label_wide(tire, frame, broken) for tire in tires]
    line, gaps = (_TO_LINE + 0.6) * frame.grid, _gaps(tires, frame)
    low, most = 1e-3, max(2e-3, high / max(outers))
    for _ in range(30):
        scale = (low + most) / 2
        wide = gaps + sum(max(outer * scale + line, label) for outer, label in zip(outers, labels, strict=True))
        fits = wide <= box.width and scale * max(outers) + _above(tires, scale, frame) <= high
        low, most = (scale, most) if fits else (low, scale)
    return low


def _above(tires: Sequence[Standing], scale: float, frame: Frame) -> float:
    """What the arrows of the step need above the tallest tire."""
    levels = (tires[-2].outer_mm * scale, tires[-1].outer_mm * scale)
    return max(frame.short / 540, step_reach(levels, frame) - (max(t.outer_mm for t in tires) * scale - max(levels)))


def _gaps(tires: Sequence[Standing], frame: Frame) -> float:
    return ((len(tires) - 1) * _BETWEEN + _ASIDE + 0.6 * len(tires)) * frame.grid


def _wide(tires: Sequence[Standing], scale: float, frame: Frame, broken: bool) -> float:
    return sum(_room(tire, scale, frame, broken) for tire in tires) + _gaps(tires, frame)


def _room(tire: Standing, scale: float, frame: Frame, broken: bool) -> float:
    return max(tire.outer_mm * scale + (_TO_LINE + 0.6) * frame.grid, _label_wide(tire, frame, broken))


def _labels_wide(tires: Sequence[Standing], frame: Frame, broken: bool) -> float:
    return sum(_label_wide(tire, frame, broken) for tire in tires)


def _label_wide(tire: Standing, frame: Frame, broken: bool) -> float:
    return max(width(text, frame.cap_height(role), weight) for text, role, weight, _ in _lines(tire, broken))


def _labels_high(frame: Frame, broken: bool) -> float:
    steps = [_step(frame, "callout"), *[_step(frame, "small")] * (3 if broken else 2)]
    return sum(steps) + _UNDER * frame.grid


def _step(frame: Frame, role: str) -> float:
    return LINE_STEP * font_size(frame.cap_height(role))


def _lines(tire: Standing, broken: bool) -> list[tuple[str, Role, Weight, str]]:
    """What stands below a tire; its designation on two lines where room is scarce."""
    head, rim = _halves(tire.size)
    names = [head, rim] if broken and rim else [tire.size]
    return [
        (tire.diameter, "callout", "semibold", "ink"),
        *((name, "small", "semibold", "ink") for name in names),
        (tire.whose, "small", "regular", "quiet"),
    ]


def _halves(size: str) -> tuple[str, str]:
    """A designation before and after its construction letter: ``LT245/75`` and ``R16``."""
    for at in range(len(size) - 1, 0, -1):
        if size[at].isalpha():
            return size[:at], size[at:]
    return size, ""


def marks(its: Row, look: Look) -> tuple[Shape | Text, ...]:
    """Ground, tires, dimension lines, names, the step between the last two."""
    found: list[Shape | Text] = [_ground(its, look), _level(its, look)]
    for tire, face in zip(its.tires, its.faces, strict=True):
        found += ground_shadow(face, look, name=f"{tire.name}/shadow", step=tire.step)
        found += _face(tire, face, its.frame, look)
    for tire, face, x in zip(its.tires, its.faces, its.lines, strict=True):
        found += _measured(its, tire, face, x, look)
        found += _named(its, tire, x, look)
    return (*found, *_stepped(its, look))


def _face(tire: Standing, face: Face, frame: Frame, look: Look) -> tuple[Shape, ...]:
    """The tire; without its sipes, which are finer than a picture of several tires can show."""
    draw = tire_face if face.radius > _LARGE * frame.grid else small_tire_face
    drawn = draw(face, look, name=f"{tire.name}/tire", step=tire.step)
    return tuple(mark for mark in drawn if not mark.name.endswith("/sipes"))


def _ground(its: Row, look: Look) -> Shape:
    left, right = its.lines[0] - 0.6 * its.frame.grid, its.step_x + 1.5 * its.frame.grid
    stroke = Stroke(mix(look.ground, look.quiet, 0.65), its.frame.short / 400)
    return Shape(name="ground", outline=polyline(((left, its.ground), (right, its.ground))), stroke=stroke)


def _measured(its: Row, tire: Standing, face: Face, x: float, look: Look) -> tuple[Shape, ...]:
    top, step = face.center[1] - face.radius, its.steps[0]
    name = f"{tire.name}/diameter"
    return (
        extension_lines((((face.center[0], top), (x, top)),), its.frame, look, name, step),
        *dimension_line((x, top), (x, its.ground), its.frame, look, name, step),
    )


def _named(its: Row, tire: Standing, x: float, look: Look) -> list[Text]:
    y, texts = its.ground + _UNDER * its.frame.grid, []
    for order, (text, role, weight, color) in enumerate(_lines(tire, its.broken)):
        cap = its.frame.cap_height(role)
        baseline = y + cap + (_step(its.frame, role) - font_size(cap)) / 2
        texts.append(
            Text(name=f"{tire.name}/line{order}", step=its.steps[0] if order == 0 else tire.step, text=text,
                 at=(x - 0.6 * its.frame.grid, baseline), cap_height=cap, weight=weight, fill=getattr(look, color),
                 ground=look.ground, role=role)
        )  # fmt: skip
        y += _step(its.frame, role)
    return texts


def _level(its: Row, look: Look) -> Shape:
    """The height of the size compared with, carried across behind the tires."""
    start = (its.faces[-2].center[0], its.tops[0])
    return carried_level(start, its.step_x + 0.7 * its.frame.grid, its.frame, look, "step", its.steps[1])


def _stepped(its: Row, look: Look) -> tuple[Shape, ...]:
    last, step, top = its.faces[-1], its.steps[1], its.tops[1]
    edge = polyline(((last.center[0], top), (its.step_x + 0.7 * its.frame.grid, top)))
    return (
        Shape(name="step/edge", step=step, outline=edge, stroke=Stroke(look.measure, its.frame.short / 400)),
        *height_step(its.step_x, its.tops, its.frame, look, "step", step),
    )


def anchors(its: Row, discs: bool) -> dict[str, Point]:
    """Where the number that decides belongs: at the step; a disc stands beside the arrows."""
    middle = sum(its.tops) / 2
    if not discs:
        return {"apart": (its.step_x, middle)}
    radius = badge_radius(its.frame)
    x = min(its.step_x + radius + 0.9 * its.frame.grid, its.frame.titles.right - radius)
    return {"apart": (x, max(middle, its.frame.titles.top + radius))}
