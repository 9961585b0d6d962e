"""The script as the prompting view shows it: one part a talking point, with its time, its pictures, its numbers."""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass

from studio.model.episode import Episode
from studio.model.finding import Findings
from studio.model.rundown import Rundown, Segment
from studio.script.live import HOLE, Piece, filled
from studio.script.numbers import by_id
from studio.script.timing import SegmentTime, Timing, paid_lines


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
        texts = [filled(point.text, index, episode.units) for point in segment.points]
        parts += _of_segment(episode, segment, time, texts)
    return tuple(parts)


def _of_segment(
    episode: Episode, segment: Segment, time: SegmentTime, texts: Sequence[Sequence[Piece]]
) -> Iterator[PromptPart]:
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
            speaking_s=speaking, pause_s=pause, numbers=tuple(_forms(pieces, episode)),
            pictures=tuple(cue.picture for cue in segment.pictures if place >= 0 and cue.with_point == place),
        )  # fmt: skip


def _ties(rundown: Rundown, segment: Segment) -> list[Sequence[Piece]]:
    return [
        (Piece(kind="text", text=line, spoken=line, start=0, end=len(line)),) for line in paid_lines(rundown, segment)
    ]


def _stretch(piece: Piece) -> tuple[str, bool]:
    """A hole is read as a hole: its reason is nothing to be said."""
    return (HOLE * 3, False) if piece.kind == "hole" else (piece.text, piece.kind == "number")


def _forms(pieces: Sequence[Piece], episode: Episode) -> Iterator[UnitForms]:
    seen = set()
    for piece in pieces:
        if piece.quantity is None or (piece.finding, piece.number) in seen:
            continue
        seen.add((piece.finding, piece.number))
        mine = piece.quantity.in_system(episode.units)
        other = piece.quantity.in_system("metric" if episode.units == "us" else "us")
        said = mine.spoken()
        yield UnitForms(mine.text(), "" if other.unit == mine.unit else other.text(), said)


def next_picture(parts: Sequence[PromptPart], at: int) -> tuple[str, int] | None:
    """The picture that comes on with the part ``at`` or after it, and how many parts away that is."""
    found = ((its, number - at) for number, part in enumerate(parts[at:], start=at) for its in part.pictures)
    return next(found, None)
