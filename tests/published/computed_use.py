"""Worked examples on load, tread, date code and coins."""

import datetime as dt
import re

from studio.tires import coins, datecode, geometry, load, speed, tread, units
from tests.published.register import COMPUTED, LOAD_RULES, PHYSICS, TABLES, Inputs, agree, computes, number


@computes("load index to load")
def _(inputs):
    return load.load_kg(int(inputs["load_index"]), TABLES.load_kg)


@computes("load index approximation 45 x 10^(LI/80)")
def _(inputs):
    return load.approximate_load_kg(
        number(inputs, "load_index"), LOAD_RULES["approximation_kg"], LOAD_RULES["approximation_steps"]
    )


@computes("axle capacity, two tires")
def _(inputs):
    return load.axle_capacity_kg(load.load_kg(int(inputs["load_index"]), TABLES.load_kg), int(inputs["tires"]))


@computes("passenger tire load rating on MPV/truck/trailer")
def _(inputs):
    agree(LOAD_RULES["mpv_divisor"], number(inputs, "divisor"))
    return load.divided_load_kg(number(inputs, "load_kg"), LOAD_RULES["mpv_divisor"])


@computes("axle capacity on MPV, two passenger tires")
def _(inputs):
    divided = COMPUTED["passenger tire load rating on MPV/truck/trailer"](inputs)
    return load.axle_capacity_kg(divided, int(inputs["tires"]))


@computes("axle load margin on MPV")
def _(inputs):
    return COMPUTED["axle capacity on MPV, two passenger tires"](inputs) - number(inputs, "axle_rating_kg")


@computes("largest normal load share (94 % rule)")
def _(inputs):
    agree(LOAD_RULES["normal_load_share"], number(inputs, "factor"))
    return load.normal_load_limit_kg(number(inputs, "load_rating_at_placard_kg"), LOAD_RULES["normal_load_share"])


def law(name: str) -> load.PressureLaw:
    """A pressure law of the shipped table."""
    lowest_kpa = TABLES.pressure["lowest_kpa"].value
    return load.PressureLaw(name=name, exponent=LOAD_RULES[f"exponent_{name}"], lowest_kpa=lowest_kpa)


@computes("load capacity below reference pressure (ETRTO)")
def _(inputs):
    agree(TABLES.load_kg[int(inputs["load_index"])], number(inputs, "Qref_kg"))
    agree(TABLES.pressure["euro_standard_kpa"].value, number(inputs, "Pref_kPa"))
    return load.load_at_pressure_kg(
        number(inputs, "Qref_kg"), number(inputs, "Pref_kPa"), number(inputs, "P_kPa"), law("etrto")
    )


@computes("pressure needed for a load (ETRTO)", "pressure an XL tire needs to match a standard one (ETRTO)")
def _(inputs):
    extra = "XL load_index" in inputs
    agree(TABLES.load_kg[int(inputs["XL load_index" if extra else "load_index"])], number(inputs, "Qref_kg"))
    reference = TABLES.pressure["euro_extra_load_kpa" if extra else "euro_standard_kpa"].value
    agree(reference, number(inputs, "Pref_kPa"))
    return load.pressure_for_load_kpa(number(inputs, "Qref_kg"), reference, number(inputs, "Q_kg"), law("etrto"))


@computes("load capacity below reference pressure (P-metric)")
def _(inputs):
    agree(TABLES.pressure["p_metric_standard_kpa"].value, number(inputs, "Pref_kPa"))
    return load.load_at_pressure_kg(
        number(inputs, "Qref_kg"), number(inputs, "Pref_kPa"), number(inputs, "P_kPa"), law("p_metric")
    )


@computes("load capacity at speed, V tire", "load capacity at speed, W tire")
def _(inputs):
    row = TABLES.speed_derating[inputs["symbol"]]
    return load.load_at_speed_kg(
        number(inputs, "load_kg"), number(inputs, "speed_kmh"), row.full_load_to_kmh, row.at_kmh, row.percent
    )


@computes("usable tread remaining")
def _(inputs):
    return tread.usable_percent(number(inputs, "new_32nds"), number(inputs, "now_32nds"), number(inputs, "limit_32nds"))


@computes("tread remaining as share of full depth")
def _(inputs):
    return tread.share_of_new_percent(number(inputs, "new_32nds"), number(inputs, "now_32nds"))


@computes("tread wear rate")
def _(inputs):
    return tread.wear_rate_per_1000(
        number(inputs, "new_32nds"), number(inputs, "now_32nds"), number(inputs, "distance_mi")
    )


