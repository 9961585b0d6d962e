"""What another size does on this car, judged: the rule book on sizes, and the car's wheels, loads and speedometer."""

from collections.abc import Iterator

from studio.decide.carried import Carried
from studio.decide.size_swap_read import Change, tenths
from studio.decide.swap_rules import (
    AtPressure,
    Reason,
    at_pressure,
    casing_reasons,
    diameter_reason,
    fit_reasons,
    load_reasons,
    service_reasons,
    speed_reasons,
    winter_rule,
)
from studio.decide.wording import joined
from studio.model.quantity import Quantity, format_number, length
from studio.reference.rows import Rule
from studio.reference.tables import Tables
from studio.tires.fitting import rim_fits, rim_widths_in
from studio.tires.speed import highest_reading_kmh, reading_after_change

UN_R39 = "UN Regulation No. 39"
_AUSTRALIA = "au"
_TESTS = ("test_low_kmh", "test_middle_kmh", "test_high_kmh")
_SAME_KG = 1e-6
_SEEN_MM = 0.5
_COUNT = {2: "two", 4: "four"}


def reasons(its: Change, tables: Tables) -> tuple[Reason, ...]:
    """Every reason, in the order in which a shop would go through them."""
    region = its.part.audience.region
    rule = winter_rule(region, tables)
    return (
        diameter_reason(its.before, its.after, tables), *_australia(its, tables),
        *load_reasons(its.before, its.after, pressures(its)), *_axle(its),
        *speed_reasons(its.before, its.after, rule, its.part.candidate.season),
        *service_reasons(its.before, its.after), *_fit(its, tables), *casing_reasons(its.before, its.after),
        *_speedometer(its, tables),
    )  # fmt: skip


def pressures(its: Change) -> AtPressure | None:
    """Both tires at the placard pressure; None where the load of one of them is not computed there."""
    if not isinstance(its.load_before, Carried) or not isinstance(its.load_after, Carried):
        return None
    return at_pressure(its.load_before, its.load_after, its.part.audience)


def _axle(its: Change) -> Iterator[Reason]:
    """What all tires of the axle carry at the placard pressure, against the axle rating."""
    load, rating = its.load_after, its.line.rating
    if rating is None or not isinstance(load, Carried):
        return
    own, rating_kg = its.part.audience.own, rating.to("kg").value
    carry_kg, most_kg = (its.line.count * kg for kg in (load.each_kg, load.most_kg))
    words = f"{its.line.axle} axle rating of {own(Quantity(rating_kg, 'kg'))}"
    if most_kg < rating_kg - _SAME_KG:
        text = f"{_COUNT[its.line.count]} of them carry {own(Quantity(most_kg, 'kg'))} at most, under the {words}"
        yield Reason(text=text, verdict="replace", confirm="load")
    elif carry_kg < rating_kg - _SAME_KG:
        carry = own(Quantity(carry_kg, "kg"))
        text = f"{_COUNT[its.line.count]} of them carry {carry} at the placard pressure, under the {words}"
        yield Reason(text=text, verdict="inspect", confirm="pressure")
    else:
        carry = own(Quantity(carry_kg, "kg"))
        text = f"{_COUNT[its.line.count]} of them carry {carry} there, not under the {words}"
        yield Reason(text=text, verdict="keep")


def _australia(its: Change, tables: Tables) -> Iterator[Reason]:
    """The limit that South Australia sets in mm."""
    region = its.part.audience.region
    if region not in tables.regions or _AUSTRALIA not in tables.region_chain(region):
        return
    row, after = tables.design["diameter_sa_mm"], its.after.overall_diameter.value
    beyond = max(after - max(its.placard_mm), min(its.placard_mm) - after, 0.0)
    within = beyond <= row.value
    apart = f"{format_number(beyond, 1)} mm beyond the placard's sizes"
    text = f"{apart}, South Australia allows {row.value:g} mm ({row.source.standing})"
    yield Reason(text=text, verdict="keep" if within else "replace", confirm="" if within else "diameter")


def rim_range_in(its: Change, tables: Tables) -> tuple[float, float]:
    """Narrowest and widest rim by the rule of thumb, in inches."""
    design = tables.design
    return rim_widths_in(
        its.after.dimensions.section_width_mm, design["rim_share_least"].value, design["rim_share_most"].value
    )


def _fit(its: Change, tables: Tables) -> Iterator[Reason]:
    """The rule book's reasons on wheels and clearance, with the car's own rim where it is known."""
    for reason in fit_reasons(its.before, its.after):
        if reason.confirm == "rim width" and its.line.rim_width is not None:
            low, high = rim_range_in(its, tables)
            rim = its.line.rim_width.to("in").value
            where = "within" if rim_fits(rim, low, high) else "outside"
            span = f"{format_number(low, 1)} to {format_number(high, 1)} in"
            thumb = f"the rule of thumb's {span} ({tables.design['rim_share_least'].source.standing})"
            text = f"rim of {rim:g} in, {where} {thumb}; the tire maker's list decides"
            yield Reason(text=text, verdict="inspect", confirm=reason.confirm)
        elif reason.confirm == "clearance":
            yield Reason(text=f"{reason.text}: {_clearance(its)}", verdict=reason.verdict, confirm=reason.confirm)
        else:
            yield reason


def _clearance(its: Change) -> str:
    parts = []
    for change_mm, where in ((its.rise_mm, "the arch"), (its.wider_mm / 2, "what is beside each sidewall")):
        if abs(change_mm) >= _SEEN_MM:
            way = "nearer to" if change_mm > 0 else "farther from"
            parts.append(f"{its.part.audience.both(length(abs(change_mm)))} {way} {where}")
    return joined(parts) or "within half a millimeter of the old ones"


def speedometer_rule(its: Change, tables: Tables) -> Rule | None:
    """The region's rule on speedometers."""
    region = its.part.audience.region
    rules = tables.rules_in(tables.speedometer_rule, region) if region in tables.regions else ()
    return next(iter(rules), None)


def must_have_read_kmh(its: Change, true_kmh: float) -> float:
    """What the speedometer must have read before at a true speed, so that it does not read low now."""
    return true_kmh * its.ratio


def _speedometer(its: Change, tables: Tables) -> Iterator[Reason]:
    """UN R39 where it holds: never low, and not too high, at its three test speeds, for one that was exact before."""
    rule = speedometer_rule(its, tables)
    if rule is None or rule.source.title != UN_R39:
        return
    before, after = its.before.overall_diameter.value, its.after.overall_diameter.value
    tests = [tables.speedometer[name].value for name in _TESTS]
    if after > before:
        kmh = its.at.kmh
        needed, true = (tenths(Quantity(v, "km/h"), its.part.audience) for v in (must_have_read_kmh(its, kmh), kmh))
        text = f"a speedometer may never read low ({UN_R39}): it must have read {needed} or more at true {true}"
        yield Reason(text=text, verdict="inspect", confirm="speedometer")
        return
    share, plus = tables.speedometer["over_share"].value, tables.speedometer["over_kmh"].value
    high = [v for v in tests if reading_after_change(v, before, after) > highest_reading_kmh(v, share, plus)]
    if high:
        text = f"an exact speedometer would read too high at true {high[0]:g} km/h ({UN_R39})"
        yield Reason(text=text, verdict="inspect", confirm="speedometer")
    elif after < before:
        yield Reason(text=f"a speedometer that was exact reads high, within {UN_R39}", verdict="keep")
