"""The life topic against worked examples of the handbook, a statistics library, and its own promises."""

import datetime as dt
import statistics

import pytest
from hypothesis import given
from hypothesis import strategies as st

from studio.decide import decide
from studio.model.paths import value_at
from studio.model.quantity import Quantity, depth
from studio.model.specimen import Gauge
from tests.decide.build import TABLES, TENTHS, damage, episode, flat, number, tire

FINE = Gauge(resolution=depth(0.01, "mm"))


def history(pairs, unit="32nds", distance="mi", gauge=FINE, places=(), **more):
    """Readings (odometer, depth) a month apart; ``places`` where the tire stood at each."""
    readings = []
    for index, (odometer, value) in enumerate(pairs):
        at = Quantity(odometer, distance) if odometer is not None else None
        place = places[index] if places else "front_left"
        day = dt.date(2025, 1, 15) + dt.timedelta(days=30 * index)
        readings.append(flat(value, unit=unit, gauge=gauge, on=day, odometer=at, place=place, **more))
    return readings


def found(pairs, region="us", units="us", specimen=None, **more):
    from msgspec.structs import replace

    its = replace(tire("front_left", **(specimen or {})), readings=tuple(history(pairs, **more)))
    return decide(episode(its, region=region, units=units), TABLES).get("life.front_left")


def test_the_wear_rate_and_the_distances_of_the_handbook():
    """Rows E118 to E120: 10/32 to 6/32 in over 20,000 mi is 0.2/32 in per 1000 mi; 10,000 to 4/32, 20,000 to 2/32."""
    finding = found([(30_000, 10), (50_000, 6)])
    assert finding.figure("wear_per_1000").to("32nds").value == pytest.approx(0.2, abs=1e-6)
    assert finding.value == pytest.approx(20_000, abs=0.1) and finding.unit == "mi"
    assert number(finding, "left_wet_advice") == pytest.approx(10_000, abs=0.1)


def test_the_metric_example_of_the_handbook():
    """Row E121: 5.0 mm left, limit 1.6 mm, 0.1 mm per 1000 km: 34,000 km."""
    finding = found([(10_000, 7.0), (30_000, 5.0)], unit="mm", distance="km", region="de")
    assert finding.value == pytest.approx(34_000, abs=0.1) and finding.unit == "km"


def test_the_line_is_that_of_a_statistics_library():
    pairs = [(10_000, 8.0), (16_000, 7.1), (21_000, 6.6), (30_000, 5.4), (36_000, 4.9)]
    finding = found(pairs, unit="mm", distance="km", region="de", gauge=TENTHS)
    slope, start = statistics.linear_regression([x - 10_000 for x, _ in pairs], [y for _, y in pairs])
    assert number(finding, "wear_per_1000") == pytest.approx(-1000 * slope)
    assert number(finding, "fit_at_first") == pytest.approx(start)
    assert finding.value == pytest.approx((4.9 - 1.6) / -slope)


@pytest.mark.parametrize(
    ("pairs", "gauge", "missing"),
    [
        ([], FINE, "two readings"),
        ([(10_000, 8.0)], FINE, "two readings"),
        ([(10_000, 8.0), (10_000, 7.0)], FINE, "two readings"),
        ([(None, 8.0), (None, 6.0)], FINE, "two readings"),
        ([(10_000, 8.0), (20_000, 7.75)], FINE, "more wear"),  # below 0.3 mm, the handbook's least wear
        ([(10_000, 8.0), (20_000, 7.68)], TENTHS, "more wear"),  # 0.32 mm, the doubt of the difference is 0.35 mm
        ([(10_000, 7.0), (20_000, 8.0)], FINE, "more wear"),
        ([(20_000, 8.0), (10_000, 6.0)], FINE, "two readings"),
        ([(20_000, 8.0), (10_000, 7.0), (30_000, 6.0)], FINE, "odometer readings that rise"),
    ],
)
def test_it_refuses_what_would_project_the_gauge_and_says_what_is_missing(pairs, gauge, missing):
    finding = found(pairs, unit="mm", distance="km", gauge=gauge)
    assert (finding.verdict, finding.value) == ("unknown", None)
    assert finding.missing[0].startswith(missing) and finding.working and finding.sources


