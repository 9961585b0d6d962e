"""Keep or buy: every choice with its outlay, its cost over distance, and why it is out or what follows.

All numbers and reasons are the findings'. Nothing is ranked but by one stated number: what a distance costs.
"""

import msgspec

from studio.graphics.catalogue import CannotShow, Request, picture
from studio.graphics.choices_layout import LEAST, Choice, Row, Sizes, Table, table
from studio.graphics.color import faded, mix
from studio.graphics.draw import polyline, rectangle
from studio.graphics.frame import Box, Frame
from studio.graphics.layout.page import Words, plan
from studio.graphics.layout.text import width
from studio.graphics.look import Look
from studio.graphics.parts.signs import sign
from studio.graphics.scene import Point, Role, Scene, Shape, Stroke, Text, Weight
from studio.graphics.steps import closed_up
from studio.graphics.whole_car import source_line
from studio.model.episode import Episode
from studio.model.finding import SEVERITY, Finding, Findings, Verdict
from studio.model.quantity import Quantity, System

_NAMES = {
    "keep": "Keep all", "one": "One new", "pair": "New pair", "four": "Four new", "shaved": "Shaved",
    "used_pair": "Used pair",
}  # fmt: skip


class ChoicesData(msgspec.Struct, frozen=True, kw_only=True):
    """What the picture shows: one row for each choice, and the finding whose sentence stands above."""

    choices: tuple[Choice, ...]
    headline: Finding
    caution: str
    title: str
    currency: str
    unit: str
    shown: tuple[str, ...]


@picture("choices")
class Choices:
    """Rows with bars; what is ruled out keeps its row, hollow, with its reason in words."""

    id = "choices"
    name = "Keep, or buy one, two or four"
    takes = 0

    def data(self, episode: Episode, findings: Findings, request: Request) -> ChoicesData:
        """All choices of the car. Raises CannotShow where none can be worked out."""
        found = {finding.subject: finding for finding in findings.of("choices")}
        if "keep" not in found:
            raise CannotShow("what to buy is not known yet; missing: a tire at each corner")
        if found["keep"].verdict == "unknown" and not found["keep"].word("state"):
            raise CannotShow(f"what to buy is not known yet; missing: {'; '.join(found['keep'].missing)}")
        best = _best(found)
        headline = _headline(found, best)
        return ChoicesData(
            choices=tuple(_choice(found[kind], kind == best, request.units) for kind in _NAMES if kind in found),
            headline=headline, caution=_caution(found, headline), title=request.title or headline.sentence,
            currency=found["keep"].word("currency"), unit="mi" if request.units == "us" else "km",
            shown=tuple(finding.id for finding in found.values()),
        )  # fmt: skip

    def compose(self, data: ChoicesData, frame: Frame, look: Look) -> Scene:
        """One table of rows over the whole width."""
        words = Words(sentence=data.title, verdict=data.headline.verdict, caution=data.caution,
                      sources=source_line(data.headline.sources, frame, 1))  # fmt: skip
        page = plan(frame, look, words, ())
        its = table(data.choices, data.currency, data.unit, page.drawing, frame)
        last = len(data.choices) + 1
        scale = _scale(its)
        marks: list[Shape | Text] = []
        for order, row in enumerate(its.rows):
            marks += _row(row, order, last, scale, its.sizes, frame, look)
            if order and not row.choice.best and not its.rows[order - 1].choice.best:
                marks.append(_line(row, frame, look))
        heads = [_text(f"axis/head{order}", text, (x, its.head), frame.cap_height("small"), look, "quiet",
                       anchor="end" if right else "start")
                 for order, (text, x, right) in enumerate(its.heads)]  # fmt: skip
        plates = [mark for mark in marks if mark.name.startswith("plate")]
        said = "; ".join(f"{row.choice.name}: {row.choice.reason or row.choice.follows}" for row in its.rows)
        return closed_up(
            Scene(
                picture=self.id, frame=frame, background=look.ground, title=data.title, findings=data.shown,
                steps=("the choices", *(choice.name for choice in data.choices), "what costs least"),
                alternative=f"A table of what to do with the tires. {said}",
                marks=(*plates, *heads, *(mark for mark in marks if mark not in plates), *page.marks({})),
            )
        )  # fmt: skip


def _state(finding: Finding) -> Verdict:
    word = finding.word("state")
    return next((verdict for verdict in SEVERITY if verdict == word), "unknown")


def _best(found: dict[str, Finding]) -> str:
    """Of what is not ruled out and is bought, what costs least until the next purchase; empty where none is known."""
    costs = {kind: cost.value for kind, finding in found.items()
             if not finding.word("ruled_out") and (cost := finding.figure("cost_until_next"))}  # fmt: skip
    return min(costs, key=lambda kind: costs[kind], default="")


def _headline(found: dict[str, Finding], best: str) -> Finding:
    """Keeping, where nothing speaks against it; else what costs least, else the first that is not ruled out."""
    keep = found["keep"]
    if _state(keep) == "keep":
        return keep
    open_ = [finding for finding in found.values() if finding.word("state") and not finding.word("ruled_out")]
    return found.get(best) or next(iter(open_), keep)


def _caution(found: dict[str, Finding], headline: Finding) -> str:
    """That of tires which may not stay on, where keeping is out for more than unequal treads; else the headline's."""
    keep, four = found["keep"], found.get("four")
    grave = keep.word("ruled_out") and (four is None or keep.caution != four.caution)
    return keep.caution if grave else headline.caution


