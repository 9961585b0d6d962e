"""The life topic against worked examples of the handbook, a statistics library, and its own promises."""

import datetime as dt
import statistics

import pytest
from hypothesis import given
from hypothesis import strategies as st
from msgspec.structs import replace

from studio.decide import decide
from studio.model.circumstances import Circumstances
from studio.model.paths import value_at
from studio.model.quantity import Quantity, depth
from studio.model.specimen import Gauge
from tests.decide.build import TABLES, TENTHS, damage, episode, flat, number, reading, tire

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


def found(pairs, region="us", units="us", specimen=None, yearly=None, **more):
    its = replace(tire("front_left", **(specimen or {})), readings=tuple(history(pairs, **more)))
    around = Circumstances(yearly_distance=yearly)
    return decide(episode(its, region=region, units=units, circumstances=around), TABLES).get("life.front_left")


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
    from scipy import stats

    pairs = [(10_000, 8.0), (16_000, 7.1), (21_000, 6.6), (30_000, 5.4), (36_000, 4.9)]
    finding = found(pairs, unit="mm", distance="km", region="de", gauge=TENTHS)
    xs, ys = [x - 10_000 for x, _ in pairs], [y for _, y in pairs]
    slope, start, *_ = stats.linregress(xs, ys)
    assert number(finding, "wear_per_1000") == pytest.approx(-1000 * slope)
    assert number(finding, "fit_at_first") == pytest.approx(start)
    assert finding.value == pytest.approx((4.9 - 1.6) / -slope)
    median = stats.theilslopes(ys, xs).slope
    assert number(finding, "wear_per_1000_median") == pytest.approx(-1000 * median)
    spread = sum((x - statistics.fmean(xs)) ** 2 for x in xs) ** 0.5
    assert number(finding, "wear_per_1000_doubt") == pytest.approx(1000 * 0.25 / spread)


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
        ([(20_000, 8.0), (10_000, 6.0)], FINE, "odometer readings that rise"),
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
    assert fine.value == pytest.approx(coarse.value)
    low, high = (number(fine, f"left_legal_minimum_{end}") for end in ("low", "high"))
    assert low < fine.value < high
    assert number(coarse, "left_legal_minimum_low") < low
    wide = found([(10_000, 8.0), (20_000, 7.14)], unit="mm", gauge=Gauge(resolution=depth(1, "32nds")))
    assert number(wide, "left_legal_minimum_high") > number(wide, "left_legal_minimum")
    many = found([(0, 8.0), (1000, 12.0), (2000, 4.0), (3000, 7.0)], unit="mm", gauge=FINE)
    assert many.word("band") == "open" and many.uncertainty is None and "at least" in many.sentence
    assert not many.word("sure") and not coarse.word("sure") and fine.word("sure")


def test_at_the_limit_nothing_is_left_and_a_condemned_tire_has_no_distance_at_all():
    done = found([(10_000, 8), (40_000, 2)])
    assert (done.verdict, done.value) == ("replace", 0)
    cord = found([(10_000, 8), (40_000, 5)], damage=(damage("cord"),))
    assert cord.verdict == "inspect" and cord.value is None and "no distance is left" in cord.sentence
    assert cord.caution == TABLES.cautions["damage"].text


def test_readings_that_scatter_more_than_the_gauge_widen_the_band():
    """Twice the standard error of scipy's line (coverage factor 2, JCGM 100:2008)."""
    from scipy import stats

    pairs = [(10_000, 8.0), (15_000, 7.0), (20_000, 7.4), (25_000, 5.6), (30_000, 6.0)]
    finding = found(pairs, unit="mm", distance="km", region="de")
    error = stats.linregress(*zip(*pairs, strict=True)).stderr
    assert 2 * error * 10_000 * 2.5**0.5 > 0.205, "more than the gauge's half width"
    assert number(finding, "wear_per_1000_doubt") == pytest.approx(2000 * error)
    assert "JCGM 100:2008" in {source.title for source in finding.sources}


