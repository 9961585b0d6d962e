"""The one way from a picture's data to its scene: in the look's own face, in a frame that keeps the look's zones."""

from typing import Any, Protocol

from msgspec.structs import replace

from studio.graphics.face import set_in
from studio.graphics.frame import Frame
from studio.graphics.look import Look
from studio.graphics.scene import Scene


class Composes(Protocol):
    """What a picture of the catalogue can do."""

    def compose(self, data: Any, frame: Frame, look: Look) -> Scene:
        """The picture for this frame and look."""


def composed(entry: Composes, data: Any, frame: Frame, look: Look) -> Scene:
    """The scene of ``data`` as the channel shows it."""
    with set_in(look.face):
        return entry.compose(data, frame_for(frame, look), look)


def frame_for(frame: Frame, look: Look) -> Frame:
    """The frame with the caption band kept free, where the frame or the look wants that."""
    return replace(frame, captions=frame.captions or look.zones.captions)
