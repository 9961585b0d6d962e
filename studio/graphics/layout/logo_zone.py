"""Where the channel's logo stands, and what it leaves of the page: room beside it, or all but a strip."""

import msgspec

from studio.graphics.draw import rectangle
from studio.graphics.frame import Box, Frame
from studio.graphics.logo.art import placed
from studio.graphics.look import Look
from studio.graphics.scene import Image, Shape

_WIDEST = 0.22  # of the page's width
_EMPTY_RATIO = 2.5  # the shape kept free where the logo is added later


class LogoZone(msgspec.Struct, frozen=True, kw_only=True):
    """The logo's box, and the rows left for the sentence at the top and the small print at the foot."""

    box: Box | None
    head: Box
    foot: Box


def logo_zones(frame: Frame, look: Look) -> tuple[LogoZone, ...]:
    """How the logo of ``look`` can stand in the frame's content: beside the text, or in a strip that it has to itself.

    Without one, all of the content is free.
    """
    content, gap = frame.content, 2 * frame.grid
    if look.art is None and not look.zones.logo:
        return (LogoZone(box=None, head=content, foot=content),)
    box, at_top = _box(frame, look), look.logo.corner.startswith("top")
    if box.top >= content.bottom:
        return (LogoZone(box=box, head=content, foot=content),)
    left = box.right + gap if look.logo.corner.endswith("left") else content.left
    beside = Box(left, content.top, content.width - box.width - gap, content.height)
    strip = Box(content.left, box.bottom + gap if at_top else content.top, content.width,
                content.height - box.height - gap)  # fmt: skip
    return tuple(
        LogoZone(box=box, head=free if at_top else content, foot=content if at_top else free)
        for free in (beside, strip)
    )


def _box(frame: Frame, look: Look) -> Box:
    content, logo = frame.content, look.logo
    ratio = look.art.ratio if look.art else _EMPTY_RATIO
    wide = min(frame.short * logo.height * ratio, _WIDEST * content.width)
    high = wide / ratio
    left = content.left if logo.corner.endswith("left") else content.right - wide
    below = frame.captions and frame.shape == "tall"  # under the captions is room that the page does not use
    bottom = frame.titles.bottom if below else content.bottom
    top = content.top if logo.corner.startswith("top") else bottom - high
    return Box(left, top, wide, high)


def logo_marks(zone: LogoZone, frame: Frame, look: Look) -> tuple[Shape | Image, ...]:
    """The logo, on the look's plate if it asks for one; nothing where its place is only kept free."""
    if zone.box is None or look.art is None:
        return ()
    if not look.logo.plate:
        return placed(look.art, zone.box, look.name)
    box, radius = zone.box, look.rounded(min(zone.box.width, zone.box.height), 1.5 * frame.grid)
    plate = rectangle(box.left, box.top, box.width, box.height, radius)
    inner = box.inset(0.12 * min(box.width, box.height))
    return Shape(name="logo/plate", outline=plate, fill=look.plate), *placed(look.art, inner, look.name)
