"""Put a value into a frozen episode: a path such as ``specimens[2].marking`` and a new value give a new episode."""

from typing import TypeVar

from msgspec.structs import replace

from studio.model.paths import steps

Root = TypeVar("Root")


def put(root: Root, path: str, value: object) -> Root:
    """``root`` with ``value`` at ``path``; all else is shared. Raises LookupError if the path leads nowhere."""
    try:
        return _put(root, steps(path), value)  # type: ignore[return-value]
    except (AttributeError, IndexError, TypeError) as error:
        raise LookupError(f"nothing at {path}") from error


def _put(root: object, path: tuple[str | int, ...], value: object) -> object:
    if not path:
        return value
    step, rest = path[0], path[1:]
    if isinstance(step, int):
        if not isinstance(root, tuple):
            raise TypeError(f"{type(root).__name__} has no rows")
        return (*root[:step], _put(root[step], rest, value), *root[step + 1 :])
    return replace(root, **{step: _put(getattr(root, step), rest, value)})  # type: ignore[type-var]
