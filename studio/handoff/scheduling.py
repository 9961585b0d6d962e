"""From the rundown to the schedule: planned times at the presenter's pace, or those of the recorded take."""

from collections.abc import Iterator, Mapping, Sequence
from fractions import Fraction

from studio.graphics.catalogue import catalogue
from studio.graphics.scene import Scene
from studio.graphics.timing import step_holds
from studio.handoff.captions import one_line
from studio.handoff.schedule import Schedule, TimedPicture, TimedPoint, TimedSegment, TimedStep
from studio.model.episode import Episode
from studio.model.finding import Findings
from studio.model.rundown import PictureCue, Segment, Take
from studio.script.live import filled, screen_text, without_braces
from studio.script.numbers import by_id
from studio.script.takes import wrong_with
from studio.script.timing import SegmentTime, Timing, paid_lines, time_script
from studio.script.words import count_words

Span = tuple[Fraction, Fraction]


def scheduled(
    episode: Episode, findings: Findings, scenes: Mapping[str, Scene], files: Mapping[str, str],
    notes: Mapping[str, Sequence[str]],
) -> Schedule:  # fmt: skip
    """When everything of the rundown comes. ``files`` gives each picture's path, ``notes`` each segment's cautions."""
    rundown = episode.rundown
    timing = time_script(rundown, findings, episode.units)
    take = recorded_take(episode)
    times = _taken(take, timing) if take else [(its.starts_s, its.starts_s + its.total_s) for its in timing.segments]
    known = by_id(findings)
    made = []
    for segment, planned, span in zip(rundown.segments, timing.segments, times, strict=True):
        said = [screen_text(filled(point.text, known, episode.units)) for point in segment.points]
        points = tuple(_points([*said, *map(without_braces, paid_lines(rundown, segment))], planned, span))
        pictures = tuple(_pictures(segment, points, span, scenes, files))
        made.append(
            TimedSegment(
                id=segment.id, title=without_braces(one_line(segment.title)), start=span[0], end=span[1], points=points,
                pictures=pictures, notes=tuple(notes.get(segment.id, ())),
            )
        )  # fmt: skip
    return Schedule(title=one_line(episode.title), segments=tuple(made), basis=_basis(take, timing))


def recorded_take(episode: Episode) -> Take | None:
    """The last recorded take that holds every segment once, in order and with sound times."""
    ids = [segment.id for segment in episode.rundown.segments]
    for take in reversed(episode.rundown.takes):
        sound = not wrong_with(take, dict.fromkeys(ids))
        if take.recorded and sound and [time.segment for time in take.times] == ids:
            return take
    return None


def _basis(take: Take | None, timing: Timing) -> str:
    if take:
        return f"by the take of {take.on.isoformat()}"
    whence = {"set": "as set", "learnt": "learnt from takes", "default": "not yet learnt from takes"}[timing.pace_from]
    return f"at {round(timing.words_per_minute)} words a minute, {whence}"


def _taken(take: Take, timing: Timing) -> list[Span]:
    """The take's times from its first word on; a segment lasts until the next begins."""
    starts = [Fraction(time.start_s) for time in take.times]
    zero = starts[0] if starts else Fraction(0)
    ends = [*starts[1:], Fraction(take.times[-1].end_s)] if starts else []
    return [(start - zero, end - zero) for start, end in zip(starts, ends, strict=True)]


def _points(texts: Sequence[str], planned: SegmentTime, span: Span) -> Iterator[TimedPoint]:
    """The points at their planned shares of the segment's time."""
    shares = [(its.words, its.speaking_s, its.pause_s) for its in planned.points]
    extra = len(texts) - len(shares)
    if extra:
        each = [count_words(text) for text in texts[len(shares) :]]
        total = sum(each) or 1
        shares += [(count, planned.tie_s * Fraction(count, total), Fraction(0)) for count in each]
    stretch = (span[1] - span[0]) / planned.total_s if planned.total_s else Fraction(0)
    at = span[0]
    for text, (words, speaking, pause) in zip(texts, shares, strict=True):
        end = at + speaking * stretch
        yield TimedPoint(text=text, start=at, end=end, spoken_words=words)
        at = end + pause * stretch


def _pictures(
    segment: Segment, points: Sequence[TimedPoint], span: Span, scenes: Mapping[str, Scene], files: Mapping[str, str]
) -> Iterator[TimedPicture]:
    """Each picture from its point until the next picture or the segment's end; those of one point share its time."""
    cues = sorted(segment.pictures, key=lambda cue: cue.with_point)
    starts = [_start(cue, points, span) for cue in cues]
    for place, cue in enumerate(cues):
        same = [i for i, start in enumerate(starts) if start == starts[place]]
        later = next((start for start in starts[place:] if start > starts[place]), span[1])
        share = (later - starts[place]) / len(same)
        start = starts[place] + share * same.index(place)
        yield _picture(cue, start, start + share, scenes.get(cue.picture), files.get(cue.picture, ""))


def _start(cue: PictureCue, points: Sequence[TimedPoint], span: Span) -> Fraction:
    return points[min(cue.with_point, len(points) - 1)].start if points else span[0]


def _picture(cue: PictureCue, start: Fraction, end: Fraction, scene: Scene | None, file: str) -> TimedPicture:
    entry = catalogue().get(cue.picture)
    steps = tuple(_steps(cue, start, end, scene)) if scene else ()
    name = entry.name if entry else one_line(cue.picture)
    return TimedPicture(picture=cue.picture, name=name, file=file, start=start, end=end, steps=steps)


def _steps(cue: PictureCue, start: Fraction, end: Fraction, scene: Scene) -> Iterator[TimedStep]:
    """The steps wanted at their reading times, pressed together where the picture is not on for so long."""
    held = [(name, hold) for name, hold in zip(scene.steps, step_holds(scene), strict=True)
            if not cue.steps or name in cue.steps]  # fmt: skip
    total = sum((hold for _, hold in held), Fraction(0))
    pressed = min(Fraction(1), (end - start) / total) if total else Fraction(0)
    at = start
    for name, hold in held:
        yield TimedStep(name=name, start=at)
        at += hold * pressed
