"""A logo as marks of ours: outlines in its own coordinates, or pixels. Placed in a box of a picture, its shape kept."""

import msgspec

from studio.graphics.draw import bounds, moved, rectangle
from studio.graphics.frame import Box
from studio.graphics.scene import Image, Shape, Stroke


class LogoError(ValueError):
    """A file cannot be a logo; the message says on one line what it holds and what was expected.

    What it repeats of the file is written so that it can be seen: control signs and those that turn the direction of
    reading by their numbers.
    """

    def __init__(self, message: str) -> None:
        super().__init__("".join(sign if sign.isprintable() else f"\\u{ord(sign):04x}" for sign in message))


class Art(msgspec.Struct, frozen=True, kw_only=True):
    """A logo: its width and height in its own units, and outlines (from its top left corner) or a PNG of ours.

    ``notes`` say what was left out when it was read.
    """

    width: float
    height: float
    shapes: tuple[Shape, ...] = ()
    png: bytes = b""
    notes: tuple[str, ...] = ()

    @property
    def ratio(self) -> float:
        """Width over height."""
        return self.width / self.height


def placed(art: Art, box: Box, text: str) -> tuple[Shape | Image, ...]:
    """The logo in ``box``, as large as fits and in its middle; ``text`` says whose it is."""
    scale = min(box.width / art.width, box.height / art.height)
    wide, high = art.width * scale, art.height * scale
    left, top = box.center[0] - wide / 2, box.center[1] - high / 2
    if art.png:
        return (Image(name="logo/image", png=art.png, box=Box(left, top, wide, high), text=text),)
    clip = None if _is_inside(art) else rectangle(left, top, wide, high)
    return tuple(
        Shape(
            name=f"logo/part{order}", outline=moved(shape.outline, left, top, scale), fill=shape.fill, clip=clip,
            stroke=scaled(shape.stroke, scale), even_odd=shape.even_odd,
        )
        for order, shape in enumerate(art.shapes)
    )  # fmt: skip


def _is_inside(art: Art) -> bool:
    """Whether nothing of the logo reaches beyond its own edge."""
    sides = [bounds(shape.outline) for shape in art.shapes]
    return all(
        left >= 0 and top >= 0 and right <= art.width and bottom <= art.height for left, top, right, bottom in sides
    )


def scaled(stroke: Stroke | None, scale: float) -> Stroke | None:
    """A stroke on a drawing that is made larger."""
    if stroke is None:
        return None
    return Stroke(stroke.color, stroke.width * scale, tuple(length * scale for length in stroke.dash), stroke.cap)
