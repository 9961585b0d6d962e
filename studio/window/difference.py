"""Where two episodes differ, as a path: what an undo has changed, so that it can be selected."""

from typing import Any

import msgspec


def first_difference(before: Any, after: Any) -> str:
    """The path to the deepest single part in which the two differ; empty where they are equal or wholly other."""
    return _difference(before, after).removeprefix(".")


def _difference(before: Any, after: Any) -> str:
    if type(before) is not type(after):
        return ""
    if isinstance(before, msgspec.Struct):
        names = [name for name in before.__struct_fields__ if getattr(before, name) != getattr(after, name)]
        if not names:
            return ""
        name = names[0]
        return f".{name}" + _difference(getattr(before, name), getattr(after, name))
    if isinstance(before, tuple):
        return _difference_of_rows(before, after)
    return ""


def _difference_of_rows(before: tuple[Any, ...], after: tuple[Any, ...]) -> str:
    """Of rows of unlike length, the first one that differs and is there in both; else the last one left."""
    shared = min(len(before), len(after))
    unlike = [index for index in range(shared) if before[index] != after[index]]
    if unlike:
        index = unlike[0]
        return f"[{index}]" + (_difference(before[index], after[index]) if len(before) == len(after) else "")
    return f"[{shared}]" if len(before) != len(after) else ""
