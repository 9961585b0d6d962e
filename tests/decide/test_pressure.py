"""The pressure topic against the gas law, 49 CFR 571.138, the handbook's worked examples, and its own promises."""

import datetime as dt

import pytest
from hypothesis import given
from hypothesis import strategies as st

from studio.decide import decide
from studio.decide import pressure as topic
from studio.decide.pressure_change import changes
from studio.decide.pressure_read import read_part
from studio.model.car import Car, Placard, PlacardTire
from studio.model.finding import SEVERITY
from studio.model.paths import value_at
from studio.model.quantity import Quantity
from tests.decide.build import TABLES, damage, episode, flat, number, reading, tire
from tests.decide.pressures import LATER, around, filling, found, kpa, placard, psi, warm_or_cold, whole

F, C = "degF", "degC"


def driven_at(value, unit=F):
    return around(driving_temperature=Quantity(float(value), unit))


@pytest.mark.parametrize(
    ("taken", "there", "expected", "tolerance"),
    [
        (psi(35, 68), Quantity(-10.0, C), 29.914, 0.05),  # E148, 20 C
        (psi(33, 70), Quantity(20.0, F), 28.498, 0.05),  # E149
        (psi(32, 100), Quantity(0.0, F), 23.657, 0.12),  # E150
        (psi(36, 68), Quantity(50.0, C), 41.188, 0.05),  # E151
        (kpa(230, 20), Quantity(0.0, C), 207.396, 0.6),  # E152
        (kpa(250, 20), Quantity(60.0, C), 297.938, 0.6),  # E153
        (psi(60, 70), Quantity(10.0, F), 51.539, 0.12),  # E154
        (psi(35, 68), Quantity(58.0, F), 34.058, 0.05),  # E155
    ],
)
def test_handbook_rows_e148_to_e155_cold_pressure_at_another_temperature(taken, there, expected, tolerance):
    """Constant volume, ideal gas on absolute pressure, 101.325 kPa outside: computed, and agreed with CoolProp."""
    finding = found(taken, circumstances=around(driving_temperature=there))
    assert finding.value == pytest.approx(expected, abs=tolerance)
    assert number(finding, "street") == finding.value and number(finding, "read") == taken.pressure.value


def test_gauge_pressure_is_not_what_goes_with_the_temperature():
    """Handbook: 35 psi x 263.15/293.15 = 31.4 is the usual error, real 29.9. The working shows the absolute steps."""
    finding = found(psi(35, 68), circumstances=driven_at(-10, C))
    assert "(35 psi + 14.696 psi) × 263.15 K / 293.15 K − 14.696 psi = 29.914 psi" in " ".join(finding.working)


def test_handbook_row_e160_denver_at_equal_temperature():
    """5280 ft: 2.596 psi more on the gauge (U.S. Standard Atmosphere 1976)."""
    up = around(filling_altitude=Quantity(0.0, "ft"), driving_altitude=Quantity(5280.0, "ft"))
    finding = found(psi(36, 60), circumstances=up)
    assert finding.value - 36 == pytest.approx(2.596, abs=0.01)
    assert finding.verdict == "watch" and finding.sentence == (
        "Front left is 2.6 psi (18 kPa) over the placard where it is driven: let air out only when cold."
    )
    filled = decide(whole(psi(36, 60), circumstances=up), TABLES).get("pressure.car")
    assert filled.value == 36 and "no air is let out" in filled.sentence


def test_handbook_a_garage_at_70_f_and_a_street_at_20_f():
    """33 psi in the street: 4.5 psi more in the garage (32.999 computed by hand: 47.696 x 529.67/479.67 - 14.696)."""
    its = around(filling_temperature=Quantity(70.0, F), driving_temperature=Quantity(20.0, F))
    finding = filling(its, placard(33.0))
    assert number(finding, "more") == pytest.approx(4.97, abs=0.01)
    back = found(psi(33, 70), car=Car(placard=placard(33.0)), circumstances=driven_at(20))
    assert back.value - 33 == pytest.approx(-4.5, abs=0.01)
    assert finding.sentence == "Filled at 70 °F for 20 °F: set 38 psi (262 kPa), not the placard's 33 psi."
    assert finding.verdict is None and finding.caution == TABLES.cautions["inflating"].text
    assert "Never more than the highest pressure marked on the sidewall" in finding.working


