"""The topic on water against FHWA-RD-79-31, NASA TN D-2056, NCHRP 1-29, and its own promise: never a safe speed."""

import re

import pytest
from hypothesis import given
from hypothesis import strategies as st

from studio.decide import decide
from studio.model.car import Car, Placard, PlacardTire
from studio.model.circumstances import Circumstances
from studio.model.paths import value_at
from studio.model.quantity import Quantity, depth, length
from studio.model.specimen import PressureReading
from tests.decide.build import TABLES, damage, episode, flat, four, number, tire

MM_PER_32ND = 25.4 / 32


def inches(value):
    return Quantity(float(value), "in")


def mm(value):
    return Quantity(float(value), "mm")


def car(psi):
    line = PlacardTire(pressure=Quantity(float(psi), "psi"))
    return Car(placard=Placard(front=line, rear=line))


def whole(tread=4, psi=32, place="front_left", units="us", region="us", **around):
    return episode(tire(place, flat(tread)), car=car(psi), units=units, region=region,
                   circumstances=Circumstances(**around))  # fmt: skip


def found(tread=4, psi=32, place="front_left", **more):
    return decide(whole(tread, psi, place, **more), TABLES).get(f"wet.{place}")


def film(**around):
    return decide(episode(circumstances=Circumstances(**around)), TABLES).get("wet.car")


@pytest.mark.parametrize(
    ("psi", "tread", "water", "texture", "mph"),
    [(32, 10, 0.1, 0.04, 58.019), (32, 4, 0.1, 0.04, 55.338), (32, 2, 0.1, 0.04, 53.667), (32, 0, 0.1, 0.04, 50.244),
     (24, 7, 0.1, 0.02, 49.820), (35, 8, 0.05, 0.04, 62.156), (35, 2, 0.3, 0.02, 50.008), (40, 8, 0.2, 0.06, 61.418)],
)  # fmt: skip
def test_handbook_rows_e175_to_e182_fhwa_rd_79_31_equation_16(psi, tread, water, texture, mph):
    finding = found(tread, psi, water_depth=inches(water), texture_depth=inches(texture))
    assert finding.value == pytest.approx(mph, abs=0.01) and finding.unit == "mph"
    assert number(finding, "floating_1979") == finding.value
    assert f"= {mph:.2f} (psi, 32nds)" in " ".join(finding.working)


@pytest.mark.parametrize(("psi", "mph"), [(24, 50.704), (30, 56.689), (32, 58.548), (35, 61.231)])
def test_handbook_rows_e165_to_e171_nasa_tn_d_2056_where_the_water_is_deeper_than_the_tread(psi, mph):
    """10.35 times the root of the pressure in psi; 0.1 in of water over 3/32 in (0.094 in) of tread."""
    assert number(found(3, psi, water_depth=inches(0.1)), "floating_1963") == pytest.approx(mph, abs=0.01)


def test_the_relation_of_1963_says_nothing_of_water_that_is_not_deeper_than_the_tread():
    shallow = found(4, water_depth=inches(0.1))
    assert shallow.figure("floating_1963") is None and "not deeper" in shallow.word("range_1963")
    assert found(4, water_depth=inches(0.125)).figure("floating_1963") is None, "4/32 in is as deep"
    assert number(found(0, water_depth=inches(0.1)), "floating_1963") > 0
    thin = found(0, water_depth=inches(0.04))
    assert thin.figure("floating_1963") is None and thin.word("range_1963").endswith("less than was tested")


@pytest.mark.parametrize(
    ("more", "words"),
    [
        ({"water_depth": inches(0.04)}, "0.04 in (1 mm) of water is outside the tests"),
        ({"psi": 41}, "41 psi (283 kPa) is outside the tests"),
        ({"psi": 17}, "17 psi (117 kPa) is outside the tests"),
        ({"tread": 11}, "11/32 in (8.7 mm) of tread is outside the tests"),
        ({"texture_depth": inches(0.17)}, "0.17 in (4.3 mm) of texture is outside the tests"),
    ],
)
def test_outside_what_was_tested_no_speed_of_1979_is_given(more, words):
    """TTI 1972 and FHWA-RD-79-31: 18 to 40 psi, to 10/32 in, 0.05 to 0.8 in of water, 0.003 to 0.16 in of texture."""
    given = {"tread": 6, "psi": 32, "water_depth": inches(0.1), **more}
    finding = found(given.pop("tread"), given.pop("psi"), **given)
    assert (finding.value, finding.figure("floating_1979")) == (None, None)
    assert not [figure for figure in finding.figures if figure.name.startswith("floating")]
    assert finding.verdict in ("unknown", "watch") and words in finding.sentence
    assert finding.missing and "is outside" in finding.word("range_1979") and "nothing is computed" in " ".join(
        finding.working)  # fmt: skip


