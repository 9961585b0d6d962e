"""A caution: what stands with a finding, a picture or a segment wherever it goes."""

from typing import Literal

import msgspec

from studio.model.source import Source

Signal = Literal["WARNING", "CAUTION", "NOTICE"]
LONGEST = 160
"""Characters of a caution; a longer one has no room on a picture."""


class Caution(msgspec.Struct, frozen=True, kw_only=True):
    """Signal word, hazard, consequence and how to avoid it, in one short text.

    ``refers`` says that the text itself names the professional who must look.
    """

    id: str
    signal: Signal
    text: str
    refers: bool
    source: Source

    def __post_init__(self) -> None:
        if len(self.text) > LONGEST:
            raise ValueError(f"text has {len(self.text)} characters, a caution has at most {LONGEST}")
