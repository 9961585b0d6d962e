"""Rundowns to begin with: a template's texts filled with live numbers of this episode's findings.

What the episode has no findings for is left out, and the plan says so; no number is written into a text.
"""

import re
from collections.abc import Callable, Iterable, Mapping

import msgspec

from studio.model.finding import Finding, Findings
from studio.model.places import CORNERS, ON_CAR, place_words
from studio.model.rundown import PictureCue, Point, Segment, Shot
from studio.script.live import filled
from studio.script.numbers import by_id
from studio.script.template_texts import TEMPLATES, SegmentText, TemplateText

_ROLE = re.compile(r"\[(?P<role>\w+)(?P<who>:who)?\]")
Role = Callable[[Findings], Finding | None]


class Planned(msgspec.Struct, frozen=True, kw_only=True):
    """A rundown made from a template, and a sentence for each thing that was left out."""

    segments: tuple[Segment, ...]
    left_out: tuple[str, ...] = ()


def template(id_: str) -> TemplateText | None:
    """The template of this id."""
    return next((its for its in TEMPLATES if its.id == id_), None)


def plan(chosen: TemplateText, findings: Findings, taken: Iterable[str] = ()) -> Planned:
    """The segments of ``chosen`` for this episode; their ids keep clear of those ``taken``."""
    roles = {name: find(findings) for name, find in _ROLES.items()}
    index, used = by_id(findings), set(taken)
    segments, left_out = [], []
    for text in chosen.segments:
        points, missing = _points(text, roles, index, dict(findings.names))
        left_out += [f"{text.title}: {its}" for its in missing]
        if not points:
            left_out.append(f"{text.title}: left out, as this episode has nothing for it yet.")
            continue
        segments.append(_segment(text, points, _free(text.id, used)))
    return Planned(segments=tuple(segments), left_out=tuple(left_out))


def _points(
    text: SegmentText, roles: Mapping[str, Finding | None], index: Mapping[str, Finding], called: Mapping[str, str]
) -> tuple[list[Point], list[str]]:
    """The points that can be filled, and why others cannot. A segment of talk alone around no number is not kept."""
    points, missing, wanted = [], [], 0
    for raw in text.points:
        names = [match["role"] for match in _ROLE.finditer(raw)]
        wanted += bool(names)
        if absent := next((name for name in names if roles[name] is None), ""):
            missing.append(f"a point is left out, as nothing is known of {_MEANING[absent]}.")
            continue
        written = _ROLE.sub(lambda match: _written(match, roles, called), raw)
        pieces = filled(written, index, "us")
        if any(piece.kind == "hole" for piece in pieces):
            missing.append(f"a point is left out, as {next(p.why for p in pieces if p.kind == 'hole').rstrip('.')}.")
            continue
        about = dict.fromkeys(piece.finding for piece in pieces if piece.finding)
        points.append(Point(text=written, findings=tuple(about)))
    bare = wanted and not any(point.findings for point in points)
    return ([], missing) if bare and not text.shows else (points, missing)


def _written(match: re.Match[str], roles: Mapping[str, Finding | None], names: Mapping[str, str]) -> str:
    finding = roles[match["role"]]
    assert finding is not None
    return _who(finding, names) if match["who"] else finding.id


def _who(finding: Finding, names: Mapping[str, str]) -> str:
    """Whom a finding is about, within a sentence."""
    if finding.subject in ON_CAR:
        return place_words(finding.subject)
    name = names.get(finding.subject) or finding.subject.replace("_", " ")
    return name[:1].lower() + name[1:] if " " in name and name.split()[0].istitle() else name


def _segment(text: SegmentText, points: list[Point], id_: str) -> Segment:
    return Segment(
        id=id_, title=text.title, points=tuple(points), shows=text.shows, props=text.props,
        pictures=tuple(PictureCue(picture=its) for its in text.pictures),
        shots=tuple(Shot(text=its) for its in text.shots),
    )  # fmt: skip


def _free(id_: str, used: set[str]) -> str:
    free, number = id_, 2
    while free in used:
        free, number = f"{id_}_{number}", number + 1
    used.add(free)
    return free


