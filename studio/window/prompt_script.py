"""The script as the prompting view shows it: one part a talking point, with its time, its pictures, its numbers."""

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass

from studio.model.episode import Episode
from studio.model.finding import Finding, Findings
from studio.model.quantity import System
from studio.model.rundown import Rundown, Segment
from studio.script.live import HOLE, Piece, filled
from studio.script.numbers import by_id, numbers_of
from studio.script.timing import SegmentTime, Timing, paid_lines

NO_BREAK = "\u00a0"


@dataclass(frozen=True)
class UnitForms:
    """A live number in the audience's unit and in the other one (empty where there is none), and as it is said."""

    mine: str
    other: str
    said: str


@dataclass(frozen=True)
class PromptPart:
    """One talking point, or the spoken line of a paid tie. ``stretches`` are (text, whether it is a live number)."""

    segment: str
    title: str
    first: bool
    last: bool
    stretches: tuple[tuple[str, bool], ...]
    speaking_s: float
    pause_s: float
    pictures: tuple[str, ...] = ()
    numbers: tuple[UnitForms, ...] = ()

    @property
    def text(self) -> str:
        """All of it."""
        return "".join(text for text, _ in self.stretches)

    @property
    def total_s(self) -> float:
        """Speaking and pause."""
        return self.speaking_s + self.pause_s


def prompt_parts(episode: Episode, findings: Findings, timing: Timing) -> tuple[PromptPart, ...]:
    """The parts of the whole script in order; segments without any text have none."""
    index = by_id(findings)
    parts: list[PromptPart] = []
    for segment, time in zip(episode.rundown.segments, timing.segments, strict=True):
        parts += _of_segment(episode, segment, time, index)
    return tuple(parts)


def _of_segment(
    episode: Episode, segment: Segment, time: SegmentTime, index: Mapping[str, Finding]
) -> Iterator[PromptPart]:
    texts = [filled(point.text, index, episode.units) for point in segment.points]
    rows = [
        (pieces, float(point.speaking_s), float(point.pause_s), place)
        for place, (pieces, point) in enumerate(zip(texts, time.points, strict=True)) if pieces or point.pause_s
    ]  # fmt: skip
    ties = _ties(episode.rundown, segment)
    rows += [(pieces, float(time.tie_s) / len(ties), 0.0, -1) for pieces in ties]
    for number, (pieces, speaking, pause, place) in enumerate(rows):
        yield PromptPart(
            segment=segment.id, title=" ".join(segment.title.split()), first=number == 0,
            last=number == len(rows) - 1, stretches=tuple(_stretch(piece) for piece in pieces),
            speaking_s=speaking, pause_s=pause, numbers=tuple(_forms(pieces, index, episode.units)),
            pictures=tuple(cue.picture for cue in segment.pictures if place >= 0 and cue.with_point == place),
        )  # fmt: skip


def _ties(rundown: Rundown, segment: Segment) -> list[Sequence[Piece]]:
    return [
        (Piece(kind="text", text=line, spoken=line, start=0, end=len(line)),) for line in paid_lines(rundown, segment)
    ]


def _stretch(piece: Piece) -> tuple[str, bool]:
    """A hole is read as a hole: its reason is nothing to be said."""
    if piece.kind == "hole":
        return HOLE * 3, False
    live = piece.kind == "number"
    return (_kept_together(piece.text) if live else piece.text), live


def _kept_together(text: str) -> str:
    """A number in digits stays on one line with its unit."""
    return text.replace(" ", NO_BREAK).replace(f"{NO_BREAK}(", " (") if any(c.isdigit() for c in text) else text


def _forms(pieces: Sequence[Piece], index: Mapping[str, Finding], units: System) -> Iterator[UnitForms]:
    """Each live number once, in both units and in words."""
    seen: set[UnitForms] = set()
    for piece in pieces:
        finding = index.get(piece.finding) if piece.kind == "number" else None
        number = numbers_of(finding).get(piece.number) if finding is not None else None
        if number is None:
            continue
        mine, other = number.short(units), number.short("metric" if units == "us" else "us")
        forms = UnitForms(mine, "" if other == mine else other, number.spoken(units))
        if forms not in seen:
            seen.add(forms)
            yield forms


def next_picture(parts: Sequence[PromptPart], at: int) -> tuple[str, int] | None:
    """The picture that comes on with the part ``at`` or after it, and how many parts away that is."""
    found = ((its, number - at) for number, part in enumerate(parts[at:], start=at) for its in part.pictures)
    return next(found, None)
