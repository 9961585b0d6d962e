"""A page of pictures side by side: each a whole scene in a box of the page."""

import msgspec

from studio.graphics.frame import Box
from studio.graphics.scene import Scene


class Cell(msgspec.Struct, frozen=True):
    """A picture and where it stands on the page; the box has the picture's shape."""

    scene: Scene
    box: Box


class Sheet(msgspec.Struct, frozen=True, kw_only=True):
    """``page`` holds what stands round the pictures; they are painted over it."""

    page: Scene
    cells: tuple[Cell, ...]
