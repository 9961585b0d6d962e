"""Worked examples on air, water, speedometer and stopping."""

import re

from studio.reference import numbers
from studio.tires import gas, speed, stopping, units, water
from tests.published.register import ATMOSPHERE_PSI, HYDROPLANING, PHYSICS, TABLES, agree, computes, number, size


def kelvin(text: str) -> float:
    """An absolute temperature from ``-10C`` or ``70F``."""
    value = float(text[:-1])
    return units.kelvin_from_celsius(value) if text.endswith("C") else units.kelvin_from_fahrenheit(value)


TEN_F_IN_K = 10 / units.RANKINE_PER_KELVIN


@computes("gauge pressure after temperature change")
def _(inputs):
    psi = "gauge_psi" in inputs
    atmosphere = ATMOSPHERE_PSI if psi else PHYSICS["atmosphere_kpa"]
    gauge = number(inputs, "gauge_psi" if psi else "gauge_kPa")
    return gas.pressure_at_temperature(gauge, kelvin(inputs["T1"]), kelvin(inputs["T2"]), atmosphere)


@computes("pressure slope at 68 F")
def _(inputs):
    return gas.pressure_slope(number(inputs, "gauge_psi"), kelvin(inputs["T"]), TEN_F_IN_K, ATMOSPHERE_PSI)


@computes("gauge pressure at which 1 psi per 10 F is exact")
def _(inputs):
    return gas.pressure_with_slope(1.0, kelvin(inputs["T"]), TEN_F_IN_K, ATMOSPHERE_PSI)


def air(sea_level: float) -> gas.Atmosphere:
    """The standard atmosphere of the shipped table."""
    return gas.Atmosphere(
        sea_level=sea_level, sea_level_k=PHYSICS["atmosphere_sea_level_k"],
        lapse_k_per_m=PHYSICS["atmosphere_lapse_k_per_m"], gravity_m_s2=PHYSICS["gravity_m_s2"],
        molar_mass_kg_per_kmol=PHYSICS["air_molar_mass_kg_per_kmol"],
        gas_constant_j_per_kmol_k=PHYSICS["gas_constant_j_per_kmol_k"],
    )  # fmt: skip


@computes("gauge pressure gain from altitude at equal temperature")
def _(inputs):
    return gas.gauge_gain_from_altitude(0, number(inputs, "altitude_ft") * units.METERS_PER_FOOT, air(ATMOSPHERE_PSI))


@computes("TPMS warning threshold", "TPMS warning threshold with floor")
def _(inputs):
    share = TABLES.pressure["tpms_us_share"].value
    agree(share, number(inputs, "fraction"))
    floor = 0.0
    if "floor_psi" in inputs:
        floor = TABLES.pressure["tpms_us_floor_p_standard_psi"].value
        agree(floor, number(inputs, "floor_psi"))
    return gas.lamp_pressure(number(inputs, "placard_psi"), share, floor)


@computes("fuel-economy loss from underinflation")
def _(inputs):
    rate = TABLES.pressure["fuel_percent_per_psi"].value
    agree(rate, number(inputs, "rate_percent_per_psi"))
    return gas.fuel_loss_percent(number(inputs, "average_drop_psi"), rate)


@computes("hydroplaning speed, NASA")
def _(inputs):
    return water.floating_speed(number(inputs, "pressure_psi"), HYDROPLANING["nasa_kn"])


@computes("hydroplaning speed, NASA mph form")
def _(inputs):
    agree(HYDROPLANING["nasa_mph"], number(inputs, "coefficient"))
    return water.floating_speed(number(inputs, "pressure_psi"), HYDROPLANING["nasa_mph"])


@computes("hydroplaning speed, NASA SI")
def _(inputs):
    return water.floating_speed_kmh(number(inputs, "pressure_kPa"), HYDROPLANING["nasa_kn"], units.KM_PER_NAUTICAL_MILE)


@computes("wheel spin-up (non-rotating) hydroplaning speed")
def _(inputs):
    agree(HYDROPLANING["nasa_spin_up_kn"], number(inputs, "coefficient"))
    return water.floating_speed(number(inputs, "pressure_psi"), HYDROPLANING["nasa_spin_up_kn"])


