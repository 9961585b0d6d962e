"""What differs between two episodes, line by line, for a person who must choose between them."""

from typing import Any

import msgspec

MOST_LINES = 40
_MOST_CHARACTERS = 60


def differences(before: Any, after: Any) -> tuple[str, ...]:
    """Lines such as ``car.name: 'Van' -> 'Our van'``; at most ``MOST_LINES``, then how many more there are."""
    lines: list[str] = []
    _collect(before, after, "", lines)
    if len(lines) > MOST_LINES:
        return (*lines[:MOST_LINES], f"and {len(lines) - MOST_LINES} more")
    return tuple(lines)


def _collect(before: Any, after: Any, path: str, lines: list[str]) -> None:
    if before == after:
        return
    if type(before) is type(after) and isinstance(before, msgspec.Struct) and not hasattr(before, "measures"):
        for name in before.__struct_fields__:
            _collect(getattr(before, name), getattr(after, name), f"{path}.{name}".removeprefix("."), lines)
    elif isinstance(before, tuple) and isinstance(after, tuple):
        for index in range(max(len(before), len(after))):
            old = before[index] if index < len(before) else None
            new = after[index] if index < len(after) else None
            _collect(old, new, f"{path}[{index}]", lines)
    else:
        lines.append(f"{path}: {_shown(before)} → {_shown(after)}")


def _shown(value: Any) -> str:
    if value is None or value == () or value == "":
        return "nothing"
    if hasattr(value, "measures"):
        return str(value.text())
    text = f"a {type(value).__name__.lower()}" if isinstance(value, msgspec.Struct) else repr(value)
    return text if len(text) <= _MOST_CHARACTERS else text[: _MOST_CHARACTERS - 1] + "…"
