"""Writes an episode's pictures into a folder, file by file, with a list of what each was made from."""

import contextlib
import errno
from collections.abc import Generator, Iterator
from contextlib import closing
from dataclasses import dataclass
from hashlib import sha256
from pathlib import Path
from typing import cast

import msgspec

from studio.graphics.backdrop import on_background
from studio.graphics.catalogue import CannotShow, scene_of
from studio.graphics.layout.text import font_path, missing_glyphs
from studio.graphics.look import Look, read_background
from studio.graphics.scene import ArcText, Scene, Text
from studio.handoff.clips import Written, write_clip
from studio.handoff.picture_files import (
    LIST_NAME,
    Entry,
    Wanted,
    check,
    encode_list,
    entry_of,
    file_name,
    rundown_order,
)
from studio.model.episode import Episode
from studio.model.finding import Findings
from studio.storage.atomic import reason, write_atomically
from studio.storage.errors import StorageError, plain

_LICENCES = {"Inter": "Inter-OFL.txt", "DejaVu": "DejaVu-LICENSE.txt"}
_STOPS_ALL = (errno.ENOSPC, errno.EDQUOT, errno.EROFS, errno.ENOENT, errno.ENOTDIR, errno.EACCES, errno.EPERM)


class Progress(msgspec.Struct, frozen=True, kw_only=True):
    """How far an export is: pictures done of all; the file just written, or why there is none; what to look at.

    While a clip is written, ``share`` of it is done and there is no file yet.
    """

    done: int
    total: int
    picture: str
    entry: Entry | None = None
    problem: str = ""
    failed: bool = False
    """Whether ``problem`` is that something went wrong, not that there is nothing to show yet."""
    warning: str = ""
    share: float = 0.0


def export_pictures(
    episode: Episode, findings: Findings, look: Look, wanted: Wanted, folder: Path
) -> Iterator[Progress]:
    """Write what is ``wanted`` into ``folder``; each step of the iteration writes one file and says so.

    Whoever stops iterating stops the export: what was written is whole, and ``pictures.json`` names it. A picture that
    fails is reported and the rest are made. Raises ValueError for what cannot be wanted, StorageError where nothing can
    be written; both before the first step, a disk that fills up later at that step.
    """
    check(wanted, look)
    order = wanted.order or rundown_order(episode)
    wanted = msgspec.structs.replace(wanted, rate=wanted.rate or episode.rundown.rate, order=order)
    try:
        folder.mkdir(parents=True, exist_ok=True)
    except OSError as error:
        raise StorageError(f"no pictures were written to {plain(folder.name)}: {reason(error, folder)}") from error
    return _Export(episode, findings, look, wanted, folder).run()


