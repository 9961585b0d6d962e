"""A clip's frames as pixels: stills drawn once, what moves set into them as layers, only what changes touched."""

from collections.abc import Generator, Iterator
from typing import Any, NamedTuple

import numpy as np
from msgspec.structs import replace
from numpy.typing import NDArray
from PySide6.QtCore import QRect
from PySide6.QtGui import QColor, QImage, QPainter, QRegion

from studio.graphics.color import rgba
from studio.graphics.motion import Clip
from studio.graphics.paint.layers import Layer, layers_of
from studio.graphics.paint.raster import paint
from studio.graphics.scene import Scene

Pixels = NDArray[np.uint8]
"""Height x width x 4: straight 8-bit RGBA."""

_STRAIGHT = QImage.Format.Format_RGBA8888


class Span(NamedTuple):
    """A picture and for how many frames it stands; the pixels are those of the next span as soon as that is asked."""

    pixels: Pixels
    frames: int


class ClipPainter:
    """Paints any frame of one clip; neighbouring frames are cheap."""

    def __init__(self, clip: Clip) -> None:
        self.clip = clip
        self._step: _MovingStep | None = None
        self._still: tuple[int, QImage] | None = None
        self._previous: tuple[int, QImage] | None = None

    def image(self, frame: int) -> QImage:
        """The frame's pixels as Qt paints them: RGB32, or premultiplied ARGB32 where there is no ground."""
        step = self.clip.step_at(frame)
        if self.clip.still_at(frame) is not None:
            return self.still(step)
        return self._moving(step).paint(frame)

    def prepare(self, step: int) -> None:
        """Draw the layers of a step, so that each of its frames is cheap, the first ones too."""
        self._moving(step).prepare()

    def changed(self, frame: int) -> QRect:
        """The px in which the frame just painted differs from the one painted before it in the same movement."""
        return self._moving(self.clip.step_at(frame)).changed

    def still(self, step: int) -> QImage:
        """The picture as built up to ``step``; -1 is the bare ground."""
        for kept in (self._still, self._previous):
            if kept is not None and kept[0] == step:
                return kept[1]
        self._previous = self._still
        self._still = (step, _painted(self.clip.scene.up_to(step)))
        return self._still[1]

    def _moving(self, step: int) -> "_MovingStep":
        if self._step is None or self._step.step != step:
            self._step = _MovingStep(self.clip, step, self.still(step - 1))
        return self._step


class _MovingStep:
    """One step while it moves: a canvas that starts as the still before it, and what has been painted over that."""

    def __init__(self, clip: Clip, step: int, before: QImage) -> None:
        self.step = step
        ground, self.layers = layers_of(clip, step)
        known = len(ground) == sum(1 for mark in clip.scene.marks if mark.step < step)
        self.ground = before if known else _painted(_only(clip.scene, ground))
        self.canvas = before.copy()
        self.covered = QRegion()
        self.changed = QRect()

    def prepare(self) -> None:
        """Draw every layer once, on nothing, at the times at which its movements begin and end."""
        nowhere = QImage(1, 1, QImage.Format.Format_ARGB32_Premultiplied)
        painter = QPainter(nowhere)
        try:
            for layer in self.layers:
                for frame in sorted({time for m in layer.movements for time in (m.start, m.end - 1, m.end)}):
                    layer.set_into(painter, frame)
        finally:
            painter.end()

    def paint(self, frame: int) -> QImage:
        moving = [layer for layer in self.layers if layer.movements]
        covers = QRegion()
        for layer in moving:
            covers |= layer.rect(frame)
        region = self.covered | covers
        self.covered, self.changed = covers, region.boundingRect()
        if not region.isEmpty():
            self._compose(region, self.changed, frame)
        return self.canvas

    def _compose(self, region: QRegion, rect: QRect, frame: int) -> None:
        painter = QPainter(self.canvas)
        try:
            painter.setClipRegion(region)
            painter.setCompositionMode(QPainter.CompositionMode.CompositionMode_Source)
            painter.drawImage(rect, self.ground, rect)
            painter.setCompositionMode(QPainter.CompositionMode.CompositionMode_SourceOver)
            for layer in self.layers:
                if _meets(layer, frame, region):
                    layer.set_into(painter, frame)
        finally:
            painter.end()


def spans(clip: Clip) -> Generator[Span, None, None]:
    """The clip from its first frame to its last: each still once with the time that it stands, each moving frame."""
    painter, frame = ClipPainter(clip), 0
    pixels = straight(painter.still(-1))
    while frame < clip.frames:
        step = clip.step_at(frame)
        if clip.still_at(frame) is not None:
            end = clip.steps[step].end if step >= 0 else clip.opening
            pixels = straight(painter.still(step))
            yield Span(pixels, end - frame)
            frame = end
            continue
        image = painter.image(frame)
        _update(pixels, image, painter.changed(frame))
        yield Span(pixels, 1)
        frame += 1


def frames(clip: Clip) -> Iterator[Pixels]:
    """Every frame of the clip; the pixels are those of the next frame as soon as that is asked for."""
    for span in spans(clip):
        for _ in range(span.frames):
            yield span.pixels


def straight(image: QImage) -> Pixels:
    """An image's pixels with straight alpha, as in a PNG of it."""
    kept = image.convertToFormat(_STRAIGHT)  # a view of an image that is gone would crash
    return _pixels(kept).copy()


def _update(pixels: Pixels, image: QImage, rect: QRect) -> None:
    if rect.isEmpty():
        return
    part = image.copy(rect).convertToFormat(_STRAIGHT)
    pixels[rect.top() : rect.bottom() + 1, rect.left() : rect.right() + 1] = _pixels(part)


def _pixels(image: QImage) -> Pixels:
    flat: NDArray[Any] = np.frombuffer(image.constBits(), np.uint8)
    rows = flat.reshape(image.height(), image.bytesPerLine())
    return rows[:, : 4 * image.width()].reshape(image.height(), image.width(), 4)


def _meets(layer: Layer, frame: int, region: QRegion) -> bool:
    return region.intersects(layer.rect(frame))


def _only(scene: Scene, marks: tuple[Any, ...]) -> Scene:
    return replace(scene, marks=marks)


def _painted(scene: Scene) -> QImage:
    """The scene's pixels, as the hand for single pictures makes them."""
    frame = scene.frame
    clear = QColor(0, 0, 0, 0) if scene.background is None else QColor(*rgba(scene.background))
    opaque = clear.alpha() == 255
    kind = QImage.Format.Format_RGB32 if opaque else QImage.Format.Format_ARGB32_Premultiplied
    canvas = QImage(frame.width, frame.height, kind)
    if canvas.isNull():
        raise MemoryError(f"no room for a picture of {frame.width} x {frame.height} px")
    canvas.fill(clear)
    painter = QPainter(canvas)
    try:
        paint(painter, scene)
    finally:
        painter.end()
    return canvas
