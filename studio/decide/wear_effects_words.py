"""The words of the wear effects topic."""

from studio.decide.size_swap_read import tenths
from studio.decide.wear_effects_read import Effects, Part, Wheel, lost, missing
from studio.decide.wording import joined, on_paper, signed, upper_first
from studio.model.quantity import MINUS, Quantity, depth, format_number, length
from studio.reference.tables import Tables
from studio.tires.geometry import turns_per_km, turns_per_mile
from studio.tires.speed import highest_reading_kmh, reading_after_change, wheel_rpm
from studio.tires.units import MM_PER_KM, MM_PER_MILE

TRIP = 1000.0
"""The trip on which the odometer's error is shown, in the audience's unit."""


def unread(part: Part) -> str:
    """The sentence where something is missing."""
    first = missing(part)
    wanted = first[0] if first else "a marking that can be read at each driven wheel"
    return f"What wear does to the speedometer takes {wanted}."


def sentence(its: Effects) -> str:
    """The finding in plain speech."""
    audience = its.part.audience
    shown, true = tenths(its.at.speed, audience), tenths(its.true_at(its.at.speed), audience)
    if abs(its.percent) < its.doubt_percent:
        return f"The driven tires are as good as new in size: at {shown} shown, true is {true}."
    how, size = ("smaller", -its.percent) if its.percent < 0 else ("larger", its.percent)
    return f"Driven tires {Quantity(size, '%').text()} {how} than new: at {shown} shown, true is {true}."


def working(its: Effects, tables: Tables) -> tuple[str, ...]:
    """The steps from the tread lost to speed, distance, turns and gearing."""
    return (
        *_driven_lines(its), *(line for wheel in its.wheels for line in _wheel_lines(wheel)),
        *_turn_lines(its), *_speed_lines(its), *_gear_lines(its), *_rule_lines(its, tables), _makes_line(tables),
    )  # fmt: skip


def _driven_lines(its: Effects) -> list[str]:
    names = joined([wheel.worn.subject.words for wheel in its.wheels])
    if its.part.drivetrain is None:
        return [f"Assumed: the drivetrain is not given, so all wheels count: {names}"]
    return [f"The speedometer counts the turns of the driven wheels: {names}"]


def _wheel_lines(wheel: Wheel) -> list[str]:
    new, mean = depth(wheel.new_depth_mm, "mm"), depth(wheel.mean_mm, "mm")
    diameter, factor = length(wheel.size.dimensions.rolling_diameter_mm), wheel.size.dimensions.rolling_factor
    title, worn = upper_first(wheel.worn.subject.words), on_paper(length(wheel.worn_diameter_mm))
    return [
        f"{title} lost {on_paper(new)} {MINUS} {on_paper(mean)} = {on_paper(lost(wheel))}: diameter "
        f"{on_paper(diameter)} {MINUS} 2 × {on_paper(lost(wheel))} = {worn}",
        f"{title}, a turn: {factor:g} × {on_paper(diameter)} = {on_paper(length(wheel.new_mm))} new, "
        f"{factor:g} × {worn} = {on_paper(length(wheel.now_mm))} now",
    ]


def _turn_lines(its: Effects) -> list[str]:
    new, now = on_paper(length(its.new_mm)), on_paper(length(its.now_mm))
    mile, km = (
        f"Turns in a {word}: {on_paper(length(mm))} / {now} = {format_number(turns(its.now_mm), 1)}, "
        f"{format_number(turns(its.new_mm), 1)} when new"
        for word, mm, turns in (("mile", MM_PER_MILE, turns_per_mile), ("kilometer", MM_PER_KM, turns_per_km))
    )
    lines = [
        f"Together (mean of their turns): {now} / {new} {MINUS} 1 = {signed(its.percent)} %, "
        f"±{format_number(its.doubt_percent, 2)} % from the gauge",
    ]
    return [*lines, *((mile, km) if its.part.audience.units == "us" else (km, mile))]


def _speed_lines(its: Effects) -> list[str]:
    audience, shown = its.part.audience, its.at.speed
    ratio = format_number(its.now_mm / its.new_mm, 5)
    true, least = (tenths(its.true_at(shown, mm), audience) for mm in (None, its.bars_mm))
    way = trip(its)
    driven = Quantity(way.value * its.now_mm / its.new_mm, way.unit)
    return [
        "Assumed: the speedometer was exact on these tires when new",
        its.at.working(audience),
        f"True speed at that: {tenths(shown, audience)} × {ratio} = {true}",
        f"Down to the wear bars it would be {signed(its.bars_percent)} %: {least}",
        f"Odometer: of {way.text()} shown, {on_paper(driven)} are driven",
    ]


