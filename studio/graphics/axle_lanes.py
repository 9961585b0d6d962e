"""Two lanes: each tire rolls one turn along its own unrolled tread; where it arrives shows its circumference.

Diameters and circumferences are drawn to one scale; their differences are enlarged by a factor that stands on the
picture, the same for both, or a difference of a hundredth could not be seen.
"""

import math

import msgspec

from studio.graphics.color import mix
from studio.graphics.draw import circle, polyline, rectangle
from studio.graphics.frame import Box, Frame
from studio.graphics.layout.notes import LINE_STEP, badge_radius
from studio.graphics.layout.text import font_size, width
from studio.graphics.look import Look
from studio.graphics.parts.tire_face import Face, ground_shadow, small_tire_face
from studio.graphics.scene import Command, Point, Shape, Stroke, Text
from studio.model.finding import Verdict

_FACTORS = (100, 50, 20, 10, 5, 2, 1)
_MOST_SHARE = 0.25  # of the circumference: what an enlarged difference may take
_LEAST_SIDEWALL_MM = 40.0
_LEAST_JOINED = 4.4  # the least radius of a tire, in grid units, at which notes are joined to the drawing
_TURN = 1  # the step in which the tires have rolled


class Roller(msgspec.Struct, frozen=True, kw_only=True):
    """One tire: its place, what is said of its tread, its worn diameter and its rim in mm."""

    name: str
    title: str
    depths: tuple[str, ...]  # the fullest first
    diameter_mm: float
    rim_mm: float


class Pair(msgspec.Struct, frozen=True, kw_only=True):
    """The two tires; ``apart_mm`` and ``limit_mm`` are differences of circumference by tape."""

    longer: Roller
    shorter: Roller
    apart_mm: float
    limit_mm: float | None
    verdict: Verdict | None


class Lane(msgspec.Struct, frozen=True, kw_only=True):
    """One tire's lane in px: its tire at the start and where it arrives."""

    roller: Roller
    start: Face
    arrived: Face
    ground: float


class Drawn(msgspec.Struct, frozen=True, kw_only=True):
    """Both lanes, placed. ``factor`` is by how much differences are enlarged; ``zone`` is what the limit allows.

    ``named_above`` puts the tires' names above the lanes; ``depths`` says which of their words of tread fit.
    """

    frame: Frame
    box: Box
    pair: Pair
    factor: int
    upper: Lane
    lower: Lane
    zone: Box | None
    named_above: bool
    depths: int

    def marks(self, look: Look) -> tuple[Shape | Text, ...]:
        """Everything that is drawn."""
        upper, lower = (_lane(self, lane, look) for lane in (self.upper, self.lower))
        return (*upper, _down(self, look), *lower, *_finish(self, look), *_statement(self, look))


def factor_for(pair: Pair) -> int:
    """The largest factor with which the enlarged difference still leaves a tire to be drawn."""
    longest = math.pi * pair.longer.diameter_mm
    largest = max(pair.apart_mm, pair.limit_mm or 0.0, 1.0)
    spare_mm = pair.longer.diameter_mm - pair.shorter.rim_mm - 2 * _LEAST_SIDEWALL_MM
    for factor in _FACTORS:
        fits = factor * pair.apart_mm <= math.pi * max(spare_mm, 0.0)
        if fits and factor * largest <= _MOST_SHARE * longest:
            return factor
    return 1


def lanes(pair: Pair, box: Box, frame: Frame) -> Drawn:
    """Place both lanes in ``box`` as large as they can be."""
    factor, grid = factor_for(pair), frame.grid
    foot = 3.4 * grid + LINE_STEP * font_size(frame.cap_height("small"))
    between = 2.2 * grid
    tall_mm = 2 * pair.longer.diameter_mm
    wide_mm = pair.longer.diameter_mm * (1 + math.pi)

    def scale_under(name: float) -> float:
        return min(box.width / wide_mm, (box.height - foot - between - 2 * name) / tall_mm)

    name = 0.0
    if _room(pair, factor, scale_under(0.0), frame) < _longest_name(pair, frame):
        name = LINE_STEP * font_size(frame.cap_height("callout")) + 0.4 * grid
    scale = max(scale_under(name), 1e-3)
    longest = pair.longer.diameter_mm * scale
    total = 2 * (longest + name) + between + foot
    top = box.top + max(0.0, (box.height - total) / 2)
    left = box.left + (box.width - wide_mm * scale) / 2
    upper = _place(pair, pair.longer, 0.0, left, top + name + longest, scale)
    lower = _place(pair, pair.shorter, factor * pair.apart_mm, left, top + 2 * (name + longest) + between, scale)
    return Drawn(
        frame=frame, box=box, pair=pair, factor=factor, upper=upper, lower=lower, named_above=name > 0,
        zone=_zone(pair, factor, upper, lower, scale, frame), depths=_depths(pair, factor, scale, box, name, frame),
    )  # fmt: skip


def _room(pair: Pair, factor: int, scale: float, frame: Frame) -> float:
    """The width in px between start and arrival in the shorter lane."""
    shorter = math.pi * pair.longer.diameter_mm - factor * pair.apart_mm
    half = shorter / math.pi / 2
    return (shorter - half - pair.longer.diameter_mm / 2) * scale - 2.5 * frame.grid