def grooved(*rows, days=90, odometers=(10_000, 20_000, 30_000), **more):
    """Readings of three grooves (outer, center, inner), each evenly worn."""
    more.setdefault("gauge", FINE)
    return tuple(
        reading(tuple((value,) * 3 for value in row), unit="mm", on=dt.date(2025, 1, 15) + dt.timedelta(days=days * i),
                odometer=Quantity(at, "km"), **more)
        for i, (row, at) in enumerate(zip(rows, odometers, strict=False))
    )  # fmt: skip


def test_each_groove_has_its_own_wear_and_the_first_one_at_the_limit_governs():
    """The inner groove is deeper today and wears faster: 4.0 mm at 0.2 mm is sooner at 1.6 mm than 3.6 mm at 0.1 mm."""
    its = tire("front_left", *grooved((5.6, 6, 8), (4.6, 5, 6), (3.6, 4, 4)))
    finding = decide(episode(its, region="de", units="metric"), TABLES).get("life.front_left")
    assert finding.value == pytest.approx((4.0 - 1.6) / 0.2 * 1000) and finding.word("groove") == "inner"
    assert [number(finding, f"wear_{g}") for g in ("outer", "center", "inner")] == pytest.approx([0.1, 0.1, 0.2])
    assert number(finding, "left_wet_advice") == pytest.approx(min((3.6 - 3.175) / 0.1, (4.0 - 3.175) / 0.2) * 1000)
    assert any(line.startswith("Outer groove: 0.1000 mm") for line in finding.working)


def test_a_groove_that_hardly_wore_is_taken_to_wear_no_faster_than_the_fastest():
    its = tire("front_left", *grooved((3.0, 8, 8), (3.0, 7, 7), (2.9, 6, 6)))
    finding = decide(episode(its, region="de", units="metric"), TABLES).get("life.front_left")
    assert finding.value == pytest.approx((2.9 - 1.6) / 0.1 * 1000)
    assert any("assumed: no faster than the fastest" in line for line in finding.working)


def test_grooves_counted_differently_are_compared_by_the_lowest_of_the_tire():
    two = reading(((6.0,) * 3, (5.5,) * 3), unit="mm", gauge=FINE, on=dt.date(2025, 8, 1),
                  odometer=Quantity(20_000, "km"))  # fmt: skip
    its = tire("front_left", *grooved((8, 7.5, 7)), two)
    finding = decide(episode(its, region="de", units="metric"), TABLES).get("life.front_left")
    assert finding.value == pytest.approx((5.5 - 1.6) / 0.15 * 1000) and not finding.word("groove")


def test_the_date_is_the_distance_over_the_yearly_distance():
    """34,000 km (row E121) at 17,000 km a year: two years after the last reading."""
    pairs = [(10_000, 7.0), (30_000, 5.0)]
    finding = found(pairs, unit="mm", distance="km", region="de", units="metric", yearly=Quantity(17_000, "km"))
    assert number(finding, "years_legal_minimum") == pytest.approx(2)
    assert finding.word("until.legal_minimum") == "Feb 2027" and "Feb 2027" in finding.sentence  # read 14 Feb 2025
    assert "circumstances.yearly_distance" in finding.inputs
    assert any("The car's yearly distance, as entered: 17,000 km" in line for line in finding.working)
    in_miles = found(pairs, unit="mm", distance="km", region="de", yearly=Quantity(17_000 / 1.609344, "mi"))
    assert in_miles.word("until.legal_minimum") == "Feb 2027"


def test_without_a_figure_of_the_presenters_own_the_odometer_says_the_yearly_distance():
    its = tire("front_left", *grooved((8, 8, 8), (7, 7, 7), (6, 6, 6)))
    finding = decide(episode(its, region="de", units="metric"), TABLES).get("life.front_left")
    assert number(finding, "yearly") == pytest.approx(20_000 / 180 * 365.2425)
    assert finding.word("yearly_from") == "from the odometer, 15 Jan 2025 to 14 Jul 2025"
    short = found([(10_000, 7.0), (30_000, 5.0)], unit="mm", distance="km")  # 30 days apart
    assert not short.word("until.legal_minimum") and short.missing and "legal minimum" in short.sentence


