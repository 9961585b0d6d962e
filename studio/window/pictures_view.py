"""How the pictures are looked at now: not part of the episode, and not a step of undo."""

from dataclasses import dataclass, replace
from pathlib import Path

from studio.graphics.frame import FRAMES, Frame
from studio.graphics.look import Look, LookError, look_for, shipped_looks
from studio.model.episode import Episode

KEY_COLOR = "#00B140"
"""The green offered as a key colour at first; common practice, no source."""
PHONE_SHORT = 360
"""The shorter side, in px, of the picture as a phone shows it: 640 by 360."""


@dataclass(frozen=True)
class View:
    """Frame, background and step shown; ``step`` None is the finished picture."""

    picture: str = ""
    frame: Frame = FRAMES["wide"]
    background: str = "look"
    step: int | None = None
    guides: bool = False
    phone: bool = False

    def of(self, picture: str) -> "View":
        """The same for another picture, finished."""
        return replace(self, picture=picture, step=None)


def look_of(episode: Episode, folder: Path | None = None) -> Look:
    """The episode's look, named from its ``folder``; the first shipped one where it cannot be used."""
    try:
        return look_for(episode.look, folder)
    except LookError:
        return next(iter(shipped_looks().values()))


def fitted(frame: Frame, width: float, height: float, phone: bool) -> tuple[float, float]:
    """The size at which a picture of ``frame`` is shown in a field; never larger than itself, or than on a phone."""
    most = PHONE_SHORT / frame.short if phone else 1.0
    scale = max(0.01, min(most, width / frame.width, height / frame.height))
    return frame.width * scale, frame.height * scale
