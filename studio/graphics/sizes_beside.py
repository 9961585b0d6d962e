"""Sizes side by side: the placard's, the spare, those wished for or on hand, on one ground line to one scale."""

from collections.abc import Iterator

import msgspec

from studio.graphics.catalogue import CannotShow, Request, picture
from studio.graphics.frame import Frame
from studio.graphics.layout.notes import Note, deciding_note, note_of
from studio.graphics.layout.page import Words, plan
from studio.graphics.look import Look
from studio.graphics.scene import Scene
from studio.graphics.sizes_beside_layout import Standing, anchors, fitting, marks, row
from studio.graphics.specimens import chosen_subjects, finding_for
from studio.graphics.steps import closed_up
from studio.graphics.whole_car import source_line
from studio.model.episode import Episode
from studio.model.finding import SEVERITY, Finding, Findings
from studio.model.places import AXLES
from studio.model.quantity import Quantity, System
from studio.model.source import Source

_MOST = 4
_NOTHING = (
    "every tire has one size: sizes are compared once another is wished for, two tires on hand have another, or the "
    "spare or an axle has its own"
)


class SizesBesideData(msgspec.Struct, frozen=True, kw_only=True):
    """What is shown; the last tire is compared with the one before it."""

    words: Words
    sources: tuple[Source, ...]
    tires: tuple[Standing, ...]
    notes: tuple[Note, ...]
    findings: tuple[str, ...]


class _Lead(msgspec.Struct, frozen=True, kw_only=True):
    """The finding that compares, both its sizes, and what its numbers are called."""

    finding: Finding
    before: Standing
    after: Standing
    axle: str
    as_worn: bool
    apart: Quantity
    larger: bool


@picture("sizes_beside")
class SizesBeside:
    """Two to four tires standing side by side; the one compared stands last, its step over the other measured."""

    id = "sizes_beside"
    name = "Sizes side by side"
    takes = 1

    def data(self, episode: Episode, findings: Findings, request: Request) -> SizesBesideData:
        """The size asked for against the placard's; else the one that is gravest. Raises CannotShow."""
        lead = _lead(episode, findings, request)
        others = list(_others(lead, findings, request.units))[: _MOST - 2]
        standing = (*(tire for tire, _ in others), _named_by_axle(lead, others), lead.after)
        finding, measured = lead.finding, len(standing) - 1
        return SizesBesideData(
            words=Words(sentence=request.title or finding.sentence, verdict=finding.verdict, caution=finding.caution),
            sources=finding.sources, tires=standing, notes=_notes(lead, episode.units, request.units, measured),
            findings=tuple(dict.fromkeys((finding.id, *(id_ for _, id_ in others)))),
        )  # fmt: skip

    def compose(self, data: SizesBesideData, frame: Frame, look: Look) -> Scene:
        """The picture for this frame and look."""
        words = msgspec.structs.replace(data.words, sources=source_line(data.sources, frame))
        square = frame.shape == "square"
        share = 0.58 if square else 0.60 if len(data.tires) < 3 else 0.65
        page = plan(frame, look, words, (data.notes[-1], *data.notes[:-1]), share=share, beside=square or None)
        shown = _in_turn(fitting(data.tires, page.drawing, frame, most=2 if square else _MOST))
        steps = _steps(shown, data)
        its = row(shown, page.drawing, frame, (len(data.tires) - 1, len(steps) - 1))
        scene = Scene(
            picture=self.id, frame=frame, background=look.ground, steps=steps, title=words.sentence,
            marks=(*marks(its, look), *page.marks(anchors(its, page.discs))), alternative=_alternative(data),
            findings=data.findings,
        )  # fmt: skip
        return closed_up(scene)


def _in_turn(tires: tuple[Standing, ...]) -> tuple[Standing, ...]:
    """The first two appear together, each further one in a step of its own."""
    return tuple(msgspec.structs.replace(tire, step=max(0, order - 1)) for order, tire in enumerate(tires))


def _steps(shown: tuple[Standing, ...], data: SizesBesideData) -> tuple[str, ...]:
    """The names of the steps; those of tires that are left out are never used."""
    named = [f"{tire.whose}: {tire.size}" for tire in shown]
    out = ("left out",) * (len(data.tires) - len(shown))
    return (" and ".join(named[:2]), *named[2:], *out, "overall diameters", *(note.label for note in data.notes))


