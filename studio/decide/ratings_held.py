"""The ratings of an axle, judged: load index and speed symbol against the placard, the load carried against the axle's.

Each judgement has a sentence of its own; the gravest one speaks for the axle.
"""

from collections.abc import Callable, Iterator

from studio.decide.carried import Carried
from studio.decide.ratings_read import Axle, Wheel
from studio.decide.sizes import Size
from studio.decide.swap_rules import Reason, at_pressure, load_reasons, speed_reasons, winter_rule
from studio.decide.told import Told, gravest_first
from studio.model.quantity import Quantity
from studio.reference.rows import SpeedException
from studio.reference.tables import Tables

_SAME_KG = 1e-6


def judged(axle: Axle, tables: Tables) -> tuple[Told, ...]:
    """Every judgement, the gravest first; of equal ones what can hurt first: load, then speed."""
    found = [*_out(axle), *_capacity(axle), *_refused(axle)]
    if axle.placard is not None:
        found += [*_marks(axle, axle.placard, _index), *_old_pressure(axle)]
        found += _marks(axle, axle.placard, _speed_by(winter_rule(axle.part.audience.region, tables)))
    return gravest_first(found)


Judge = Callable[[Wheel, Size], tuple[str, Reason, str]]


def _marks(axle: Axle, placard: Size, judge: Judge) -> Iterator[Told]:
    """The tires that fall short in one mark, together where all do; one judgement that all is well otherwise."""
    found = [(wheel, *judge(wheel, placard)) for wheel in axle.wheels]
    short = [(wheel, about, reason, says) for wheel, about, reason, says in found if reason.verdict != "keep"]
    if not short:
        _, about, reason, _ = found[0]
        yield Told(about=about, verdict="keep", sentence="", text=reason.text)
        return
    groups: dict[str, list[Wheel]] = {}
    for wheel, _, _, says in short:
        groups.setdefault(says, []).append(wheel)
    for _, about, reason, says in short:
        if wheels := groups.pop(says, None):
            who = _who(axle, wheels)
            yield Told(about=about, verdict=reason.verdict, sentence=f"{who} {says}", text=f"{who}: {reason.text}")


def _who(axle: Axle, wheels: list[Wheel]) -> str:
    return f"{axle.part.title} have" if len(wheels) > 1 else f"{wheels[0].fitted.subject.title} has"


def _index(wheel: Wheel, placard: Size) -> tuple[str, Reason, str]:
    reason = load_reasons(placard, wheel.size)[0]
    if wheel.size.load is None or placard.load is None:
        whose = "on the tire" if wheel.size.load is None else "on the placard"
        return "index", reason, f"no load index {whose} to compare."
    says = f"load index {wheel.size.load.load_index}; the placard asks for {placard.load.load_index}."
    return "index", reason, says


def _speed_by(rule: SpeedException | None) -> Judge:
    def speed(wheel: Wheel, placard: Size) -> tuple[str, Reason, str]:
        reason = speed_reasons(placard, wheel.size, rule, wheel.fitted.season)[0]
        if wheel.size.speed is None or placard.speed is None:
            whose = "on the tire" if wheel.size.speed is None else "on the placard"
            return "speed", reason, f"no speed symbol {whose} to compare."
        marks = f"speed symbol {wheel.size.speed.symbol}; the placard asks for {placard.speed.symbol}"
        end = ": allowed in winter, with a condition." if reason.verdict == "watch" else "."
        return "speed", reason, marks + end

    return speed


def _old_pressure(axle: Axle) -> Iterator[Told]:
    """A tire of another reference pressure at the placard's: it must carry there what the placard's own tire does."""
    asked = axle.placard_load
    for wheel in axle.wheels:
        its = wheel.at_placard
        if asked is None or not isinstance(its, Carried) or its.basis.reference == asked.basis.reference:
            continue
        at = at_pressure(asked, its, axle.part.audience)
        reason = load_reasons(asked.size, its.size, at)[-1]
        if its.full_kg < asked.full_kg or at.enough:
            continue  # the index says so already, or it carries enough
        carries = axle.part.audience.own(Quantity(its.each_kg, "kg"))
        yield Told(
            about="old_pressure", verdict=reason.verdict, text=f"{wheel.words}: {reason.text}",
            sentence=f"{wheel.fitted.subject.title} carries {carries} at the placard pressure; it needs {at.needs}.",
        )  # fmt: skip


def _out(axle: Axle) -> Iterator[Told]:
    """A tire that damage or age rules out carries nothing that can be counted on."""
    for wheel in axle.wheels:
        if out := wheel.fitted.out:
            sentence = f"{wheel.fitted.subject.title} {out.words}: its rating no longer counts."
            yield Told(about="condition", verdict=out.verdict, sentence=sentence, text=f"{wheel.words} {out.words}")


def _refused(axle: Axle) -> Iterator[Told]:
    """A tire too low to compute any load for must not be driven on; what is merely not known gives no verdict here."""
    for wheel, refusal in axle.refused:
        if refusal.too_low:
            sentence = f"{wheel.fitted.subject.title} is too low for any load to be computed: {refusal.missing}."
            yield Told(about="too_low", verdict="inspect", sentence=sentence, text=f"{wheel.words}: {refusal.why}")


def _capacity(axle: Axle) -> Iterator[Told]:
    rating_kg, capacity_kg, most_kg = axle.rating_kg, axle.capacity_kg, axle.most_kg
    if rating_kg is None:
        return
    title, both, own = axle.part.title, axle.part.audience.both, axle.part.audience.own
    rating = own(Quantity(rating_kg, "kg"))
    if most_kg is not None and most_kg < rating_kg - _SAME_KG:
        carry = both(Quantity(most_kg, "kg"))
        yield Told(about="capacity", verdict="replace", text=f"At most {carry}, under the axle rating of {rating}",
                   sentence=f"{title} carry {carry} at most, under the axle rating of {rating}.")  # fmt: skip
    elif capacity_kg is not None:
        yield _as_filled(axle, capacity_kg, rating_kg, rating)


def _as_filled(axle: Axle, capacity_kg: float, rating_kg: float, rating: str) -> Told:
    title, audience, margin_kg = axle.part.title, axle.part.audience, capacity_kg - rating_kg
    carry, mine = audience.both(Quantity(capacity_kg, "kg")), audience.own(Quantity(capacity_kg, "kg"))
    filled = "as filled" if axle.read else "at the placard pressure"
    if margin_kg < -_SAME_KG:
        enough = axle.at_placard_kg is not None and axle.at_placard_kg >= rating_kg - _SAME_KG
        fill = f"Fill to {audience.own(axle.part.placard.pressure)}." if enough and axle.part.placard.pressure else ""
        end = fill or "Have it confirmed."
        sentence = f"{title} carry {mine} {filled}; the axle rating is {rating}."
        return Told(about="capacity", verdict="inspect", sentence=f"{sentence} {end}",
                    text=f"{carry} {filled} is under the axle rating of {rating}")  # fmt: skip
    text = f"{carry} {filled} is not under the axle rating of {rating}"
    if axle.doubt_kg is not None and margin_kg <= axle.doubt_kg:
        sentence = f"{title} carry {mine} {filled}; the axle rating is {rating}. Too close to call."
        return Told(about="capacity", verdict="inspect", sentence=sentence, text=text, close=True)
    sentence = f"{title} carry {carry} {filled}; the axle rating is {rating}."
    return Told(about="capacity", verdict="keep", sentence=sentence, text=text)