@given(st.floats(180, 350), st.floats(-30, 40), st.floats(-30, 40))
def test_what_is_set_and_then_driven_stands_at_the_placard(placard_kpa, warm_c, cold_c):
    """Both findings ask one law, in opposite directions; for a warmer street the placard's figure is set as it is."""
    to_set = warm_or_cold(warm_c, cold_c, placard_kpa, max_pressure=Quantity(900.0, "kPa")).value
    its = around(filling_temperature=Quantity(warm_c, C), driving_temperature=Quantity(cold_c, C))
    finding = found(kpa(to_set, warm_c), car=Car(placard=placard(placard_kpa, "kPa")), circumstances=its)
    assert finding.verdict == "keep" and (cold_c > warm_c or finding.value == pytest.approx(placard_kpa))
    assert to_set >= placard_kpa - 1e-9


def test_what_a_thaw_does_to_what_was_set_is_said_even_up_on_the_plateau():
    """Set at 70 F and sea level for 20 F at 5280 ft: once 70 F up there, the gain of altitude comes on top (by hand).

    (36 + 12.10) x 529.67/479.67 - 14.70 = 38.42 set; 38.42 + 14.70 - 12.10 = 41.01, so 5.0 psi over.
    """
    its = around(filling_temperature=Quantity(70.0, F), driving_temperature=Quantity(20.0, F),
                 filling_altitude=Quantity(0.0, "ft"), driving_altitude=Quantity(5280.0, "ft"))  # fmt: skip
    finding = filling(its)
    assert finding.value == pytest.approx(38.42, abs=0.01)
    assert finding.would_change[1].startswith("Once it is as warm there as here, they stand 5 psi (35 kPa) over")


def test_the_same_air_as_cold_is_the_placard_here_and_less_than_it_where_the_road_climbs():
    """A chart's line. By hand, 14.696 psi here and 12.100 psi at 5280 ft: 36 + 12.100 - 14.696 = 33.404 psi."""
    at = {"filling_temperature": Quantity(70.0, F), "driving_temperature": Quantity(20.0, F)}
    level = filling(around(**at))
    assert number(level, "cooled_front") == pytest.approx(number(level, "placard_front"))
    assert number(level, "atmosphere") == pytest.approx(14.696, abs=0.001)
    up = around(**at, filling_altitude=Quantity(0.0, "ft"), driving_altitude=Quantity(5280.0, "ft"))
    finding = filling(up)
    assert number(finding, "cooled_rear") == pytest.approx(33.404, abs=0.01)


def test_front_and_rear_are_set_each_to_their_own():
    its = around(filling_temperature=Quantity(20.0, C), driving_temperature=Quantity(-8.0, C))
    finding = filling(its, placard(230.0, "kPa", rear=260.0), units="metric")
    assert finding.sentence == "Filled at 20 °C for −8 °C: set 265 kPa (38.4 psi) front, 298 kPa (43.2 psi) rear."
    assert number(finding, "set_rear") == pytest.approx((260 + 101.325) * 293.15 / 265.15 - 101.325)


def test_without_a_placard_it_says_what_is_missing_and_without_two_temperatures_it_says_nothing():
    both = around(filling_temperature=Quantity(20.0, C), driving_temperature=Quantity(-8.0, C))
    finding = decide(episode(circumstances=both), TABLES).get("pressure.car")
    assert (finding.verdict, finding.missing) == ("unknown", ("the placard's cold pressure",))
    assert decide(episode(car=Car(placard=placard()), circumstances=driven_at(20)), TABLES).get("pressure.car") is None
    assert decide(episode(car=Car(placard=placard())), TABLES).get("pressure.car") is None


@pytest.mark.parametrize(
    ("value", "verdict", "standing"),
    [(36, "keep", "right"), (35, "keep", "right"), (34.9, "watch", "under"), (37, "keep", "right"),
     (37.1, "watch", "over"), (28.9, "watch", "under"), (28.8, "inspect", "low"), (0, "inspect", "low")],
)  # fmt: skip
def test_at_below_and_above_the_placard_as_far_as_a_gauge_can_tell(value, verdict, standing):
    """A gauge held by hand is off by up to 1 psi; 20 % under counts as run low: common practice, both."""
    finding = found(psi(value))
    assert (finding.verdict, finding.word("standing")) == (verdict, standing)
    assert (finding.value, finding.limit, finding.uncertainty) == (value, 36, 1)
    assert finding.margin == pytest.approx(-abs(value - 36) if standing == "over" else value - 36)


def test_bar_psi_and_kpa_are_one_pressure():
    car = Car(placard=placard(240.0, "kPa"))
    verdicts = {found(read, car=car).verdict for read in (psi(34.5), kpa(238), kpa(237.9))}
    assert verdicts == {"keep"}
    assert found(kpa(200), car=car).sentence == "Front left is 5.8 psi (40 kPa) under the placard: add air cold."
    metric = found(kpa(200), car=car, units="metric")
    assert metric.sentence == "Front left is 40 kPa (5.8 psi) under the placard: add air cold."


