"""Rotation: the car from above, each tire's way to its next place, and why other patterns are out."""

from typing import get_args

import msgspec

from studio.graphics.catalogue import CannotShow, Request, picture
from studio.graphics.color import mix
from studio.graphics.frame import Frame
from studio.graphics.layout.notes import Note, deciding_note, note_of
from studio.graphics.layout.page import Words, plan
from studio.graphics.look import Look
from studio.graphics.parts.arrows import arrow
from studio.graphics.parts.car_above import car_above
from studio.graphics.parts.car_plan import CarPlan
from studio.graphics.rotation_layout import Block, Tag, arrange, column_marks, tag_marks
from studio.graphics.rotation_paths import Moves, chain, paths
from studio.graphics.scene import Scene, Shape, Text
from studio.graphics.steps import closed_up
from studio.graphics.whole_car import car_plan, source_line
from studio.model.episode import Episode
from studio.model.finding import Finding, Findings
from studio.model.places import CORNERS, Place, place_words
from studio.model.quantity import System
from studio.model.source import Source

_FINDING = "rotation.car"
_PLACES: tuple[str, ...] = get_args(Place)
_FIVE = ("five_wheel_forward_cross", "five_wheel_rearward_cross")


class RotationData(msgspec.Struct, frozen=True, kw_only=True):
    """What the picture shows."""

    car: CarPlan
    moves: Moves
    tags: tuple[Tag, ...]
    notes: tuple[Note, ...]
    blocks: tuple[Block, ...]
    words: Words
    sources: tuple[Source, ...]
    held: bool
    steps: tuple[str, ...]
    shown: tuple[str, ...]


@picture("rotation")
class RotationPicture:
    """Where each tire goes next, drawn over the car plan; permitted patterns only."""

    id = "rotation"
    name = "Where the tires go next"
    takes = 0

    def data(self, episode: Episode, findings: Findings, request: Request) -> RotationData:
        """The next move, place by place. Raises CannotShow until a tire stands at each corner."""
        finding = findings.get(_FINDING)
        if finding is None:
            raise CannotShow("a tire at each corner of the car is needed to show a rotation")
        moves = _moves(finding)
        number = _number(finding)
        steps = ["the car", *(f"{place_words(a)} to {place_words(b)}" for a, b in moves)]
        blocks = _blocks(finding, len(steps))
        steps += ["why other patterns are out"] if blocks else []
        notes = _notes(finding, number, len(steps), request.units)
        steps += ["the number that decides"] if notes else []
        plan_ = car_plan(episode, findings)
        return RotationData(
            car=plan_, moves=moves, tags=_tags(moves, plan_.spare is not None), notes=notes, blocks=blocks,
            words=Words(sentence=request.title or finding.sentence, verdict=finding.verdict, caution=finding.caution),
            sources=finding.sources, held=finding.verdict in _HELD, steps=tuple(steps), shown=(finding.id,),
        )  # fmt: skip

    def compose(self, data: RotationData, frame: Frame, look: Look) -> Scene:
        """The car with its arrows, the places named beside it, the reasons and the number in a column or a band."""
        words = msgspec.structs.replace(data.words, sources=source_line(data.sources, frame, 1))
        page = plan(frame, look, words, ())
        layout = arrange(data, page.drawing, frame)
        curves = paths(layout.car, data.moves, 0.9 * frame.grid)
        marks: list[Shape | Text] = [*car_above(layout.car, frame, look)]
        ground = mix(look.car, look.plate, 0.12)
        for order, (curve, (here, there)) in enumerate(zip(curves, data.moves, strict=True)):
            marks += arrow(
                f"moves/{here} to {there}", curve, look.quiet if data.held else look.measure, frame.short / 120,
                over=curves[:order], ground=ground, dashed=data.held, step=order + 1,
            )  # fmt: skip
        marks += [mark for tag in data.tags for mark in tag_marks(tag, layout, frame, look)]
        marks += column_marks(layout, frame, look)
        scene = Scene(
            picture=self.id, frame=frame, background=look.ground, marks=(*marks, *page.marks({})), steps=data.steps,
            title=data.words.sentence, alternative=_alternative(data), findings=data.shown,
        )  # fmt: skip
        return closed_up(scene)


def _moves(finding: Finding) -> Moves:
    pairs = {here: finding.word_at(f"move.{here}") for here in _PLACES}
    known: dict[Place, Place] = {here: there for here, there in pairs.items() if there in _PLACES}  # type: ignore[misc]
    return chain({here: there for here, there in known.items() if here != there})


def _tags(moves: Moves, has_spare: bool) -> tuple[Tag, ...]:
    """The places' names; under each where its tire goes."""
    goes = {here: (order, there) for order, (here, there) in enumerate(moves, start=1)}
    tags = []
    for place in (*CORNERS, *(("spare",) if has_spare else ())):
        step, there = goes.get(place, (0, ""))
        to = f"to {place_words(there)}" if there else "stays"
        tags.append(Tag(place=place, title=place_words(place).capitalize(), to=to, step=step))
    return tuple(tags)


def _blocks(finding: Finding, step: int) -> tuple[Block, ...]:
    """Why other patterns are out: one block for each reason, the patterns that it rules out named together."""
    out = {key.removeprefix("brief."): why for key, why in finding.detail if key.startswith("brief.")}
    by_reason: dict[str, list[str]] = {}
    for pattern, why in out.items():
        by_reason.setdefault(why, []).append(pattern)
    return tuple(
        Block(name=f"out/{patterns[0]}", title=f"Out: {_named(finding, patterns, len(out))}", text=reason, step=step)
        for reason, patterns in by_reason.items()
    )


def _named(finding: Finding, patterns: list[str], count: int) -> str:
    if len(patterns) == count and count > 2:
        return "every other pattern" if finding.word("next") else "every pattern"
    both = all(five in patterns for five in _FIVE)
    names = [finding.word_at(f"words.{id_}") for id_ in patterns if not (both and id_ in _FIVE)]
    return ", ".join([*names, *(["five-wheel patterns"] if both else [])])


def _number(finding: Finding) -> str:
    """Which figure decides: the distance since the last rotation, what is left of it, or front against rear."""
    since, interval = finding.figure("since"), finding.figure("interval")
    if finding.verdict == "keep" and finding.figure("left") and finding.word("next"):
        return "left"
    if since and interval and since.value >= interval.to(since.unit).value:
        return "since"
    return "axles_apart" if finding.verdict == "rotate" and finding.figure("axles_apart") else ""


_HELD = ("watch", "inspect", "replace")
"""Verdicts of a rotation that something bars."""
_LABELS = {"left": "until the next rotation", "axles_apart": "front and rear apart"}
_LIMITS = {"left": "interval", "since": "interval", "axles_apart": "apart_from"}


def _notes(finding: Finding, number: str, step: int, units: System) -> tuple[Note, ...]:
    """The deciding number and what it is held against."""
    quantity, limit = finding.figure_at(number), finding.figure_at(_LIMITS.get(number, ""))
    if quantity is None or limit is None:
        return ()
    since = finding.word("since_brief")
    label = finding.limit_label if _LIMITS[number] == "interval" else "rotate sooner from here on"
    return (
        deciding_note("number", quantity, _LABELS.get(number, f"since {since}"), units, step),
        note_of("limit", limit, label, units, step),
    )


def _alternative(data: RotationData) -> str:
    said = ", ".join(f"{place_words(here)} to {place_words(there)}" for here, there in data.moves)
    moves = f"each tire's way to its next place: {said}" if said else "no tire changes its place"
    return f"The car from above with {moves}. {data.words.sentence}"
