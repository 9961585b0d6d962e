"""Ratings: the load index and the speed symbol of one tire spelled out on two scales, against the placard's."""

import msgspec

from studio.graphics.catalogue import CannotShow, Request, picture
from studio.graphics.frame import Frame
from studio.graphics.layout.notes import Note, deciding_note, note_of
from studio.graphics.layout.page import Words, plan
from studio.graphics.look import Look
from studio.graphics.parts.measure_bar import Limit, MeasureBar
from studio.graphics.parts.scale_bar import Entry, Line
from studio.graphics.ratings_layout import Scale, arrange, scale_marks, sidewall_marks
from studio.graphics.scene import Scene
from studio.graphics.specimens import chosen_subjects, finding_for
from studio.graphics.steps import closed_up
from studio.graphics.whole_car import source_line
from studio.model.episode import Episode
from studio.model.finding import SEVERITY, Finding, Findings
from studio.model.places import AXLES, place_words
from studio.model.quantity import Quantity, System
from studio.model.source import Source

_LOAD, _SPEED, _LIMITS, _LAST = 1, 2, 3, 4
_STEPS = ("the sidewall", "the load index", "the speed symbol", "the limits", "what decides")


class RatingsData(msgspec.Struct, frozen=True, kw_only=True):
    """What is shown. ``split`` is where the speed symbol begins in ``service``."""

    words: Words
    sources: tuple[Source, ...]
    place: str
    service: str
    split: int
    diameters_mm: tuple[float, float]
    scales: tuple[Scale, ...]
    findings: tuple[str, ...]


@picture("ratings")
class Ratings:
    """A sidewall with its service description; beside it what that carries and how fast, each on a measured scale."""

    id = "ratings"
    name = "Load and speed marks"
    takes = 1

    def data(self, episode: Episode, findings: Findings, request: Request) -> RatingsData:
        """The tire asked for; else the one that carries least on the axle judged gravest. Raises CannotShow."""
        finding, place = _chosen(episode, findings, request)
        service = finding.word_at(f"service_{place}")
        size = finding_for(findings, "size", place)
        outer, rim = size.figure("overall_diameter"), size.figure("rim_diameter")
        if outer is None or rim is None or not service:
            raise CannotShow(f"the load index and speed symbol of the tire {place_words(place)} are missing")
        scales = _scales(finding, place, request.units)
        if not scales:
            raise CannotShow(f"neither load index nor speed symbol of the tire {place_words(place)} is known")
        symbol = finding.word_at(f"speed_symbol_{place}")
        return RatingsData(
            words=Words(sentence=request.title or finding.sentence, verdict=finding.verdict, caution=finding.caution),
            sources=finding.sources, place=place, service=service, scales=scales, findings=(finding.id, size.id),
            split=service.rfind(symbol) if symbol else len(service),
            diameters_mm=(outer.to("mm").value, rim.to("mm").value),
        )  # fmt: skip

    def compose(self, data: RatingsData, frame: Frame, look: Look) -> Scene:
        """The picture for this frame and look."""
        words = msgspec.structs.replace(data.words, sources=source_line(data.sources, frame))
        page = plan(frame, look, words, ())
        its = arrange(data.scales, page.drawing, frame)
        tire = sidewall_marks(data.service, data.split, data.diameters_mm, its, frame, look)
        scene = Scene(
            picture=self.id, frame=frame, background=look.ground, steps=_STEPS, title=words.sentence,
            marks=(*tire, *scale_marks(data.scales, its, frame, look), *page.marks({})),
            alternative=_alternative(data), findings=data.findings,
        )  # fmt: skip
        return closed_up(scene)


def _chosen(episode: Episode, findings: Findings, request: Request) -> tuple[Finding, str]:
    """The finding on an axle and the place on it."""
    for subject in chosen_subjects(episode, request, most=1):
        for axle, places in AXLES.items():
            if subject in places:
                return finding_for(findings, "ratings", f"{axle}_axle"), subject
        raise CannotShow("ratings are held against the placard's where a tire stands: choose one that is on an axle")
    rated = [(finding, place) for finding in findings.of("ratings") if (place := _place(finding))]
    if not rated:
        raise CannotShow("both tires of an axle are needed, with load index and speed symbol on their sidewalls")
    return max(rated, key=lambda pair: _gravity(pair[0]))


def _place(finding: Finding) -> str:
    """The tire that counts for its axle; of tires whose load is not known the first one with marks."""
    places = AXLES[finding.subject.removesuffix("_axle")]
    marked = (place for place in places if finding.word_at(f"service_{place}"))
    return finding.word("weakest") or next(marked, "")


def _gravity(finding: Finding) -> tuple[int, float]:
    severity = SEVERITY.index(finding.verdict) if finding.verdict in SEVERITY else -1
    return severity, -(finding.margin or 0.0) / (finding.limit or 1.0)


def _scales(finding: Finding, place: str, units: System) -> tuple[Scale, ...]:
    first = next(iter(finding.word("short_of").split()), "")
    # where the index itself falls short, what is carried as filled is beside the point
    now = None if first == "index" else finding.figure_at(f"load_{place}")
    load = _load_scale(finding, place, now, units, decides=first != "speed")
    return tuple(scale for scale in (load, _speed_scale(finding, place, units, decides=first == "speed")) if scale)