def _choice(finding: Finding, best: bool, units: System) -> Choice:
    cost, outlay, bought = finding.figure("cost_until_next"), finding.figure("outlay"), finding.figure("bought")
    nothing = outlay is not None and outlay.value == 0 and bought is not None
    out = bool(finding.word("ruled_out"))
    return Choice(
        kind=finding.subject, name=_NAMES[finding.subject], state=_state(finding),
        outlay="nothing" if nothing else outlay.number() if outlay else "?", cost=cost.value if cost else None,
        cost_text=cost.number() if cost else "", reason=_reason(finding, out),
        follows=_follows(finding, units), out=out, best=best,
    )  # fmt: skip


def _reason(finding: Finding, out: bool) -> str:
    """Why it is out, what speaks against it, or what is not entered."""
    reason = finding.word("reason")
    if out:
        return f"Out: {reason}" if _state(finding) == "replace" else f"Inspect: {reason}"
    if finding.verdict == "unknown" and finding.missing:
        return f"Not entered: {finding.missing[0]}"
    return f"Watch: {reason}" if reason else ""


def _follows(finding: Finding, units: System) -> str:
    coming, apart = finding.word("next.about"), finding.figure("apart_set")
    match = f"set {_own(apart, units)} apart" if apart else ""
    return "; ".join(part for part in (f"next in about {coming}" if coming else "", match) if part)


def _own(quantity: Quantity, units: System) -> str:
    return quantity.in_system(units).text()


def _scale(its: Table) -> float:
    """The px of one unit of cost, the same for all rows: each bar leaves room for its number."""
    return min(((row.bar.width - its.sizes.number(row.choice)) / row.choice.cost
                for row in its.rows if row.choice.cost), default=0.0)  # fmt: skip


def _row(
    row: Row, order: int, last: int, scale: float, sizes: Sizes, frame: Frame, look: Look
) -> list[Shape | Text]:  # fmt: skip
    """Sign and name first, then in its own step outlay, bar and words; the best one's plate and number come last."""
    its, step = row.choice, order + 1
    ground = look.plate if its.best else look.ground
    ink = "quiet" if its.out else "ink"
    side, left = sizes.sign, row.box.left + sizes.inset
    marks: list[Shape | Text] = []
    if its.best:
        marks.append(_plate(row, last, frame, look))
    marks += sign(its.state, Box(left, row.middle - side / 2, side, side), look, f"{its.kind}/sign", step)
    name = (left + side + 1.2 * frame.grid, row.middle + sizes.name / 2)
    role: Role = "callout" if sizes.name > sizes.small else "small"
    marks.append(_text(f"{its.kind}/name", its.name, name, sizes.name, look, ink, ground, "semibold", role=role))
    marks.append(_text(f"{its.kind}/outlay", its.outlay, (row.outlay_right, row.middle + sizes.name / 2), sizes.name,
                       look, ink, ground, "semibold", step=step, anchor="end", role=role))  # fmt: skip
    if its.cost is not None:
        marks += _bar(row, its.cost * scale, last if its.best else step, step, sizes, frame, look, ground)
    for number, said in enumerate(row.lines):
        at = (row.words_at[0], row.words_at[1] + number * sizes.step)
        fill = "ink" if its.out or its.reason else "quiet"
        marks.append(_text(f"{its.kind}/words{number}", said, at, sizes.small, look, fill, ground, step=step))
    return marks


def _line(row: Row, frame: Frame, look: Look) -> Shape:
    outline = polyline(((row.box.left, row.box.top), (row.box.right, row.box.top)))
    thin = Stroke(faded(look.quiet, 0.25), frame.short / 900)
    return Shape(name=f"axis/{row.choice.kind}/line", outline=outline, stroke=thin)


def _plate(row: Row, step: int, frame: Frame, look: Look) -> Shape:
    box = row.box
    outline = rectangle(box.left, box.top + frame.grid / 4, box.width, box.height - frame.grid / 2, frame.grid)
    return Shape(name=f"plate/{row.choice.kind}", step=step, outline=outline, fill=look.plate,
                 stroke=Stroke(look.measure, frame.short / 270))  # fmt: skip


def _bar(
    row: Row, long: float, said: int, step: int, sizes: Sizes, frame: Frame, look: Look, ground: str
) -> list[Shape | Text]:  # fmt: skip
    """A bar with its number behind it; hollow and dashed where the choice is out."""
    its, cap = row.choice, sizes.cost(row.choice)
    weight: Weight = "bold" if its.best else "semibold"
    outline = rectangle(row.bar.left, row.bar.top, long, row.bar.height)
    hollow = Stroke(look.quiet, frame.short / 540, (frame.grid / 2, frame.grid / 2))
    fill = None if its.out else look.measure if its.best else mix(look.ground, look.measure, 0.55)
    x, y = row.bar.left + long + sizes.inset, row.middle_of_bar
    marks: list[Shape | Text] = [
        Shape(name=f"{its.kind}/bar", step=step, outline=outline, fill=fill, stroke=hollow if its.out else None),
        _text(f"{its.kind}/cost", its.cost_text, (x, y + cap / 2), cap, look, "quiet" if its.out else "ink", ground,
              weight, step=said, role="deciding" if its.best else "small"),
    ]  # fmt: skip
    if its.best:
        at = (x + width(its.cost_text, cap, weight) + width("  ", sizes.small), y + cap / 2)
        marks.append(_text(f"{its.kind}/best", LEAST, at, sizes.small, look, "ink", ground, step=said))
    return marks


def _text(
    name: str, text: str, at: Point, cap: float, look: Look, fill: str, ground: str = "", weight: Weight = "regular",
    step: int = 0, anchor: str = "start", role: Role = "small",
) -> Text:  # fmt: skip
    return Text(name=name, step=step, text=text, at=at, cap_height=cap, weight=weight, role=role,
                anchor=anchor, fill=getattr(look, fill), ground=ground or look.ground)  # type: ignore[arg-type]  # fmt: skip
