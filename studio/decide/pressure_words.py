"""The words of the pressure topic."""

from studio.decide.air import whole_percent
from studio.decide.pressure_drop import Drop
from studio.decide.pressure_read import Read
from studio.decide.wording import day_words, on_paper, upper_first
from studio.model.finding import Step, summed
from studio.model.quantity import MINUS, Quantity, format_number
from studio.reference.tables import Tables

NO_TEMPERATURE = "the air temperature at the reading, to tell a leak from weather"
NO_BASE = "an earlier cold reading with its temperature, to tell a leak from weather"
NO_PLACARD = "the placard's cold pressure"
NO_COLD = "a reading of the cold tire"
_MOSTLY = 0.5


def sentence(its: Read) -> str:
    """The finding in plain speech."""
    title, both = its.part.subject.title, its.part.audience.both
    if its.part.out:
        return f"{title} {its.part.out.words}; no pressure makes up for that."
    if its.standing == "low":
        return _low(its)
    if its.leaks and its.drop and its.drop.months:
        lost, months = both(_amount(its, its.drop.lost)), format_number(its.drop.months, 1)
        return f"{title} lost {lost} in {months} months, weather aside: have it checked for a leak."
    if its.standing == "warm":
        return f"{title} read {both(its.held)} warm: let no air out; read it again when cold."
    if its.standing == "warm_under":
        return f"{title} reads {both(its.held)} even warm, under the placard's {_asked(its)}."
    if its.standing == "unasked":
        return f"{title} holds {both(its.held)}; the placard's cold pressure is not entered yet."
    return _held(its)


def _low(its: Read) -> str:
    title, both = its.part.subject.title, its.part.audience.both
    asked = its.asked or its.held
    if its.part.spare:
        short = its.part.audience.own(_amount(its, asked.value - its.held.value))
        return f"{title} holds {both(its.held)}, {short} short of its {_asked(its)}: fill it now."
    share = whole_percent(1 - its.held.value / asked.value)
    return f"{title} holds {both(its.held)}, {share} under the placard: add air and have it inspected."


def _held(its: Read) -> str:
    title, both = its.part.subject.title, its.part.audience.both
    off = both(_amount(its, abs(its.above or 0.0)))
    if its.standing == "right":
        if its.part.audience.own(its.judged) == _asked(its):
            return f"{title} is right{_where(its)}: {both(its.judged)}, as the placard asks."
        within = its.part.audience.own(_amount(its, its.doubt))
        return f"{title} is right within {within}{_where(its)}: {both(its.judged)}, placard {_asked(its)}."
    if its.standing == "over":
        return f"{title} is {off} over the placard{_where(its)}: let air out only when cold."
    return f"{title} is {off} under the placard{_where(its)}{_explained(its)}."


def _explained(its: Read) -> str:
    """How much of the drop is weather, as far as that can be told; else what to do."""
    if its.drop is None or its.drop.weather_share is None:
        return ": add air cold"
    if its.drop.cause == "weather":
        return "; weather explains the drop" if its.drop.weather_share > _MOSTLY else "; can't tell a leak from weather"
    if its.drop.weather_share > _MOSTLY:
        return f"; {whole_percent(its.drop.weather_share)} of it is weather: add air cold"
    return ": add air now and check for a leak"


def _where(its: Read) -> str:
    if its.street is None or its.judged == its.held:
        return ""
    if its.part.around.driving_temperature:
        return f" at {its.part.audience.own(its.street.temperature)}"
    return " where it is driven"


def _asked(its: Read) -> str:
    return its.part.audience.own(its.asked or its.held)


def _amount(its: Read, value: float) -> Quantity:
    return Quantity(value, its.unit)


def working(its: Read, tables: Tables) -> tuple[str | Step, ...]:
    """The steps from the reading to the verdict."""
    lines: list[str | Step] = [] if its.part.out is None else [f"{its.part.subject.title} {its.part.out.words}"]
    lines += [_read_line(its), *_asked_lines(its, tables)]
    lines += _warm_lines(its, tables) if not its.last.read.cold else []
    lines += _street_lines(its)
    lines += _against_lines(its, tables)
    lines += _drop_lines(its, its.drop, tables) if its.drop else []
    lines += [its.part.around.assumed()] if its.drop or its.street else []
    return (*lines, *(its.lamp.lines if its.lamp else ()))


def _read_line(its: Read) -> str:
    read, both = its.last.read, its.part.audience.both
    how = "cold" if read.cold else "warm"
    at = f" at {both(read.temperature)}" if read.temperature else ""
    return f"Read {how} on {day_words(its.last.on)}{at}: {both(read.pressure)}"


def _asked_lines(its: Read, tables: Tables) -> list[str]:
    if its.part.asked is None:
        return []
    asked, both = its.part.asked, its.part.audience.both
    hours = tables.pressure["cold_parked_hours"]
    lines = [f"{upper_first(asked.label)}: {both(asked.pressure)}"]
    lines.append(f"Cold: parked {hours.value:g} hours, as cold as the day's air ({hours.source.standing})")
    return lines


