"""Coins as gauges: the region's coins stand in a groove as deep as this tire's, to one scale; how sure each is."""

import math

import msgspec

from studio.graphics.catalogue import CannotShow, Request, picture
from studio.graphics.coins_layout import Arranged, Placed, Shown, arrange
from studio.graphics.draw import circle, polyline, rectangle
from studio.graphics.frame import Frame
from studio.graphics.layout import notes as notes_
from studio.graphics.layout.notes import Note, deciding_note, note_of
from studio.graphics.layout.page import Words, plan
from studio.graphics.layout.text import box as box_of
from studio.graphics.look import Look
from studio.graphics.parts.coin import Coin, Landmark, coin
from studio.graphics.parts.dimension import dimension_line
from studio.graphics.parts.lettering import on_rubber
from studio.graphics.parts.scale_bar import doubt_mark, limit_line
from studio.graphics.parts.text_block import set_block
from studio.graphics.scene import Linear, Outline, Point, Scene, Shape, Stroke, Text
from studio.graphics.steps import closed_up
from studio.graphics.whole_car import source_line
from studio.model.episode import Episode
from studio.model.finding import Finding, Findings
from studio.model.finding_names import FigureName
from studio.model.quantity import Quantity, System, depth
from studio.model.source import Source


class CoinsData(msgspec.Struct, frozen=True, kw_only=True):
    """What is shown; depths in mm."""

    words: Words
    sources: tuple[Source, ...]
    coins: tuple[Shown, ...]
    depth_mm: float
    doubt_mm: float
    reading: Note
    doubt: Note
    steps: tuple[str, ...]
    findings: tuple[str, ...]


@picture("coins")
class Coins:
    """Coins on edge on a groove's floor, seen through the rib in front of them."""

    id = "coins"
    name = "Coins as gauges"
    takes = 0

    def data(self, episode: Episode, findings: Findings, request: Request) -> CoinsData:
        """The region's coins against the lowest reading. Raises CannotShow."""
        found = [finding for finding in findings.of("gauges") if finding.figure("coin_diameter")]
        if not found:
            raise CannotShow(_why_none(findings))
        nearest = min(found, key=lambda finding: abs(finding.margin or 0.0))
        units, last = request.units, len(found) + 1
        shown = tuple(_shown(finding, finding is nearest, step, units) for step, finding in enumerate(found, start=1))
        if len({its.standing for its in shown}) == 1:  # then the line of sources says it once for all
            shown = tuple(msgspec.structs.replace(its, standing="") for its in shown)
        read, unsure = _mm(nearest, "depth"), depth(nearest.uncertainty or 0.0, nearest.unit or "mm")
        doubt = note_of("doubt", unsure, "doubt of one reading", units, last)
        return CoinsData(
            words=Words(sentence=request.title or nearest.sentence, caution=nearest.caution),
            sources=nearest.sources, coins=shown, depth_mm=read.to("mm").value, doubt_mm=unsure.to("mm").value,
            reading=deciding_note("reading", read, "lowest reading", units, last),
            doubt=msgspec.structs.replace(doubt, value=f"±{doubt.value}", other="", brief="gauge doubt"),
            steps=("coins in a groove", *(its.title for its in shown), "the reading"),
            findings=tuple(finding.id for finding in found),
        )  # fmt: skip

    def compose(self, data: CoinsData, frame: Frame, look: Look) -> Scene:
        """The picture for this frame and look."""
        words = msgspec.structs.replace(data.words, sources=source_line(data.sources, frame, 1))
        page = plan(frame, look, words, ())
        its = arrange(data.coins, data.depth_mm, (data.reading, data.doubt), page.drawing, frame)
        marks: list[Shape | Text] = []
        for strip in its.strips:
            marks += _rib(strip.floor, strip.right, data.depth_mm, its.scale, its.base, frame, look,
                          f"groove {strip.name}")  # fmt: skip
        for placed in its.coins:
            marks += _coin(placed, data.depth_mm, its.scale, frame, look)
            marks += _words(placed, its.scale, frame, look)
        marks += _enlarged(data, its, frame, look) if its.enlarged else _measured(data, its, frame, look)
        for note, box in its.notes:
            marks += notes_.set_note(note, box, frame, look)
        scene = Scene(
            picture=self.id, frame=frame, background=look.ground, marks=(*marks, *page.marks({})), steps=data.steps,
            title=words.sentence, alternative=_alternative(data), findings=data.findings,
        )  # fmt: skip
        return closed_up(scene)


