"""The cut as an edit decision list (CMX 3600): the plain fallback for an edit that reads no timeline file.

Cuts only, one video track, at most 999 events; what a picture is and where its steps come stands in notes.
"""

from collections.abc import Iterator

from studio.handoff.captions import one_line
from studio.handoff.schedule import Schedule, TimedSegment
from studio.model.rate import drops_labels, frames_in, timecode
from studio.model.rundown import Rate

MOST_EVENTS = 999
REEL = "AX"
HOUR_S = 3600


def edit_list(schedule: Schedule, rate: Rate) -> str:
    """The list's text, plain ASCII; record times begin at one hour, as cuts do. Raises ValueError past 999 events."""
    if len(schedule.segments) > MOST_EVENTS:
        raise ValueError(f"{len(schedule.segments)} segments; an edit list holds at most {MOST_EVENTS}")
    head = [f"TITLE: {_ascii(schedule.title)[:60]}", f"FCM: {'DROP FRAME' if drops_labels(rate) else 'NON-DROP FRAME'}"]
    events = [
        line
        for number, segment in enumerate(schedule.segments, start=1)
        for line in _event(number, segment, rate)
    ]  # fmt: skip
    return "\n".join([*head, "", *events]) + "\n"


def start_frame(rate: Rate) -> int:
    """The frame whose label is one hour, at which the record begins."""
    nominal = {"24000/1001": 24, "25": 25, "30000/1001": 30, "60": 60}[rate] * HOUR_S
    return 107_892 if drops_labels(rate) else nominal


def _event(number: int, segment: TimedSegment, rate: Rate) -> Iterator[str]:
    start, end = frames_in(segment.start, rate), frames_in(segment.end, rate)
    zero = start_frame(rate)
    source = (timecode(start, rate), timecode(end, rate))
    record = (timecode(zero + start, rate), timecode(zero + end, rate))
    yield f"{number:03d}  {REEL:<8} V     C        {' '.join((*source, *record))}"
    yield f"* FROM CLIP NAME: {_ascii(segment.title)[:60]}"
    for picture in segment.pictures:
        at = timecode(zero + frames_in(picture.start, rate), rate)
        yield f"* LOC: {at} BLUE {_ascii(picture.file or picture.picture)[:60]}"
        for step in picture.steps[1:]:
            yield f"* LOC: {timecode(zero + frames_in(step.start, rate), rate)} GREEN {_ascii(step.name)[:60]}"


def _ascii(text: str) -> str:
    return one_line(text).encode("ascii", "replace").decode("ascii")
