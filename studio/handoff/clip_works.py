"""The moving clips of the hand-off: those pictures that the rundown shows, transparent, for the edit."""

from collections.abc import Generator, Iterator
from functools import partial
from pathlib import Path

from studio.graphics.backdrop import on_background
from studio.graphics.look import Look
from studio.graphics.paint.movies import DEFAULT_MOVIE, KINDS, MovieError, check_movie
from studio.graphics.scene import Scene
from studio.handoff.gathering import picture_files
from studio.handoff.material import Material
from studio.handoff.works import Work, fingerprint
from studio.model.rundown import Rate

MOVIE = DEFAULT_MOVIE


def clip_works(material: Material) -> Iterator[Work]:
    """One clip for each picture that the rundown shows, at the rundown's rate."""
    rate = material.episode.rundown.rate
    shown = dict.fromkeys(its.picture for segment in material.schedule.segments for its in segment.pictures)
    files = picture_files(material.episode, material.scenes)
    for id_ in shown:
        if id_ not in material.scenes:
            continue
        scene = on_background(material.scenes[id_], material.look, None)
        file = f"clips/{Path(files[id_]).stem}{KINDS[MOVIE].ending}"
        write = partial(_write, scene, rate, material.look)
        made_of = fingerprint(scene, rate, MOVIE)
        yield Work("clips", file, scene.findings, made_of, _as_bytes, _lacking(scene), write)


def _write(scene: Scene, rate: Rate, look: Look, target: Path) -> Generator[float, None, str]:
    from studio.handoff.clips import write_clip

    written = yield from write_clip(scene, rate, MOVIE, look, target)
    return written.sha256


def _as_bytes() -> bytes:
    raise TypeError("a clip is written as it is drawn")


def _lacking(scene: Scene) -> str:
    try:
        check_movie(MOVIE, scene.frame, clear=True)
    except MovieError as error:
        return str(error)
    return ""
