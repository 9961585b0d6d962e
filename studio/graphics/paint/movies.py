"""The kinds of moving picture: what each is for, and what it can hold. Nothing heavy is loaded to know that."""

import importlib.util
from typing import Literal, get_args

import msgspec

from studio.graphics.frame import Frame

Movie = Literal["png", "prores", "qtrle", "webm", "mp4"]
MOVIES: tuple[str, ...] = get_args(Movie)
DEFAULT_MOVIE: Movie = "qtrle"
"""Exact as the stills are, with alpha, in one file, the smallest and fastest of those: flat areas repeat."""
EXTRA = "clips"


class MovieError(ValueError):
    """A moving picture of that kind cannot be made; the message is one line."""


class Kind(msgspec.Struct, frozen=True, kw_only=True):
    """A kind: the file's ending (none for a folder), whether it keeps transparency, whether sides must be even."""

    ending: str
    alpha: bool = True
    even: bool = False
    words: str = ""


KINDS: dict[str, Kind] = {
    "png": Kind(ending="", words="a folder of PNG files, one a frame, exact"),
    "prores": Kind(ending=".mov", words="ProRes 4444, for the edit"),
    "qtrle": Kind(ending=".mov", words="QuickTime Animation, exact, for the edit"),
    "webm": Kind(ending=".webm", even=True, words="VP9, for the web"),
    "mp4": Kind(ending=".mp4", alpha=False, even=True, words="H.264, opaque"),
}


def check_movie(movie: str, frame: Frame, clear: bool) -> None:
    """Raise MovieError, in one line, if a clip of that kind and size cannot be made here."""
    kind = KINDS.get(movie)
    if kind is None:
        raise MovieError(f"{movie[:20]!r} is not a kind of movie; expected {', '.join(MOVIES)}")
    if clear and not kind.alpha:
        raise MovieError(
            f"{movie} has no transparency: choose the look or a colour as its background, or one of "
            f"{', '.join(name for name, other in KINDS.items() if other.alpha)}"
        )
    if kind.even and (frame.width % 2 or frame.height % 2):
        even = f"{frame.width - frame.width % 2}x{frame.height - frame.height % 2}"
        raise MovieError(f"{movie} needs even sides, {frame.width}x{frame.height} has not: ask for {even}")
    if movie != "png" and importlib.util.find_spec("av") is None:
        raise MovieError(
            f"{movie} needs the extra {EXTRA}, which is not installed: pip install 'tire-episode-studio[{EXTRA}]', "
            "or choose png, a folder of PNG files"
        )
