"""The wear pattern topic: the handbook's table of patterns, its thresholds of 2/32 and 3/32 in (common practice)."""

import datetime as dt

import msgspec
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from studio.decide import decide, wear_pattern
from studio.decide.wear_pattern_change import changes, moved
from studio.decide.wear_pattern_read import judge
from studio.model.car import Car, Placard, PlacardTire
from studio.model.finding import SEVERITY
from studio.model.paths import value_at
from studio.model.quantity import Quantity, depth
from studio.model.specimen import Gauge, PressureReading
from tests.decide.build import TABLES, TENTHS, episode, flat, four, number, reading, tire

SIXTY_FOURTHS = Gauge(resolution=depth(0.5, "32nds"))


def across(*levels, stations=3, **more):
    """A reading that shows the same level all round in each groove."""
    return reading(tuple((value,) * stations for value in levels), **({"gauge": TENTHS} | more))


def found(*readings, place="front_left", units="us", region="us", car=None, **more):
    whole = episode(tire(place, *readings, **more), units=units, region=region, car=car or Car())
    return decide(whole, TABLES).get(f"wear_pattern.{place}")


def lines(finding):
    return " ".join(finding.working)


@pytest.mark.parametrize(
    ("levels", "pattern", "check"),
    [
        ((4, 7, 4), "shoulder", "cold pressure, load"), ((7, 4, 7), "center", "cold pressure"),
        ((7, 5.5, 4), "inner_edge", "alignment, springs"), ((4, 5.5, 7), "outer_edge", "alignment"),
        ((7, 7, 7, 4), "inner_edge", "alignment, springs"),
    ],
)  # fmt: skip
def test_the_handbooks_profiles_are_named_with_their_causes_and_what_to_check(levels, pattern, check):
    """Handbook, wear patterns: outer, center, inner as the car's own sides; all common practice."""
    finding = found(across(*levels))
    assert finding.word("pattern") == pattern and finding.word("check") == check
    assert finding.verdict == "inspect" and finding.caution == TABLES.cautions["uneven_wear"].text
    assert f"What to check: {check}" in finding.working and finding.word("look")
    assert {source.standing for source in finding.sources} == {"common practice"}


@pytest.mark.parametrize(
    ("inner", "gauge", "verdict", "close"),
    [
        (7.0, TENTHS, "keep", False), (5.5, TENTHS, "keep", False), (5.4, TENTHS, "watch", True),
        (5.0, TENTHS, "watch", True), (4.6, TENTHS, "watch", True), (4.5, TENTHS, "watch", False),
        (4.1, TENTHS, "watch", False), (4.0, TENTHS, "inspect", False), (2.0, TENTHS, "inspect", False),
        (6.0, Gauge(resolution=depth(1, "32nds")), "keep", False),
        (5.5, Gauge(resolution=depth(1, "32nds")), "watch", True),
    ],
)  # fmt: skip
def test_reported_at_2_32_urgent_at_3_32_and_too_close_to_call_in_between(inner, gauge, verdict, close):
    """Doubt of a difference with steps of 0.1 mm: 0.25 mm x root of 2 = 0.354 mm = 0.445/32 in; of 1/32 in: 1.06/32."""
    finding = found(across(7, 7, inner, gauge=gauge))
    assert (finding.verdict, finding.limit, finding.unit) == (verdict, 2, "32nds")
    assert ("Too close to call with this gauge" in finding.sentence) is close
    assert finding.value == pytest.approx(7 - inner) and finding.margin == pytest.approx(2 - (7 - inner))
    assert finding.uncertainty == pytest.approx(
        2**0.5 * (gauge.resolution.to("32nds").value / 2 + 0.2 / 0.79375), abs=1e-9
    )


def test_even_wear_is_said_to_be_even():
    assert "its grooves read alike" in found(across(6, 6, 6)).sentence
    assert "as far as this gauge can tell" in found(across(6, 6.3, 6)).sentence
    enough = found(across(6, 6, 5), units="metric")
    assert enough.sentence == "Front left wears evenly enough: inner groove 0.8 mm low; uneven from 1.6 mm on."
    assert enough.word("pattern") == "even" and enough.caution == TABLES.cautions["measuring"].text


@pytest.mark.parametrize(
    ("grid", "pattern", "place"),
    [
        (((6, 6, 2), (6, 6, 2), (6, 6, 2)), "flat_spot", "place 3"),
        (((6, 6, 6, 2), (6, 6, 6, 6), (6, 6, 6, 6)), "worn_spot", "place 4 of the outer groove"),
        (((6, 2, 6, 2), (6, 3, 6, 3), (6, 6, 6, 6)), "cupping", "place 2 of the outer groove"),
        (((6, 2), (6, 6), (6, 6)), "worn_spot", "place 2 of the outer groove"),
        (((6, 6, 6), (6, 6, 6), (2, 2, 2)), "inner_edge", "inner groove"),
        (((6, 6, 6), (6, 6, 6), (6, 2, 2)), "inner_edge", "inner groove"),
    ],
)
def test_a_worn_place_round_the_tire_is_told_from_a_worn_edge(grid, pattern, place):
    finding = found(reading(grid, gauge=TENTHS))
    assert finding.word("pattern") == pattern
    assert place.lower() in finding.word("lowest_at").lower()
    assert finding.verdict == "inspect"