def test_distance_counts_only_from_where_the_tire_stood_on_the_car():
    """Off the car between the second and the third reading: 10,000 of the 30,000 km are not its own."""
    pairs = [(10_000, 8.0), (20_000, 7.0), (30_000, 7.0), (40_000, 6.0)]
    places = ("front_left", "bench", "front_left", "front_left")
    finding = found(pairs, unit="mm", distance="km", places=places, region="de")
    assert [number(finding, f"rolled_{n}") for n in (1, 2, 3, 4)] == [0, 10_000, 10_000, 20_000]
    assert number(finding, "wear_per_1000") == pytest.approx(0.1)


def test_a_later_reading_without_odometer_is_where_the_distance_counts_from():
    finding = found([(10_000, 8.0), (20_000, 6.0), (None, 5.6)], unit="mm", distance="km", region="de")
    assert finding.value == pytest.approx((5.6 - 1.6) / 0.2 * 1000)
    assert any(line.startswith("Counted from the last reading") for line in finding.working)


def test_a_coarser_gauge_widens_the_band_and_may_leave_it_open():
    pairs = [(10_000, 8.0), (20_000, 7.0)]
    fine, coarse = (found(pairs, unit="mm", gauge=g) for g in (FINE, Gauge(resolution=depth(1, "32nds"))))
    assert fine.value == coarse.value
    low, high = (number(fine, f"left_legal_minimum_{end}") for end in ("low", "high"))
    assert low < fine.value < high
    assert number(coarse, "left_legal_minimum_low") < low
    wide = found([(10_000, 8.0), (20_000, 7.14)], unit="mm", gauge=Gauge(resolution=depth(1, "32nds")))
    assert number(wide, "left_legal_minimum_high") > number(wide, "left_legal_minimum")
    many = found([(0, 8.0), (1000, 12.0), (2000, 4.0), (3000, 7.0)], unit="mm", gauge=FINE)
    assert many.word("band") == "open" and many.uncertainty is None and "at least" in many.sentence


def test_at_the_limit_nothing_is_left_and_a_condemned_tire_has_no_distance_at_all():
    done = found([(10_000, 8), (40_000, 2)])
    assert (done.verdict, done.value) == ("replace", 0)
    cord = found([(10_000, 8), (40_000, 5)], damage=(damage("cord"),))
    assert cord.verdict == "inspect" and cord.value is None and "no distance is left" in cord.sentence
    assert cord.caution == TABLES.cautions["damage"].text


@given(
    depths=st.lists(st.floats(0, 12), min_size=2, max_size=6),
    steps=st.lists(st.floats(1, 30_000), min_size=6, max_size=6),
    gauge=st.sampled_from([FINE, TENTHS, Gauge(resolution=depth(1, "32nds"))]),
    region=st.sampled_from(sorted(TABLES.regions)), units=st.sampled_from(["us", "metric"]),
)  # fmt: skip
def test_every_finding_is_complete_and_its_band_holds_its_value(depths, steps, gauge, region, units):
    odometers = [sum(steps[: i + 1]) for i in range(len(depths))]
    readings = history(list(zip(odometers, depths, strict=True)), unit="mm", distance="km", gauge=gauge)
    whole = episode(tire("front_left", *readings), region=region, units=units)
    finding = decide(whole, TABLES).get("life.front_left")
    assert finding.sources and finding.caution and finding.working and len(finding.sentence) <= 111
    assert all(value_at(whole, path) is not None for path in finding.inputs)
    if finding.value is not None:
        low, high = (finding.figure(f"left_legal_minimum_{end}") for end in ("low", "high"))
        assert 0 <= low.value <= finding.value
        assert high is None or finding.value <= high.value
        assert all("nan" not in line and "inf" not in line for line in finding.working)
