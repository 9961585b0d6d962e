"""What was published, and the correction that is due when one of its numbers has changed since."""

from collections.abc import Iterator, Mapping
from fractions import Fraction

import msgspec

from studio.decide.input_words import input_words
from studio.handoff.manifest import from_to
from studio.handoff.material import Material
from studio.handoff.schedule import TimedSegment
from studio.model.finding import Finding
from studio.model.rundown import Publication, ReadThen, SaidNumber
from studio.script.chapters import clock
from studio.script.live import filled
from studio.script.numbers import by_id, numbers_of

MOST_INPUTS = 40


class Correction(msgspec.Struct, frozen=True, kw_only=True):
    """A published number that is no longer right: what was said, where, what is right, and why."""

    published: str
    said: str
    where: str
    right: str
    why: tuple[str, ...]
    caution: str = ""

    def text(self) -> str:
        """The correction to post: plain sentences."""
        lines = [f"Correction to “{self.published}” ({self.where}): we said {self.said}. {self.right}"]
        lines += [f"Why: {why}" for why in self.why]
        return "\n".join([*lines, *([self.caution] if self.caution else [])])


def publication(material: Material, title: str = "") -> Publication:
    """Every live number as it is said now, with its place, its time and what it was worked out from."""
    known = by_id(material.findings)
    said = tuple(
        number
        for segment, timed in zip(material.episode.rundown.segments, material.schedule.segments, strict=True)
        for point, its in zip(segment.points, timed.points, strict=False)
        for number in _said(material, known, point.text, timed, float(its.start))
    )
    return Publication(on=material.episode.on, title=title or material.episode.title, said=said)


def corrections(material: Material) -> tuple[Correction, ...]:
    """The corrections due, in the order in which things were published."""
    known = by_id(material.findings)
    return tuple(
        correction
        for published in material.episode.published
        for said in published.said
        for correction in _correction(material, known, published.title, said)
    )


def _said(
    material: Material, known: Mapping[str, Finding], text: str, timed: TimedSegment, at_s: float
) -> Iterator[SaidNumber]:
    for piece in filled(text, known, material.episode.units):
        if piece.kind != "number":
            continue
        inputs = known[piece.finding].inputs[:MOST_INPUTS]
        made_from = tuple(ReadThen(path=path[:200], words=input_words(material.episode, path)[:200]) for path in inputs)
        yield SaidNumber(
            finding=piece.finding, number=piece.number, text=piece.text[:200], segment=timed.id, at_s=at_s,
            made_from=made_from,
        )  # fmt: skip


def _correction(material: Material, known: Mapping[str, Finding], title: str, said: SaidNumber) -> Iterator[Correction]:
    finding = known.get(said.finding)
    segment = material.episode.rundown.segment(said.segment)
    where = ", ".join(
        part for part in (segment.title if segment else said.segment, _at(said.at_s)) if part
    ) or "time not kept"  # fmt: skip
    if finding is None or finding.verdict == "unknown":
        right = "That can no longer be said from the readings." if finding is None else finding.sentence
        yield Correction(published=title, said=said.text, where=where, right=right, why=_why(material, said))
        return
    number = numbers_of(finding).get(said.number)
    forms = set()
    for units in (material.episode.units, "us", "metric"):
        if number is not None:
            forms |= {number.short(units), number.both(units), number.spoken(units), number.rounded(units)}
    if said.text in forms:
        return
    now = f"It is {number.both(material.episode.units)}. {finding.sentence}" if number else finding.sentence
    yield Correction(
        published=title, said=said.text, where=where, right=now, why=_why(material, said), caution=finding.caution
    )


def _why(material: Material, said: SaidNumber) -> tuple[str, ...]:
    """The inputs that are others now; where none is, that the way of working it out has changed."""
    told = []
    for then in said.made_from:
        now = input_words(material.episode, then.path)[:200]
        if now != then.words:
            told.append(f"{from_to(then.words, now)}.")
    return tuple(dict.fromkeys(told)) or ("The readings are the same; the way it is worked out has changed.",)


def _at(seconds: float | None) -> str:
    return "" if seconds is None else f"at {clock(Fraction(seconds))}"