def test_a_warm_tire_is_not_bled_down():
    """Handbook: a tire checked hot reads 2-6 psi more: never bleed it to the placard figure (common practice)."""
    finding = found(psi(40, 60, cold=False))
    assert (finding.verdict, finding.missing) == ("unknown", ("a reading of the cold tire",))
    assert finding.sentence == "Front left read 40 psi (276 kPa) warm: let no air out; read it again when cold."
    assert any("shows 2 psi to 6 psi more" in line and "34 psi to 38 psi" in line for line in finding.working)
    assert "let down warm" in " ".join(finding.working)


def test_what_is_under_the_placard_even_warm_is_to_be_watched_and_what_is_low_warm_inspected():
    assert found(psi(33, 60, cold=False)).verdict == "watch"
    assert found(psi(26, 60, cold=False)).verdict == "inspect"


def test_weather_explains_a_drop_that_follows_the_temperature():
    """36 psi at 70 F is 31.21 psi at 20 F: computed by hand, (36 + 14.696) x 479.67/529.67 - 14.696."""
    finding = found(psi(36, 70), psi(31.2, 20))
    assert finding.word("cause") == "weather" and finding.verdict == "watch"
    assert number(finding, "expected") == pytest.approx(31.214, abs=0.002)
    assert number(finding, "weather_share") == pytest.approx(99.7, abs=0.2)
    assert "weather explains the drop" in finding.sentence


def test_the_shares_of_weather_and_lost_air():
    """The same, 2 psi lower: 4.786 psi of 6.8 psi is weather, 70.4 %, and 2.014 psi lost air, 29.6 % (by hand)."""
    finding = found(psi(36, 70), psi(29.2, 20))
    assert number(finding, "weather") == pytest.approx(4.786, abs=0.002)
    assert number(finding, "lost") == pytest.approx(2.014, abs=0.002)
    assert number(finding, "weather_share") == pytest.approx(70.4, abs=0.05)
    assert number(finding, "weather_share") + number(finding, "lost_share") == pytest.approx(100)
    assert finding.word("cause") == "usual" and "70 % of it is weather" in finding.sentence


def test_more_than_the_usual_loss_is_a_leak_to_be_looked_for():
    """1 to 2 psi a month is usual (common practice): 7 psi in two months, at one temperature, is not."""
    finding = found(psi(36, 50), psi(29, 50))
    assert finding.word("cause") == "leak" and finding.verdict == "inspect"
    assert number(finding, "lost_share") == 100
    assert finding.sentence == (
        "Front left lost 7 psi (48 kPa) in 2.0 months, weather aside: have it checked for a leak."
    )
    assert finding.caution == TABLES.cautions["pressure"].text


def test_warmth_does_not_hide_a_leak():
    """In June the tire should have gained 4.8 psi; that it reads as in December means that the air is gone."""
    finding = found(psi(30, 20), psi(30, 90), days=[dt.date(2026, 1, 20), LATER])
    assert finding.word("cause") == "leak" and finding.verdict == "inspect"
    assert finding.figure("weather_share") is None, "there is no drop to share out"


def test_air_that_was_put_in_is_seen():
    finding = found(psi(30, 70), psi(36, 20))
    assert finding.word("cause") == "filled" and finding.verdict == "keep"
    assert "air was put in between" in " ".join(finding.working)


def test_only_the_placard_set_at_the_filling_temperature_gives_shares_but_no_rate():
    warm = around(filling_temperature=Quantity(70.0, F))
    finding = found(psi(28, 20), circumstances=warm)
    assert finding.word("cause") == "lost" and finding.word("since") == ""
    assert number(finding, "weather_share") == pytest.approx(100 * 4.786 / 8, abs=0.05)
    assert "Assumed: filled to 36 psi (248 kPa) at 70 °F (21 °C)" in finding.working
    assert "circumstances.filling_temperature" in finding.inputs


def test_a_warm_reading_is_no_base_and_without_a_temperature_it_says_what_is_missing():
    assert found(psi(36, 70, cold=False), psi(31, 20)).word("cause") == ""
    assert found(psi(36), psi(31, 20)).missing == ("an earlier cold reading with its temperature, to tell a leak from "
                                                   "weather",)  # fmt: skip
    assert found(psi(36, 70), psi(31)).missing == ("the air temperature at the reading, to tell a leak from weather",)