def _lead(episode: Episode, findings: Findings, request: Request) -> _Lead:
    """The finding asked for; else the gravest on another size, the spare, or the two axles."""
    units = request.units
    swaps = [finding for finding in findings.of("size_swap") if finding.figure("diameter_after")]
    for subject in chosen_subjects(episode, request, most=1):
        return _chosen(subject, swaps, findings, units)
    found = max(swaps, key=_gravity, default=None)
    lead = (_swap(found, units) if found else None) or _spare(findings, units) or _axles(findings, units)
    if lead is None:
        raise CannotShow(_NOTHING)
    return lead


def _chosen(subject: str, swaps: list[Finding], findings: Findings, units: System) -> _Lead:
    size = finding_for(findings, "size", subject)
    if subject == "spare" and (lead := _spare(findings, units)):
        return lead
    for finding in swaps:
        if finding.word("after_size") == size.word("size"):
            return _swap(finding, units)
    raise CannotShow("the tire chosen has the placard's size, or is alone of its size: wish for that size to see it")


def _gravity(finding: Finding) -> tuple[int, float]:
    severity = SEVERITY.index(finding.verdict) if finding.verdict in SEVERITY else -1
    return severity, finding.value or 0.0


def _swap(finding: Finding, units: System) -> _Lead:
    whose = "on hand" if finding.word("tires") else "wished for"
    axle = finding.word("axle")
    before = _standing("before", finding, "before", "placard", units, finding.word("before_size"))
    after = _standing("after", finding, "after", whose, units, finding.word("after_size"))
    return _compared(finding, before, after, axle, as_worn=False)


def _spare(findings: Findings, units: System) -> _Lead | None:
    """The spare beside the tire it differs from most, where the two are of different sizes."""
    finding = findings.get("spare.spare")
    if finding is None or finding.figure("diameter_apart") is None:
        return None
    if finding.word("size") == finding.word("beside_size"):
        return None
    before = _standing("main", finding, "main", finding.word("beside"), units, finding.word("beside_size"))
    after = _standing("spare", finding, "spare", "spare", units, finding.word("size"))
    return _compared(finding, before, after, "", as_worn=True)


def _axles(findings: Findings, units: System) -> _Lead | None:
    """The rear size beside the front one, where the placard has two."""
    front, rear = (_of_axle(axle, findings) for axle in AXLES)
    apart = rear.figure("across_apart") if rear else None
    if front is None or rear is None or apart is None:
        return None
    return _compared(rear, _placard(front, "front", units), _placard(rear, "rear", units), "", as_worn=False)


def _compared(finding: Finding, before: Standing, after: Standing, axle: str, *, as_worn: bool) -> _Lead:
    apart = finding.figure("diameter_apart") or finding.figure("across_apart")
    if apart is None:
        raise CannotShow(_NOTHING)
    return _Lead(finding=finding, before=before, after=after, axle=axle, as_worn=as_worn, apart=apart,
                 larger=after.outer_mm > before.outer_mm)  # fmt: skip


def _standing(name: str, finding: Finding, of: str, whose: str, units: System, size: str) -> Standing:
    outer, rim = finding.figure_at(f"diameter_{of}"), finding.figure_at(f"rim_{of}")
    if outer is None or rim is None:
        raise CannotShow(f"the dimensions of {size or 'one of the sizes'} are not known")
    return _tire(name, size, whose, outer, rim, units)


def _tire(name: str, size: str, whose: str, outer: Quantity, rim: Quantity, units: System) -> Standing:
    return Standing(name=name, size=size, whose=whose, outer_mm=outer.to("mm").value, rim_mm=rim.to("mm").value,
                    diameter=outer.in_system(units).text(), step=0)  # fmt: skip


def _of_axle(axle: str, findings: Findings) -> Finding | None:
    """A tire on the axle that has the placard's size."""
    found = (findings.get(f"size.{place}") for place in AXLES[axle])
    return next((finding for finding in found if finding and finding.word("placard") == "same"), None)