def _longest_name(pair: Pair, frame: Frame) -> float:
    return max(width(roller.title, frame.cap_height("callout"), "semibold") for roller in (pair.longer, pair.shorter))


def _depths(pair: Pair, factor: int, scale: float, box: Box, name: float, frame: Frame) -> int:
    """The fullest words of tread that fit for both tires."""
    room = _room(pair, factor, scale, frame)
    if name:
        finish = (box.width + math.pi * pair.longer.diameter_mm * scale) / 2
        room = finish - _longest_name(pair, frame) - 2.4 * frame.grid
    cap = frame.cap_height("small")
    pairs = list(zip(pair.longer.depths, pair.shorter.depths, strict=True))
    return next((i for i, said in enumerate(pairs) if max(width(text, cap) for text in said) <= room), len(pairs) - 1)


def _place(pair: Pair, roller: Roller, less_mm: float, left: float, ground: float, scale: float) -> Lane:
    """A lane whose circumference is ``less_mm`` shorter than the longer tire's; the start is the same for both."""
    around_mm = math.pi * pair.longer.diameter_mm - less_mm
    outer_mm = around_mm / math.pi
    x = left + pair.longer.diameter_mm / 2 * scale
    y = ground - outer_mm / 2 * scale

    def face(at: float) -> Face:
        return Face(outer_mm=outer_mm, rim_mm=roller.rim_mm, scale=scale, center=(at, y))

    return Lane(roller=roller, start=face(x), arrived=face(x + around_mm * scale), ground=ground)


def _zone(pair: Pair, factor: int, upper: Lane, lower: Lane, scale: float, frame: Frame) -> Box | None:
    if not pair.limit_mm:
        return None
    right = upper.arrived.center[0]
    wide = factor * pair.limit_mm * scale
    return Box(right - wide, lower.ground + 1.1 * frame.grid, wide, 1.9 * frame.grid)


def anchors(drawn: Drawn, *, discs: bool) -> dict[str, Point]:
    """Where the notes belong: the gap between the arrivals, and what the limit allows; discs stand right of them.

    Nowhere where the tires are so small that a join would hide what it points at.
    """
    if drawn.upper.arrived.radius < _LEAST_JOINED * drawn.frame.grid:
        return {}
    far, ground = drawn.upper.arrived.center[0], drawn.lower.ground
    found: dict[str, Point] = {"apart": ((drawn.lower.arrived.center[0] + far) / 2, ground + 0.5 * drawn.frame.grid)}
    if drawn.zone is not None:
        found["limit"] = (drawn.zone.right, drawn.zone.center[1])
    if discs:
        radius = badge_radius(drawn.frame)
        x = far + radius + drawn.frame.grid
        found = {"apart": (x, ground - 0.7 * radius), **({"limit": (x, ground + 1.5 * radius)} if drawn.zone else {})}
    return found


def _lane(drawn: Drawn, lane: Lane, look: Look) -> list[Shape | Text]:
    frame, name = drawn.frame, f"lane/{lane.roller.name}"
    line = frame.short / 270
    right = drawn.upper.arrived.center[0] + drawn.upper.arrived.radius
    road = polyline(((lane.start.center[0] - lane.start.radius, lane.ground), (right, lane.ground)))
    marks: list[Shape | Text] = [
        Shape(name=f"{name}/road", outline=road, stroke=Stroke(mix(look.ground, look.quiet, 0.55), line / 2)),
        *_standing(lane, look, name, line),
        *_tape(lane, look, name, frame),
        *ground_shadow(lane.arrived, look, name=f"{name}/shadow", step=_TURN),
        *small_tire_face(lane.arrived, look, name=f"{name}/tire", step=_TURN),
        *_chalk(lane.arrived, look, f"{name}/chalk", _TURN),
    ]
    return marks + list(_label(drawn, lane, look))


def _standing(lane: Lane, look: Look, name: str, line: float) -> tuple[Shape, ...]:
    """The tire where it starts: a pale silhouette."""
    face = lane.start
    pale, edge = mix(look.ground, look.rubber_light, 0.24), mix(look.ground, look.quiet, 0.7)
    return (
        Shape(name=f"{name}/start", outline=circle(face.center, face.radius - line / 4), fill=pale,
              stroke=Stroke(edge, line / 2)),
        Shape(name=f"{name}/start wheel", outline=circle(face.center, face.flange), fill=mix(pale, look.ground, 0.5),
              stroke=Stroke(edge, line / 2)),
        *_chalk(face, look, f"{name}/start chalk", 0, edge),
    )  # fmt: skip


def _chalk(face: Face, look: Look, name: str, step: int, color: str = "") -> tuple[Shape, ...]:
    """The mark that touches the ground at the start and again after one turn."""
    (x, y), high = face.center, face.radius - face.flange
    stroke = Stroke(color or look.letter, max(3.0, face.radius / 26), cap="flat")
    outline = polyline(((x, y + face.radius - 0.12 * high), (x, y + face.flange + 0.2 * high)))
    return (Shape(name=name, step=step, outline=outline, stroke=stroke),)


