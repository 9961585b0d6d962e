"""What a finished picture must hold, asked of the scene and of its pixels. Each check returns its complaints.

Cap heights, safe areas, contrasts: the house's conventions, after EBU R 95 (safe areas) and WCAG 2.2 (contrast).
"""

import re
from collections import Counter
from collections.abc import Iterable, Iterator
from itertools import pairwise

import msgspec
import numpy as np

from studio.graphics.color import contrast
from studio.graphics.draw import bounds
from studio.graphics.frame import Box
from studio.graphics.layout import text as text_
from studio.graphics.layout.untangle import crosses
from studio.graphics.paint.glyphs import arc_letters
from studio.graphics.paint.raster import image
from studio.graphics.scene import ArcText, Image, Scene, Shape, Text
from studio.model.finding import Finding
from studio.model.quantity import Quantity

LEAST_SHARE = {"deciding": 18, "heading": 24, "callout": 30, "small": 36, "incidental": 60}
_NUMBER = re.compile(r"\d+(?:[.,]\d+)*(?:/\d+)?")


def complaints(scene: Scene) -> list[str]:
    """Everything that is wrong with the picture itself."""
    checks = (
        _outside, _overlaps, _logo, _too_small, _missing_glyphs, _crossing_leaders, _same_names, _steps, _too_pale,
    )  # fmt: skip
    return [line for check in checks for line in check(scene)]


def boxes(scene: Scene) -> list[tuple[Text, Box]]:
    return [(mark, text_.box(mark)) for mark in scene.texts]


def _outside(scene: Scene) -> Iterator[str]:
    for mark, box in boxes(scene):
        if not scene.frame.content.holds(box, slack=0.5):
            yield f"{mark.name} ({mark.text!r}) leaves the title-safe area: {box}"
    whole = Box(0, 0, scene.frame.width, scene.frame.height)
    for mark in scene.marks:
        if isinstance(mark, ArcText):
            for _, _, x, y, size, _ in text_.arc_glyphs(mark):
                if not whole.holds(Box(x - size / 4, y - size / 4, size / 2, size / 2)):
                    yield f"{mark.name} ({mark.text!r}) leaves the frame at {x:.0f}, {y:.0f}"


def _overlaps(scene: Scene) -> Iterator[str]:
    placed = boxes(scene)
    for order, (one, box) in enumerate(placed):
        for other, its in placed[order + 1 :]:
            if box.meets(its, gap=-0.5):
                yield f"{one.name} ({one.text!r}) lies over {other.name} ({other.text!r})"
    for arc in (mark for mark in scene.marks if isinstance(mark, ArcText)):
        for letter, its in arc_letters(arc):
            for other, box in placed:
                if box.meets(its, gap=-0.5):
                    yield f"{other.name} ({other.text!r}) lies over {letter!r} of {arc.name} ({arc.text!r})"


def logo_box(scene: Scene) -> Box | None:
    """The box round the channel's logo; None where there is none."""
    found = [mark for mark in scene.marks if mark.name.startswith("logo/") and not isinstance(mark, Text | ArcText)]
    sides = [
        (mark.box.left, mark.box.top, mark.box.right, mark.box.bottom) if isinstance(mark, Image)
        else bounds(mark.clip or mark.outline) for mark in found
    ]  # fmt: skip
    if not sides:
        return None
    left, top, right, bottom = (pick(side[at] for side in sides) for at, pick in enumerate((min, min, max, max)))
    return Box(left, top, right - left, bottom - top)


def _logo(scene: Scene) -> Iterator[str]:
    """The logo stands in the title-safe area, and no text comes near it."""
    box = logo_box(scene)
    if box is None:
        return
    if not scene.frame.titles.holds(box, slack=0.5):
        yield f"the logo leaves the title-safe area: {box}"
    for mark, its in boxes(scene):
        if box.meets(its, gap=scene.frame.grid / 2):
            yield f"the logo stands on or too near to {mark.name} ({mark.text!r})"


def _too_small(scene: Scene) -> Iterator[str]:
    for mark in scene.texts:
        least = scene.frame.short / LEAST_SHARE[mark.role]
        if mark.cap_height < least - 0.01:
            yield f"{mark.name} ({mark.text!r}) has cap height {mark.cap_height:.1f}, below {least:.1f} for {mark.role}"


def _missing_glyphs(scene: Scene) -> Iterator[str]:
    for mark in scene.marks:
        if isinstance(mark, Text | ArcText) and (missing := text_.missing_glyphs(mark.text, mark.face)):
            yield f"{mark.name}: no glyph for {missing!r}"


def _crossing_leaders(scene: Scene) -> Iterator[str]:
    leaders = [mark for mark in scene.marks if isinstance(mark, Shape) and mark.name.endswith("/leader")]
    pieces = [(mark.name, a, b) for mark in leaders for a, b in _segments(mark)]
    for order, (one, a, b) in enumerate(pieces):
        for other, c, d in pieces[order + 1 :]:
            if one != other and crosses(a, b, c, d):
                yield f"{one} crosses {other}"
    for one, a, b in pieces:
        for mark, box in boxes(scene):
            if not mark.name.startswith(one.removesuffix("leader")) and _through(a, b, box.inset(2)):
                yield f"{one} runs through {mark.name} ({mark.text!r})"