def _warm_lines(its: Read, tables: Tables) -> list[str]:
    least, most = tables.pressure["hot_rise_least_psi"], tables.pressure["hot_rise_most_psi"]
    own = its.part.audience.own
    rise = f"{own(Quantity(least.value, 'psi'))} to {own(Quantity(most.value, 'psi'))}"
    low, high = (
        own(Quantity(max(0.0, its.held.value - Quantity(row.value, "psi").to(its.unit).value), its.unit))
        for row in (most, least)
    )
    return [
        f"A tire read hot shows {rise} more ({most.source.standing}), so cold it holds about {low} to {high}",
        "That is no reading to fill by: let down warm, it is low once cold",
    ]


def _street_lines(its: Read) -> list[Step]:
    if its.now is None or its.street is None:
        return []
    return [summed(f"Where it is driven{_where(its)}", its.now.steps_to(its.street), "gas")]


def _against_lines(its: Read, tables: Tables) -> list[str]:
    gauge = tables.assumed["pressure_gauge_psi"].source.standing
    doubt = f"Gauge ({gauge})" if its.street is None else f"Gauge and temperature together ({gauge})"
    lines = []
    if its.asked is not None and its.above is not None:
        above = on_paper(_amount(its, its.above))
        lines.append(f"Against the placard: {on_paper(its.judged)} {MINUS} {on_paper(its.asked)} = {above}")
    return [*lines, f"{doubt}: ±{its.part.audience.both(_amount(its, its.doubt))}"]


def _drop_lines(its: Read, drop: Drop, tables: Tables) -> list[str | Step]:
    both = its.part.audience.both
    base = f"{both(drop.base.pressure)} at {both(drop.base.temperature)}"
    first = f"Assumed: filled to {base}" if drop.since is None else f"Before, on {day_words(drop.since)}: {base}"
    lines: list[str | Step] = [
        first,
        summed("The same air now, by weather alone", drop.base.steps_to(drop.expected), "gas"),
        f"Of {_signed(its, drop.total)} drop, weather {_signed(its, drop.weather)}, lost air {_signed(its, drop.lost)}"
        f", each ±{on_paper(_amount(its, drop.doubt))}{_shares(drop)}",
        *_usual_line(its, drop, tables),
        f"So: {_CAUSES[drop.cause]}",
    ]
    if drop.cause != "filled":
        lines.append("Assumed: no air was put in between; if any was, more was lost")
    return lines


_CAUSES = {
    "filled": "it holds more than weather explains, so air was put in between",
    "weather": "weather explains what was read as far as the gauge can tell",
    "usual": "air was lost, no more than tires usually lose in that time",
    "leak": "more air was lost than tires usually lose in that time: a leak",
    "lost": "air was lost; how fast is not known without the day of filling",
}


def _signed(its: Read, value: float) -> str:
    return on_paper(_amount(its, value))


def _shares(drop: Drop) -> str:
    if drop.weather_share is None:
        return ""
    return f": {whole_percent(drop.weather_share)} and {whole_percent(1 - drop.weather_share)}"


def _usual_line(its: Read, drop: Drop, tables: Tables) -> list[str]:
    if drop.months is None or drop.usual_most is None:
        return []
    least, most = tables.pressure["monthly_loss_least_psi"], tables.pressure["monthly_loss_most_psi"]
    both = its.part.audience.both
    return [
        f"Usual loss: {least.value:g} to {most.value:g} psi a month ({most.source.standing}), so in "
        f"{format_number(drop.months, 1)} months up to {both(_amount(its, drop.usual_most))}"
    ]


def missing(its: Read) -> tuple[str, ...]:
    """What would tell more."""
    found = [] if its.asked else [NO_PLACARD]
    found += [] if its.last.read.cold else [NO_COLD]
    if its.last.read.cold and its.drop is None and its.standing in ("under", "low"):
        found.append(NO_TEMPERATURE if its.last.read.temperature is None else NO_BASE)
    return tuple(found)


def detail(its: Read) -> tuple[tuple[str, str], ...]:
    """Words that pictures put beside the figures."""
    drop = its.drop
    pairs = {
        "standing": its.standing, "read_on": day_words(its.last.on), "cold": "cold" if its.last.read.cold else "warm",
        "cause": drop.cause if drop else "", "cause_words": _CAUSES[drop.cause] if drop else "",
        "since": day_words(drop.since) if drop and drop.since else "",
        "lamp": " ".join(its.lamp.lines) if its.lamp else "",
        "at_street": its.part.audience.own(its.street.temperature) if its.street else "",
    }  # fmt: skip
    return tuple((name, text) for name, text in pairs.items() if text)