def test_outside_the_one_and_inside_the_other_relation_only_the_other_speaks():
    """A van's 60 psi is above all tests of 1979; on a bald tire the relation of 1963 holds: 10.35 x 7.746 = 80.17."""
    finding = found(0, 60, water_depth=inches(0.2))
    assert finding.value == pytest.approx(80.17, abs=0.01) and finding.word("relation") == "1963"
    assert finding.uncertainty is None
    deep = found(6, 32, water_depth=inches(0.9))
    assert deep.word("relation") == "1963" and "0.90 in (22.9 mm) is outside" in deep.word("range_1979")


@pytest.mark.parametrize(
    ("texture", "path", "rain", "slope", "film_in"),
    [(0.04, 24, 2, 2, 0.03241), (0.04, 36, 2, 1, 0.07533), (0.02, 24, 2, 2, 0.0471), (0.04, 48, 4, 2, 0.10685)],
)  # fmt: skip
def test_handbook_rows_e183_to_e186_film_of_fhwa_rd_79_31(texture, path, rain, slope, film_in):
    """The metric constant is printed rounded, 0.1 % below the exact conversion of the inch form."""
    finding = film(rain=Quantity(float(rain), "in/h"), texture_depth=inches(texture), road_slope=Quantity(slope, "%"),
                   drainage_length=Quantity(float(path), "ft"))  # fmt: skip
    whole_film_mm = (film_in + texture) * 25.4
    assert finding.value + texture * 25.4 == pytest.approx(whole_film_mm, rel=0.0015)
    assert (finding.unit, finding.verdict) == ("mm", None)


@pytest.mark.parametrize(("path_m", "film_mm"), [(7.3, 0.7545), (14.6, 1.613)])
def test_handbook_rows_e187_and_e188_kinematic_wave_of_nchrp_1_29(path_m, film_mm):
    finding = film(rain=Quantity(50.0, "mm/h"), texture_depth=mm(0.91), road_slope=Quantity(2.0, "%"),
                   drainage_length=Quantity(path_m, "m"))  # fmt: skip
    assert number(finding, "film_kinematic") == pytest.approx(film_mm, abs=0.001)
    assert finding.uncertainty == pytest.approx(abs(finding.value - film_mm), abs=0.001)


def test_what_is_assumed_of_the_road_is_said():
    finding = film(rain=Quantity(50.0, "mm/h"))
    assumed = [line for line in finding.working if line.startswith("Assumed")]
    assert len(assumed) == 4 and "24 ft" in assumed[2] and "2 %" in assumed[3]
    assert number(finding, "drainage") == 24 and finding.inputs == ("circumstances.rain",)
    assert finding.sentence.startswith("Rain of 2.0 in/h (50 mm/h) leaves about 0.03 in (0.9 mm)")


def test_a_little_rain_stays_within_the_texture_and_no_tire_is_spoken_of():
    """0.04 in, 24 ft, 0.4 in/h: 0.00338 x 0.04^0.11 x 24^0.43 x 0.4^0.59 x 0.02^-0.42 - 0.04 is below 0 (by hand)."""
    its = whole(rain=Quantity(10.0, "mm/h"))
    assert [finding.id for finding in decide(its, TABLES).of("wet")] == ["wet.car"]
    assert "stays within the texture" in film(rain=Quantity(10.0, "mm/h")).sentence
    assert film(rain=Quantity(0.0, "mm/h")).value == 0


def test_the_film_of_the_rain_is_the_water_where_no_depth_is_given():
    around = {"rain": Quantity(4.0, "in/h"), "drainage_length": Quantity(48.0, "ft"), "texture_depth": inches(0.04)}
    finding = found(4, **around)
    assert number(finding, "water") == pytest.approx(0.10685 * 25.4, abs=0.01)
    assert number(found(4, water_depth=inches(0.2), **around), "water") == 0.2


def test_nobody_asked_nothing_said():
    assert decide(whole(), TABLES).of("wet") == ()
    assert decide(whole(speed=Quantity(60.0, "mph"), texture_depth=mm(0.5)), TABLES).of("wet") == ()
    assert decide(whole(water_depth=mm(0)), TABLES).of("wet") == ()
    assert decide(whole(water_depth=mm(5e-324)), TABLES).of("wet") == ()


