"""Paths into an episode, such as ``specimens[2].readings[0].depths[1][3]``: how a finding names its inputs."""

import re
from typing import Any

_STEP = re.compile(r"\.?([a-z_]+)|\[(\d+)\]")


def steps(path: str) -> tuple[str | int, ...]:
    """The steps of ``path``; raises ValueError if it is not one."""
    found, end = [], 0
    for match in _STEP.finditer(path):
        if match.start() != end:
            break
        found.append(int(match[2]) if match[2] else match[1])
        end = match.end()
    if end != len(path) or not found:
        raise ValueError(f"{path!r} is not a path into an episode, such as specimens[2].marking")
    return tuple(found)


def value_at(root: Any, path: str) -> Any:
    """What ``path`` leads to; raises LookupError if there is nothing there."""
    here = root
    for step in steps(path):
        try:
            here = here[step] if isinstance(step, int) else getattr(here, step)
        except (AttributeError, IndexError, TypeError) as error:
            raise LookupError(f"nothing at {path}") from error
    return here
