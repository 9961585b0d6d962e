"""Damage: what was seen on a tire, where, what it means, what must not be done, who must look."""

import msgspec

from studio.graphics.catalogue import CannotShow, Request, picture
from studio.graphics.damage_layout import Hurt, boxes, glass_marks, tire_with_glass
from studio.graphics.frame import Frame
from studio.graphics.layout.page import Words, plan
from studio.graphics.layout.told import Told, fitting, set_told
from studio.graphics.look import Look
from studio.graphics.parts.tread_above import TreadView
from studio.graphics.scene import Scene
from studio.graphics.specimens import chosen_subjects, subject_of
from studio.graphics.steps import closed_up
from studio.graphics.whole_car import source_line, tread_view
from studio.model.episode import Episode
from studio.model.finding import SEVERITY, Finding, Findings
from studio.model.finding_names import FigureName
from studio.model.quantity import System
from studio.model.source import Source
from studio.model.specimen import DamageKind, Zone

_STEPS = ("the tire", "what was seen, and where")
_NEUTRAL_MM = (640.0, 406.4, 205.0)  # a tire whose size is not known is drawn as a common one, and not to scale
_SOUND_MM = 8.0


class DamageData(msgspec.Struct, frozen=True, kw_only=True):
    """What is shown."""

    words: Words
    sources: tuple[Source, ...]
    tire: Hurt
    told: tuple[Told, ...]
    seen: str
    findings: tuple[str, ...]


@picture("damage")
class DamageSeen:
    """A tire cropped boldly, a glass over the place; beside it what it means."""

    id = "damage"
    name = "Damage, and what it means"
    takes = 1

    def data(self, episode: Episode, findings: Findings, request: Request) -> DamageData:
        """The tire asked for, else the one whose damage is gravest. Raises CannotShow."""
        its = _chosen(episode, findings, request)
        size, tread = findings.get(f"size.{its.subject}"), findings.get(f"tread_left.{its.subject}")
        known = size if size and size.figure("overall_diameter") and size.figure("rim_diameter") else None
        shown = (its.id, *((known.id,) if known else ()), *((tread.id,) if tread and known else ()))
        return DamageData(
            words=Words(sentence=request.title or its.sentence, verdict=its.verdict, caution=its.caution),
            sources=its.sources, tire=_hurt(its, known, tread, _view(episode, findings, its.subject)),
            told=_told(its, request.units), seen=its.word("damage"), findings=shown,
        )  # fmt: skip

    def compose(self, data: DamageData, frame: Frame, look: Look) -> Scene:
        """The picture for this frame and look."""
        words = msgspec.structs.replace(data.words, sources=source_line(data.sources, frame))
        page = plan(frame, look, words, ())
        drawing, column = boxes(page.drawing, frame)
        placed = tire_with_glass(data.tire, drawing, frame, look)
        told, size = fitting(data.told, column, frame)
        marks = (
            *placed.tire, *glass_marks(data.tire, placed, frame, look, 1), *set_told(told, size, column, frame, look),
            *page.marks({}),
        )  # fmt: skip
        scene = Scene(
            picture=self.id, frame=frame, background=look.ground, marks=marks,
            steps=(*_STEPS, *(pair.heading for pair in data.told)), title=words.sentence,
            alternative=_alternative(data), findings=data.findings,
        )  # fmt: skip
        return closed_up(scene)


def _chosen(episode: Episode, findings: Findings, request: Request) -> Finding:
    for subject in chosen_subjects(episode, request, most=1):
        finding = findings.get(f"condition.{subject}")
        if finding is None:
            raise CannotShow("no damage was recorded on that tire")
        return finding
    every = findings.of("condition")
    if not every:
        raise CannotShow("no damage was recorded on any tire")
    return max(every, key=lambda its: SEVERITY.index(its.verdict) if its.verdict in SEVERITY else -1)


def _view(episode: Episode, findings: Findings, subject: str) -> TreadView:
    for specimen in episode.specimens:
        if subject_of(episode, specimen) == subject:
            return tread_view(specimen, findings.get(f"tread_left.{subject}"))
    return TreadView()


def _hurt(its: Finding, size: Finding | None, tread: Finding | None, view: TreadView) -> Hurt:
    outer, rim, wide = _NEUTRAL_MM
    if size:
        outer, rim, wide = (_mm(size, name) for name in ("overall_diameter", "rim_diameter", "section_width"))
    seen, depth = its.figure("size"), tread.figure("depth") if tread else None
    return Hurt(
        kind=msgspec.convert(its.word("kind"), DamageKind), zone=msgspec.convert(its.word("zone"), Zone),
        size_mm=seen.to("mm").value if seen else None, outer_mm=outer, rim_mm=rim, width_mm=wide,
        depth_mm=depth.to("mm").value if depth else _SOUND_MM, worn=view.worn, view=view, to_scale=size is not None,
    )  # fmt: skip


def _mm(finding: Finding, name: FigureName) -> float:
    quantity = finding.figure(name)
    if quantity is None:
        raise CannotShow(f"the marking does not give the {name.replace('_', ' ')}")
    return quantity.to("mm").value


def _told(its: Finding, units: System) -> tuple[Told, ...]:
    """In speaking order: how large, what it means, what not to do, who must look; other damage where there is room."""
    size, pairs = its.figure("size"), list[Told]()
    if size:
        heading = f"its size, seen on {its.word_at('seen_on')}"
        pairs.append(Told(name="size", heading=heading, text=size.both(units), priority=2))
    if its.word("zone") == "unknown":
        pairs.append(Told(name="place", heading="where on the tire", text="not recorded", priority=3))
    pairs += [
        Told(name="meaning", heading="what it means", text=its.word("brief_meaning")),
        Told(name="avoid", heading="what not to do", text=its.word("first_avoid"), strong=True),
        Told(name="look", heading="who must look", text=its.word("look"), priority=1),  # the caution names them too
    ]  # fmt: skip
    if also := its.word("also"):
        pairs.append(Told(name="also", heading="seen as well", text=also, priority=4))
    return tuple(msgspec.structs.replace(pair, step=order) for order, pair in enumerate(pairs, start=len(_STEPS)))


def _alternative(data: DamageData) -> str:
    said = "; ".join(f"{pair.heading}: {pair.text}" for pair in data.told)
    return f"A tire with {data.seen}, drawn schematically; {said}."
