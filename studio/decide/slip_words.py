"""The words of the slip topic."""

from studio.decide.gauge import fine
from studio.decide.slip_read import Slip
from studio.decide.wording import on_paper, upper_first
from studio.model.quantity import MINUS, Quantity, depth, format_number, length
from studio.reference.rows import Rule
from studio.reference.tables import Tables
from studio.tires.units import MINUTES_PER_HOUR, MM_PER_KM

FINAL_DRIVE = "the final drive ratio"
_UNIT = {"rev/mi": "turns a mile", "rev/km": "turns a kilometer"}


def sentence(its: Slip) -> str:
    """The finding in plain speech."""
    at = f"At {its.part.audience.own(its.at.speed)}"
    if its.alike:
        what = "front and rear axle" if its.whole_car else f"the {its.turners[0].words.split()[0]} wheels"
        return f"{at} {what} turn alike, as far as this gauge can tell."
    more = f"turns {Quantity(its.apart_rpm, 'rpm').text()} more than"
    if its.whole_car:
        shaft = f", {Quantity(its.shaft_rpm, 'rpm').text()} at its shaft" if its.shaft_rpm is not None else ""
        return f"{at} {its.faster.words} {more} {its.slower.words}{shaft}."
    return f"{at} {its.faster.words} {more} {its.slower.words}: {turns_words(its)}."


def turns_words(its: Slip) -> str:
    """``5.4 turns a mile``."""
    return f"{format_number(its.turns.value, 1)} {_UNIT[its.turns.unit]}"


def working(its: Slip, tables: Tables) -> tuple[str, ...]:
    """The steps from the circumferences to the difference, and what a driveline does with it."""
    lines = [f"{its.at.working(its.part.audience)}, which is {on_paper(_a_minute(its))} a minute"]
    lines += [its.compared.assumed] if its.compared.assumed else []
    lines += [_wheel_line(its, index) for index in range(len(its.wheels))]
    if its.whole_car:
        lines += [_axle_line(its, index) for index in range(2)]
    fast, slow = (f"{turner.rpm:.2f}" for turner in (its.faster, its.slower))
    lines.append(f"Difference: {fast} {MINUS} {slow} = {its.apart_rpm:.2f} rpm, ±{its.doubt_rpm:.2f} by the gauge")
    lines.append(f"That is {Quantity(its.percent, '%').text()}, {turns_words(its)}, at any speed")
    lines += [] if its.alike else _differential_lines(its)
    lines.append(_makes_line(tables))
    return (*lines, *(f"{upper_first(rule.wording)} ({rule.source.standing})" for rule in rules(its, tables)))


def _makes_line(tables: Tables) -> str:
    """What the tread alone does not tell."""
    over, under = tables.rolling["tolerance_over_percent"], tables.rolling["tolerance_under_percent"]
    return (
        f"From size and tread alone: another make of this size may roll +{over.value:g} to {MINUS}{under.value:g} % "
        f"({over.source.title}, {over.source.standing})"
    )


def _wheel_line(its: Slip, index: int) -> str:
    wheel, tire = its.wheels[index], its.compared.tires[index]
    factor = tire.size.dimensions.rolling_factor if tire.size else its.factor
    worn, turn = on_paper(length(tire.diameter_mm or 0.0)), on_paper(length(wheel.circumference_mm))
    way = on_paper(_a_minute(its))
    return f"{upper_first(wheel.words)}: {factor:g} × {worn} worn = {turn} a turn; {way} / {turn} = {wheel.rpm:.2f} rpm"


def _a_minute(its: Slip) -> Quantity:
    return length(its.at.kmh * MM_PER_KM / MINUTES_PER_HOUR)


def _axle_line(its: Slip, index: int) -> str:
    turner = its.turners[index]
    left, right = (wheel.rpm for wheel in its.wheels[2 * index : 2 * index + 2])
    return f"{upper_first(turner.words)}, the mean: ({left:.2f} + {right:.2f}) / 2 = {turner.rpm:.2f} rpm"


def _differential_lines(its: Slip) -> list[str]:
    if its.whole_car:
        if its.shaft_rpm is None or its.part.final_drive is None:
            return []
        ratio = f"{its.part.final_drive:g}"
        return [f"At the shaft, before the final drive: {its.apart_rpm:.2f} × {ratio} = {its.shaft_rpm:.2f} rpm"]
    if its.undriven:
        return _bend_lines(its)
    lines = [f"In an open differential each wheel turns {its.apart_rpm:.2f} / 2 = {its.against_case_rpm:.2f} rpm "
             "against its case"]  # fmt: skip
    return [*lines, *_bend_lines(its)]


def _bend_lines(its: Slip) -> list[str]:
    if (bend := its.bend_m) is not None and its.part.track is not None:
        track = on_paper(its.part.track.to("mm"))
        return [f"As in a bend that never ends, of {its.part.audience.both(Quantity(round(bend), 'm'))} radius: "
                f"half the track, {track} / 2, × (sum / difference of the circumferences)"]  # fmt: skip
    return []


def rules(its: Slip, tables: Tables) -> tuple[Rule, ...]:
    """What the driveline at hand does with a difference."""
    names = ["undriven_axle"] if its.undriven else ["open_differential", "locked_axle"]
    if its.whole_car:
        names = ["part_time_four" if its.part.drivetrain == "part_time_four" else "coupling", "locked_axle"]
    return tuple(tables.driveline[name] for name in names)


def missing(its: Slip) -> tuple[str, ...]:
    """What would tell more."""
    return (FINAL_DRIVE,) if its.whole_car and its.part.final_drive is None else ()


def would_change(its: Slip) -> tuple[str, ...]:
    """How much tread makes the difference, and what halves it."""
    if its.alike:
        seen = fine(depth(its.compared.doubt_mm, "mm"), its.part.audience)
        return (f"Tread that differs by more than {seen} would show with this gauge.",)
    tread = fine(depth(its.depth_mm, "mm"), its.part.audience)
    which = f"Both tires of {its.slower.words}" if its.whole_car else upper_first(its.slower.words)
    half = Quantity(its.at.speed.value / 2, its.at.speed.unit)
    rpm = Quantity(its.apart_rpm / 2, "rpm").text()
    return (
        f"{which} with {tread} less tread would turn as {its.faster.words} does.",
        f"At {its.part.audience.own(half)} it would be {rpm}; the turns over a distance stay the same.",
    )


def detail(its: Slip) -> tuple[tuple[str, str], ...]:
    """Words that pictures put beside the figures."""
    pairs = {
        "faster": its.faster.name, "slower": its.slower.name, "turns": turns_words(its),
        "alike": "no difference that this gauge can tell" if its.alike else "",
        "speed": "assumed" if its.at.assumed else "given",
    }  # fmt: skip
    return tuple((name, text) for name, text in pairs.items() if text)
