"""The size code spelled out: a sidewall with this tire's own marking along the arc, each field said in plain words."""

import math

import msgspec

from studio.graphics.catalogue import CannotShow, Request, picture
from studio.graphics.draw import polar, polyline, rectangle
from studio.graphics.frame import Frame
from studio.graphics.layout.page import Page, Words, plan
from studio.graphics.look import Look
from studio.graphics.parts.lettering import bracket, on_rubber, raised
from studio.graphics.parts.tire_face import sidewall_ground, tire_face
from studio.graphics.scene import Point, Scene, Shape, Stroke
from studio.graphics.size_code_crop import BRACKET, Crop, crop_for
from studio.graphics.size_code_fields import Field, fields_of
from studio.graphics.specimens import chosen_subjects, finding_for
from studio.graphics.whole_car import source_line
from studio.model.episode import Episode
from studio.model.finding import Finding, Findings
from studio.model.source import Source

_FIRST_STEP = "the sidewall"
_LOWEST = 22.0  # in grid units: a lower drawing cannot hold a strip of sidewall with its lettering and discs
_FEWEST = 1
_SOUND_MM = 8.0  # depth drawn where none was read


class SizeCodeData(msgspec.Struct, frozen=True, kw_only=True):
    """What is shown: marking and fields; the dimensions the tire is drawn from in mm, how worn it is from 0 to 1."""

    words: Words
    marking: str
    fields: tuple[Field, ...]
    outer_mm: float
    rim_mm: float
    depth_mm: float = _SOUND_MM
    worn: float = 0.0
    sources: tuple[Source, ...] = ()
    findings: tuple[str, ...] = ()


@picture("size_code")
class SizeCode:
    """A sidewall, large and cropped; brackets hold the letters of each field together."""

    id = "size_code"
    name = "The size code spelled out"
    takes = 1

    def data(self, episode: Episode, findings: Findings, request: Request) -> SizeCodeData:
        """The marking of the tire asked for, or of the first that has one. Raises CannotShow."""
        finding = _chosen(episode, findings, request)
        outer, rim = finding.figure("overall_diameter"), finding.figure("rim_diameter")
        if outer is None or rim is None:
            raise CannotShow(f"the marking on the sidewall is missing: {finding.sentence}")
        words = Words(
            sentence=request.title or finding.sentence, verdict=finding.verdict, caution=finding.caution
        )
        depth_mm, worn = _tread(findings.get(f"tread_left.{finding.subject}"))
        return SizeCodeData(
            words=words, marking=finding.word("marking"), fields=fields_of(finding, request.units),
            outer_mm=outer.to("mm").value, rim_mm=rim.to("mm").value, depth_mm=depth_mm, worn=worn,
            sources=finding.sources, findings=(finding.id,),
        )  # fmt: skip

    def compose(self, data: SizeCodeData, frame: Frame, look: Look) -> Scene:
        """The picture for this frame and look."""
        page, shown, crop = _planned(data, frame, look, discs=False)
        if not crop.fits and not page.discs:
            page, shown, crop = _planned(data, frame, look, discs=True)
        pointers: list[Shape] = []
        for step, (field, end) in enumerate(zip(shown, crop.ends, strict=True), start=1):
            pointers += _pointer(field, end, crop, frame, look, step)
        window = rectangle(crop.window.left, crop.window.top, crop.window.width, crop.window.height)
        tire = tire_face(crop.face, look, depth_mm=data.depth_mm, worn=data.worn, clip=window)
        letters = raised(crop.lettering, look, sidewall_ground(look), "marking")
        anchors = {field.name: end for field, end in zip(shown, crop.ends, strict=True)}
        return Scene(
            picture=self.id, frame=frame, background=look.ground,
            marks=(*tire, *letters, *pointers, *page.marks(anchors, in_order=True)),
            steps=(_FIRST_STEP, *(field.label for field in shown)), title=data.words.sentence,
            alternative=_alternative(data), findings=data.findings,
        )  # fmt: skip