def _why_none(findings: Findings) -> str:
    if not findings.of("gauges"):
        return "no tire has a depth reading yet"
    return "no coin is in use as a tread gauge in this episode's region"


def _mm(finding: Finding, name: FigureName) -> Quantity:
    quantity = finding.figure(name)
    if quantity is None:
        raise CannotShow(f"the finding {finding.id} has no {name.replace('_', ' ')}")
    return quantity


def _shown(finding: Finding, nearest: bool, step: int, units: System) -> Shown:
    low, high = _mm(finding, "shown_at"), _mm(finding, "shown_to")
    kind: Landmark = msgspec.convert(finding.word("landmark"), Landmark)
    note = note_of(finding.subject, low, finding.word("words"), units, step)
    return Shown(
        name=finding.subject, title=finding.word("coin"), landmark=kind, value=note.value, other=note.other,
        said=finding.word("words"), standing=finding.word("standing"), far=abs(finding.margin or 0.0),
        diameter_mm=_mm(finding, "coin_diameter").to("mm").value, low_mm=low.to("mm").value,
        high_mm=high.to("mm").value, step=step, nearest=nearest,
    )  # fmt: skip


def _rib(
    floor: float, right: float, depth_mm: float, scale: float, base: float, frame: Frame, look: Look, name: str,
    step: int = 0, clip: Outline | None = None,
) -> list[Shape]:  # fmt: skip
    """The rib in front of the coins, from the frame's left edge; the groove's floor behind it is a hidden edge."""
    top, bottom = floor - depth_mm * scale, floor + base
    face = Linear((0.0, top), (0.0, bottom), ((0.0, look.rubber_light), (0.16, look.rubber), (1.0, look.rubber)))
    edge = Stroke(look.rubber_edge, frame.short / 500) if look.rubber_edge else None
    line = Stroke(on_rubber(look), frame.short / 400, (frame.grid, 0.7 * frame.grid), cap="flat")
    return [
        Shape(name=f"{name}/rib", step=step, outline=rectangle(-2.0, top, right + 2.0, bottom - top), fill=face,
              stroke=edge, clip=clip),
        Shape(name=f"{name}/floor", step=step, outline=polyline(((0.0, floor), (right, floor))), stroke=line,
              clip=clip),
    ]  # fmt: skip


def _coin(placed: Placed, depth_mm: float, scale: float, frame: Frame, look: Look) -> list[Shape | Text]:
    """The coin with the rib over its foot, and the line at the depth that it shows."""
    shown, (x, floor) = placed.coin, placed.foot
    drawn = _drawn(shown, placed.foot, scale)
    high = depth_mm * scale
    cover = rectangle(x - drawn.radius - 4, floor - high, 2 * drawn.radius + 8, high) if high > 0 else None
    line = _line(shown, x - drawn.radius - 0.6 * frame.grid, placed.line_end, floor - shown.low_mm * scale, frame, look)
    return [*coin(drawn, look, shown.name, 0, cover), *line]


def _drawn(shown: Shown, foot: Point, scale: float) -> Coin:
    return Coin(foot=foot, radius=shown.diameter_mm * scale / 2, reach=shown.high_mm * scale, landmark=shown.landmark)


def _line(shown: Shown, left: float, right: float, y: float, frame: Frame, look: Look) -> tuple[Shape, ...]:
    return limit_line(f"{shown.name}/depth", "advice", (left, y), (right, y), frame, look, shown.step)


def _words(placed: Placed, scale: float, frame: Frame, look: Look) -> list[Shape | Text]:
    """What the coin shows, joined to the end of its line."""
    shown, end, grid = placed.coin, placed.line_end, frame.grid
    y = placed.foot[1] - shown.low_mm * scale
    texts = set_block(placed.block, placed.at, look, shown.name, shown.step)
    value = next(text for text in texts if text.name.endswith("/value"))
    level = value.at[1] - value.cap_height / 2
    right = max(box_of(text).right for text in texts if text.at[1] == value.at[1])
    start = placed.at[0] - 0.6 * grid if placed.beside else right + grid
    line, path = Stroke(look.measure, frame.short / 360), polyline(((start, level), (end, level), (end, y)))
    casing = Stroke(look.ground, 2.4 * frame.short / 360, cap="flat")
    return [
        *texts,
        Shape(name=f"{shown.name}/leader/casing", step=shown.step, outline=path, stroke=casing),
        Shape(name=f"{shown.name}/leader", step=shown.step, outline=path, stroke=line),
        Shape(name=f"{shown.name}/dot", step=shown.step, outline=circle((end, y), frame.short / 150),
              fill=look.measure, stroke=Stroke(look.ground, frame.short / 540)),
    ]  # fmt: skip


