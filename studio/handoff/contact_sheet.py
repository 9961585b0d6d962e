"""The contact sheet: every picture of an episode on one page, with its name and verdict, for judging at a glance."""

from collections.abc import Iterator, Sequence
from pathlib import Path

import msgspec

from studio.graphics.catalogue import CannotShow, catalogue, scene_of
from studio.graphics.draw import rectangle
from studio.graphics.face import set_in
from studio.graphics.frame import Box, Frame
from studio.graphics.layout.text import font_size, wrap
from studio.graphics.look import Look
from studio.graphics.parts.signs import sign, verdict_word
from studio.graphics.scene import Scene, Shape, Stroke, Text, Weight
from studio.graphics.sheet import Cell, Sheet
from studio.handoff.picture_files import Wanted, rundown_order
from studio.model.episode import Episode
from studio.model.finding import Findings, Verdict
from studio.storage.atomic import write_atomically
from studio.storage.errors import plain

ENDINGS = (".png", ".pdf")
_GRAVEST_FIRST: tuple[Verdict, ...] = ("replace", "inspect", "rotate", "watch", "unknown", "keep")
_COLUMNS = {"wide": 4, "square": 5, "tall": 8}
_WIDTH, _MARGIN, _GAP = 3200, 80, 48
_NAME, _SMALL, _HEADING = 25.0, 21.0, 40.0  # cap heights in px of the page
_LINE = 1.2
_CAPTION = 3.4 * _LINE * 1.3745 * _NAME  # a number and a name on two lines at most, then the verdict


class SheetError(ValueError):
    """A sheet was wanted that cannot be had; the message is one line."""


class Item(msgspec.Struct, frozen=True, kw_only=True):
    """One picture of the episode: its scene, or what is missing; ``failed`` says that something went wrong with it."""

    number: int
    name: str
    scene: Scene | None = None
    verdict: Verdict | None = None
    missing: str = ""
    failed: bool = False


def items(episode: Episode, findings: Findings, look: Look, frame: Frame) -> Iterator[Item]:
    """Every picture of the catalogue, in the order in which its files are numbered, one at a time."""
    known = catalogue()
    for number, id_ in enumerate(Wanted(order=rundown_order(episode)).numbered(), start=1):
        name = known[id_].name
        try:
            scene = scene_of(episode, findings, id_, frame, look)
        except CannotShow as error:
            yield Item(number=number, name=name, missing=str(error))
        except Exception as error:  # whatever is wrong with one picture, the others are shown
            yield Item(number=number, name=name, missing=f"it could not be drawn ({type(error).__name__})", failed=True)
        else:
            yield Item(number=number, name=name, scene=scene, verdict=_verdict(scene, findings))


def sheet(episode: Episode, shown: Sequence[Item], look: Look, frame: Frame) -> Sheet:
    """The items side by side in rows, under the episode's title."""
    with set_in(look.face):
        return _Page(episode, look, frame).sheet(shown)


def write_sheet(made: Sheet, path: Path, author: str = "") -> None:
    """Write it as PNG or PDF, as the file's name ends. Raises SheetError for another ending, StorageError."""
    check_name(path)
    from studio.graphics.paint.sheet import sheet_pdf, sheet_png

    write_atomically(path, sheet_pdf(made, author) if path.suffix.lower() == ".pdf" else sheet_png(made))


def check_name(path: Path) -> None:
    """Raise SheetError for a file that is neither PNG nor PDF."""
    if path.suffix.lower() not in ENDINGS:
        raise SheetError(f"{plain(path.name)} is neither PNG nor PDF; expected a name such as sheet.png or sheet.pdf")


def _verdict(scene: Scene, findings: Findings) -> Verdict | None:
    """Where the picture bears a sign: that of the finding that it says; under another title, the gravest shown."""
    if not any(mark.name.startswith("verdict/") for mark in scene.marks):
        return None
    its = [finding for id_ in scene.findings if (finding := findings.get(id_)) is not None]
    said = next((finding.verdict for finding in its if finding.sentence == scene.title), None)
    shown = [finding.verdict for finding in its]
    return said or next((verdict for verdict in _GRAVEST_FIRST if verdict in shown), None)


