"""The deliverables: each file with what goes into it, so that it is known to be fresh before it is made again."""

from collections.abc import Callable, Generator, Iterable, Iterator
from dataclasses import dataclass
from fractions import Fraction
from functools import partial
from hashlib import sha256
from pathlib import Path
from typing import Any

import msgspec

from studio.graphics.scene import Scene
from studio.handoff.captions import cues_of, srt, webvtt
from studio.handoff.description import chapter_lines, description, episode_chapters, webvtt_chapters
from studio.handoff.gathering import picture_files
from studio.handoff.material import Material
from studio.handoff.schedule import TimedSegment
from studio.script.live import filled
from studio.script.numbers import by_id

ITEMS = (
    "brief", "pictures", "clips", "captions", "chapters", "description", "timeline", "edit_list", "cue_cards",
    "shot_list",
)  # fmt: skip
ITEM_NAMES = {
    "brief": "Brief", "pictures": "Pictures", "clips": "Moving clips", "captions": "Captions", "chapters": "Chapters",
    "description": "Description", "timeline": "Timeline", "edit_list": "Edit list", "cue_cards": "Cue cards",
    "shot_list": "Shot list",
}  # fmt: skip
MADE_LIKE = "1"
"""Changes when the program draws or writes something differently: then all that was made before is stale."""


@dataclass(frozen=True)
class Work:
    """One file of the hand-off. ``findings`` are those whose numbers stand in it; ``fingerprint`` is of all that goes
    into it. ``lacking`` says why it cannot be made. What is too large to be held in memory has ``write``, which yields
    the share done and returns the file's hash."""

    item: str
    file: str
    findings: tuple[str, ...]
    fingerprint: str
    make: Callable[[], bytes]
    lacking: str = ""
    write: Callable[[Path], Generator[float, None, str]] | None = None


def works(material: Material) -> tuple[Work, ...]:
    """Every file of the hand-off, in the order of ``ITEMS``; nothing is painted or written yet."""
    made = [*_documents(material), *_pictures(material), *_texts(material)]
    from studio.handoff.clip_works import clip_works

    made += clip_works(material)
    return tuple(sorted(made, key=lambda work: ITEMS.index(work.item)))


def fingerprint(*parts: object) -> str:
    """A digest of plain values."""
    return sha256(msgspec.json.encode([MADE_LIKE, *parts], order="deterministic", enc_hook=_plain)).hexdigest()


def _plain(value: Any) -> str | float:
    """What the encoder does not know: exact times, and a chart's numbers of another library."""
    return str(value) if isinstance(value, Fraction) else float(value)


def _documents(material: Material) -> Iterator[Work]:
    episode, schedule = material.episode, material.schedule
    head = (episode.title, episode.channel, episode.region)
    everything = fingerprint(
        *head, episode.on, episode.car, episode.specimens, episode.rundown, material.findings.all, schedule,
        list(material.scenes.values()),
    )  # fmt: skip
    all_ids = tuple(finding.id for finding in material.findings)
    spoken = spoken_findings(material)
    lists = [(segment.props, segment.shots) for segment in episode.rundown.segments]
    yield Work("brief", "brief.pdf", all_ids, everything, partial(_brief, material))
    yield Work("cue_cards", "cue_cards.pdf", spoken, fingerprint(*head, schedule), partial(_cue_cards, material))
    shots = fingerprint(*head, lists, [(s.title, s.start, s.pictures) for s in schedule.segments])
    yield Work("shot_list", "shot_list.pdf", (), shots, partial(_shot_list, material))


def _pictures(material: Material) -> Iterator[Work]:
    files = picture_files(material.episode, material.scenes)
    for id_, scene in material.scenes.items():
        yield Work("pictures", files[id_], scene.findings, fingerprint(scene), partial(_png, scene))


def _texts(material: Material) -> Iterator[Work]:
    from studio.handoff.cue_cards import shot_table
    from studio.handoff.edit_list import edit_list

    rate, schedule = material.episode.rundown.rate, material.schedule
    cues, chapters = cues_of(schedule), episode_chapters(material)
    spoken, shown = spoken_findings(material), _shown(material)
    silent = "" if cues else "The rundown has nothing to say yet."
    yield _text("captions", "captions.srt", spoken, srt(cues), silent)
    yield _text("captions", "captions.vtt", spoken, webvtt(cues), silent)
    yield _text("chapters", "chapters.txt", (), chapter_lines(chapters), chapters.why_none)
    yield _text("chapters", "chapters.vtt", (), webvtt_chapters(chapters.all, material), chapters.why_none)
    yield _text("description", "description.txt", (*spoken, *shown), description(material))
    cut = fingerprint(rate, msgspec.structs.replace(schedule, segments=tuple(map(_unspoken, schedule.segments))))
    yield Work("timeline", "timeline.otio", (), cut, partial(_timeline, material))
    yield _text("edit_list", "timeline.edl", (), edit_list(schedule, rate))
    yield _text("shot_list", "shot_list.csv", (), shot_table(material))


def _text(item: str, file: str, findings: Iterable[str], content: str, lacking: str = "") -> Work:
    data = content.encode("utf-8")
    ids = tuple(dict.fromkeys(findings))
    return Work(item, file, ids, sha256(MADE_LIKE.encode() + data).hexdigest(), lambda: data, lacking)


def spoken_findings(material: Material) -> tuple[str, ...]:
    """The findings whose live numbers are spoken in the rundown."""
    known = by_id(material.findings)
    pieces = (
        piece
        for segment in material.episode.rundown.segments
        for point in segment.points
        for piece in filled(point.text, known, material.episode.units)
    )
    return tuple(dict.fromkeys(piece.finding for piece in pieces if piece.kind == "number"))


def _shown(material: Material) -> tuple[str, ...]:
    cued = (its.picture for segment in material.schedule.segments for its in segment.pictures)
    return tuple(id_ for picture in cued if picture in material.scenes for id_ in material.scenes[picture].findings)


def _brief(material: Material) -> bytes:
    from studio.handoff.brief import brief

    return brief(material)


def _cue_cards(material: Material) -> bytes:
    from studio.handoff.cue_cards import cue_cards

    return cue_cards(material)


def _shot_list(material: Material) -> bytes:
    from studio.handoff.cue_cards import shot_list

    return shot_list(material)


def _unspoken(segment: TimedSegment) -> TimedSegment:
    """A segment as the timeline knows it, which holds no words."""
    return msgspec.structs.replace(segment, points=())


def _timeline(material: Material) -> bytes:
    from studio.handoff.timeline import timeline

    return timeline(material.schedule, material.episode.rundown.rate).encode("utf-8")


def _png(scene: Scene) -> bytes:
    from studio.graphics.paint.raster import png

    return png(scene)