def trip(its: Effects) -> Quantity:
    """The trip on which the odometer's error is shown."""
    return Quantity(TRIP, "mi" if its.part.audience.units == "us" else "km")


def _gear_lines(its: Effects) -> list[str]:
    kmh, ratio = its.at.kmh, its.part.final_drive
    new, now = (wheel_rpm(kmh, mm) for mm in (its.new_mm, its.now_mm))
    lines = [
        f"Wheel at a true {tenths(its.at.speed, its.part.audience)}: {format_number(now, 1)} turns a minute, "
        f"{format_number(new, 1)} when new"
    ]
    if ratio is None:
        return [*lines, "Gearing: shorter by the same share, as the wheel turns more often for the same road"]
    return [
        *lines,
        f"Shaft before the final drive of {ratio:g}: {format_number(now * ratio, 1)} turns a minute, "
        f"{format_number(new * ratio, 1)} when new",
        f"As if on new tires with a final drive of {ratio:g} × {on_paper(length(its.new_mm))} / "
        f"{on_paper(length(its.now_mm))} = {format_number(effective_drive(its) or 0.0, 3)}",
    ]


def effective_drive(its: Effects) -> float | None:
    """The final drive that new tires would need to turn the shaft as often; None where it is not given."""
    return None if its.part.final_drive is None else its.part.final_drive * its.new_mm / its.now_mm


def _rule_lines(its: Effects, tables: Tables) -> list[str]:
    """Worn tires make a speedometer read high; how high it may, where UN Regulation No. 39 holds."""
    rule = its.rule
    if rule is None:
        return []
    lines = [f"{upper_first(rule.wording)} ({rule.source.title}, {rule.source.standing})"]
    if rule.value is not None:  # the rule of another kind of vehicle
        return lines
    share, plus = tables.speedometer["over_share"].value, tables.speedometer["over_kmh"].value
    reads, most = reading_after_change(its.at.kmh, its.new_mm, its.now_mm), highest_reading_kmh(its.at.kmh, share, plus)
    true, shown, high = (tenths(Quantity(kmh, "km/h"), its.part.audience) for kmh in (its.at.kmh, reads, most))
    within = "within" if reads <= most else "over"
    return [*lines, f"At a true {true} it shows {shown}, {within} the {high} that the rule lets it show"]


def _makes_line(tables: Tables) -> str:
    over, under = tables.rolling["tolerance_over_percent"], tables.rolling["tolerance_under_percent"]
    return (
        f"From size and tread alone: another make of this size may roll +{over.value:g} to {MINUS}{under.value:g} % "
        f"({over.source.title}, {over.source.standing})"
    )


def would_change(its: Effects) -> tuple[str, ...]:
    """What another 1/32 in, or millimeter, of wear does, computed anew."""
    step = depth(1, "32nds" if its.part.audience.units == "us" else "mm")
    less = 2 * step.to("mm").value
    after = [
        wheel.size.dimensions.rolling_factor * (wheel.worn_diameter_mm - less) for wheel in its.wheels
    ]  # fmt: skip
    turn = len(after) / sum(1 / mm for mm in after)
    true = tenths(its.true_at(its.at.speed, turn), its.part.audience)
    return (f"With {its.part.audience.both(step)} less tread on each, true would be {true} at the same shown speed.",)


def detail(its: Effects) -> tuple[tuple[str, str], ...]:
    """Words that pictures put beside the figures."""
    audience, drive, final = its.part.audience, effective_drive(its), its.part.final_drive
    gears = () if drive is None else (("final_drive", f"{final:g}"), ("effective_final_drive", format_number(drive, 3)))
    return (
        *gears, ("speed_shown", tenths(its.at.speed, audience)),
        ("true_speed", tenths(its.true_at(its.at.speed), audience)),
        ("driven", joined([wheel.worn.subject.name for wheel in its.wheels])),
        ("reads", "high" if its.percent < 0 else "low"), ("assumed", "speedometer exact on new tires"),
    )  # fmt: skip