def test_a_season_on_the_car_is_what_another_sets_readings_leave_of_it():
    """Two sets changed over twice a year: each rolled its own part of the odometer only."""
    days = [dt.date(2024, 4, 1), dt.date(2024, 10, 1), dt.date(2025, 4, 1), dt.date(2025, 10, 1)]
    odometers, summer, winter = [10_000, 20_000, 26_000, 35_000], [8, 7, None, 6.1], [None, None, 7.4, None]
    def one(id_, place, depths):
        readings = [
            flat(d, unit="mm", gauge=FINE, on=day, odometer=Quantity(at, "km"), place="front_left")
            for d, day, at in zip(depths, days, odometers, strict=True) if d is not None
        ]  # fmt: skip
        return replace(tire(place, id=id_, marking="205/55R16 91V"), readings=tuple(readings))

    both = episode(one("summer", "front_left", summer), one("winter", "bench", winter), region="de", units="metric")
    finding = decide(both, TABLES).get("life.front_left")
    assert [number(finding, f"rolled_{n}") for n in (1, 2, 3)] == [0, 10_000, 19_000]
    assert finding.value == pytest.approx((6.1 - 1.6) / 0.1 * 1000)
    assert number(finding, "driven") == 25_000
    assert any(line.startswith("Assumed: tires were changed over") for line in finding.working)
    assert any(line.startswith("Had it stood on the car all the way") for line in finding.would_change)
    alone = decide(episode(both.specimens[0], region="de", units="metric"), TABLES).get("life.front_left")
    assert number(alone, "rolled_3") == 25_000


def test_a_new_tires_first_wear_is_warned_of_and_what_it_does_is_computed():
    from scipy import stats

    pairs = [(10_000, 8.0), (15_000, 7.0), (25_000, 6.2), (35_000, 5.4)]
    new = found(pairs, unit="mm", distance="km", region="de", units="metric", specimen={"depth_new": depth(8, "mm")})
    slope = stats.linregress([15, 25, 35], [7.0, 6.2, 5.4]).slope
    left = round((5.4 - 1.6) / -slope * 1000 / 100) * 100
    assert any(f"about {left:,.0f} km" in line for line in new.would_change)
    assert any(line.startswith("The first reading is of the new tire") for line in new.working)
    worn = found(pairs, unit="mm", distance="km", region="de", specimen={"depth_new": depth(9, "mm")})
    assert not any("of the new tire" in line for line in (*worn.working, *worn.would_change))


def test_the_reading_that_moves_the_distance_most_is_named():
    from scipy import stats

    pairs = [(10_000, 8.0), (15_000, 7.6), (20_000, 6.0), (25_000, 6.5), (30_000, 6.0)]
    finding = found(pairs, unit="mm", distance="km", region="de", specimen={"depth_new": depth(9, "mm")})
    without = [[p for p in pairs if p != q] for q in pairs[1:-1]]
    moved = [abs((6 - 1.6) / -stats.linregress(*zip(*w, strict=True)).slope - finding.value / 1000) for w in without]
    day = dt.date(2025, 1, 15) + dt.timedelta(days=30 * (1 + moved.index(max(moved))))
    assert any(f"reading of {day.day} " in line for line in finding.would_change)


def test_a_tire_that_grows_too_old_first_says_so_and_an_old_one_has_no_distance():
    """Ten years from manufacture (British rubber makers' practice of June 2001)."""
    slow = [(10_000, 8.0), (20_000, 7.0)]
    finding = found(slow, unit="mm", distance="km", yearly=Quantity(5000, "km"), specimen={"date_code": "2120"})
    assert "age advice of 10 years in May 2030" in finding.sentence and finding.value is not None
    assert found(slow, unit="mm", distance="km", yearly=Quantity(50_000, "km")).word("age_ends_it") == ""
    old = found(slow, unit="mm", distance="km", specimen={"date_code": "0512"})
    assert (old.verdict, old.value) == ("replace", None) and old.caution == TABLES.cautions["over_age"].text


def test_nobody_asks_how_far_a_temporary_spare_goes():
    spare = tire("spare", flat(4), marking="T165/80D17 104M")
    assert decide(episode(spare), TABLES).of("life") == ()


@given(st.floats(1.7, 7), st.floats(0.01, 3))
def test_more_tread_never_means_less_distance(now, more):
    less, deeper = (
        found([(10_000, d + 1), (20_000, d)], unit="mm", distance="km").value for d in (now, now + more)
    )
    assert deeper >= less - 1e-6


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
