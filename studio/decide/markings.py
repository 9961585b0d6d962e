"""A marking as the episode holds it, read; text that is none reads as nothing, and ``admission`` says why."""

from functools import lru_cache

from studio.tires.designation import parse_marking
from studio.tires.marking import Marking, MarkingError


@lru_cache(maxsize=256)
def read(text: str) -> Marking | None:
    """The marking; None where there is no text or it is no marking."""
    try:
        return parse_marking(text) if text.strip() else None
    except MarkingError:
        return None