@dataclass(frozen=True)
class _Export:
    episode: Episode
    findings: Findings
    look: Look
    wanted: Wanted
    folder: Path

    def run(self) -> Iterator[Progress]:
        ids, made = self.wanted.in_order(), list[Entry]()
        try:
            for order, id_ in enumerate(ids):
                for progress in self.picture(id_, order, len(ids)):
                    if progress.entry:
                        made.append(progress.entry)
                    yield progress
        except BaseException:  # stopped, or the disk is full: what is there is named all the same
            with contextlib.suppress(StorageError):
                self.write_list(made)
            raise
        self.write_list(made)

    def picture(self, id_: str, order: int, total: int) -> Iterator[Progress]:
        """One picture, or each of its steps."""
        try:
            whole = scene_of(self.episode, self.findings, id_, self.wanted.frame, self.look)
            scene = on_background(whole, self.look, read_background(self.wanted.background, self.look))
        except CannotShow as error:
            yield Progress(done=order + 1, total=total, picture=id_, problem=plain(f"{id_}: {error}"))
            return
        except Exception as error:  # whatever is wrong with one picture, the others are made
            yield Progress(done=order + 1, total=total, picture=id_, problem=_sentence(id_, error), failed=True)
            return
        count = len(scene.steps)
        single = self.wanted.steps == "all" and self.wanted.format != "clip"
        for step in range(count) if single and count else (None,):
            done = order + (step in (None, count - 1))
            progress = Progress(done=done, total=total, picture=id_)
            try:
                entry = yield from self.file(scene, id_, step, msgspec.structs.replace(progress, done=order))
                yield msgspec.structs.replace(progress, entry=entry, warning=_warning(id_, scene))
            except Exception as error:
                if isinstance(error, StorageError) and getattr(error.__cause__, "errno", None) in _STOPS_ALL:
                    raise
                yield msgspec.structs.replace(progress, problem=_sentence(id_, error), failed=True)

    def file(self, scene: Scene, id_: str, step: int | None, going: Progress) -> Generator[Progress, None, Entry]:
        """One file; a clip says how far it is while it is written."""
        if self.wanted.format != "clip":
            return self.write(scene, id_, step)
        file = file_name(id_, self.wanted, None, len(scene.steps))
        movie, rate = self.wanted.movie, self.wanted.rate
        with closing(write_clip(scene, rate, movie, self.look, self.folder / file)) as writing:
            written = yield from _told(writing, going)
        entry = entry_of(scene, self.wanted, file, None, written.sha256)
        return msgspec.structs.replace(entry, movie=movie, rate=rate, frames=written.frames,
                                       duration_s=written.duration_s)  # fmt: skip

    def write(self, scene: Scene, id_: str, step: int | None) -> Entry:
        """Paint the picture up to ``step`` (None: all of it), write it, and say what the list says of it."""
        shown = scene if step is None else scene.up_to(step)
        file = file_name(id_, self.wanted, step, len(scene.steps))
        content = painted(shown, self.wanted, self.episode.channel)
        if self.wanted.format == "svg" and not self.wanted.outlined:
            self.write_fonts(shown)
        write_atomically(self.folder / file, content)
        name = None if step is None else scene.steps[step]
        return entry_of(shown, self.wanted, file, name, sha256(content).hexdigest())

    def write_fonts(self, scene: Scene) -> None:
        """The fonts of a scene beside its SVG, with their licences."""
        from studio.graphics.paint.svg import FONT_FOLDER, font_files, font_name

        beside, files = self.folder / FONT_FOLDER, font_files(scene)
        licences = [licence for family, licence in _LICENCES.items() if any(file.startswith(family) for file in files)]
        beside.mkdir(exist_ok=True)
        for file in (*files, *licences):
            content, name = font_path(file).read_bytes(), font_name(file)
            if not _holds(beside / name, content):
                write_atomically(beside / name, content)

    def write_list(self, made: list[Entry]) -> None:
        if made:
            write_atomically(self.folder / LIST_NAME, encode_list(made))


def painted(scene: Scene, wanted: Wanted, author: str) -> bytes:
    """The bytes of one file; the hand that paints it is loaded when first needed."""
    if wanted.format == "png":
        from studio.graphics.paint.raster import png

        return png(scene)
    if wanted.format == "svg":
        from studio.graphics.paint.svg import svg

        return svg(scene, outlined=wanted.outlined).encode("utf-8")
    from studio.graphics.paint.pdf import pdf

    return pdf((scene,), author=author)


def _told(writing: Generator[float, None, Written], going: Progress) -> Generator[Progress, None, Written]:
    """The shares of a clip as progress; returns what was written."""
    while True:
        try:
            share = next(writing)
        except StopIteration as end:
            return cast("Written", end.value)
        yield msgspec.structs.replace(going, share=share)


def _holds(path: Path, content: bytes) -> bool:
    try:
        return path.stat().st_size == len(content) and path.read_bytes() == content
    except OSError:
        return False


def _warning(id_: str, scene: Scene) -> str:
    texts = [(mark.text, mark.face) for mark in scene.marks if isinstance(mark, Text | ArcText)]
    missing = "".join(dict.fromkeys("".join(missing_glyphs(*text) for text in texts)))
    if not missing:
        return ""
    signs = ", ".join(f"{plain(sign)} (U+{ord(sign):04X})" for sign in missing[:5])
    more = f" and {len(missing) - 5} more" if len(missing) > 5 else ""
    return f"{id_}: no shipped font has {signs}{more}; a box is drawn in its place"


def _sentence(id_: str, error: Exception) -> str:
    if isinstance(error, StorageError):
        return plain(f"{id_}: {error}")
    return plain(f"{id_}: it could not be drawn ({type(error).__name__}: {error})"[:300])