def test_the_tire_with_the_least_tread_speaks_for_the_car_and_neither_spare_nor_bench_counts():
    extra = (tire("spare", flat(1)), tire("bench", flat(0), id="old"))
    its = episode(*four((6, 5, 4, 7)), *extra, car=car(32), circumstances=Circumstances(water_depth=inches(0.1)))
    assert [finding.id for finding in decide(its, TABLES).of("wet")] == ["wet.rear_left"]
    mirrored = episode(*four((5, 6, 7, 4)), car=car(32), circumstances=Circumstances(water_depth=inches(0.1)))
    other, mine = decide(mirrored, TABLES).of("wet")[0], decide(its, TABLES).of("wet")[0]
    assert other.subject == "rear_right" and other.value == mine.value


def test_without_a_pressure_it_says_what_is_missing_and_a_reading_goes_before_the_placard():
    bare = episode(tire("front_left", flat(4)), circumstances=Circumstances(water_depth=inches(0.1)))
    finding = decide(bare, TABLES).get("wet.front_left")
    assert (finding.verdict, finding.missing) == ("unknown", ("a cold pressure, read or from the placard",))
    read = flat(4, pressure=PressureReading(pressure=Quantity(24.0, "psi")))
    its = episode(tire("front_left", read), car=car(32), circumstances=Circumstances(water_depth=inches(0.1)))
    assert number(decide(its, TABLES).get("wet.front_left"), "pressure") == 24
    assert "assumed, as the placard asks" in " ".join(found(4, water_depth=inches(0.1)).working)


@pytest.mark.parametrize(("mph", "verdict"), [(30, None), (35, None), (36, "watch"), (60, "watch"), (80, "watch")])
def test_near_the_speed_it_is_watched_and_below_it_there_is_no_verdict_at_all(mph, verdict):
    """55.3 mph at 4/32 in; FHWA-RD-75-11: control goes gradually over about 20 mph."""
    around = {"water_depth": inches(0.1), "texture_depth": inches(0.04), "speed": Quantity(float(mph), "mph")}
    assert found(4, **around).verdict == verdict


def test_under_the_advice_for_wet_roads_it_is_watched_at_any_speed():
    """Blythe and Seguin 2006: below 4/32 in half the friction may be gone on a minimally wet road."""
    finding = found(3, water_depth=inches(0.1), speed=Quantity(20.0, "mph"))
    assert finding.verdict == "watch" and any("Blythe and Seguin" in line for line in finding.working)


def test_handbook_row_e195_water_met_by_the_tread_and_what_the_grooves_hold():
    """185 mm x 2 mm x 100 km/h is 10.2778 L/s; here the width is taken as 82.5 % of 225 mm, 185.6 mm."""
    finding = found(8, water_depth=mm(2), speed=Quantity(100.0, "km/h"))
    assert number(finding, "tread_width") == pytest.approx(185.625)
    assert number(finding, "water_met") * 185 / 185.625 == pytest.approx(10.2778, abs=0.001)
    eight = 8 * MM_PER_32ND * 185.625 / 3600 * 100
    assert number(finding, "grooves_least") == pytest.approx(0.25 * eight)
    assert number(finding, "grooves_most") == pytest.approx(0.35 * eight)
    assert any(line.startswith("A picture, no predictor") for line in finding.working)


def test_what_it_says_of_another_tread_is_what_it_computes_there():
    around = {"water_depth": inches(0.1), "texture_depth": inches(0.04)}
    finding = found(4, **around)
    assert number(finding, "floating_at_10") == pytest.approx(found(10, **around).value)
    assert "With 10/32 in (7.9 mm) of tread it would float near 58 mph (93 km/h)." in finding.would_change
    deeper = found(4, water_depth=inches(0.2), texture_depth=inches(0.04)).value
    assert any(f"near {deeper:.0f} mph" in line for line in finding.would_change)


def test_a_condemned_tire_is_never_kept_by_this_topic():
    its = episode(tire("front_left", flat(9, damage=(damage("bulge"),))), car=car(32),
                  circumstances=Circumstances(water_depth=inches(0.1), speed=Quantity(20.0, "mph")))  # fmt: skip
    assert decide(its, TABLES).get("wet.front_left").verdict is None


@given(less=st.floats(0, 10), more=st.floats(0, 10), water=st.floats(0.05, 0.8))
def test_more_tread_never_floats_sooner(less, more, water):
    less, more = sorted((less, more))
    low, high = (number(found(t, water_depth=inches(water)), "floating_1979") for t in (less, more))
    assert low <= high + 1e-9


