"""The script as the prompting view shows it: one part a talking point, with its time, its pictures, its numbers."""

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass

from studio.model.episode import Episode
from studio.model.finding import Finding, Findings
from studio.model.quantity import System
from studio.model.rundown import Rundown, Segment
from studio.script.live import HOLE, Piece, filled, without_braces
from studio.script.numbers import by_id, numbers_of
from studio.script.timing import SegmentTime, Timing, paid_lines

NO_BREAK = "\u00a0"


@dataclass(frozen=True)
class Known:
    """What live numbers are filled from: the findings by id, in the audience's units."""

    findings: Mapping[str, Finding]
    units: System


@dataclass(frozen=True)
class UnitForms:
    """A live number in the audience's unit and in the other one (empty where there is none), and as it is said."""

    mine: str
    other: str
    said: str


@dataclass(frozen=True)
class PromptPart:
    """One talking point, or the spoken line of a paid tie: ``source`` is its text, filled when it is shown."""

    segment: str
    title: str
    first: bool
    last: bool
    source: str
    speaking_s: float
    pause_s: float
    pictures: tuple[str, ...] = ()
    known: Known = Known({}, "us")

    @property
    def stretches(self) -> tuple[tuple[str, bool], ...]:
        """The text in (stretch, whether it is a live number)."""
        return tuple(_stretch(piece) for piece in self._pieces())

    @property
    def numbers(self) -> tuple[UnitForms, ...]:
        """Each live number once, in both units and in words."""
        return tuple(_forms(self._pieces(), self.known.findings, self.known.units))

    @property
    def text(self) -> str:
        """All of it."""
        return "".join(text for text, _ in self.stretches)

    @property
    def total_s(self) -> float:
        """Speaking and pause."""
        return self.speaking_s + self.pause_s

    def _pieces(self) -> tuple[Piece, ...]:
        return filled(self.source, self.known.findings, self.known.units)


def prompt_parts(episode: Episode, findings: Findings, timing: Timing) -> tuple[PromptPart, ...]:
    """The parts of the whole script in order; segments without any text have none."""
    known = Known(by_id(findings), episode.units)
    parts: list[PromptPart] = []
    for segment, time in zip(episode.rundown.segments, timing.segments, strict=True):
        parts += _of_segment(episode.rundown, segment, time, known)
    return tuple(parts)


def _of_segment(rundown: Rundown, segment: Segment, time: SegmentTime, known: Known) -> Iterator[PromptPart]:
    rows = [
        (point.text, float(its.speaking_s), float(its.pause_s), place)
        for place, (point, its) in enumerate(zip(segment.points, time.points, strict=True))
        if point.text.strip() or point.pause_s
    ]  # fmt: skip
    lines = paid_lines(rundown, segment)
    rows += [(_unbraced(line), float(time.tie_s) / len(lines), 0.0, -1) for line in lines]
    for number, (text, speaking, pause, place) in enumerate(rows):
        yield PromptPart(
            segment=segment.id, title=without_braces(" ".join(segment.title.split())), first=number == 0,
            last=number == len(rows) - 1, source=text, speaking_s=speaking, pause_s=pause, known=known,
            pictures=tuple(cue.picture for cue in segment.pictures if place >= 0 and cue.with_point == place),
        )  # fmt: skip


def _unbraced(line: str) -> str:
    """A paid line is text alone: nothing in it is live."""
    return line.replace("{", "(").replace("}", ")")


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