@pytest.mark.parametrize(
    ("marking", "asked", "lamp"),
    [
        ("P225/60R17 98T", 35.0, 26.25),  # E161
        ("P225/60R17 98T", 26.0, 20.0),  # E162
        ("225/60R17 99H", 35.0, 26.25),
        ("235/60R18 107V XL", 30.0, 23.0),
        ("LT245/75R16 120/116S E", 55.0, 46.0),  # from memory
        ("LT245/75R16 120/116S E", 65.0, 48.75),
        ("LT245/75R16 108/104S C", 36.0, 29.0),  # from memory
        ("31x10.50R15LT 109Q", 35.0, 26.25),
    ],
)
def test_49_cfr_571_138_s4_2_a_the_lamp_must_light_at_25_percent_under_or_at_the_floor(marking, asked, lamp):
    finding = found(psi(asked, 60), car=Car(placard=placard(asked)), marking=marking)
    assert number(finding, "lamp") == pytest.approx(lamp)
    assert "no rule asks anything of it" in finding.word("lamp") and "20 minutes" in finding.word("lamp")


def test_49_cfr_571_138_s2_leaves_out_dual_wheels_and_no_lamp_watches_the_spare():
    dual = found(psi(65, 60), car=Car(placard=placard(65.0), dual_rear_wheels=True))
    assert dual.figure("lamp") is None and "dual wheels" in dual.word("lamp")
    assert "car.dual_rear_wheels" in dual.inputs
    assert found(psi(60, 60), place="spare", marking="T145/80D17 107M").word("lamp") == ""


def test_un_regulation_141_counts_from_the_warm_pressure_so_no_figure_is_given():
    for region in ("de", "uk"):
        finding = found(kpa(240, 10), region=region, units="metric", car=Car(placard=placard(240.0, "kPa")))
        assert finding.figure("lamp") is None and "20 % under the pressure of the warm tire" in finding.word("lamp")
        assert "from memory" in finding.word("lamp")
    assert "no rule for Canada is in the tables" in found(kpa(240, 10), region="ca").word("lamp")


def test_a_temporary_spare_keeps_60_psi_wherever_it_stands():
    """49 CFR 571.139 S5.5.5: 420 kPa (60 psi), where the placard says nothing."""
    at_the_corner = found(psi(40), marking="T145/80D17 107M", car=Car(placard=placard()))
    assert at_the_corner.limit == 60 and at_the_corner.verdict == "inspect"
    bare = Car(placard=Placard(front=PlacardTire(pressure=Quantity(36.0, "psi"))))
    in_the_trunk = found(kpa(300), place="spare", marking="T145/80D17 107M", car=bare, units="metric")
    assert in_the_trunk.limit == 420 and in_the_trunk.verdict == "watch"
    assert in_the_trunk.sentence.endswith("120 kPa short of its 420 kPa: fill it now.")


def test_only_tires_on_the_car_that_were_read_are_spoken_of():
    its = episode(tire("bench", reading((), pressure=psi(30, 60)), id="old"), tire("front_left", flat(6)))
    assert decide(its, TABLES).of("pressure") == ()


def test_without_a_placard_nothing_is_right():
    finding = found(psi(32, 60), car=Car())
    assert (finding.verdict, finding.limit, finding.margin) == ("unknown", None, None)
    assert "the placard's cold pressure" in finding.missing


@pytest.mark.parametrize(("more", "verdict"), [({"date_code": "1010"}, "replace"), ({}, "inspect")])
def test_no_pressure_keeps_a_tire_that_damage_or_age_rules_out(more, verdict):
    seen = () if more else (damage("bulge"),)
    its = episode(tire("front_left", flat(8, pressure=psi(36, 60), damage=seen), **more), car=Car(placard=placard()))
    finding = decide(its, TABLES).get("pressure.front_left")
    assert finding.verdict == verdict and "no pressure makes up for that" in finding.sentence


@given(value=st.floats(20, 60), at=st.floats(-30, 40), there=st.floats(-30, 40), asked=st.floats(28, 50),
       before=st.one_of(st.none(), st.floats(25, 50)))  # fmt: skip
def test_what_would_change_it_does_change_it(value, at, there, asked, before):
    """The reading that the finding names, entered instead, gives the verdict that the finding promises."""

    def again(shown):
        earlier = [] if before is None else [psi(before, 60)]
        last = psi(shown, at * 1.8 + 32)
        return whole(*earlier, last, car=Car(placard=placard(asked)), circumstances=driven_at(there, C))

    its = read_part(next(iter(topic.parts(again(value), TABLES))), TABLES)
    for change in changes(its, TABLES):
        other = decide(again(value + change.more.value), TABLES).get("pressure.front_left")
        assert other.verdict == change.verdict != its.verdict


