"""The zone of repair: a tire in section, its crown against shoulder and sidewall, its own puncture if it has one."""

import msgspec

from studio.graphics.catalogue import CannotShow, Request, picture
from studio.graphics.frame import Frame
from studio.graphics.layout.notes import Note, deciding_note, note_of
from studio.graphics.layout.page import Words
from studio.graphics.look import Look
from studio.graphics.repair_zone_layout import Hole, Zoned, composed
from studio.graphics.scene import Scene
from studio.graphics.specimens import chosen_subjects
from studio.graphics.whole_car import source_line
from studio.model.episode import Episode
from studio.model.finding import SEVERITY, Finding, Findings
from studio.model.finding_names import FigureName
from studio.model.quantity import System
from studio.model.source import Source
from studio.model.specimen import Zone

_ZONES: dict[str, Zone] = {"crown": "crown", "shoulder": "shoulder", "sidewall": "sidewall", "bead": "bead"}


class RepairZoneData(msgspec.Struct, frozen=True, kw_only=True):
    """What is shown."""

    words: Words
    sources: tuple[Source, ...]
    tire: Zoned
    notes: tuple[Note, ...]
    findings: tuple[str, ...]


@picture("repair_zone")
class RepairZone:
    """A tire in section: the crown under a dimension line, the rest struck out."""

    id = "repair_zone"
    name = "Where a puncture can be repaired"
    takes = 1

    def data(self, episode: Episode, findings: Findings, request: Request) -> RepairZoneData:
        """The tire asked for, else the punctured one, else the first whose size is known. Raises CannotShow."""
        its = _chosen(episode, findings, request)
        size = findings.get(f"size.{its.subject}")
        if size is None:
            raise CannotShow("the marking on the sidewall is missing")
        tread = findings.get(f"tread_left.{its.subject}")
        hole = _hole(its)
        tire = _zoned(its, size, tread, hole)
        return RepairZoneData(
            words=Words(sentence=request.title or its.sentence, verdict=its.verdict, caution=its.caution),
            sources=its.sources, tire=tire, notes=_notes(its, tire, request.units),
            findings=(its.id, size.id, *((tread.id,) if tread else ())),
        )  # fmt: skip

    def compose(self, data: RepairZoneData, frame: Frame, look: Look) -> Scene:
        """The picture for this frame and look."""
        words = msgspec.structs.replace(data.words, sources=source_line(data.sources, frame))
        marks, steps = composed(data.tire, data.notes, words, frame, look)
        return Scene(
            picture=self.id, frame=frame, background=look.ground, marks=marks, steps=steps, title=words.sentence,
            alternative=_alternative(data), findings=data.findings,
        )  # fmt: skip


def _chosen(episode: Episode, findings: Findings, request: Request) -> Finding:
    for subject in chosen_subjects(episode, request, most=1):
        return _measured(_of(findings, subject))
    punctured = [finding for finding in findings.of("condition") if _is_hole(finding)]
    if punctured:
        return max(punctured, key=lambda f: SEVERITY.index(f.verdict) if f.verdict in SEVERITY else -1)
    zones = findings.of("repair_zone")
    if not zones:
        raise CannotShow("no tire is left on which a puncture could be repaired")
    known = [finding for finding in zones if finding.figure("crown_width")]
    return _measured(next((f for f in known if f.word("repairable") != "no"), known[0] if known else zones[0]))


def _of(findings: Findings, subject: str) -> Finding:
    condition = findings.get(f"condition.{subject}")
    if condition is not None and _is_hole(condition):
        return condition
    zone = findings.get(f"repair_zone.{subject}")
    if zone is None:
        raise CannotShow(condition.sentence if condition else "nothing is known of that tire yet")
    return zone


def _is_hole(finding: Finding) -> bool:
    return finding.word("kind") == "puncture" and finding.figure("crown_width") is not None


def _measured(finding: Finding) -> Finding:
    if finding.figure("crown_width") is None:
        raise CannotShow(f"the marking on the sidewall is missing: {finding.sentence}")
    return finding


def _hole(its: Finding) -> Hole | None:
    if its.topic != "condition":
        return None
    size = its.figure("size")
    return Hole(zone=_ZONES.get(its.word("zone"), "unknown"), size_mm=size.to("mm").value if size else None)


def _zoned(its: Finding, size: Finding, tread: Finding | None, hole: Hole | None) -> Zoned:
    new = (tread.figure("depth_new") if tread else None) or size.figure("tread_depth_new")
    bar = tread.figure("wear_bar") if tread else None
    outside = hole is not None and hole.zone not in ("crown", "unknown")
    past = its.word("repairable") == "no" and not outside
    depths = [figure.quantity for figure in tread.figures if figure.name.startswith("groove_")] if tread else []
    return Zoned(
        outer_mm=_mm(size, "overall_diameter"), rim_mm=_mm(size, "rim_diameter"), width_mm=_mm(size, "section_width"),
        half_mm=0.0 if past else _mm(its, "crown_half_width"), depths_mm=tuple(d.to("mm").value for d in depths),
        new_mm=new.to("mm").value if new else None, bar_mm=bar.to("mm").value if bar else 0.0, hole=hole,
    )  # fmt: skip


def _mm(finding: Finding, name: FigureName) -> float:
    quantity = finding.figure(name)
    if quantity is None:
        raise CannotShow(f"the marking does not give the {name.replace('_', ' ')}")
    return quantity.to("mm").value


def _notes(its: Finding, tire: Zoned, units: System) -> tuple[Note, ...]:
    """The crown's half, which decides, the hole, the two limits that a gauge can tell."""
    if not tire.half_mm and tire.hole is None:
        return ()
    half, widest, least = its.figure("crown_half_width"), its.figure("hole_most"), its.figure("depth_least")
    size, found, step = its.figure("size"), [], 2
    if tire.hole is not None:
        label = f"wide, {its.word_at('damage_bare')}"
        known = note_of("hole", size, label, units, step) if size else None
        found.append(known or Note(name="hole", value="width not known", label=its.word("damage"), step=step))
        found[0] = msgspec.structs.replace(found[0], brief="puncture", priority=0)
        step += 1
    if widest:
        found.append(note_of("hole_most", widest, "widest hole repaired", units, step, priority=2))
    if least:
        found.append(note_of("depth_least", least, "least tread", units, step + bool(widest), priority=3))
    found = [msgspec.structs.replace(note, brief=note.brief or note.label) for note in found]
    if half and tire.half_mm:
        last = 1 + max((note.step for note in found), default=1)
        return (deciding_note("crown", half, "from center line", units, last), *found)
    return tuple(found)


def _alternative(data: RepairZoneData) -> str:
    tire = data.tire
    said = ", ".join(f"{note.label} {note.value} {note.unit}".strip() for note in data.notes)
    where = "crown, shoulder and sidewall struck out" if not tire.half_mm else "shoulder and sidewall struck out"
    hole = f"; the puncture drawn in the {tire.hole.zone}, its exact place is not recorded" if tire.hole else ""
    return f"A tire in section, to scale, {where}{hole}: {said}."