def _placard(finding: Finding, axle: str, units: System) -> Standing:
    outer, rim = finding.figure("overall_diameter"), finding.figure("rim_diameter")
    if outer is None or rim is None:
        raise CannotShow(_NOTHING)
    return _tire(axle, finding.word("size"), f"placard, {axle}", outer, rim, units)


def _others(lead: _Lead, findings: Findings, units: System) -> Iterator[tuple[Standing, str]]:
    """Further sizes, each once: the other axle's, the spare's, other wishes; none beside tires as worn."""
    shown = {lead.before.size, lead.after.size}
    if lead.as_worn:
        return
    for tire, id_ in _candidates(findings, units):
        if tire.size not in shown:
            shown.add(tire.size)
            yield tire, id_


def _named_by_axle(lead: _Lead, others: list[tuple[Standing, str]]) -> Standing:
    """The placard's size with its axle, where the other axle's stands beside it."""
    if lead.axle and any(tire.name in AXLES for tire, _ in others):
        return msgspec.structs.replace(lead.before, whose=f"placard, {lead.axle}")
    return lead.before


def _candidates(findings: Findings, units: System) -> Iterator[tuple[Standing, str]]:
    for axle in AXLES:
        if finding := _of_axle(axle, findings):
            yield _placard(finding, axle, units), finding.id
    spare = findings.get("size.spare")
    if spare and spare.figure("overall_diameter"):
        tire = _placard(spare, "spare", units)
        yield msgspec.structs.replace(tire, whose="spare"), spare.id
    for order, finding in enumerate(findings.of("size_swap")):
        if finding.figure("diameter_after"):
            after = _swap(finding, units).after
            yield msgspec.structs.replace(after, name=f"other{order}"), finding.id


def _notes(lead: _Lead, spoken: System, units: System, step: int) -> tuple[Note, ...]:
    """Difference in diameter, in circumference, what follows for speed or turns; last the change that decides."""
    finding, found, more = lead.finding, list[Note](), "more" if lead.larger else "less"
    around = ("circumference_difference", "circumference")
    if finding.figure_at(around[0]) is None:
        around = ("rolling_difference", "rolling circumference")
    for name, figure, what in (("diameter", "diameter_difference", "diameter"), ("rolled", *around)):
        if quantity := finding.figure_at(figure):
            label = f"{more} {what}"
            note = note_of(name, quantity, label, units, step + 1 + len(found), priority=3 + len(found))
            found.append(msgspec.structs.replace(note, brief=f"{more} a turn" if name == "rolled" else label))
    follows = _speed(finding, spoken, units) or _turns(finding, units)
    found += [msgspec.structs.replace(follows, step=step + 1 + len(found))] if follows else []
    label = f"{'larger' if lead.larger else 'smaller'} in diameter"
    return (*found, deciding_note("apart", lead.apart, label, units, step + 1 + len(found)))


def _speed(finding: Finding, spoken: System, units: System) -> Note | None:
    """The true speed; to a tenth where the finding's own words are in the units asked for."""
    shown, true = finding.figure("speed_shown"), finding.figure("true_speed")
    if shown is None or true is None:
        return None
    words = [finding.word("speed_shown"), finding.word("true_speed")]
    if spoken != units or not all(words):
        words = [quantity.in_system(units).text() for quantity in (shown, true)]
    return Note(name="speed", value=words[1], label=f"true speed at {words[0]} shown", priority=2,
                brief=f"true at {words[0]}")  # fmt: skip


def _turns(finding: Finding, units: System) -> Note | None:
    main, spare = finding.figure("turns_main"), finding.figure("turns_spare")
    if main is None or spare is None:
        return None
    beside = finding.word("beside")
    return Note(name="turns", value=spare.in_system(units).text(), priority=2, brief="turns",
                label=f"of the spare; {beside} {main.in_system(units).number()}")  # fmt: skip


def _alternative(data: SizesBesideData) -> str:
    said = ", ".join(f"{tire.size} ({tire.whose}) {tire.diameter} tall" for tire in data.tires)
    number, last = data.notes[-1], data.tires[-1].size
    return f"Tires side by side to one scale: {said}; {last} is {number.value} {number.unit} {number.label}."