@given(less=st.floats(15, 36), more=st.floats(15, 36), at=st.floats(0, 100))
def test_more_air_up_to_the_placard_is_never_judged_worse(less, more, at):
    less, more = sorted((less, more))
    worse, better = (SEVERITY.index(found(psi(value, at)).verdict) for value in (less, more))
    assert better <= worse


@given(value=st.floats(15, 60), at=st.floats(-20, 100), there=st.floats(-20, 100),
       region=st.sampled_from(sorted(TABLES.regions)), cold=st.booleans())  # fmt: skip
def test_units_change_words_only_and_every_finding_is_complete(value, at, there, region, cold):
    its = around(filling_temperature=Quantity(68.0, F), driving_temperature=Quantity(there, F))
    for place in ("rear_right", "spare"):
        us, metric = (
            found(psi(40, 50), psi(value, at, cold), place=place, region=region, units=units, circumstances=its)
            for units in ("us", "metric")
        )
        assert (us.verdict, us.value, us.margin) == (metric.verdict, metric.value, metric.margin)
        example = whole(psi(40, 50), psi(value, at, cold), place=place, region=region, circumstances=its)
        for finding in (us, metric):
            assert finding.sources and finding.caution and finding.working and len(finding.sentence) <= 96
            assert all(value_at(example, path) is not None for path in finding.inputs)


def test_left_and_right_change_places_with_their_readings():
    def both(left, right):
        tires = (tire("front_left", reading((), pressure=left)), tire("front_right", reading((), pressure=right)))
        return [f.verdict for f in decide(episode(*tires, car=Car(placard=placard())), TABLES).of("pressure")]

    assert both(psi(36), psi(26)) == ["keep", "inspect"] and both(psi(26), psi(36)) == ["inspect", "keep"]


@pytest.mark.parametrize(
    ("marking", "asked", "marked", "too_much"),
    [
        ("225/60R17 99H", 36.0, Quantity(44.0, "psi"), False),  # 41.2 psi, under what the sidewall shows
        ("225/60R17 99H", 36.0, Quantity(35.0, "psi"), True),
        ("225/60R17 99H", 36.0, None, True),  # 280 kPa (41 psi) may be all that is marked: 49 CFR 571.139 S5.2(c)
        ("225/60R17 99H", 35.0, None, False),  # 40.1 psi, under that
        ("225/60R17 99H", 44.0, None, True),  # 300 kPa may be all that is marked
        ("LT235/80R17 120/117R E", 75.0, None, True),  # over range E's 80 psi, from memory
        ("LT235/80R17 120/117R E", 70.0, None, False),
    ],
)
def test_no_more_is_advised_than_the_tire_may_hold(marking, asked, marked, too_much):
    its = around(filling_temperature=Quantity(70.0, F), driving_temperature=Quantity(20.0, F))
    finding = filling(its, placard(asked), marked, marking=marking)
    if too_much:
        assert finding.value == asked and finding.verdict == "inspect"
        assert "where it is cold" in finding.sentence and finding.figure("set_front") is None
    else:
        assert finding.value == pytest.approx((asked + 14.696) * 529.67 / 479.67 - 14.696, abs=0.01)


def test_a_flotation_tires_pressure_is_not_guessed():
    its = around(filling_temperature=Quantity(70.0, F), driving_temperature=Quantity(20.0, F))
    finding = filling(its, placard(35.0), None, marking="31X10.50R15LT 109Q C")
    assert finding.verdict == "inspect" and finding.missing == ("the highest pressure marked on the sidewall",)


def test_no_air_is_let_out_for_a_warm_afternoon():
    """A tire that reads the placard's pressure cold at 15 C is right, whatever the day brings."""
    its = around(filling_temperature=Quantity(10.0, C), driving_temperature=Quantity(30.0, C))
    assert filling(its, placard(220.0, "kPa"), units="metric").value == 220.0
    finding = found(kpa(220, 15), car=Car(placard=placard(220.0, "kPa")), circumstances=its)
    assert finding.verdict == "keep" and "220 kPa" in finding.sentence.replace("31.9 psi (220 kPa)", "220 kPa")


def test_a_loss_that_weather_does_not_explain_is_no_weather():
    """By hand: 36 psi set at 70 F is 33.9 psi at 50 F, so 2.1 of the 5.5 psi that are missing are weather."""
    its = around(filling_temperature=Quantity(70.0, F))
    finding = found(psi(30.5, 50), circumstances=its)
    assert finding.sentence.endswith("add air now and check for a leak.") and "of it is weather" not in finding.sentence
