"""The rundown as the list shows it: each segment with its lengths, the running total, and what is over the target."""

from collections import Counter
from collections.abc import Sequence
from dataclasses import dataclass
from fractions import Fraction

from studio.model.rundown import Rundown, Segment, Take
from studio.script.takes import wrong_with
from studio.script.timing import Timing
from studio.window.rundown_remarks import RemarkRow


@dataclass(frozen=True)
class SegmentRow:
    """One segment. Lengths in seconds; None where they are not known. ``over`` says that it ends past the target."""

    id: str
    title: str
    number: int
    planned_s: Fraction | None = None
    said_s: Fraction | None = None
    ends_s: Fraction | None = None
    share: float = 0.0
    """Its part of the longest segment's length."""
    over: bool = False
    calls: str = ""
    """What asks for work in it: ``0:03 over the target, 1 contradicted``."""

    @property
    def spoken(self) -> str:
        """The row in words, for assistive technology."""
        parts = [f"{self.number}. {self.title or 'without a title'}", f"planned {clock(self.planned_s)}"]
        if self.said_s is not None:
            parts.append(f"said in {clock(self.said_s)}")
        parts.append(f"ends at {clock(self.ends_s)}")
        return ", ".join([*parts, self.calls] if self.calls else parts)


def segment_rows(rundown: Rundown, timing: Timing | None, remarks: Sequence[RemarkRow]) -> tuple[SegmentRow, ...]:
    """The segments as rows. Times that are a little old are shown until the new ones come."""
    planned = planned_lengths(timing)
    said = said_lengths(rundown)
    calls = _calls(remarks)
    longest = max(planned.values(), default=Fraction(0))
    rows, at = [], Fraction(0)
    for number, segment in enumerate(rundown.segments, start=1):
        its = planned.get(segment.id)
        at += its if its is not None else 0
        rows.append(_row(segment, number, its, at, said.get(segment.id), longest, rundown, calls.get(segment.id, "")))
    return tuple(rows)


def planned_lengths(timing: Timing | None) -> dict[str, Fraction]:
    """How long each segment is, from where it and the next one begin: adding up its points takes too long here."""
    if timing is None:
        return {}
    ends = [*(segment.starts_s for segment in timing.segments[1:]), timing.total_s]
    return {its.segment: end - its.starts_s for its, end in zip(timing.segments, ends, strict=False)}


def _row(
    segment: Segment, number: int, planned: Fraction | None, ends: Fraction, said: Fraction | None, longest: Fraction,
    rundown: Rundown, calls: str,
) -> SegmentRow:  # fmt: skip
    target = rundown.target_s
    over = Fraction(target) < ends if target is not None and planned is not None else False
    beyond = f"{clock(ends - Fraction(target))} over the target" if over and target is not None else ""
    return SegmentRow(
        id=segment.id, title=segment.title, number=number, planned_s=planned, said_s=said,
        ends_s=ends if planned is not None else None, share=float(planned / longest) if planned and longest else 0.0,
        over=over, calls=", ".join(part for part in (beyond, calls) if part),
    )  # fmt: skip


def last_take(rundown: Rundown) -> Take | None:
    """The last take whose times are in order."""
    known = {segment.id: True for segment in rundown.segments}
    return next((take for take in reversed(rundown.takes) if not wrong_with(take, known)), None)


def said_lengths(rundown: Rundown) -> dict[str, Fraction]:
    """How long each segment was in the last take."""
    take = last_take(rundown)
    return {t.segment: Fraction(t.end_s) - Fraction(t.start_s) for t in take.times} if take is not None else {}


def clock(seconds: Fraction | float | None) -> str:
    """Minutes and seconds, to the nearest; a dash where nothing is known."""
    if seconds is None:
        return "–"
    minutes, second = divmod(round(seconds), 60)
    hours, minute = divmod(minutes, 60)
    return f"{hours}:{minute:02d}:{second:02d}" if hours else f"{minute}:{second:02d}"


def total_words(timing: Timing | None) -> str:
    """The running length against the target: ``1:10 of 8:00, 6:50 left``."""
    if timing is None:
        return ""
    words = clock(timing.total_s)
    if timing.target_s is None or timing.over_s is None:
        return words
    apart = clock(abs(timing.over_s))
    return f"{words} of {clock(timing.target_s)}, {apart} {'over' if timing.over_s > 0 else 'left'}"


def pace_words(timing: Timing | None) -> str:
    """Whose pace it is: ``150 words a minute, as usual``."""
    if timing is None:
        return ""
    whence = {"set": "as set", "learnt": "learnt from takes", "default": "the usual pace"}[timing.pace_from]
    return f"{float(timing.words_per_minute):.0f} words a minute, {whence}"


def _calls(remarks: Sequence[RemarkRow]) -> dict[str, str]:
    found: dict[str, Counter[str]] = {}
    for row in remarks:
        if row.calls:
            found.setdefault(row.remark.segment, Counter())[row.word] += 1
    return {id_: ", ".join(f"{n} {word}" for word, n in counts.items()) for id_, counts in found.items()}