@computes("distance to limit (linear)")
def _(inputs):
    names = ("now_32nds", "limit_32nds", "rate_32nds_per_1000mi")
    if "now_mm" in inputs:
        names = ("now_mm", "limit_mm", "rate_mm_per_1000km")
    return tread.distance_to_limit(*(number(inputs, name) for name in names))


def readings(text: str) -> list[float]:
    """The readings in ``inner 5,5,4``."""
    return [float(word) for word in re.findall(r"\d+(?:\.\d+)?", text)]


@computes("governing depth of a tire (minimum of stations)")
def _(inputs):
    others = [readings(name) for name in inputs if name != "stations_32nds"]
    return tread.governing_depth([readings(inputs["stations_32nds"]), *others])


@computes("inner-to-outer difference of means")
def _(inputs):
    inner, outer = (tread.mean_depth(readings(inputs[f"{where}_32nds"])) for where in ("inner", "outer"))
    return tread.difference(outer, inner)


@computes("groove-depth difference across an axle, French limit 5 mm")
def _(inputs):
    apart = tread.difference(number(inputs, "left_mm"), number(inputs, "right_mm"))
    assert apart > TABLES.matching["fr_axle_depth"].value, "the row says: refused"
    return apart


@computes("diameter difference from tread difference")
def _(inputs):
    return geometry.diameter_difference_mm(tread.mm_from_32nds(number(inputs, "delta_32nds")))


@computes("free circumference difference from tread difference")
def _(inputs):
    apart_mm = geometry.circumference_difference_mm(tread.mm_from_32nds(number(inputs, "delta_32nds")))
    return apart_mm if inputs["unit"] == "mm" else apart_mm / units.MM_PER_INCH


@computes("tread difference equal to 1/4 inch of circumference")
def _(inputs):
    apart_mm = number(inputs, "delta_circumference_in") * units.MM_PER_INCH
    return tread.in_32nds_from_mm(geometry.depth_difference_for_circumference_mm(apart_mm))


def worn_mm(inputs: Inputs) -> float:
    """The diameter of the tire that has lost ``delta_32nds``."""
    return geometry.worn_diameter_mm(number(inputs, "D1_mm"), tread.mm_from_32nds(number(inputs, "delta_32nds")), 0)


@computes("rolling circumference mismatch")
def _(inputs):
    return geometry.mismatch_percent(number(inputs, "D1_mm"), worn_mm(inputs))


@computes("wheel speed")
def _(inputs):
    agree(TABLES.rolling["radial_factor"].value, number(inputs, "factor"))
    circumference = geometry.rolling_circumference_mm(number(inputs, "D_mm"), number(inputs, "factor"))
    return speed.wheel_rpm(number(inputs, "speed_kmh"), circumference)


@computes("wheel speed difference from tread mismatch")
def _(inputs):
    factor = number(inputs, "factor")
    pair = [geometry.rolling_circumference_mm(d, factor) for d in (number(inputs, "D1_mm"), worn_mm(inputs))]
    return speed.wheel_rpm_difference(number(inputs, "speed_kmh"), *pair)


@computes("TIN date code, first day of week")
def _(inputs):
    return datecode.parse_date_code(inputs["code"], dt.date(2026, 3, 1)).first_day


@computes("ISO 8601 Monday of the same-numbered week")
def _(inputs):
    monday = datecode.parse_date_code(inputs["code"], dt.date(2026, 3, 1)).iso_monday
    return "no such ISO week" if monday is None else monday


@computes("tire age")
def _(inputs):
    on = dt.date.fromisoformat(inputs["on"])
    return datecode.age_years(datecode.parse_date_code(inputs["code"], on).first_day, on, PHYSICS["days_per_year"])


@computes("TIN length, new tire since 2015 rule")
def _(inputs):
    layout = datecode.NEW_TIRE
    agree(layout.plant, number(inputs, "plant"))
    agree(layout.maker, number(inputs, "maker code"))
    agree(layout.date, number(inputs, "date"))
    return layout.symbols


def coin(inputs: Inputs):
    """The coin of the row, by its name."""
    (found,) = [coin for coin in TABLES.coins.values() if coin.name == inputs["coin"]]
    return found


@computes("coin diameter")
def _(inputs):
    return coin(inputs).diameter.value


@computes("coin thickness as a feeler")
def _(inputs):
    thickness_mm = coin(inputs).thickness.value
    agree(thickness_mm, number(inputs, "thickness_mm"))
    return coins.feeler_depth_32nds(thickness_mm)
