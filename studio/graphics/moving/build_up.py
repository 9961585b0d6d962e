"""The general build-up of a step: the drawing, then lines from the thing to its label, labels, the deciding number.

Everything appears where it will stay; nothing bounces or flashes.
"""

import math
from collections.abc import Iterable

from studio.graphics.layout.text import box
from studio.graphics.motion import AnyMovement, Draw, Fade
from studio.graphics.moving.cues import DOT_MS, DRAWING_MS, LABEL_MS, LINE_MS, Act, Clock, indices
from studio.graphics.moving.trace import ends, is_line
from studio.graphics.scene import Image, Point, Scene, Shape, Text

_OF_LABELS = {"sign", "verdict", "plate", "key", "badge", "out"}
_BEHIND = ("/casing", "/halo")


def build_up(scene: Scene, step: int, clock: Clock, act: Act) -> tuple[AnyMovement, ...]:
    """How the marks of a step appear that ``act`` does not move; frames count from the step's start."""
    left = [index for index in indices(scene, step) if index not in act.moved]
    stages = _Stages(scene, step, left)
    movements: list[AnyMovement] = []
    at = act.frames
    if stages.drawing:
        movements.append(Fade(marks=tuple(stages.drawing), start=0, frames=clock.frames(DRAWING_MS)))
        at = max(at, clock.frames(DRAWING_MS))
    if stages.lines or stages.dots:
        movements += _lines(scene, stages, at, clock)
        at += clock.frames(LINE_MS)
    for labels in (stages.labels, stages.deciding):
        if labels:
            movements.append(Fade(marks=tuple(labels), start=at, frames=clock.frames(LABEL_MS)))
            at += clock.frames(LABEL_MS)
    return tuple(movements)


class _Stages:
    """A step's marks by when they appear."""

    def __init__(self, scene: Scene, step: int, left: Iterable[int]) -> None:
        self.numbers = [text for text in scene.texts if text.step == step and text.role == "deciding"]
        self.drawing: list[int] = []
        self.lines: list[int] = []
        self.dots: list[int] = []
        self.labels: list[int] = []
        self.deciding: list[int] = []
        for index in left:
            self._stage(scene, step, index).append(index)

    def _stage(self, scene: Scene, step: int, index: int) -> list[int]:
        mark = scene.marks[index]
        parts = plain_name(mark.name).split("/")
        if isinstance(mark, Text):
            return self.deciding if any(_of_one(mark, number) for number in self.numbers) else self.labels
        if isinstance(mark, Image):
            return self.labels
        if _OF_LABELS & set(parts):
            return self.labels
        if parts[-1] == "dot":
            return self.dots
        drawn = step > 0 and isinstance(mark, Shape) and mark.fill is None and is_line(mark.outline)
        return self.lines if drawn else self.drawing


def _of_one(text: Text, number: Text) -> bool:
    """Whether a text is the deciding number, or its unit on the same line."""
    whole, _, part = text.name.rpartition("/")
    beside = text.at[1] == number.at[1] or part == "unit"
    return text == number or (beside and whole == number.name.rpartition("/")[0])


def plain_name(name: str) -> str:
    """A mark's name without what is drawn behind it."""
    for ending in _BEHIND:
        name = name.removesuffix(ending)
    return name


def _lines(scene: Scene, stages: _Stages, start: int, clock: Clock) -> list[AnyMovement]:
    frames = clock.frames(LINE_MS)
    movements: list[AnyMovement] = []
    for backwards in (False, True):
        these = tuple(index for index in stages.lines if _backwards(scene, index) is backwards)
        if these:
            movements.append(Draw(marks=these, start=start, frames=frames, backwards=backwards))
    if stages.dots:
        movements.append(Fade(marks=tuple(stages.dots), start=start, frames=min(frames, clock.frames(DOT_MS))))
    return movements


def _backwards(scene: Scene, index: int) -> bool:
    """Whether a line's end lies on the thing: it is drawn from there towards its label, its casing as it is itself."""
    mark = scene.marks[index]
    mark = next((other for other in scene.marks if other.name == plain_name(mark.name)), mark)
    if not isinstance(mark, Shape) or (mark.stroke and sum(mark.stroke.dash) > 0):
        return False  # dashes would crawl
    whole = plain_name(mark.name).rpartition("/")[0]
    texts = [text for text in scene.texts if text.name.startswith(f"{whole}/") and text.step == mark.step]
    if not texts or not whole:
        return False
    start, end = ends(mark.outline)
    return _distance(start, texts) < _distance(end, texts)


def _distance(point: Point, texts: Iterable[Text]) -> float:
    found = []
    for text in texts:
        around = box(text)
        dx = max(around.left - point[0], 0.0, point[0] - around.right)
        dy = max(around.top - point[1], 0.0, point[1] - around.bottom)
        found.append(math.hypot(dx, dy))
    return min(found)
