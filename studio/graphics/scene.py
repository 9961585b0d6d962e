"""A picture as a frozen value: marks in painting order, with names, steps and everything a check can ask.

Coordinates are pixels of the frame, x to the right, y down. Colours are ``#RRGGBB`` or ``#RRGGBBAA`` (straight alpha).
"""

from typing import Literal

import msgspec

from studio.graphics.face import Face, current_face
from studio.graphics.frame import Box, Frame

Point = tuple[float, float]
Command = tuple[str, float, float] | tuple[str, float, float, float, float, float, float] | tuple[str]
Outline = tuple[Command, ...]  # ("M", x, y), ("L", x, y), ("C", x1, y1, x2, y2, x, y), ("Z",)
Weight = Literal["regular", "semibold", "bold"]
Role = Literal["deciding", "heading", "callout", "small", "incidental"]


class Linear(msgspec.Struct, frozen=True):
    """A gradient along a line; stops are (0..1, colour)."""

    start: Point
    end: Point
    stops: tuple[tuple[float, str], ...]


class Radial(msgspec.Struct, frozen=True):
    """A gradient from a centre outward."""

    center: Point
    radius: float
    stops: tuple[tuple[float, str], ...]


Paint = str | Linear | Radial


class Stroke(msgspec.Struct, frozen=True):
    """How a line is drawn: colour, width in px, dashes in px, round or flat ends."""

    color: str
    width: float
    dash: tuple[float, ...] = ()
    cap: Literal["round", "flat"] = "round"


class Mark(msgspec.Struct, frozen=True, kw_only=True):
    """What every mark has: a name that says what it means, with ``/`` between whole and part, and its step."""

    name: str
    step: int = 0


class Shape(Mark, frozen=True, kw_only=True, tag="shape"):
    """An outline that is filled, stroked or both; ``clip`` bounds it."""

    outline: Outline
    fill: Paint | None = None
    stroke: Stroke | None = None
    even_odd: bool = False
    clip: Outline | None = None


class Text(Mark, frozen=True, kw_only=True, tag="text"):
    """One line of text. ``at`` is on the baseline, at its start, middle or end as ``anchor`` says.

    ``ground`` is the colour it stands on: contrast is checked against it. ``halo`` is a colour drawn round the letters.
    """

    text: str
    at: Point
    cap_height: float
    fill: str
    ground: str
    role: Role
    weight: Weight = "regular"
    anchor: Literal["start", "middle", "end"] = "start"
    halo: str | None = None
    face: Face | None = msgspec.field(default_factory=current_face)


class ArcText(Mark, frozen=True, kw_only=True, tag="arc_text"):
    """Text along a circle, such as a sidewall's lettering: painted as outlines everywhere.

    ``angle`` is where its middle lies, in degrees clockwise from the top. The baseline has ``radius``; letters stand
    outward from it and read clockwise, or stand inward and read counter-clockwise if ``inward``.
    """

    text: str
    center: Point
    radius: float
    angle: float
    cap_height: float
    fill: str
    ground: str
    weight: Weight = "bold"
    spacing: float = 0.0
    inward: bool = False
    face: Face | None = msgspec.field(default_factory=current_face)


class Image(Mark, frozen=True, kw_only=True, tag="image"):
    """A picture made of pixels, such as a logo: a PNG file of our own encoding, spread over ``box``.

    ``text`` says what it shows.
    """

    png: bytes
    box: Box
    text: str = ""


AnyMark = Shape | Text | ArcText | Image


class Scene(msgspec.Struct, frozen=True, kw_only=True):
    """A finished picture. ``background`` None is transparent; ``findings`` are the ids of the findings shown."""

    picture: str
    frame: Frame
    background: str | None
    marks: tuple[AnyMark, ...]
    steps: tuple[str, ...] = ("all",)
    title: str = ""
    alternative: str = ""
    findings: tuple[str, ...] = ()

    def up_to(self, step: int) -> "Scene":
        """The picture as built up to and with this step."""
        return msgspec.structs.replace(self, marks=tuple(mark for mark in self.marks if mark.step <= step))

    def named(self, name: str) -> AnyMark:
        """The mark of that name; raises KeyError."""
        for mark in self.marks:
            if mark.name == name:
                return mark
        raise KeyError(name)

    @property
    def texts(self) -> tuple[Text, ...]:
        """The lines of text, arc text left out."""
        return tuple(mark for mark in self.marks if isinstance(mark, Text))
