"""Writes a picture as a clip: one movie file or a folder of PNG files, whole or not at all."""

import time
from collections.abc import Generator
from contextlib import closing
from fractions import Fraction
from io import BytesIO
from pathlib import Path
from typing import TypeVar, cast

import msgspec

from studio.graphics.look import Look
from studio.graphics.motion import Clip
from studio.graphics.moving.clips import clip_of
from studio.graphics.paint.movies import check_movie
from studio.graphics.scene import Scene
from studio.model.rate import RATES
from studio.model.rundown import Rate
from studio.storage.beside import file_beside, folder_beside

_SAID_EVERY_S = 0.1
_End = TypeVar("_End")


class Written(msgspec.Struct, frozen=True):
    """A clip that was written: its hash (of a folder: of all its files' bytes in order), its frames and length."""

    sha256: str
    frames: int
    duration_s: float


def write_clip(
    scene: Scene, rate: str, movie: str, look: Look, target: Path
) -> Generator[float, None, Written]:
    """Write the clip of a picture to ``target``; yields the share done, often enough to be stopped at any moment.

    Whoever stops iterating stops it: ``target`` is the new clip or what it was before, whole. Raises MovieError for a
    kind that cannot be made, StorageError for what the system refuses.
    """
    check_movie(movie, scene.frame, clear=scene.background is None)
    clip = clip_of(scene, cast("Rate", rate))
    if movie == "png":
        digest = yield from _folder(clip, target)
    else:
        digest = yield from _file(clip, movie, look, target)
    return Written(digest, clip.frames, float(Fraction(clip.frames) / RATES[clip.rate]))


def clip_bytes(scene: Scene, rate: Rate, movie: str, look: Look) -> bytes:
    """The clip of a picture as the bytes of one file; not for a folder of PNG files."""
    from studio.graphics.paint.video import write_movie

    check_movie(movie, scene.frame, clear=scene.background is None)
    stream = BytesIO()
    for _ in write_movie(clip_of(scene, rate), movie, stream, look.ground):
        pass
    return stream.getvalue()


def _folder(clip: Clip, target: Path) -> Generator[float, None, str]:
    from studio.graphics.paint.video import write_pngs

    with folder_beside(target) as part, closing(write_pngs(clip, part)) as writing:
        return (yield from _shares(clip, writing))


def _file(clip: Clip, movie: str, look: Look, target: Path) -> Generator[float, None, str]:
    from studio.graphics.paint.video import file_hash, write_movie

    with file_beside(target) as part:
        with part.open("xb") as stream, closing(write_movie(clip, movie, stream, look.ground)) as writing:
            yield from _shares(clip, writing)
        return file_hash(part)


def _shares(clip: Clip, writing: Generator[int, None, _End]) -> Generator[float, None, _End]:
    """The frames done as shares, said now and then; returns what the writing does."""
    said = time.monotonic()
    while True:
        try:
            done = next(writing)
        except StopIteration as end:
            return cast("_End", end.value)
        if time.monotonic() - said >= _SAID_EVERY_S:
            said = time.monotonic()
            yield done / clip.frames
