"""Where a number was published, and how far to trust it."""

from typing import Literal

import msgspec

Standing = Literal["published", "published, restated", "computed", "common practice", "from memory"]


class Source(msgspec.Struct, frozen=True, kw_only=True, cache_hash=True):
    """One source of a number: a document, the place in it, and its standing."""

    title: str
    locator: str
    standing: Standing