def _tape(lane: Lane, look: Look, name: str, frame: Frame) -> tuple[Shape, ...]:
    """The tread unrolled along the ground: as long as the tire is round."""
    start, end = lane.start.center[0], lane.arrived.center[0]
    high = 1.0 * frame.grid
    band = rectangle(start, lane.ground, end - start, high, 0.2 * high)
    notches: list[Command] = []
    count = max(6, round((end - start) / (1.5 * frame.grid)))
    pitch = (end - start) / count
    for order in range(1, count):
        notches += rectangle(start + order * pitch - 0.1 * pitch, lane.ground + 0.42 * high, 0.2 * pitch, 0.58 * high)
    edge = Stroke(look.rubber_edge, frame.short / 720) if look.rubber_edge else None
    return (
        Shape(name=f"{name}/unrolled", step=_TURN, outline=band, fill=look.rubber, stroke=edge),
        Shape(name=f"{name}/notches", step=_TURN, outline=tuple(notches), fill=look.ground),
    )


def _label(drawn: Drawn, lane: Lane, look: Look) -> tuple[Text, ...]:
    """The place and its tread, between the start and the arrival, or above the lane where that is too narrow."""
    frame, name = drawn.frame, lane.roller.name
    callout, small = frame.cap_height("callout"), frame.cap_height("small")
    low = lane.ground - 2.2 * frame.grid
    x = drawn.upper.start.center[0] + drawn.upper.start.radius + 1.5 * frame.grid
    place, depth = (x, low - LINE_STEP * font_size(small)), (x, low)
    if drawn.named_above:
        y = lane.ground - 2 * drawn.upper.arrived.radius - 1.2 * frame.grid
        place = (drawn.box.left, y)
        depth = (drawn.box.left + width(lane.roller.title, callout, "semibold") + 1.2 * frame.grid, y)
    return (
        Text(name=f"{name}/place", text=lane.roller.title, at=place, cap_height=callout, weight="semibold",
             fill=look.ink, ground=look.ground, role="callout"),
        Text(name=f"{name}/depth", text=lane.roller.depths[drawn.depths], at=depth, cap_height=small, fill=look.quiet,
             ground=look.ground, role="small"),
    )  # fmt: skip


def _bottom(drawn: Drawn) -> float:
    return drawn.zone.bottom if drawn.zone else drawn.lower.ground + 2.2 * drawn.frame.grid


def _down(drawn: Drawn, look: Look) -> Shape:
    """Where the longer one arrives, carried down behind the other tire."""
    far, line = drawn.upper.arrived.center[0], drawn.frame.short / 270
    outline = polyline(((far, drawn.upper.ground), (far, _bottom(drawn))))
    pen = Stroke(look.measure, line, (2.6 * line, 2.2 * line), "flat")
    return Shape(name="finish/longer", step=_TURN, outline=outline, stroke=pen)


def _finish(drawn: Drawn, look: Look) -> tuple[Shape, ...]:
    """The gap between the arrivals, and what the limit allows."""
    frame, line = drawn.frame, drawn.frame.short / 270
    far, near = drawn.upper.arrived.center[0], drawn.lower.arrived.center[0]
    ground, grid, bottom = drawn.lower.ground, frame.grid, _bottom(drawn)
    marks = []
    if drawn.zone is not None:
        zone = drawn.zone
        allowed = rectangle(zone.left, zone.top, zone.width, zone.height)
        marks.append(Shape(name="finish/allowed", step=_TURN, outline=allowed, fill=look.verdicts.keep,
                           stroke=Stroke(look.ink, line * 0.6)))  # fmt: skip
    tick = polyline(((near, ground), (near, bottom)))
    pen = Stroke(look.ink, line * 1.2, cap="flat")
    marks.append(Shape(name="finish/shorter", step=_TURN, outline=tick, stroke=pen))
    if far - near > 2 * line:
        gap = rectangle(near, ground, far - near, grid)
        fill = look.fill_of(drawn.pair.verdict) or look.steel
        marks.append(Shape(name="finish/gap", step=_TURN, outline=gap, fill=fill, stroke=Stroke(look.ink, line * 0.6)))
    return tuple(marks)


def _statement(drawn: Drawn, look: Look) -> tuple[Text, ...]:
    """By how much the difference is enlarged."""
    frame = drawn.frame
    cap = frame.cap_height("small")
    times = f"differences drawn {drawn.factor} times" if drawn.factor > 1 else "differences drawn to scale"
    left = drawn.lower.start.center[0] - drawn.upper.start.radius
    room = drawn.lower.arrived.center[0] - left - frame.grid
    short = f"differences × {drawn.factor}"
    words = next((said for said in (f"One turn; {times}", times) if width(said, cap) <= room), short)
    y = drawn.lower.ground + 1.9 * frame.grid + cap
    return (
        Text(name="scale/times", step=_TURN, text=words, at=(left, y), cap_height=cap, fill=look.quiet,
             ground=look.ground, role="small"),
    )  # fmt: skip
