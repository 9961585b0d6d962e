"""Frames: the shape of a picture, its safe areas, its grid, its sizes of type.

Safe areas: EBU R 95 (action 3.5 %, graphics and titles 5 % of each edge). Cap heights by role as shares of the
shorter side: 1/36 small print, 1/30 callouts, 1/24 headings, 1/18 the deciding number (house rule).
"""

import re

import msgspec

_SHARES = {"deciding": 18, "heading": 24, "callout": 30, "small": 36, "incidental": 60}
_ACTION, _TITLES = 0.035, 0.05
_LEAST, _MOST = 320, 7680
_LONG = 1.55  # from this ratio of the sides on there is room beside or below a drawing; 4:3, 3:2 and 4:5 are squarish


class Box(msgspec.Struct, frozen=True):
    """A rectangle in px of the frame."""

    left: float
    top: float
    width: float
    height: float

    @property
    def right(self) -> float:
        return self.left + self.width

    @property
    def bottom(self) -> float:
        return self.top + self.height

    @property
    def center(self) -> tuple[float, float]:
        return (self.left + self.width / 2, self.top + self.height / 2)

    def inset(self, by: float) -> "Box":
        """The box made smaller by ``by`` on each side."""
        return Box(self.left + by, self.top + by, self.width - 2 * by, self.height - 2 * by)

    def meets(self, other: "Box", gap: float = 0.0) -> bool:
        """Whether the two overlap or come closer than ``gap``."""
        return (
            self.left < other.right + gap and other.left < self.right + gap
            and self.top < other.bottom + gap and other.top < self.bottom + gap
        )  # fmt: skip

    def holds(self, other: "Box", slack: float = 0.01) -> bool:
        """Whether ``other`` lies inside."""
        return (
            other.left >= self.left - slack and other.right <= self.right + slack
            and other.top >= self.top - slack and other.bottom <= self.bottom + slack
        )  # fmt: skip


class Frame(msgspec.Struct, frozen=True):
    """A picture's size in px; ``captions`` keeps the caption band free of meaning."""

    width: int
    height: int
    captions: bool = False

    @property
    def short(self) -> int:
        """The shorter side, S: sizes of type are shares of it."""
        return min(self.width, self.height)

    @property
    def grid(self) -> float:
        """The unit of all distances, S/90."""
        return self.short / 90

    @property
    def shape(self) -> str:
        """``wide``, ``tall`` or ``square``: which composition suits."""
        ratio = self.width / self.height
        return "wide" if ratio > _LONG else "tall" if ratio < 1 / _LONG else "square"

    @property
    def action(self) -> Box:
        return self._inside(_ACTION)

    @property
    def titles(self) -> Box:
        return self._inside(_TITLES)

    @property
    def content(self) -> Box:
        """The title-safe area less the caption band, if that is reserved: the bottom 20 %, in tall frames 60-85 %."""
        titles = self.titles
        if not self.captions:
            return titles
        bottom = self.height * (0.6 if self.shape == "tall" else 0.8)
        return Box(titles.left, titles.top, titles.width, bottom - titles.top)

    def cap_height(self, role: str) -> float:
        """The cap height in px of a role of text; ``incidental`` never below what recognition needs."""
        return self.short / _SHARES[role]

    def _inside(self, share: float) -> Box:
        x, y = self.width * share, self.height * share
        return Box(x, y, self.width - 2 * x, self.height - 2 * y)


FRAMES = {"wide": Frame(1920, 1080), "tall": Frame(1080, 1920), "square": Frame(1080, 1080)}


def read_frame(text: str) -> Frame:
    """A frame by name or as ``1280x720``; raises ValueError saying what is expected."""
    if text in FRAMES:
        return FRAMES[text]
    found = re.fullmatch(r"(\d{2,5})[x×](\d{2,5})", text.strip().lower())
    if not found or not all(_LEAST <= int(side) <= _MOST for side in found.groups()):
        raise ValueError(
            f"{text[:40]!r} is not a frame: expected wide, tall, square or WIDTHxHEIGHT with sides of "
            f"{_LEAST} to {_MOST} px, such as 1280x720"
        )
    return Frame(int(found[1]), int(found[2]))
