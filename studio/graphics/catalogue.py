"""The catalogue of pictures: each is a small stateless class that turns findings into a Scene.

``data`` decides what is shown, ``compose`` how; neither computes a tire number.
"""

import importlib
from collections.abc import Callable
from typing import Any, Protocol, TypeVar

import msgspec

from studio.graphics.composing import composed
from studio.graphics.frame import Frame
from studio.graphics.look import Look
from studio.graphics.scene import Scene
from studio.model.episode import Episode
from studio.model.finding import Findings
from studio.model.quantity import System

_MODULES = (
    "size_code", "cross_section", "sizes_beside", "rotation", "depth_compare", "depth_by_wheel", "coins",
    "wear_bars", "wear_profile", "date_code", "axle_match", "life_left", "choices", "ratings", "hydroplaning",
    "pressure_temperature", "repair_zone", "damage", "placard", "answer",
)  # fmt: skip


class CannotShow(ValueError):
    """The picture has nothing to show yet; the message says what is missing."""


class Request(msgspec.Struct, frozen=True, kw_only=True):
    """What is wanted of a picture: which specimens (by id; empty is the picture's own choice), units, another title.

    Of a viewer's answer the one id chosen is a question's; it comes with the findings.
    """

    specimens: tuple[str, ...] = ()
    units: System = "us"
    title: str = ""


class Picture(Protocol):
    """One entry of the catalogue. ``id`` stands in episode files, ``name`` in the window."""

    id: str
    name: str
    takes: int
    """How many specimens a person may choose for it (0: it shows the whole car)."""

    def data(self, episode: Episode, findings: Findings, request: Request) -> Any:
        """What is shown, as a frozen value. Raises CannotShow."""

    def compose(self, data: Any, frame: Frame, look: Look) -> Scene:
        """The picture for this frame and look."""


CATALOGUE: dict[str, Picture] = {}
_Entry = TypeVar("_Entry", bound=type[Any])


def picture(id_: str) -> Callable[[_Entry], _Entry]:
    """Enter a picture class in the catalogue, under the id that episode files hold."""

    def enter(cls: _Entry) -> _Entry:
        if id_ in CATALOGUE:
            raise ValueError(f"two pictures are named {id_!r}")
        cls.id = id_
        CATALOGUE[id_] = cls()
        return cls

    return enter


def catalogue() -> dict[str, Picture]:
    """All pictures, in the order in which an episode wants them; imported when first asked for."""
    for module in _MODULES:
        importlib.import_module(f"studio.graphics.{module}")
    return {id_: CATALOGUE[id_] for id_ in _MODULES}


def request_for(episode: Episode, id_: str) -> Request:
    """The presenter's own choice for a picture, as the episode holds it."""
    for choice in episode.pictures:
        if choice.picture == id_:
            return Request(specimens=choice.specimens, units=episode.units, title=choice.title)
    return Request(units=episode.units)


def scene_of(episode: Episode, findings: Findings, id_: str, frame: Frame, look: Look) -> Scene:
    """One picture of an episode; raises CannotShow, or KeyError for an id that is not in the catalogue."""
    entry = catalogue()[id_]
    return composed(entry, entry.data(episode, findings, request_for(episode, id_)), frame, look)
