"""Layers of a moving picture: what moves as one is drawn once, and set into each frame where and as far as it shows."""

from collections.abc import Sequence
from itertools import groupby
from math import hypot

from msgspec.structs import replace
from PySide6.QtCore import QRect, Qt
from PySide6.QtGui import QImage, QPainter, QRegion, QTransform

from studio.graphics.motion import AnyMovement, Clip, Draw, Morph, Travel, Uncover
from studio.graphics.moving.pose import carried, front, matrix, opacity, posed
from studio.graphics.paint.body import Body
from studio.graphics.paint.patches import EDGE, outward, patch, rect_of
from studio.graphics.paint.raster import outline_path, paint
from studio.graphics.scene import AnyMark, Scene

Numbered = tuple[int, AnyMark]


class Layer:
    """Neighbouring marks with the same movements; none where they stand still."""

    def __init__(self, clip: Clip, marks: Sequence[Numbered], movements: Sequence[AnyMovement]) -> None:
        self.scene: Scene = replace(clip.scene, background=None, marks=())
        self.marks, self.movements = tuple(marks), tuple(movements)
        self.frame = QRect(0, 0, clip.scene.frame.width, clip.scene.frame.height)
        self.own = rect_of(mark for _, mark in marks) | _begun(marks, movements)
        self.travel = next((m for m in movements if isinstance(m, Travel)), None)
        self.redrawn = any(isinstance(m, Draw | Morph) for m in movements)
        self._image: QImage | None = None
        self._waiting: QImage | None = None
        self._body: Body | None = None

    def rect(self, frame: int) -> QRect:
        """The px that it covers in ``frame``; empty where it does not show."""
        if self.opacity(frame) <= 0:
            return QRect()
        if self.travel is None or self.travel.share(frame) >= 1:
            return self.own & self.frame
        moved = QTransform(*matrix(self.travel, frame)).mapRect(self.own)
        return moved.adjusted(-EDGE, -EDGE, EDGE, EDGE) & self.frame

    def whole(self) -> QRect:
        """The px that it covers in the course of its movements."""
        if self.travel is None:
            return self.own & self.frame
        (cx, cy), own = self.travel.center, self.own
        far = max(hypot(x - cx, y - cy) for x in (own.left(), own.right()) for y in (own.top(), own.bottom()))
        xs, ys = zip(*self.travel.way, strict=True)
        return outward(min(xs) - far, min(ys) - far, max(xs) + far, max(ys) + far) & self.frame

    def opacity(self, frame: int) -> float:
        """How far it shows in ``frame``."""
        return opacity(self.movements, frame) if self.movements else 1.0

    def set_into(self, painter: QPainter, frame: int) -> None:
        """Paint it as it stands in ``frame``."""
        shown = self.opacity(frame)
        if shown <= 0:
            return
        painter.save()
        for movement in self.movements:
            if isinstance(movement, Uncover) and movement.share(frame) < 1:
                reach = float(self.frame.width() + self.frame.height())
                painter.setClipPath(outline_path(front(movement, frame, reach)), Qt.ClipOperation.IntersectClip)
        if self.redrawn:
            self._redraw(painter, frame, shown)
        elif self.travel is not None and self.travel.lit and shown >= 1 and self.travel.share(frame) < 1:
            self._turn(painter, self.travel, frame)
        else:
            self._blend(painter, frame, shown)
        painter.restore()

    def _blend(self, painter: QPainter, frame: int, shown: float) -> None:
        painter.setOpacity(shown)
        if self.travel is not None and self.travel.share(frame) <= 0:
            self._wait(painter, frame)
            return
        if self._image is None:
            self._image = patch(self.scene, [mark for _, mark in self.marks], self.own)
        if self.travel is not None and self.travel.share(frame) < 1:
            painter.setRenderHint(QPainter.RenderHint.SmoothPixmapTransform)
            painter.setTransform(QTransform(*matrix(self.travel, frame)), combine=True)
        painter.drawImage(self.own.topLeft(), self._image)

    def _wait(self, painter: QPainter, frame: int) -> None:
        """Before it travels it is drawn once as it stands there."""
        rect = self.rect(frame)
        if self._waiting is None:
            marks = [posed(mark, index, self.movements, frame) for index, mark in self.marks]
            self._waiting = patch(self.scene, marks, rect)
        painter.drawImage(rect.topLeft(), self._waiting)

    def _turn(self, painter: QPainter, travel: Travel, frame: int) -> None:
        self._body = self._body or Body(self.scene, [mark for _, mark in self.marks], travel.center)
        by = matrix(travel, frame)
        self._body.paint(painter, QTransform(*by), QTransform(*carried(travel.center, by)))

    def _redraw(self, painter: QPainter, frame: int, shown: float) -> None:
        marks = [posed(mark, index, self.movements, frame) for index, mark in self.marks]
        if shown < 1:  # as one: each mark on its own would let those below it through
            rect = self.rect(frame)
            painter.setOpacity(shown)
            painter.drawImage(rect.topLeft(), patch(self.scene, marks, rect))
        else:
            paint(painter, replace(self.scene, marks=tuple(marks)))


def _begun(marks: Sequence[Numbered], movements: Sequence[AnyMovement]) -> QRect:
    """The px that changing marks cover at first."""
    found = QRect()
    for morph in (movement for movement in movements if isinstance(movement, Morph)):
        found |= rect_of(posed(mark, index, (morph,), morph.start - 1) for index, mark in marks)
    return found


def layers_of(clip: Clip, step: int) -> tuple[tuple[AnyMark, ...], tuple[Layer, ...]]:
    """What a step stands on, and the layers above, in painting order.

    A mark that stands still belongs to the ground unless something that moves passes below it. What travels passes
    over everything, or it would roll under the letters.
    """
    moving = clip.movements_of(step)
    by_mark: dict[int, list[AnyMovement]] = {}
    for movement in moving:
        for index in movement.marks:
            by_mark.setdefault(index, []).append(movement)
    known = len(clip.scene.marks)
    shown = [(i, m) for i, m in enumerate(clip.marks) if i in by_mark or (i < known and m.step < step)]

    def height(pair: Numbered) -> tuple[bool, float]:
        travels = any(isinstance(movement, Travel) for movement in by_mark.get(pair[0], ()))
        above = clip.guests[pair[0] - known].above if pair[0] >= known else None
        return travels, pair[0] if above is None else above + 0.5

    shown.sort(key=height)
    ground: list[AnyMark] = []
    layers: list[Layer] = []
    passed = QRegion()
    for ids, run in groupby(shown, key=lambda pair: tuple(map(id, by_mark.get(pair[0], ())))):
        marks = list(run)
        if ids:
            layers.append(Layer(clip, marks, by_mark[marks[0][0]]))
            passed |= layers[-1].whole()
            continue
        above = [pair for pair in marks if passed.intersects(rect_of([pair[1]]))]
        ground += [mark for index, mark in marks if not any(index == i for i, _ in above)]
        if above:
            layers.append(Layer(clip, above, ()))
    return tuple(ground), tuple(layers)
