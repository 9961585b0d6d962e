"""The text that stands under the published film: what it is about, chapters, sources, cautions, disclosures."""

import re
from collections.abc import Iterator, Sequence

from studio.handoff.captions import WORD_JOINER, one_line
from studio.handoff.material import Material
from studio.model.source import Source
from studio.script.chapters import Chapter, Chapters, Spoken, chapters

LONGEST = 5000
_A_TIME = re.compile(r"^(\W*\d{1,3}:)(?=\d\d)")
_CUT = "More sources stand in the brief."


def episode_chapters(material: Material) -> Chapters:
    """The chapters of the schedule."""
    segments = material.schedule.segments
    return chapters([Spoken(segment=s.id, title=s.title, starts_s=s.start, ends_s=s.end) for s in segments])


def chapter_lines(made: Chapters) -> str:
    """Chapters as lines of a description; empty where there are none."""
    return "".join(f"{chapter.line}\n" for chapter in made.all)


def webvtt_chapters(made: Sequence[Chapter], material: Material) -> str:
    """Chapters as a WebVTT file."""
    from studio.handoff.captions import Cue, webvtt

    ends = [*(chapter.starts_s for chapter in made[1:]), *([material.schedule.end] if made else [])]
    cues = [
        Cue(start_ms=int(chapter.starts_s * 1000), end_ms=int(end * 1000), lines=(chapter.title,))
        for chapter, end in zip(made, ends, strict=True)
    ]
    return webvtt(cues)


def description(material: Material) -> str:
    """At most 5,000 characters; where there are too many sources the last ones give way, cautions never do."""
    parts = [list(part) for part in _fixed(material)]
    sources = list(_sources(material))
    while sources and len(_text([*parts, ["Sources", *sources]])) > LONGEST:
        sources = [*sources[:-2], _CUT] if sources[-1] == _CUT else [*sources[:-1], _CUT]
        if sources == [_CUT]:
            sources = []
    text = _text([*parts, ["Sources", *sources]] if sources else parts)
    return text if len(text) <= LONGEST else text[: LONGEST - 2].rstrip() + "…\n"


def _text(parts: Sequence[Sequence[str]]) -> str:
    return "\n\n".join("\n".join(part) for part in parts if part) + "\n"


def _fixed(material: Material) -> Iterator[Iterator[str]]:
    yield _opening(material)
    yield _disclosures(material)
    yield _chapters(material)
    yield _cautions(material)


def _opening(material: Material) -> Iterator[str]:
    episode = material.episode
    yield _no_chapter(one_line(episode.title))
    if story := _no_chapter(one_line(episode.story)):
        yield story if len(story) <= 600 else story[:599].rstrip() + "…"
    yield f"Limits are those of {material.region_words} on {episode.on.isoformat()}; check your own."


def _no_chapter(line: str) -> str:
    """The line; one that begins as a chapter does, with a time, is kept from being taken for one."""
    return _A_TIME.sub(rf"\1{WORD_JOINER}", line)


def _disclosures(material: Material) -> Iterator[str]:
    for tie in material.episode.rundown.paid_ties:
        line = one_line(tie.line or tie.card or tie.what)
        yield f"Paid or lent: {one_line(tie.what)}. {line}" if line != one_line(tie.what) else f"Paid or lent: {line}"


def _chapters(material: Material) -> Iterator[str]:
    for chapter in episode_chapters(material).all:
        yield chapter.line


def _cautions(material: Material) -> Iterator[str]:
    notes = dict.fromkeys(note for segment in material.schedule.segments for note in segment.notes)
    spoken = dict.fromkeys(
        finding.caution for id_ in _spoken_of(material) if (finding := material.findings.get(id_)) and finding.caution
    )
    texts = list(dict.fromkeys([*notes, *spoken]))
    if texts:
        yield "Safety"
        yield from map(_no_chapter, texts)
    yield "This informs and does not certify. The vehicle's manual, local law and a qualified tire professional decide."


def _sources(material: Material) -> Iterator[str]:
    found = (material.findings.get(id_) for id_ in _spoken_of(material))
    all_ = dict.fromkeys(source for finding in found if finding for source in finding.sources)
    for source in sorted(all_, key=lambda its: (its.standing, its.title, its.locator)):
        yield _line(source)


def _line(source: Source) -> str:
    place = f", {source.locator}" if source.locator not in ("", "none") else ""
    return f"{source.title}{place} ({source.standing})"


def _spoken_of(material: Material) -> tuple[str, ...]:
    """The findings that the script names or its pictures show, in order."""
    named = [
        *(id_ for segment in material.episode.rundown.segments for point in segment.points for id_ in point.findings),
        *(id_ for segment in material.schedule.segments for picture in segment.pictures
          for id_ in (material.scenes[picture.picture].findings if picture.picture in material.scenes else ())),
    ]  # fmt: skip
    return tuple(dict.fromkeys(named))