def _known(findings: Findings, topic: str) -> list[Finding]:
    return [finding for finding in findings.of(topic) if finding.verdict != "unknown" and finding.value is not None]


def _on_car(findings: Findings, topic: str) -> list[Finding]:
    return [finding for finding in _known(findings, topic) if finding.subject in CORNERS]


def _value(finding: Finding) -> float:
    return finding.value if finding.value is not None else 0.0


def _lowest(findings: Findings) -> Finding | None:
    return min(_on_car(findings, "tread_left"), key=_value, default=None)


def _deepest(findings: Findings) -> Finding | None:
    return max(_on_car(findings, "tread_left"), key=_value, default=None)


def _winter(findings: Findings) -> Finding | None:
    """The lowest tire that is held against winter advice."""
    held = [finding for finding in _known(findings, "tread_left") if finding.figure("winter_advice") is not None]
    return min(held, key=_value, default=None)


def _oldest(findings: Findings) -> Finding | None:
    return max(_on_car(findings, "age"), key=_value, default=None)


def _winter_oldest(findings: Findings) -> Finding | None:
    winter = {its.subject for its in _known(findings, "tread_left") if its.figure("winter_advice") is not None}
    return max((its for its in _known(findings, "age") if its.subject in winter), key=_value, default=None)


def _slip(findings: Findings) -> Finding | None:
    """The axle whose wheels turn most unequally, if they do so to a turn at all."""
    turns = {its.id: figure.value for its in _known(findings, "slip") if its.subject.endswith("_axle")
             if (figure := its.figure("turns_difference")) is not None}  # fmt: skip
    most = max(turns, key=lambda id_: turns[id_], default="")
    return findings.get(most) if most and turns[most] >= 1 else None


def _uneven(findings: Findings) -> Finding | None:
    return max(_on_car(findings, "wear_pattern"), key=_value, default=None)


def _lasts(findings: Findings) -> Finding | None:
    return min(_on_car(findings, "life"), key=_value, default=None)


def _short_of_air(findings: Findings) -> Finding | None:
    held = [its for its in _on_car(findings, "pressure") if its.figure("weather") is not None]
    return max(held, key=lambda its: abs(its.margin or 0.0), default=None)


def _named(id_: str) -> Role:
    def find(findings: Findings) -> Finding | None:
        found = findings.get(id_)
        return found if found is not None and found.verdict != "unknown" else None

    return find


def _first(topic: str) -> Role:
    return lambda findings: next(iter(_known(findings, topic)), None)


_ROLES: Mapping[str, Role] = {
    "lowest": _lowest, "deepest": _deepest, "winter": _winter, "oldest": _oldest, "winter_oldest": _winter_oldest,
    "uneven": _uneven, "lasts": _lasts,
    "pressure": _short_of_air, "air": _named("pressure.car"), "gauge": _named("gauges.gauge"),
    "front": _named("matching.front_axle"), "rear": _named("matching.rear_axle"), "set": _named("matching.set"),
    "slip": _slip, "four": _named("choices.four"), "pair": _named("choices.pair"),
    "one": _named("choices.one"), "shaved": _named("choices.shaved"), "size": _named("size.front_left"),
    "swap": _first("size_swap"), "spare": _first("spare"),
}  # fmt: skip
_MEANING: Mapping[str, str] = {
    "lowest": "the lowest tread on the car", "deepest": "the deepest tread on the car", "winter": "tires for winter",
    "oldest": "the tires' age", "winter_oldest": "the age of tires for winter", "uneven": "wear across the tread",
    "lasts": "how far the tires will go",
    "pressure": "a drop of pressure between two readings", "air": "where the tires are filled and driven",
    "gauge": "the gauge", "front": "the match of the front pair", "rear": "the match of the rear pair",
    "set": "the match of the whole set", "slip": "wheels that turn unequally", "four": "what four would cost",
    "pair": "what a pair would cost", "one": "what one tire would cost", "shaved": "what shaving would cost",
    "size": "the size at the front left", "swap": "another size", "spare": "the spare",
}  # fmt: skip