def test_a_flat_spot_and_cupping_must_be_looked_at_even_under_the_urgent_difference():
    """Handbook: flat spot, stop use if cord or bulge; cupping, a worn damper or a loose joint."""
    for grid in (((7, 7, 4.5),) * 3, ((7, 4.5, 7, 4.5),) * 3):
        assert found(reading(grid, gauge=TENTHS)).verdict == "inspect"


def test_noise_of_one_step_is_neither_cupping_nor_a_spot():
    finding = found(reading(((9, 10, 9, 10), (10, 9, 10, 10), (10, 10, 9, 9))))
    assert finding.verdict == "keep" and "as far as this gauge can tell" in finding.sentence


def test_each_groove_is_held_against_its_own_depth_when_new():
    """Handbook, measuring: raised groove bottoms make grooves of one tire differ when new."""
    new = across(10, 10, 8, on=dt.date(2025, 2, 1))
    assert found(new, across(6, 6, 4)).verdict == "keep"
    assert "Each groove held against its own depth when new" in lines(found(new, across(6, 6, 4)))
    alone = found(across(6, 6, 4))
    assert alone.verdict == "watch" and "Assumed: all grooves were equally deep when new" in lines(alone)
    assert found(new, across(6, 6, 4), depth_new=None).verdict == "watch"


def test_one_odd_groove_between_the_edges_is_no_usual_pattern():
    finding = found(across(7, 7, 4.5, 7, 7))
    assert finding.word("pattern") == "one_groove" and finding.word("lowest_at") == "Third groove"


def test_the_cold_pressure_stands_beside_a_pattern_that_pressure_makes():
    car = Car(placard=Placard(front=PlacardTire(pressure=Quantity(36, "psi"))))
    soft = PressureReading(pressure=Quantity(30, "psi"))
    low = found(across(4, 7, 4, pressure=soft), car=car)
    assert "Last cold pressure 30 psi (207 kPa): under the placard's 36 psi (248 kPa)" in low.working
    assert "car.placard.front.pressure" in low.inputs
    edge = found(across(7, 7, 4, pressure=soft), car=car)
    assert "cold pressure" not in lines(edge) and "car.placard.front.pressure" not in edge.inputs


def test_where_it_stood_before_is_said_as_uneven_wear_stays():
    before = msgspec.structs.replace(across(9, 9, 8, on=dt.date(2025, 8, 1)), place="rear_left")
    moved_tire = msgspec.structs.replace(tire("front_left"), readings=(before, across(7, 7, 4)))
    finding = decide(episode(moved_tire), TABLES).get("wear_pattern.front_left")
    assert "Read before at: rear left; the cause may lie there" in finding.working


@pytest.mark.parametrize(
    ("grid", "missing", "verdict"),
    [
        ((), ("a depth reading",), "unknown"),
        (((6,),), ("readings of the outer and the inner groove", "readings at 3 places round the tire"), "unknown"),
        (((6, 6, 6),), ("readings of the outer and the inner groove",), "unknown"),
        (((6, 6, 2),), ("readings of the outer and the inner groove",), "inspect"),
        (((6,), (6,)), ("a reading of a center groove", "readings at 3 places round the tire"), "keep"),
        (((6, 6, 6), (None,) * 3, (6, 6, 6)), ("a reading of a center groove",), "keep"),
        (((None,) * 3, (6, 6, 6), (6, 6, 6)), ("readings of the outer and the inner groove",), "unknown"),
    ],
)
def test_what_was_not_read_is_asked_for(grid, missing, verdict):
    finding = found(reading(grid, gauge=TENTHS))
    assert (finding.missing, finding.verdict) == (missing, verdict)


def test_what_would_change_it_changes_it():
    finding = found(across(7, 7, 6), units="metric")
    assert finding.would_change[0] == "If the inner groove read 0.44 mm (0.55/32 in) less, it would be one to watch."
    close = found(across(7, 7, 5.5, gauge=Gauge(resolution=depth(1, "32nds"))))
    assert close.would_change[-1] == (
        "The same readings with a gauge of finer steps than 0.20/32 in (0.16 mm) would settle it."
    )
    assert found(across(7, 7, 5.3)).would_change[-1].startswith("No gauge held by hand can settle it")


grids = st.lists(st.lists(st.floats(2, 11), min_size=3, max_size=3), min_size=3, max_size=5)


@settings(max_examples=60)
@given(grid=grids, gauge=st.sampled_from([TENTHS, SIXTY_FOURTHS, Gauge(resolution=depth(1, "32nds"))]))
def test_every_change_that_is_named_gives_the_verdict_that_it_promises(grid, gauge):
    whole = episode(tire("front_left", reading(grid, gauge=gauge)))
    its = judge(next(iter(wear_pattern.parts(whole, TABLES))), TABLES)
    for change in changes(its, TABLES):
        assert moved(its, change.uneven, change.more_mm, TABLES).verdict == change.verdict
        graver = SEVERITY.index(change.verdict) > SEVERITY.index(its.verdict)
        assert graver is (change.more_mm < 0)


