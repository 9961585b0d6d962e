"""Worked examples on units and dimensions."""

import math

from studio.tires import geometry, load, speed, tread, units
from tests.published.register import COMPUTED, DESIGN, TABLES, Inputs, agree, computes, number, size


@computes("tread depth conversion 32nds to mm")
def _(inputs):
    return tread.mm_from_32nds(number(inputs, "depth_32nds"))


@computes("tread depth conversion mm to 32nds")
def _(inputs):
    return tread.in_32nds_from_mm(number(inputs, "depth_mm"))


@computes("pressure psi to kPa")
def _(inputs):
    return number(inputs, "pressure_psi") * units.KPA_PER_PSI


@computes("pressure kPa to psi")
def _(inputs):
    return number(inputs, "pressure_kPa") / units.KPA_PER_PSI


@computes("pressure bar to psi")
def _(inputs):
    return number(inputs, "pressure_bar") * units.KPA_PER_BAR / units.KPA_PER_PSI


@computes("sidewall psi marking from kPa (round up to next whole psi)")
def _(inputs):
    return load.sidewall_psi(number(inputs, "max_pressure_kPa"))


@computes("sidewall lb marking from kg (nearest whole lb)")
def _(inputs):
    load_kg = load.load_kg(int(inputs["load_index"]), TABLES.load_kg)
    agree(load_kg, number(inputs, "load_kg"))
    return load.sidewall_lb(load_kg)


@computes("speed symbol to mph (exact)")
def _(inputs):
    speed_kmh = speed.speed_kmh(inputs["symbol"], TABLES.speed_kmh)
    agree(speed_kmh, number(inputs, "speed_kmh"))
    return speed_kmh / units.KM_PER_MILE


@computes("design overall diameter (standard rounding)", "design overall diameter where H ends in .5 (half rounds up)")
def _(inputs):
    width_mm, aspect = int(inputs["width_mm"]), int(inputs["aspect"])
    agree(geometry.standard_section_height_mm(width_mm, aspect), number(inputs, "H_mm"))
    if "H_exact_mm" in inputs:
        agree(geometry.section_height_mm(width_mm, aspect), number(inputs, "H_exact_mm"))
    rim_mm = TABLES.rim_mm[number(inputs, "rim_code")]
    agree(rim_mm, number({"rim_mm": str(rim_mm)} | inputs, "rim_mm"))
    return geometry.standard_overall_diameter_mm(width_mm, aspect, rim_mm)


@computes("overall diameter (unrounded geometry, rim code x 25.4)")
def _(inputs):
    return geometry.geometric_overall_diameter_mm(
        number(inputs, "width_mm"), number(inputs, "aspect"), number(inputs, "rim_code")
    )


@computes("overall diameter in inches (unrounded geometry)")
def _(inputs):
    return COMPUTED["overall diameter (unrounded geometry, rim code x 25.4)"](inputs) / units.MM_PER_INCH


@computes("section height (unrounded)")
def _(inputs):
    return geometry.section_height_mm(number(inputs, "width_mm"), number(inputs, "aspect"))


@computes("temporary spare diameter (unrounded geometry)")
def _(inputs):
    return size(inputs).geometric_overall_diameter_mm


@computes("flotation size section height")
def _(inputs):
    return size(inputs).section_height_mm / units.MM_PER_INCH


@computes("flotation size equivalent aspect ratio")
def _(inputs):
    return size(inputs).aspect_percent


@computes("nominal rim diameter code to mm")
def _(inputs):
    return TABLES.rim_mm[number(inputs, "rim_code")]


@computes("diameter change, plus-one fit (standard diameters)")
def _(inputs):
    before, after = size(inputs, "from"), size(inputs, "to")
    for its, name in ((before, "from"), (after, "to")):
        assert f"({its.standard_overall_diameter_mm} mm)" in inputs[name]
    return geometry.change_percent(before.standard_overall_diameter_mm, after.standard_overall_diameter_mm)


@computes("diameter change, plus-one fit (unrounded geometry)", "diameter change (unrounded geometry)")
def _(inputs):
    before, after = size(inputs, "from"), size(inputs, "to")
    return geometry.change_percent(before.geometric_overall_diameter_mm, after.geometric_overall_diameter_mm)


@computes("minimum permitted outer diameter")
def _(inputs):
    its = size(inputs)
    agree(its.standard_section_height_mm, number(inputs, "H_mm"))
    return geometry.least_permitted_diameter_mm(
        its.rim_mm, its.standard_section_height_mm, DESIGN["least_diameter_factor"]
    )


@computes("maximum permitted outer diameter")
def _(inputs):
    its = size(inputs)
    agree(its.standard_section_height_mm, number(inputs, "H_mm"))
    return geometry.largest_permitted_diameter_mm(
        its.rim_mm, its.standard_section_height_mm, DESIGN["largest_diameter_factor"]
    )


@computes("section width on a rim (R30 formula)")
def _(inputs):
    ratio = number(inputs, "x")
    assert f"A1={geometry.theoretical_rim_width_mm(number(inputs, 'S1_mm'), ratio):g}" in inputs["x"]
    agree(TABLES.rim_ratio_for(60).ratio, ratio)
    return geometry.section_width_on_rim_mm(
        number(inputs, "S1_mm"), number(inputs, "rim_code_width_in"), ratio, DESIGN["rim_width_factor"]
    )


@computes("section width change per half-inch of rim width")
def _(inputs):
    agree(DESIGN["rim_width_factor"], number(inputs, "K"))
    return geometry.section_width_change_mm(number(inputs, "delta_rim_in"), DESIGN["rim_width_factor"])


def rolling(inputs: Inputs) -> float:
    """The rolling circumference of the row's size; diameter and factor must be the ones the row names."""
    its = size(inputs)
    agree(its.rolling_diameter_mm, number(inputs, "D_mm"))
    agree(its.rolling_factor, number(inputs, "factor"))
    return its.rolling_circumference_mm


@computes("rolling circumference (ETRTO factor)")
def _(inputs):
    return rolling(inputs)


@computes("revolutions per km (ETRTO factor)")
def _(inputs):
    return geometry.turns_per_km(rolling(inputs))


@computes("revolutions per mile (ETRTO factor)")
def _(inputs):
    return geometry.turns_per_mile(rolling(inputs))


@computes("revolutions per mile (free circumference, pi D)")
def _(inputs):
    its = size(inputs)
    assert math.isclose(its.geometric_overall_diameter_mm, number(inputs, "D_mm"))
    return geometry.turns_per_mile(its.free_circumference_mm)