@given(
    tread=st.floats(0, 12), psi=st.floats(15, 80), water=st.one_of(st.none(), st.floats(0, 30)),
    rain=st.one_of(st.none(), st.floats(0, 300)), speed=st.one_of(st.none(), st.floats(0, 200)),
    region=st.sampled_from(["us", "de", "uk", "ca-bc"]),
)  # fmt: skip
def test_no_speed_is_ever_called_safe_and_units_change_no_verdict(tread, psi, water, rain, speed, region):
    around = {"water_depth": None if water is None else mm(water),
              "rain": None if rain is None else Quantity(rain, "mm/h"),
              "speed": None if speed is None else Quantity(speed, "km/h")}  # fmt: skip
    us, metric = (whole(tread, psi, units=units, region=region, **around) for units in ("us", "metric"))
    mine, other = decide(us, TABLES).of("wet"), decide(metric, TABLES).of("wet")
    assert [(f.id, f.verdict, f.value) for f in mine] == [(f.id, f.verdict, f.value) for f in other]
    for finding in (*mine, *other):
        assert finding.verdict in (None, "watch", "unknown") and finding.limit is None and finding.margin is None
        assert finding.caution == TABLES.cautions["hydroplaning"].text and len(finding.sentence) <= 96
        assert finding.sources and all(value_at(us, path) is not None for path in finding.inputs)
        assert not re.search(r"\bsafe\b", " ".join((finding.sentence, *finding.would_change)))
        if finding.subject != "car":
            assert finding.value is None or finding.sentence.endswith("grip goes before.")
            assert finding.working[0].startswith("No safe speed")


def test_a_depth_of_water_is_no_tread_depth():
    """Water in inches, not in thirty-seconds, whatever unit it was typed in."""
    assert "in 0.10 in (2.5 mm) of water" in found(4, water_depth=mm(2.54)).sentence
    assert "in 2.5 mm (0.10 in) of water" in found(4, water_depth=depth(2.54, "mm"), units="metric").sentence
    assert number(found(4, water_depth=length(2.54)), "water") == 2.54


def curve(finding, year, along):
    """The curve that a chart draws, as (where, mph)."""
    orders = range(1, 20)
    points = [[finding.figure(f"{year}.{along}.{part}.{n}") for part in ("at", "speed")] for n in orders]
    return [(at.value, mph.value) for at, mph in points if at and mph]


def test_the_curves_of_1979_run_over_the_whole_range_of_the_tests_and_no_further():
    """FHWA-RD-79-31 and TTI 1972: 0 to 10/32 in, 18 to 40 psi, 0.05 to 0.8 in of water; E176: 4/32 in at 55.338 mph."""
    finding = found(4, water_depth=inches(0.1), texture_depth=inches(0.04))
    tread, psi, water = (curve(finding, "1979", along) for along in ("tread", "pressure", "water"))
    assert [ends[at][0] for ends in (tread, psi, water) for at in (0, -1)] == pytest.approx([0, 10, 18, 40, 0.05, 0.8])
    assert dict(tread)[4] == pytest.approx(55.338, abs=0.01) and dict(tread)[10] == pytest.approx(58.019, abs=0.01)
    assert psi[-1][1] / psi[0][1] == pytest.approx((40 / 18) ** 0.3), "equation 16: pressure to the power of 0.3"
    assert [mph for _, mph in water] == sorted((mph for _, mph in water), reverse=True)
    assert number(finding, "gradual") == 20, "FHWA-RD-75-11"


def test_the_curves_of_1963_are_level_and_stand_only_where_the_water_is_deeper_than_the_tread():
    """NASA TN D-2056: 10.35 x root of 32 psi is 58.548 mph; 0.1 in of water is as deep as 3.2/32 in of tread."""
    finding = found(4, water_depth=inches(0.1), texture_depth=inches(0.04))
    tread, water = (sum(curve(finding, "1963", along), ()) for along in ("tread", "water"))
    assert tread == pytest.approx((0, 58.548, 3.2, 58.548), abs=0.001)
    assert water == pytest.approx((0.125, 58.548, 0.8, 58.548), abs=0.001)
    assert curve(finding, "1963", "pressure") == [], "4/32 in is deeper than 0.1 in"
    assert curve(found(0, water_depth=inches(0.1)), "1963", "pressure")[0] == pytest.approx((18, 43.911), abs=0.001)


def test_a_pressure_above_the_tests_leaves_the_curve_of_1979_along_the_pressure_alone():
    finding = found(0, 60, water_depth=inches(0.2))
    assert curve(finding, "1979", "pressure")[-1][0] == 40 and number(finding, "1979.pressure.high") == 40
    assert curve(finding, "1979", "tread") == curve(finding, "1979", "water") == []
    assert curve(finding, "1963", "pressure")[-1] == pytest.approx((60, 80.17), abs=0.01)


def test_without_a_speed_there_are_no_curves():
    finding = found(4, water_depth=inches(0.04))
    assert finding.value is None and finding.figure("gradual") is None