class _Page:
    """Places items on a page while it is made."""

    def __init__(self, episode: Episode, look: Look, frame: Frame) -> None:
        self._episode, self._look = episode, look
        self._columns = _COLUMNS[frame.shape]
        self._wide = (_WIDTH - 2 * _MARGIN - (self._columns - 1) * _GAP) / self._columns
        self._high = self._wide * frame.height / frame.width
        self._marks: list[Shape | Text] = []
        self._cells: list[Cell] = []

    def sheet(self, shown: Sequence[Item]) -> Sheet:
        rows = -(-len(shown) // self._columns)
        top = _MARGIN + 2.4 * _HEADING + _GAP
        high = round(top + rows * (self._high + _CAPTION) + (rows - 1) * _GAP + _MARGIN)
        ready = sum(1 for item in shown if item.scene is not None)
        words = f"{self._episode.on:%Y-%m-%d} · {ready} of {len(shown)} pictures · {self._look.name}"
        heading = wrap(self._episode.title or "Untitled", _HEADING, "bold", _WIDTH / 2, 1)
        self._text("heading", "".join(heading), (_MARGIN, _MARGIN + _HEADING), _HEADING, "bold")
        self._text("about", "".join(wrap(words, _NAME, "regular", _WIDTH / 2 - 2 * _MARGIN, 1)),
                   (_WIDTH - _MARGIN, _MARGIN + _HEADING), _NAME, quiet=True, anchor="end")  # fmt: skip
        for order, item in enumerate(shown):
            row, column = divmod(order, self._columns)
            left = _MARGIN + column * (self._wide + _GAP)
            self._item(item, Box(left, top + row * (self._high + _CAPTION + _GAP), self._wide, self._high))
        page = Scene(
            picture="contact_sheet", frame=Frame(_WIDTH, high), background=self._look.plate, marks=tuple(self._marks),
            title=f"Contact sheet: {self._episode.title}",
            alternative="; ".join(f"{item.number} {item.name}: {_state(item)}" for item in shown),
        )  # fmt: skip
        return Sheet(page=page, cells=tuple(self._cells))

    def _item(self, item: Item, box: Box) -> None:
        name = f"item{item.number}"
        edge = rectangle(box.left - 1, box.top - 1, box.width + 2, box.height + 2)
        dash = () if item.scene else (12.0, 10.0)
        self._marks.append(Shape(name=f"{name}/edge", outline=edge, stroke=Stroke(self._look.steel, 2, dash, "flat")))
        if item.scene is not None:
            self._cells.append(Cell(item.scene, box))
        else:
            self._missing(item, box)
        step = _LINE * font_size(_NAME)
        lines = wrap(f"{item.number:02}  {item.name}", _NAME, "semibold", box.width, 2)
        for order, line in enumerate(lines):
            self._text(f"{name}/name{order}", line, (box.left, box.bottom + (order + 1) * step), _NAME, "semibold")
        y = box.bottom + (len(lines) + 1) * step
        if item.verdict is not None:
            side = 1.9 * _SMALL
            stands = Box(box.left, y - _SMALL / 2 - side / 2, side, side)
            self._marks += sign(item.verdict, stands, self._look, f"{name}/sign")
            self._text(f"{name}/verdict", verdict_word(item.verdict), (box.left + side + 14, y), _SMALL, quiet=True)

    def _missing(self, item: Item, box: Box) -> None:
        inner = box.inset(24)
        step = _LINE * font_size(_SMALL)
        words = f"{item.missing[:1].upper()}{item.missing[1:]}"
        for order, line in enumerate(wrap(words, _SMALL, "regular", inner.width, 5)):
            at = (inner.left, inner.top + _SMALL + order * step)
            self._text(f"item{item.number}/missing{order}", line, at, _SMALL, quiet=True)

    def _text(
        self, name: str, text: str, at: tuple[float, float], cap: float, weight: Weight = "regular", *,
        quiet: bool = False, anchor: str = "start",
    ) -> None:  # fmt: skip
        fill = self._look.quiet if quiet else self._look.ink
        self._marks.append(Text(name=name, text=text, at=at, cap_height=cap, fill=fill, ground=self._look.plate,
                                role="small", weight=weight, anchor=anchor))  # type: ignore[arg-type]  # fmt: skip


def _state(item: Item) -> str:
    return item.missing or verdict_word(item.verdict) or "shown"
