"""Motion as data: a clip is a finished picture, and for every step what fades, draws, travels or changes, and when.

Times are counts of frames at an exact rate. A movement of n frames has n frames between its start, which still shows
how things were, and its end, where everything stands as in the picture.
"""

from typing import Literal

import msgspec

from studio.graphics.scene import AnyMark, Outline, Point, Scene, Shape
from studio.model.rundown import Rate

Pace = Literal["out", "rolling"]
"""``out`` starts swiftly and comes to rest; ``rolling`` gets going first, as a wheel does."""

_GETS_GOING = 0.25  # the share of its time in which a wheel gains speed


class Movement(msgspec.Struct, frozen=True, kw_only=True):
    """What moves (indices into the clip's marks), from which frame, for how many frames."""

    marks: tuple[int, ...]
    start: int
    frames: int
    pace: Pace = "out"

    @property
    def end(self) -> int:
        """The first frame in which it is over."""
        return self.start + self.frames

    def share(self, frame: int) -> float:
        """How far it is in ``frame``, 0 to 1."""
        if frame < self.start:
            return 0.0
        return paced(min(1.0, (frame - self.start + 1) / (self.frames + 1)), self.pace)


class Fade(Movement, frozen=True, kw_only=True, tag="fade"):
    """Marks appear where they stay, as one; ``away`` lets them go."""

    away: bool = False


class Draw(Movement, frozen=True, kw_only=True, tag="draw"):
    """Lines are drawn from their start, ``backwards`` from their end."""

    backwards: bool = False


class Uncover(Movement, frozen=True, kw_only=True, tag="uncover"):
    """Marks show up to a front that moves from one point to another."""

    origin: Point
    target: Point


class Travel(Movement, frozen=True, kw_only=True, tag="travel"):
    """Marks move as one body. ``way`` says where its ``center`` is, at even distances, the last where it stays.

    ``turns`` are its degrees clockwise, one for each point of the way. ``lit`` keeps the light where it comes from
    while the body turns.
    """

    center: Point
    way: tuple[Point, ...]
    turns: tuple[float, ...]
    lit: bool = False


class Morph(Movement, frozen=True, kw_only=True, tag="morph"):
    """Each mark's outline changes from the one in ``begins`` to its own; both are of like build."""

    begins: tuple[Outline, ...]


AnyMovement = Fade | Draw | Uncover | Travel | Morph


class Guest(msgspec.Struct, frozen=True):
    """A mark that is there only while it moves: over everything, or right ``above`` a mark of the picture."""

    mark: Shape
    above: int | None = None


class StepTimes(msgspec.Struct, frozen=True):
    """A step's frames: it moves from ``start``, stands from ``still``, and ends before ``end``."""

    start: int
    still: int
    end: int


class Clip(msgspec.Struct, frozen=True, kw_only=True):
    """A moving picture: ``opening`` frames of bare ground, then step by step to the finished picture.

    ``guests`` are there only while they move.
    """

    scene: Scene
    rate: Rate
    opening: int
    steps: tuple[StepTimes, ...]
    movements: tuple[AnyMovement, ...]
    guests: tuple[Guest, ...] = ()

    @property
    def frames(self) -> int:
        """How many frames there are."""
        return self.steps[-1].end if self.steps else self.opening

    @property
    def marks(self) -> tuple[AnyMark, ...]:
        """All marks that movements speak of: the picture's, then the guests."""
        return (*self.scene.marks, *(guest.mark for guest in self.guests))

    def step_at(self, frame: int) -> int:
        """The step to which a frame belongs; -1 in the opening. Raises IndexError beyond the ends."""
        if not 0 <= frame < self.frames:
            raise IndexError(f"the clip has {self.frames} frames, there is no frame {frame}")
        return next((order for order, times in enumerate(self.steps) if frame < times.end), 0) if (
            frame >= self.opening) else -1  # fmt: skip

    def still_at(self, frame: int) -> Scene | None:
        """The picture that stands in a frame; None while something moves."""
        step = self.step_at(frame)
        return self.scene.up_to(step) if step < 0 or frame >= self.steps[step].still else None

    def movements_of(self, step: int) -> tuple[AnyMovement, ...]:
        """What moves in a step."""
        times = self.steps[step]
        return tuple(movement for movement in self.movements if times.start <= movement.start < times.still)


def paced(share: float, pace: Pace) -> float:
    """How far a movement has come when ``share`` of its time is over."""
    if pace == "out":
        return share * (2 - share)
    if share < _GETS_GOING:
        return share * share / _GETS_GOING
    return 1 - (1 - share) ** 2 / (1 - _GETS_GOING)