@settings(max_examples=60)
@given(grid=grids)
def test_inner_for_outer_swaps_the_edge_and_nothing_else(grid):
    mine, other = found(reading(grid, gauge=TENTHS)), found(reading(grid[::-1], gauge=TENTHS))
    assert mine.verdict == other.verdict and mine.value == pytest.approx(other.value)
    swap = {"inner_edge": "outer_edge", "outer_edge": "inner_edge"}
    if abs(mine.figure("outer").value - mine.figure("inner").value) > 1e-6:
        assert other.word("pattern") == swap.get(mine.word("pattern"), mine.word("pattern"))


@settings(max_examples=60)
@given(grid=grids, worn=st.floats(0.1, 2))
def test_wear_that_takes_the_same_everywhere_changes_nothing(grid, worn):
    less = [[value - worn for value in groove] for groove in grid]
    mine, other = found(reading(grid, gauge=TENTHS)), found(reading(less, gauge=TENTHS))
    assert mine.value == pytest.approx(other.value, abs=1e-9)


def side(left, right, rear=8, left_new=10, **more):
    """Four tires that went on together in 2025, worn evenly to these depths."""
    values = (left, right, rear, rear)
    places = ("front_left", "front_right", "rear_left", "rear_right")
    tires = [
        tire(place, flat(10, on=dt.date(2025, 1, 1), gauge=TENTHS), flat(value, gauge=TENTHS), **more)
        for place, value in zip(places, values, strict=True)
    ]
    return decide(episode(*tires), TABLES)


def test_one_tire_lower_than_its_mate_is_a_side_difference():
    """Handbook: pressure, dragging brake, differing tires; note at 2/32, act at 3/32 in."""
    findings = side(5, 8)
    finding = findings.get("wear_pattern.front_axle")
    assert finding.verdict == "inspect" and number(finding, "difference") == pytest.approx(3)
    assert finding.sentence == (
        "Front left wore 3/32 in (2.4 mm) more than front right. Check pressure, brake and date codes."
    )
    assert findings.get("wear_pattern.rear_axle") is None
    assert side(8, 5).get("wear_pattern.front_axle").sentence.startswith("Front right wore")
    assert side(7.3, 8).get("wear_pattern.front_axle") is None
    assert "Too close to call" in side(6.2, 8).get("wear_pattern.front_axle").sentence


def test_a_front_pair_lower_than_the_rear_one_wants_a_rotation():
    """Handbook: front drive, no rotation: rotate."""
    finding = side(5, 5).get("wear_pattern.set")
    assert finding.verdict == "rotate" and "The front tires wore" in finding.sentence
    rear = side(8, 8, rear=4).get("wear_pattern.set")
    assert rear.verdict == "rotate" and "The rear tires wore" in rear.sentence and "rear drive" in lines(rear)


def test_tires_that_went_on_at_different_times_are_not_said_to_wear_apart():
    late = tire("front_left", flat(10, on=dt.date(2026, 1, 1), gauge=TENTHS), flat(9.5, gauge=TENTHS))
    others = [tire(p, flat(10, on=dt.date(2024, 1, 1)), flat(5)) for p in ("front_right", "rear_left", "rear_right")]
    findings = decide(episode(late, *others), TABLES)
    assert findings.get("wear_pattern.front_axle") is None and findings.get("wear_pattern.set") is None
    unknown = decide(episode(*four((9, 5, 8, 8), gauge=TENTHS)), TABLES).get("wear_pattern.front_axle")
    assert unknown.verdict == "inspect"


def test_wear_counts_from_each_tires_own_depth_when_new():
    tires = four((6, 8, 8, 8), gauge=TENTHS)
    other = msgspec.structs.replace(tires[0], depth_new=depth(8, "32nds"))
    assert decide(episode(other, *tires[1:]), TABLES).get("wear_pattern.front_axle") is None
    codes = msgspec.structs.replace(tires[0], date_code="0120")
    assert "Date codes 0120, 3621: if they went on apart, that alone explains it" in lines(
        decide(episode(codes, *tires[1:]), TABLES).get("wear_pattern.front_axle")
    )


@settings(max_examples=60)
@given(
    grid=st.lists(st.lists(st.one_of(st.none(), st.floats(0, 14)), min_size=1, max_size=6), min_size=0, max_size=6),
    units=st.sampled_from(["us", "metric"]),
)
def test_every_finding_is_complete(grid, units):
    whole = episode(tire("rear_right", reading(grid), name="x" * 80), units=units)
    for finding in decide(whole, TABLES).of("wear_pattern"):
        assert finding.sources and finding.caution and finding.inputs and len(finding.sentence) <= 100
        assert all(value_at(whole, path) is not None for path in finding.inputs)
        assert finding.verdict == "unknown" or finding.working
