"""The cut as an OpenTimelineIO file: segments, pictures where they are spoken, steps and cautions as markers."""

from collections.abc import Iterable
from fractions import Fraction
from typing import Any

from studio.handoff.captions import one_line
from studio.handoff.schedule import Schedule, TimedPicture, TimedSegment
from studio.model.rate import RATES, frames_in
from studio.model.rundown import Rate

KEY = "tire_episode_studio"


def timeline(schedule: Schedule, rate: Rate) -> str:
    """The file's text. Frame counts are exact; media stand by paths relative to the file."""
    import opentimelineio as otio

    made = otio.schema.Timeline(name=one_line(schedule.title), global_start_time=_time(0, rate))
    made.metadata[KEY] = {"rate": rate, "times_from": schedule.basis}
    talk = otio.schema.Track(name="Talk", kind=otio.schema.TrackKind.Video)
    talk.extend(_talk_clip(segment, rate) for segment in schedule.segments)
    shown = otio.schema.Track(name="Pictures", kind=otio.schema.TrackKind.Video)
    shown.extend(_with_gaps([its for segment in schedule.segments for its in segment.pictures], rate))
    made.tracks.extend([talk, shown])
    return str(otio.adapters.write_to_string(made, "otio_json", indent=2)) + "\n"


def _talk_clip(segment: TimedSegment, rate: Rate) -> Any:
    import opentimelineio as otio

    clip = otio.schema.Clip(
        name=one_line(segment.title), media_reference=otio.schema.MissingReference(),
        source_range=_range(segment.start, segment.end, rate),
    )  # fmt: skip
    clip.metadata[KEY] = {"segment": segment.id}
    clip.markers.extend(
        _marker(
            one_line(note)[:60], frames_in(segment.start, rate), rate, "RED", one_line(note), {"segment": segment.id}
        )
        for note in segment.notes
    )
    return clip


def _with_gaps(pictures: Iterable[TimedPicture], rate: Rate) -> list[Any]:
    import opentimelineio as otio

    items, at = list[Any](), 0
    for picture in pictures:
        start, end = frames_in(picture.start, rate), frames_in(picture.end, rate)
        if end <= start:
            continue
        if start > at:
            items.append(otio.schema.Gap(source_range=otio.opentime.TimeRange(_time(0, rate), _time(start - at, rate))))
        items.append(_picture_clip(picture, rate))
        at = end
    return items


def _picture_clip(picture: TimedPicture, rate: Rate) -> Any:
    import opentimelineio as otio

    length = frames_in(picture.end, rate) - frames_in(picture.start, rate)
    span = otio.opentime.TimeRange(_time(0, rate), _time(length, rate))
    media: Any = otio.schema.MissingReference()
    if picture.file:
        media = otio.schema.ExternalReference(target_url=picture.file, available_range=span)
    clip = otio.schema.Clip(name=one_line(picture.name), media_reference=media, source_range=span)
    clip.metadata[KEY] = {"picture": picture.picture}
    clip.markers.extend(
        _marker(
            one_line(step.name), _after(picture.start, step.start, rate), rate, "GREEN", "step", {"step": step.name}
        )
        for step in picture.steps
    )
    return clip


def _after(start: Fraction, at: Fraction, rate: Rate) -> int:
    return frames_in(at, rate) - frames_in(start, rate)


def _marker(name: str, frame: int, rate: Rate, color: str, comment: str, ours: dict[str, str]) -> Any:
    import opentimelineio as otio

    where = otio.opentime.TimeRange(_time(frame, rate), _time(1, rate))
    return otio.schema.Marker(name=name, marked_range=where, color=color, comment=comment, metadata={KEY: ours})


def _range(start: Fraction, end: Fraction, rate: Rate) -> Any:
    import opentimelineio as otio

    first = frames_in(start, rate)
    return otio.opentime.TimeRange(_time(first, rate), _time(frames_in(end, rate) - first, rate))


def _time(frames: int, rate: Rate) -> Any:
    import opentimelineio as otio

    return otio.opentime.RationalTime(frames, float(RATES[rate]))
