"""What is wanted of a picture on the window, and what came of it: plain values that threads pass to each other."""

from collections import deque
from collections.abc import Callable, Mapping
from dataclasses import dataclass, field
from pathlib import Path
from typing import Any

from PySide6.QtGui import QImage

from studio.graphics.backdrop import on_background
from studio.graphics.catalogue import CannotShow, Picture, request_for
from studio.graphics.composing import composed
from studio.graphics.frame import Frame
from studio.graphics.look import Look, read_background
from studio.graphics.paint.raster import image, png
from studio.graphics.scene import Scene
from studio.handoff.picture_files import Wanted, file_name, rundown_order
from studio.model.episode import Episode
from studio.model.finding import Findings
from studio.questions.told import PICTURE as ANSWER
from studio.questions.told import with_answer
from studio.window.pictures_cache import SessionCache

_KEPT_SCENES, _KEPT_IMAGES = 4, 2


@dataclass(frozen=True, kw_only=True)
class Order:
    """One picture wanted. ``size`` is that of the image in px; a ``file`` is wanted at the frame's own size.

    ``key`` says where it is shown: a later order with the same key takes the place of this one. Lower ranks come first.
    ``step`` None is the finished picture.
    """

    key: str
    picture: str
    episode: Episode
    findings: Findings
    frame: Frame
    look: Look
    background: str = "look"
    step: int | None = None
    size: tuple[int, int] = (0, 0)
    file: bool = False
    rank: int = 0


@dataclass(frozen=True, kw_only=True)
class Drawn:
    """What came of an order: an image or a file, or what is missing. ``scene`` is the whole picture, all steps."""

    order: Order
    scene: Scene | None = None
    image: QImage | None = None
    png: bytes = b""
    path: Path | None = None
    missing: str = ""
    failed: bool = False
    """Whether ``missing`` is that something went wrong, not that there is nothing to show yet."""


@dataclass
class _Kept:
    scenes: deque[tuple[Any, Frame, Look, str, Scene]] = field(default_factory=lambda: deque(maxlen=_KEPT_SCENES))
    images: deque[tuple[Scene, int | None, tuple[int, int], QImage]] = field(
        default_factory=lambda: deque(maxlen=_KEPT_IMAGES)
    )


class Drawings:
    """Draws orders, and keeps the last scenes and images of each picture. One thread at a time asks it."""

    def __init__(self, catalogue: Callable[[], Mapping[str, Picture]], cache: SessionCache) -> None:
        self._catalogue, self._cache = catalogue, cache
        self._kept: dict[str, _Kept] = {}

    def draw(self, order: Order) -> Drawn:
        """Draw one order; whatever goes wrong with a picture is told in its place."""
        try:
            scene = self._scene(order)
            if order.file:
                return self._file(order, scene)
            return Drawn(order=order, scene=scene, image=self._image(order, scene))
        except CannotShow as error:
            return Drawn(order=order, missing=str(error))
        except Exception as error:  # the other pictures are drawn all the same
            return Drawn(order=order, missing=f"it could not be drawn ({type(error).__name__}: {error})", failed=True)

    def _scene(self, order: Order) -> Scene:
        entry = self._catalogue()[order.picture]
        findings = _with_answer(order) if order.picture == ANSWER else order.findings
        data = entry.data(order.episode, findings, request_for(order.episode, order.picture))
        kept = self._kept.setdefault(order.picture, _Kept()).scenes
        for its, frame, look, background, scene in kept:
            if (frame, look, background) == (order.frame, order.look, order.background) and its == data:
                return scene
        background_color = read_background(order.background, order.look)
        scene = on_background(composed(entry, data, order.frame, order.look), order.look, background_color)
        kept.append((data, order.frame, order.look, order.background, scene))
        return scene

    def _image(self, order: Order, scene: Scene) -> QImage:
        kept = self._kept[order.picture].images
        for its, step, size, made in kept:
            if its is scene and (step, size) == (order.step, order.size):
                return made
        made = image(_built(scene, order.step), order.size)
        kept.append((scene, order.step, order.size, made))
        return made

    def _file(self, order: Order, scene: Scene) -> Drawn:
        content = png(_built(scene, order.step))
        wanted = Wanted(frame=order.frame, background=order.background, order=rundown_order(order.episode))
        name = file_name(order.picture, wanted, order.step, len(scene.steps))
        return Drawn(order=order, scene=scene, png=content, path=self._cache.keep(name, content))


def _with_answer(order: Order) -> Findings:
    from studio.reference.tables import load_tables

    return with_answer(order.episode, order.findings, load_tables())


def _built(scene: Scene, step: int | None) -> Scene:
    return scene if step is None else scene.up_to(step)