def _segments(mark: Shape) -> Iterator[tuple[tuple[float, float], tuple[float, float]]]:
    points = [(float(command[-2]), float(command[-1])) for command in mark.outline if len(command) > 1]
    yield from pairwise(points)


def _through(a: tuple[float, float], b: tuple[float, float], box: Box) -> bool:
    steps = np.linspace(0, 1, 200)
    x, y = a[0] + steps * (b[0] - a[0]), a[1] + steps * (b[1] - a[1])
    return bool(np.any((x > box.left) & (x < box.right) & (y > box.top) & (y < box.bottom)))


def _same_names(scene: Scene) -> Iterator[str]:
    for name, times in Counter(mark.name for mark in scene.marks if isinstance(mark, Text | ArcText)).items():
        if times > 1:
            yield f"{times} texts are named {name}"


def _steps(scene: Scene) -> Iterator[str]:
    used = {mark.step for mark in scene.marks}
    if not used <= set(range(len(scene.steps))):
        yield f"steps {sorted(used)} are used, but only {len(scene.steps)} are named"
    if missing := set(range(len(scene.steps))) - used:
        yield f"nothing appears in steps {sorted(missing)}"


def _too_pale(scene: Scene) -> Iterator[str]:
    """Contrast against what was really painted below each text, not against what the text says of its ground."""
    pixels = _without_texts(scene)
    for mark, box in boxes(scene):
        needed = 7.0 if mark.role == "deciding" else 4.5
        below = (mark.halo and [mark.halo]) or _colors_below(pixels, box)
        worst = min(contrast(mark.fill, color) for color in below)
        if worst < needed - 1e-9:
            yield f"{mark.name} ({mark.text!r}) has contrast {worst:.2f}, below {needed}"


def _without_texts(scene: Scene) -> "np.ndarray[tuple[int, int, int], np.dtype[np.uint8]]":
    bare = msgspec.structs.replace(scene, marks=tuple(mark for mark in scene.marks if not isinstance(mark, Text)))
    painted = image(bare)
    painted = painted.convertToFormat(painted.Format.Format_RGBA8888)
    buffer = np.frombuffer(bytes(painted.constBits()), dtype=np.uint8)
    return buffer.reshape(painted.height(), painted.bytesPerLine() // 4, 4)[:, : painted.width(), :3]


def _colors_below(pixels: "np.ndarray[tuple[int, int, int], np.dtype[np.uint8]]", box: Box) -> list[str]:
    """The colours that fill at least a twentieth of the box, so that a passing hairline does not count."""
    top, left = max(0, int(box.top)), max(0, int(box.left))
    part = pixels[top : int(box.bottom) + 1, left : int(box.right) + 1].reshape(-1, 3)
    coarse = (part // 8).astype(np.int32) @ np.array((1024, 32, 1), np.int32)  # one number a colour counts fast
    counts = np.bincount(coarse)
    common = np.flatnonzero(counts >= max(1, len(part) // 20))
    picked = common if len(common) else [int(np.argmax(counts))]
    return ["#" + "".join(f"{(int(code) >> shift & 31) * 8 + 4:02X}" for shift in (10, 5, 0)) for code in picked]


def unbacked_numbers(scene: Scene, findings: Iterable[Finding], also: Iterable[str] = ()) -> list[str]:
    """The numbers in the picture's texts that no finding it shows holds."""
    backed = {number for text in _texts_of(findings, also) for number in _NUMBER.findall(text)}
    shown = [mark for mark in scene.marks if isinstance(mark, Text | ArcText) and not _free(mark.name)]
    return [
        f"{mark.name}: {number} in {mark.text!r}"
        for mark in shown
        for number in _NUMBER.findall(mark.text)
        if number not in backed
    ]


def _free(name: str) -> bool:
    """Badge numbers, axis marks and stated magnifications are the drawing's own."""
    return name.endswith("_number") or name.startswith(("axis", "scale"))


def _texts_of(findings: Iterable[Finding], also: Iterable[str]) -> Iterator[str]:
    yield from also
    for finding in findings:
        yield from (finding.sentence, finding.caution, finding.limit_label, *finding.working, *finding.would_change)
        yield from (text for _, text in finding.detail)
        yield from (f"{source.title} {source.locator}" for source in finding.sources)
        yield from (figure.label for figure in finding.figures)
        quantities = [figure.quantity for figure in finding.figures]
        for value in (finding.value, finding.limit, finding.margin, finding.uncertainty):
            if value is not None and finding.unit is not None:
                quantities.append(Quantity(value, finding.unit))
        for quantity in quantities:
            yield from (quantity.both("us"), quantity.both("metric"), quantity.text(), quantity.number())
