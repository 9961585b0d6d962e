"""Find a text in the car and its tires: the paths of all that hold it."""

from typing import Any

import msgspec

from studio.model.episode import Episode


def matches(episode: Episode, text: str) -> tuple[str, ...]:
    """The paths, in the episode's order, of the texts that hold ``text``, capitals and small letters alike."""
    wanted = text.casefold().strip()
    if not wanted:
        return ()
    found: list[str] = []
    _collect(episode.specimens, "specimens", wanted, found)
    _collect(episode.car, "car", wanted, found)
    _collect(episode.prices, "prices", wanted, found)
    _collect(episode.circumstances, "circumstances", wanted, found)
    return tuple(found)


def _collect(value: Any, path: str, wanted: str, found: list[str]) -> None:
    if isinstance(value, str):
        if wanted in value.casefold():
            found.append(path)
    elif isinstance(value, tuple):
        for index, each in enumerate(value):
            _collect(each, f"{path}[{index}]", wanted, found)
    elif isinstance(value, msgspec.Struct):
        for name in value.__struct_fields__:
            _collect(getattr(value, name), f"{path}.{name}", wanted, found)
