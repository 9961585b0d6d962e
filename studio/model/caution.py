"""A caution: what stands with a finding, a picture or a segment wherever it goes."""

from typing import Literal

import msgspec

from studio.model.source import Source

Signal = Literal["WARNING", "CAUTION", "NOTICE"]


class Caution(msgspec.Struct, frozen=True, kw_only=True):
    """Signal word, hazard, consequence and how to avoid it, in one short text.

    ``refers`` says that the text itself names the professional who must look.
    """

    id: str
    signal: Signal
    text: str
    refers: bool
    source: Source
