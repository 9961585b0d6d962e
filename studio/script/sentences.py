"""Where sentences begin, so that words are only held against numbers of the same one."""

import re
from bisect import bisect_right
from collections.abc import Sequence

_END = re.compile(r"(?:[.!?…]+[\"”’')\]]*\s+(?=[^a-z\s])|\n+)")
REACH = 240  # characters to either side of a number that are looked at, however long its sentence is


def sentence_starts(text: str) -> list[int]:
    """The start of each sentence of ``text``, in its order; the first is 0."""
    return [0, *(end.end() for end in _END.finditer(text) if end.end() < len(text))]


def sentence_span(starts: Sequence[int], at: int, length: int) -> tuple[int, int]:
    """The sentence that holds the character ``at`` of a text of that ``length``."""
    place = bisect_right(starts, at) - 1
    return starts[place], starts[place + 1] if place + 1 < len(starts) else length