def _load_scale(
    finding: Finding, place: str, now: Quantity | None, units: System, *, decides: bool
) -> Scale | None:  # fmt: skip
    full = finding.figure_at(f"index_load_{place}")
    if full is None:
        return None
    label = _label("load index", finding, "load_index", place)
    counted = decides and now is None
    header = _header("load_index", full, label, units, _LAST if counted else _LOAD, deciding=counted)
    below = None
    if now is not None:
        filled = "carried as filled" if finding.word("filled") == "read" else "at the placard pressure"
        note = deciding_note if decides else note_of
        below = note("carried", now, filled, units, _LAST if decides else _LIMITS)
        below = msgspec.structs.replace(below, brief="as filled" if "filled" in filled else "at placard's")
    key, limits = [], []
    for name, kind, quantity, words, brief in _load_limits(finding, place, full, short=now is None):
        limits.append(Limit(name=name, kind=kind, value=_value(quantity, units), step=_LIMITS))
        note_ = note_of(f"load_{name}", quantity, words, units, _LIMITS)
        key.append((msgspec.structs.replace(note_, brief=brief), kind))
    bar = _bar("load", full, now or full, tuple(limits), units, _LOAD)
    return Scale(header=header, bar=bar, below=below, key=tuple(key), verdict=finding.verdict, decides=decides)


def _load_limits(
    finding: Finding, place: str, full: Quantity, *, short: bool
) -> list[tuple[str, Line, Quantity, str, str]]:  # fmt: skip
    """What the bar is held against: its share of the axle, the placard's index, the rating that counts on this car.

    The placard's stands first for a tire whose index falls ``short`` of it.
    """
    found: list[tuple[str, Line, Quantity, str, str]] = []
    if share := finding.figure("axle_share"):
        found.append(("share", "law", share, "share of axle rating", "axle share"))
    asked = finding.figure("placard_load")
    if asked and abs(asked.value - full.value) > 1e-6:
        index = finding.word("load_index_placard")
        found.append(("asked", "advice", asked, f"placard's index {index}", f"placard's {index}"))
    counted = finding.figure("rating_each_divided")
    if counted and place == finding.word("weakest"):
        found.append(("counted", "advice", counted, f"rating {finding.word_at('divided')}", "rating here"))
    return sorted(found, key=lambda limit: limit[0] != "asked") if short else found


def _speed_scale(finding: Finding, place: str, units: System, *, decides: bool) -> Scale | None:
    own, asked = finding.figure_at(f"symbol_speed_{place}"), finding.figure("placard_speed")
    if own is None:
        return None
    label = _label("speed symbol", finding, "speed_symbol", place)
    header = _header("speed_symbol", own, label, units, _LAST if decides else _SPEED, deciding=decides)
    key: tuple[Entry, ...] = ()
    limits: tuple[Limit, ...] = ()
    if asked:
        limits = (Limit(name="asked", kind="advice", value=_value(asked, units), step=_LIMITS),)
        if abs(asked.value - own.value) > 1e-6:
            symbol = finding.word("speed_symbol_placard")
            note = note_of("speed_asked", asked, f"placard's symbol {symbol}", units, _LIMITS)
            key = ((msgspec.structs.replace(note, brief=f"placard's {symbol}"), "advice"),)
    bar = _bar("speed", own, own, limits, units, _SPEED)
    return Scale(header=header, bar=bar, below=None, key=key, verdict=finding.verdict, decides=decides)


def _label(what: str, finding: Finding, word: str, place: str) -> str:
    """``load index 91, as the placard's``; the placard's own is named with its line where it differs."""
    own, asked = finding.word_at(f"{word}_{place}"), finding.word_at(f"{word}_placard")
    return f"{what} {own}" + (", as the placard's" if own == asked else "")


def _header(name: str, quantity: Quantity, label: str, units: System, step: int, *, deciding: bool) -> Note:
    brief = label.split(",")[0]
    if deciding:
        return msgspec.structs.replace(deciding_note(name, quantity, label, units, step), brief=brief)
    return msgspec.structs.replace(note_of(name, quantity, label, units, step), brief=brief, on_one_line=True)


def _bar(
    name: str, full: Quantity, now: Quantity, limits: tuple[Limit, ...], units: System, step: int
) -> MeasureBar:  # fmt: skip
    unit = full.in_system(units).text().partition(" ")[2]
    return MeasureBar(name=name, unit=unit, full=_value(full, units), now=_value(now, units), limits=limits, step=step)


def _value(quantity: Quantity, units: System) -> float:
    return quantity.in_system(units).value


def _alternative(data: RatingsData) -> str:
    said = []
    for scale in data.scales:
        notes = [scale.header, *((scale.below,) if scale.below else ()), *(note for note, _ in scale.key)]
        said.append(", ".join(" ".join(part for part in (n.value, n.unit, n.label) if part) for n in notes))
    return f"The sidewall of the tire {place_words(data.place)} with {data.service}: {'; '.join(said)}."
