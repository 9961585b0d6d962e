"""Where a tire stands: the four corners of the car, the spare's place, or the bench."""

from typing import Literal

Place = Literal["front_left", "front_right", "rear_left", "rear_right", "spare", "bench"]
CORNERS: tuple[Place, ...] = ("front_left", "front_right", "rear_left", "rear_right")
ON_CAR: tuple[Place, ...] = (*CORNERS, "spare")
AXLES: dict[str, tuple[Place, Place]] = {
    "front": ("front_left", "front_right"),
    "rear": ("rear_left", "rear_right"),
}
_WORDS: dict[str, str] = {
    "front_left": "front left", "front_right": "front right", "rear_left": "rear left", "rear_right": "rear right",
    "spare": "spare", "bench": "bench",
}  # fmt: skip


def place_words(place: str) -> str:
    """``front_left`` as people say it: ``front left``."""
    return _WORDS[place]