@computes("hydroplaning speed, Gallaway")
def _(inputs):
    return water.Gallaway.from_numbers(HYDROPLANING).speed_mph(
        spin_down_percent=number(inputs, "SD_pct"), pressure_psi=number(inputs, "P_psi"),
        depth_32nds=number(inputs, "TD_32nds"), water_in=number(inputs, "WD_in"), texture_in=number(inputs, "TXD_in"),
    )  # fmt: skip


@computes("water depth above texture, Gallaway")
def _(inputs):
    return water.WaterFilm.from_numbers(HYDROPLANING).above_texture_in(
        texture_in=number(inputs, "TXD_in"), path_ft=number(inputs, "L_ft"),
        rain_in_per_h=number(inputs, "I_in_per_h"), slope=number(inputs, "S"),
    )  # fmt: skip


@computes("water film above texture, PAVDRN form")
def _(inputs):
    return water.WaterFilm.from_numbers(HYDROPLANING).kinematic_mm(
        roughness=number(inputs, "n"), path_m=number(inputs, "L_m"), rain_mm_per_h=number(inputs, "I_mm_per_h"),
        slope=number(inputs, "S"), texture_mm=number(inputs, "MTD_mm"),
    )  # fmt: skip


@computes("hydroplaning speed, thin film (under 0.1 in)")
def _(inputs):
    return water.thin_film_speed_mph(
        number(inputs, "WFT_in"), HYDROPLANING["thin_film_mph"], HYDROPLANING["thin_film_exponent"],
        HYDROPLANING["thin_film_below_in"],
    )  # fmt: skip


@computes("water met by the tread")
def _(inputs):
    return water.water_met_l_per_s(number(inputs, "width_mm"), number(inputs, "depth_mm"), number(inputs, "speed_kmh"))


@computes("groove throughput")
def _(inputs):
    return water.groove_throughput_l_per_s(
        number(inputs, "width_mm"), number(inputs, "depth_mm"), number(inputs, "void"), number(inputs, "speed_kmh")
    )


@computes("highest permitted speedometer reading")
def _(inputs):
    rule = numbers(TABLES.speedometer)
    return speed.highest_reading_kmh(number(inputs, "true_kmh"), rule["over_share"], rule["over_kmh"])


@computes("speedometer reading after tire change")
def _(inputs):
    before, after = (size({"size": re.search(r"\((.*)\)", inputs[name])[1]}) for name in ("D_before_mm", "D_after_mm"))
    agree(before.standard_overall_diameter_mm, number(inputs, "D_before_mm"))
    agree(after.standard_overall_diameter_mm, number(inputs, "D_after_mm"))
    reading = speed.reading_after_change(
        number(inputs, "reading_before"), before.rolling_circumference_mm, after.rolling_circumference_mm
    )
    rule = numbers(TABLES.speedometer)
    assert not speed.reading_allowed(reading, 100, rule["over_share"], rule["over_kmh"]), "the row says: fails UN R39"
    return reading


@computes("stopping distance")
def _(inputs):
    return stopping.stopping_distance_m(
        number(inputs, "speed_kmh"), number(inputs, "mu"), number(inputs, "reaction_s"), PHYSICS["gravity_m_s2"]
    )


@computes("residual speed where the better tire has stopped")
def _(inputs):
    return stopping.residual_speed(number(inputs, "speed_kmh"), number(inputs, "mu_good"), number(inputs, "mu_worn"))


@computes("AASHTO stopping sight distance")
def _(inputs):
    rule = numbers(TABLES.stopping)
    agree(rule["sight_reaction_s"], number(inputs, "reaction_s"))
    agree(rule["sight_deceleration_ft_s2"], number(inputs, "decel_ft_s2"))
    return stopping.sight_distance_ft(
        number(inputs, "speed_mph"), rule["sight_reaction_s"], rule["sight_deceleration_ft_s2"],
        rule["sight_reaction_scale"], rule["sight_braking_scale"],
    )  # fmt: skip