def _planned(data: SizeCodeData, frame: Frame, look: Look, discs: bool) -> tuple[Page, tuple[Field, ...], Crop]:
    """The page with as many fields as it has room for, their notes in the marking's order, and the tire on it."""
    fields = data.fields
    words = msgspec.structs.replace(data.words, sources=source_line(data.sources, frame))
    while True:
        notes = [field.note(step) for step, field in enumerate(fields, start=1)]
        page = plan(frame, look, words, notes, discs=discs)
        kept = {note.name for note, _ in page.placed}
        if len(kept) == len(fields) and page.drawing.height < _LOWEST * frame.grid and len(fields) > _FEWEST:
            kept.remove(max(reversed(fields), key=lambda field: field.priority).name)
        if len(kept) == len(fields):
            break
        fields = tuple(field for field in fields if field.name in kept)
    spans = [(field.start, field.end) for field in fields]
    return page, fields, crop_for(page.drawing, frame, (data.outer_mm, data.rim_mm), data.marking, spans, page.discs)


def _chosen(episode: Episode, findings: Findings, request: Request) -> Finding:
    for subject in chosen_subjects(episode, request, most=1):
        return finding_for(findings, "size", subject)
    every = findings.of("size")
    if not every:
        raise CannotShow("the episode has no tire yet")
    return next((finding for finding in every if finding.figure("overall_diameter")), every[0])


def _tread(finding: Finding | None) -> tuple[float, float]:
    """Depth in mm and wear 0..1 to draw the tread with; a sound one where nothing was read."""
    depth = finding.figure("depth") if finding else None
    if finding is None or depth is None:
        return _SOUND_MM, 0.0
    left = finding.figure("usable_left")
    return max(0.0, depth.to("mm").value), 1 - left.value / 100 if left else 0.5


def _pointer(field: Field, end: Point, crop: Crop, frame: Frame, look: Look, step: int) -> tuple[Shape, ...]:
    """A bracket over the letters, and a line out of it to where the note's leader ends."""
    center, letters = crop.face.center, crop.lettering
    start_angle, end_angle = letters.span(field.start, field.end)
    radius = letters.radius + letters.cap_height * BRACKET
    apart = math.degrees(letters.cap_height * 0.03 / radius)
    held = bracket(center, radius, (start_angle + apart, end_angle - apart), letters.cap_height * 0.16)
    light, fine = on_rubber(look), frame.short / 360
    foot = polar(center, radius, (start_angle + end_angle) / 2)
    edge = _leaves_tread(foot, end, center, crop.face.radius)
    marks = [
        Shape(name=f"{field.name}/bracket", step=step, outline=held, stroke=Stroke(light, frame.short / 270)),
        Shape(name=f"{field.name}/pointer", step=step, outline=polyline((foot, edge)), stroke=Stroke(light, fine)),
    ]  # fmt: skip
    if edge != end:
        marks.append(Shape(name=f"{field.name}/pointer outside", step=step, outline=polyline((edge, end)),
                           stroke=Stroke(look.measure, fine)))  # fmt: skip
    return tuple(marks)


def _leaves_tread(start: Point, end: Point, center: Point, radius: float) -> Point:
    """Where the way from ``start``, inside the circle, to ``end`` meets it; ``end`` where that is inside too."""
    if math.dist(end, center) <= radius:
        return end
    low, high = 0.0, 1.0
    for _ in range(24):
        middle = (low + high) / 2
        x, y = start[0] + (end[0] - start[0]) * middle, start[1] + (end[1] - start[1]) * middle
        low, high = (middle, high) if math.dist((x, y), center) < radius else (low, middle)
    return (start[0] + (end[0] - start[0]) * low, start[1] + (end[1] - start[1]) * low)


def _alternative(data: SizeCodeData) -> str:
    """The picture in one sentence for someone who cannot see it."""
    said = "; ".join(f"{field.text} is {field.value}, {field.label}" for field in data.fields)
    return f"The sidewall of a tire with its marking {data.marking}, each part pointed at: {said}."
