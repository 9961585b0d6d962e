"""A clip of a picture: its steps one after the other, each with its movement and the time to read it."""

import importlib
from math import ceil

from studio.graphics.motion import AnyMovement, Clip, Guest, StepTimes
from studio.graphics.moving.build_up import build_up
from studio.graphics.moving.cues import OPENING_MS, Act, Clock, Special, last_end, settled
from studio.graphics.scene import Scene
from studio.graphics.timing import step_holds
from studio.model.rate import RATES
from studio.model.rundown import Rate

_SPECIALS = {
    "rotation": "rotation", "depth_compare": "wearing", "wear_profile": "wearing", "cross_section": "wearing",
    "axle_match": "rolling", "sizes_beside": "rolling",
}  # fmt: skip


def clip_of(scene: Scene, rate: Rate) -> Clip:
    """The picture as a clip: first and last frames hold, each step holds as long as it takes to read."""
    clock, special = Clock(rate), special_for(scene.picture)
    movements: list[AnyMovement] = []
    guests: list[Guest] = []
    times: list[StepTimes] = []
    opening = at = clock.frames(OPENING_MS)
    for step, hold in enumerate(step_holds(scene)):
        act = special(scene, step, clock)
        own = (*act.movements, *build_up(scene, step, clock, act))
        first_guest = len(scene.marks) + len(guests)
        movements += [settled(movement, at, first_guest) for movement in own]
        guests += act.guests
        still = at + last_end(own)
        times.append(StepTimes(at, still, still + ceil(hold * RATES[rate])))
        at = times[-1].end
    return Clip(scene=scene, rate=rate, opening=opening, steps=tuple(times), movements=tuple(movements),
                guests=tuple(guests))  # fmt: skip


def special_for(picture: str) -> Special:
    """What a picture does of its own, step by step; nothing for most."""
    module = _SPECIALS.get(picture)
    if module is None:
        return _nothing
    found: Special = importlib.import_module(f"studio.graphics.moving.{module}").act
    return found


def _nothing(scene: Scene, step: int, clock: Clock) -> Act:
    return Act()
