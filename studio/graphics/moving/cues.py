"""What a step does, in the making: movements from the step's start on, to be set into a clip's frames."""

from collections.abc import Callable, Sequence
from fractions import Fraction

import msgspec

from studio.graphics.motion import AnyMovement, Guest
from studio.graphics.scene import Scene
from studio.model.rate import frames_in
from studio.model.rundown import Rate

DRAWING_MS, LINE_MS, LABEL_MS, DOT_MS = 400, 250, 200, 120
OPENING_MS = 200


class Clock(msgspec.Struct, frozen=True):
    """Milliseconds to frames at one rate; nothing that moves takes less than a frame."""

    rate: Rate

    def frames(self, ms: int) -> int:
        """The count of frames nearest to ``ms``, at least one."""
        return max(1, frames_in(Fraction(ms, 1000), self.rate))


class Act(msgspec.Struct, frozen=True, kw_only=True):
    """What a picture does of its own in a step: movements (start 0 is the step's), which take ``frames`` in all.

    The marks that it does not move are built up as in any picture, lines and labels after it. A guest is spoken of by
    ``guest_index``.
    """

    movements: tuple[AnyMovement, ...] = ()
    guests: tuple[Guest, ...] = ()
    frames: int = 0

    @property
    def moved(self) -> frozenset[int]:
        """The marks that it moves."""
        return frozenset(index for movement in self.movements for index in movement.marks)


Special = Callable[[Scene, int, Clock], Act]


def guest_index(order: int) -> int:
    """How an act's movements speak of its guest of that order."""
    return -1 - order


def settled(movement: AnyMovement, start: int, first_guest: int) -> AnyMovement:
    """The movement of an act in the clip's own frames and indices."""
    marks = tuple(index if index >= 0 else first_guest - 1 - index for index in movement.marks)
    return msgspec.structs.replace(movement, marks=marks, start=movement.start + start)


def indices(scene: Scene, step: int) -> tuple[int, ...]:
    """The marks of a step, in painting order."""
    return tuple(index for index, mark in enumerate(scene.marks) if mark.step == step)


def together(*acts: Act) -> Act:
    """Several acts at once."""
    movements: list[AnyMovement] = []
    guests: list[Guest] = []
    for act in acts:
        movements += [_past(movement, len(guests)) for movement in act.movements]
        guests += act.guests
    return Act(movements=tuple(movements), guests=tuple(guests), frames=max((act.frames for act in acts), default=0))


def _past(movement: AnyMovement, guests: int) -> AnyMovement:
    marks = tuple(index if index >= 0 else index - guests for index in movement.marks)
    return msgspec.structs.replace(movement, marks=marks)


def last_end(movements: Sequence[AnyMovement]) -> int:
    """The first frame in which all are over."""
    return max((movement.end for movement in movements), default=0)
