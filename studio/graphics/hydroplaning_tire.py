"""A tire afloat, seen from the side: water piles up before it, runs under it as a wedge and lifts it off the road.

The tire is to its own scale; the water is drawn deeper than it is, and the picture says so.
"""

from collections.abc import Iterator

from studio.graphics.color import faded, mix
from studio.graphics.draw import arc, polar, polyline, rectangle
from studio.graphics.frame import Box, Frame
from studio.graphics.layout.text import font_size, wrap
from studio.graphics.look import Look
from studio.graphics.parts.tire_face import tire_face
from studio.graphics.parts.wheel import Face
from studio.graphics.scene import Command, Linear, Outline, Shape, Stroke, Text

_WATER, _LIFT = 0.15, 0.07  # of the radius: depth drawn, gap under the tire
_AHEAD = 0.55  # how much room before the tire's front, of the radius
_NOT_TO_SCALE = "water drawn deeper"


def tire_afloat(
    box: Box, road: float, outer_mm: float, rim_mm: float, worn: float, frame: Frame, look: Look
) -> tuple[Shape | Text, ...]:  # fmt: skip
    """The tire on the ``road`` (px) across ``box``; it rolls to the right and may leave the frame at the left."""
    radius = min((road - box.top) / (2 + _LIFT), box.width / (1 + _AHEAD))
    center = (box.right - radius * (1 + _AHEAD), road - radius * (1 + _LIFT))
    if center[0] - radius > box.left + radius:  # a wide strip: the tire stands in its left third
        center = (box.left + 0.36 * box.width, center[1])
    face = Face(outer_mm=outer_mm, rim_mm=rim_mm, scale=2 * radius / outer_mm, center=center)
    clip = rectangle(box.left, box.top - frame.grid, box.width, box.height + frame.grid)
    # sipes are too fine here: whether they are drawn would hang on the frame's size
    tire = tire_face(face, look, worn=worn, name="afloat/tire", clip=clip)
    return (
        *(part for part in tire if "sipes" not in part.name),
        *_water(face, box, road, look, frame), *_said(box, road, frame, look),
    )  # fmt: skip


def _water(face: Face, box: Box, road: float, look: Look, frame: Frame) -> tuple[Shape, ...]:
    surface = _surface(face, box, road)
    body: Outline = (*surface, ("L", box.right, road), ("L", box.left, road), ("Z",))
    deep = Linear((0.0, road - 0.45 * face.radius), (0.0, road),
                  ((0.0, faded(mix(look.water, "#FFFFFF", 0.25), 0.66)), (1.0, faded(look.water, 0.88))))  # fmt: skip
    light = Stroke(mix(look.water, "#FFFFFF", 0.45), frame.short / 360)
    return (
        Shape(name="afloat/water", outline=body, fill=deep),
        Shape(name="afloat/surface", outline=surface, stroke=light),
        Shape(name="afloat/road/line", outline=polyline(((box.left, road), (box.right, road))),
              stroke=Stroke(look.quiet, frame.short / 270)),
    )  # fmt: skip


def _surface(face: Face, box: Box, road: float) -> Outline:
    """From the left edge over the trough behind the tire, under it, up its front to the wave, and out before it."""
    (cx, _), r = face.center, face.radius
    level, trough = road - _WATER * r, road - 0.5 * _LIFT * r
    low, front = polar(face.center, r, 180.0), polar(face.center, r, 124.0)
    crest = (cx + 0.98 * r, front[1] + 0.015 * r)
    behind = box.left < cx - 1.1 * r
    commands: list[Command] = [("M", box.left, level if behind else trough)]
    if behind:
        commands.append(("C", cx - 1.0 * r, level, cx - 0.75 * r, trough, cx - 0.42 * r, trough))
    commands += [
        ("L", cx - 0.30 * r, trough), ("C", cx - 0.20 * r, trough, cx - 0.12 * r, low[1], *low),
        *arc(face.center, r, 180.0, 124.0, move=False),
        ("C", front[0] + 0.05 * r, front[1] - 0.05 * r, crest[0] - 0.05 * r, crest[1] - 0.05 * r, *crest),
        ("C", crest[0] + 0.10 * r, crest[1] + 0.10 * r, crest[0] + 0.12 * r, level, crest[0] + 0.44 * r, level),
        ("L", box.right, level),
    ]  # fmt: skip
    return tuple(commands)


def _said(box: Box, road: float, frame: Frame, look: Look) -> Iterator[Text]:
    """That the water is not to scale, under the road."""
    cap, left = frame.cap_height("small"), max(box.left, frame.content.left)
    lines = wrap(_NOT_TO_SCALE, cap, "regular", box.right - left, 2)
    for order, line in enumerate(lines):
        at = (left, road + 0.35 * font_size(cap) + cap + order * 1.15 * font_size(cap))
        yield Text(name=f"scale/line{order}", text=line, at=at, cap_height=cap, fill=look.quiet, ground=look.ground,
                   role="small")  # fmt: skip
