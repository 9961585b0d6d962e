"""The channel's own letters: which font files a picture is set in, instead of the shipped ones.

A picture class says how heavy a text is, never in which font: the face is that of the look under which it is composed
(``set_in``), and each text keeps it, so that whoever paints the scene later needs nothing else.
"""

from collections.abc import Iterator
from contextlib import contextmanager
from contextvars import ContextVar

import msgspec


class Face(msgspec.Struct, frozen=True, kw_only=True):
    """A family with a font file for each weight: a shipped file's name, or ``digest:path`` of a file of one's own."""

    family: str
    regular: str
    semibold: str
    bold: str


_CURRENT: ContextVar[Face | None] = ContextVar("face", default=None)


def current_face() -> Face | None:
    """The face in which texts are set now; None is the shipped one."""
    return _CURRENT.get()


@contextmanager
def set_in(face: Face | None) -> Iterator[None]:
    """Texts that are measured and made inside are set in ``face``."""
    token = _CURRENT.set(face)
    try:
        yield
    finally:
        _CURRENT.reset(token)