def _enlarged(data: CoinsData, its: Arranged, frame: Frame, look: Look) -> list[Shape | Text]:
    """The nearest coin's foot through a round window: how deep the groove is there, how sure that is."""
    window, step = its.enlarged, data.reading.step
    assert window is not None
    shown = next(placed for placed in its.coins if placed.coin.nearest)
    (x, y), reach, floor, px = window.center, window.radius, window.floor, its.scale * window.times
    glass, top = circle(window.center, reach), window.floor - data.depth_mm * px
    ink = Stroke(look.ink, frame.short / 300)
    place = circle((shown.foot[0], shown.foot[1] - (floor - y) / window.times), reach / window.times)
    drawn = _drawn(shown.coin, (x, floor), px)
    marks: list[Shape | Text] = [
        Shape(name="enlarged/place/casing", step=step, outline=place, stroke=Stroke(look.ground, frame.short / 160)),
        Shape(name="enlarged/place", step=step, outline=place, stroke=Stroke(look.ink, frame.short / 400)),
        Shape(name="enlarged/ground", step=step, outline=glass, fill=look.ground),
    ]
    marks += [msgspec.structs.replace(mark, clip=glass) for mark in coin(drawn, look, "enlarged/coin", step)]
    marks += _rib(floor, frame.width, data.depth_mm, px, 2 * reach, frame, look, "enlarged", step, glass)
    if data.depth_mm > 0:
        behind = _chord(window.center, reach, top, floor)
        marks += [shape for shape in coin(drawn, look, "enlarged/coin", step, behind) if shape.clip == behind]
    level = floor - shown.coin.low_mm * px
    line = limit_line("enlarged/depth of the coin", "advice", (x - reach, level), (x + reach, level), frame, look, step)
    marks += [msgspec.structs.replace(mark, clip=glass) for mark in line]
    marks += _depth(data, (x, x + 0.45 * reach), floor, px, frame, look)
    marks.append(Shape(name="enlarged/rim", step=step, outline=glass, stroke=ink))
    cap = frame.cap_height("small")
    said = f"{window.times} ×"
    at = (x, min(y + 0.84 * reach, floor + 0.5 * (y + reach - floor) + cap / 2))
    marks.append(Text(name="scale/enlarged", step=step, text=said, at=at, cap_height=cap, fill=look.letter,
                      ground=look.rubber, role="small", anchor="middle"))  # fmt: skip
    return marks


def _measured(data: CoinsData, its: Arranged, frame: Frame, look: Look) -> list[Shape | Text]:
    """The depth measured at the rib itself, under its number."""
    across = (its.depth_x, its.depth_x + 4 * frame.grid)
    return _depth(data, across, its.strips[-1].floor, its.scale, frame, look)


def _depth(
    data: CoinsData, across: tuple[float, float], floor: float, px: float, frame: Frame, look: Look
) -> list[Shape | Text]:
    """How deep the groove is, and how far the gauge may be off; ``across`` says where the two stand."""
    step, top = data.reading.step, floor - data.depth_mm * px
    light = msgspec.structs.replace(look, measure=look.letter)
    marks: list[Shape | Text] = []
    if data.depth_mm > 0:
        marks += dimension_line((across[0], top), (across[0], floor), frame, light, "reading/depth", step)
    if data.doubt_mm:
        marks += doubt_mark("doubt/mark", (across[1], top), data.doubt_mm * px, frame, look, step, floor)
    return marks


def _chord(center: Point, radius: float, top: float, bottom: float) -> Outline:
    """The part of a circle between two heights."""
    def half(y: float) -> float:
        return math.sqrt(max(0.0, radius**2 - (y - center[1]) ** 2))

    steps = [top + (bottom - top) * share / 24 for share in range(25)]
    right = [(center[0] + half(y), y) for y in steps]
    return polyline((*right, *((2 * center[0] - x, y) for x, y in reversed(right))), closed=True)


def _alternative(data: CoinsData) -> str:
    said = "; ".join(f"{its.title} shows {its.value}: {its.said}" for its in data.coins)
    return f"Coins on edge in a groove {data.reading.value} {data.reading.unit} deep, to one scale. {said}."
