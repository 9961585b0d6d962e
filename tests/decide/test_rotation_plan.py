"""Plans of rotation: hand-worked wear, plans tried by brute force, and what the finding promises."""

import datetime as dt
import itertools

import msgspec
import pytest
from hypothesis import assume, given, settings
from hypothesis import strategies as st
from msgspec.structs import replace

from studio.decide import decide
from studio.decide import rotation_plan as topic
from studio.decide.place_wear import grounds
from studio.decide.rotation_plan_read import Planned, read_part
from studio.model.car import Car, RotationDone
from studio.model.circumstances import Circumstances
from studio.model.paths import value_at
from studio.model.places import AXLES, CORNERS
from studio.model.quantity import Quantity, depth
from studio.model.specimen import Gauge
from studio.tires.rotation import PATTERNS
from studio.tires.rotation_plan import Plan, Rates, Wheel, run
from tests.decide.build import TABLES, TENTHS, damage, episode, flat, number, tire

FINE = Gauge(resolution=depth(0.01, "mm"))
MIRROR = {"front_left": "front_right", "front_right": "front_left", "rear_left": "rear_right",
          "rear_right": "rear_left"}  # fmt: skip


def worn(place, then, now, *, miles=10.0, gauge=FINE, unit="mm", **more):
    """A tire that stood at ``place`` from 1000 mi on and was read then and now."""
    readings = [
        flat(value, unit=unit, gauge=gauge, place=place, on=on, odometer=Quantity(at, "mi"))
        for value, on, at in (
            (then, dt.date(2025, 1, 10), 1000.0), (now, dt.date(2026, 1, 10), 1000.0 + 1000 * miles)
        )
    ]  # fmt: skip
    return replace(tire(place, **more), readings=tuple(readings))


def set_of(now, rates, *, drive="front", spare=None, miles=10.0, car=None, **more):
    """Four tires with these depths now and these rates (mm per 1000 mi), front left to rear right."""
    tires = [worn(p, n + r * miles, n, miles=miles, **more) for p, n, r in zip(CORNERS, now, rates, strict=True)]
    if spare is not None:
        tires.append(tire("spare", flat(spare, unit="mm", gauge=FINE), **more))
    around = Circumstances(yearly_distance=Quantity(10_000, "mi"))
    return episode(*tires, car=Car(drivetrain=drive, **(car or {})), circumstances=around)


def plan(whole):
    return decide(whole, TABLES).get("rotation_plan.car")


def planned(whole):
    its = read_part(next(topic.parts(whole, TABLES)), TABLES)
    assert isinstance(its, Planned)
    return its


def test_not_rotating_is_the_handbooks_projection():
    """Row E119's rule: (depth - limit) / rate; 2/32 in is 1.5875 mm."""
    finding = plan(set_of((4, 4, 6, 6), (0.2, 0.2, 0.1, 0.1)))
    assert number(finding, "stay_lasts") == pytest.approx((4 - 1.5875) / 0.2 * 1000)
    assert [number(finding, f"wear_{place}") for place in CORNERS] == pytest.approx([0.2, 0.2, 0.1, 0.1])
    assert finding.word("stay.first_out") == "front_left"


def test_a_plan_worked_by_hand():
    """New tires, front 0.2 and rear 0.1 mm per 1000 mi: a forward cross at every multiple of 8000 mi.

    Beginning now: 6 mm - 1.5875 = 4.4125 mm to lose. Today's front tires stand at the rear, the front, and so on: 0.8,
    1.6, 0.8 mm, then 1.2125 mm at the front: 8 + 8 + 8 + 6.0625 thousand miles; today's rear tires 1.6, 0.8, 1.6 mm,
    then 0.4125 mm at the rear: 28.125.
    """
    its = planned(set_of((6, 6, 6, 6), (0.2, 0.2, 0.1, 0.1)))
    eight = [c for c in its.found.tried if c.plan == Plan(PATTERNS["forward_cross"], 0.0, 8000.0)]
    assert len(eight) == 1 and eight[0].lasts == pytest.approx(28_125)
    assert eight[0].first_out.startswith("rear")
    assert its.found.longest.lasts >= 28_125 and its.found.stay.lasts == pytest.approx(22_062.5)


def brute_force(whole, patterns, intervals, rates, limit=1.5875):
    """Every plan run with the library, depths and rates as they were put in."""
    wheels = {p: Wheel(mean=d, lowest=d, limit=limit) for p, d in zip(CORNERS, whole, strict=True)}
    wear = dict(zip(CORNERS, (r / 1000 for r in rates), strict=True))
    stay = run(wheels, Rates(mean=wear, lowest=wear), Plan(None), 0.0).lasts
    return stay, [
        run(wheels, Rates(mean=wear, lowest=wear), Plan(PATTERNS[id_], 0.0, interval), stay)
        for id_, interval in itertools.product(patterns, intervals)
    ]


@settings(max_examples=25)
@given(
    now=st.lists(st.floats(3, 8), min_size=4, max_size=4), rates=st.lists(st.floats(0.1, 0.4), min_size=4, max_size=4)
)
def test_no_permitted_plan_is_missed_and_none_chosen_is_worse_than_not_rotating(now, rates):
    finding = plan(set_of(now, rates))
    assume(not finding.held_by)
    stay, every = brute_force(now, ("forward_cross", "x", "front_to_back"), range(5000, 8001, 1000), rates)
    best = max([stay, *(course.lasts for course in every)])
    assert number(finding, "stay_lasts") == pytest.approx(stay, rel=1e-6)
    assert best - 100 - 1e-3 <= number(finding, "longest_lasts") <= best + 1e-3
    closest = min(course.mean_apart for course in every)
    assert number(finding, "closest_apart") <= min(closest + 0.05, number(finding, "stay_apart")) + 1e-6
    assert finding.value == number(finding, "longest_lasts") >= stay - 1e-6
    assert number(finding, "gain") >= 0


def test_the_five_wheel_pattern_takes_a_matching_spare_and_makes_the_set_last():
    four, five = (plan(set_of((5, 5, 5, 5), (0.2, 0.2, 0.2, 0.2), drive="all", spare=s)) for s in (None, 8))
    assert "five_wheel_rearward_cross" in five.word("patterns").split(",")
    assert number(five, "gain") > number(four, "gain") == 0
    assert five.word("longest.pattern") == "five_wheel_rearward_cross"
    temporary = set_of((5, 5, 5, 5), (0.2,) * 4, drive="all")
    spare = tire("spare", flat(8, unit="mm"), marking="T145/80D17 107M")
    assert "five" not in plan(replace(temporary, specimens=(*temporary.specimens, spare))).word("patterns")


def test_a_directional_tread_is_planned_front_to_back_and_a_staggered_car_side_to_side():
    assert plan(set_of((4, 4, 6, 6), (0.2, 0.2, 0.1, 0.1), tread="directional")).word("patterns") == "front_to_back"
    whole = set_of((4, 4, 6, 6), (0.2, 0.2, 0.1, 0.1))
    wide = tuple(replace(s, marking="255/55R17 98H") if s.place.startswith("rear") else s for s in whole.specimens)
    assert plan(replace(whole, specimens=wide)).word("patterns") == "side_to_side"
    both = tuple(replace(s, tread="directional") for s in wide)
    finding = plan(replace(whole, specimens=both))
    assert finding.word("patterns") == "" and finding.sentence.startswith("No pattern suits these tires")
    assert finding.value == number(finding, "stay_lasts")


def test_an_interval_of_the_manual_bounds_what_is_tried():
    its = planned(set_of((5, 5, 7, 7), (0.2, 0.2, 0.1, 0.1), car={"rotation_interval": Quantity(6500, "mi")}))
    assert its.intervals == (5000, 6000, 6500)
    km = planned(set_of((5, 5, 7, 7), (0.2, 0.2, 0.1, 0.1), car={"rotation_interval": Quantity(7000, "km")}))
    assert (km.unit, km.intervals) == ("km", (7000,))
    assert km.found.stay.lasts == pytest.approx(its.found.stay.lasts * 1.609344)


def test_a_plan_may_begin_when_the_next_rotation_is_due():
    done = RotationDone(on=dt.date(2025, 12, 1), odometer=Quantity(9000, "mi"), pattern="x")
    its = planned(set_of((5, 5, 7, 7), (0.2, 0.2, 0.1, 0.1), car={"rotations": (done,)}))
    assert {p.first for p in its.tried if p.interval == 5000} == {0, 5000 - 2000}


def test_the_finding_says_when_the_readings_cannot_tell_front_from_rear():
    near = plan(set_of((5, 5, 5.5, 5.5), (0.21, 0.21, 0.18, 0.18), gauge=TENTHS))
    assert "not surely" in near.sentence and not near.word("sure")
    assert number(near, "gain_low") <= 0 < number(near, "gain_high")
    clear = plan(set_of((5, 5, 8, 8), (0.3, 0.3, 0.1, 0.1)))
    assert clear.word("sure") and "puts off the first new tire by about" in clear.sentence


def test_where_no_plan_gains_the_sentence_says_so():
    even = plan(set_of((5, 5, 5, 5), (0.2, 0.2, 0.2, 0.2)))
    assert even.sentence.startswith("Rotating gains nothing here") and number(even, "gain") == 0
    assert even.word("longest.pattern") == even.word("closest.pattern") == ""


@pytest.mark.parametrize(
    ("change", "missing"),
    [
        (lambda w: replace(w, car=Car()), "the drivetrain"),
        (lambda w: replace(w, specimens=(tire("front_left"), *w.specimens[1:])), "a depth reading, front left"),
        (lambda w: episode(*(replace(s, readings=s.readings[1:]) for s in w.specimens), car=w.car), "two readings"),
        (lambda w: set_of((5, 5, 5, 5), (0.001,) * 4), "more wear"),
    ],
)
def test_what_is_missing_is_named(change, missing):
    finding = plan(change(set_of((5, 5, 7, 7), (0.2, 0.2, 0.1, 0.1))))
    assert (finding.verdict, finding.value) == ("unknown", None) and finding.missing[0].startswith(missing)
    assert finding.working and finding.sources and finding.caution


def test_damage_age_and_wear_come_before_any_plan():
    whole = set_of((5, 5, 7, 7), (0.2, 0.2, 0.1, 0.1))
    first = whole.specimens[0]
    hurt = replace(first, readings=(first.readings[0], replace(first.readings[1], damage=(damage("bulge"),))))
    finding = plan(replace(whole, specimens=(hurt, *whole.specimens[1:])))
    assert finding.verdict == "inspect" and finding.caution == TABLES.cautions["damage"].text
    old = plan(replace(whole, specimens=(replace(first, date_code="1012"), *whole.specimens[1:])))
    assert old.verdict == "replace" and old.caution == TABLES.cautions["over_age"].text
    done = plan(set_of((1.5, 5, 7, 7), (0.2, 0.2, 0.1, 0.1)))
    assert done.verdict == "replace" and "front left is worn to the legal minimum" in done.sentence


def test_the_wear_of_a_place_comes_from_all_tires_that_stood_there():
    """Two tires of one axle exchanged half way, each losing 0.2 at the left and 0.1 at the right (worked by hand)."""
    days = (dt.date(2025, 1, 1), dt.date(2025, 6, 1), dt.date(2026, 1, 1))
    odometers = (0.0, 10.0, 20.0)
    depths = {"a": ("front_left", "front_right", (8, 6, 5)), "b": ("front_right", "front_left", (8, 7, 5))}
    def one(id_, here, there, values):
        readings = [
            flat(v, unit="mm", gauge=FINE, place=p, on=on, odometer=Quantity(at * 1000, "km"))
            for v, p, on, at in zip(values, (here, here, there), days, odometers, strict=True)
        ]  # fmt: skip
        return replace(tire(there, id=id_), readings=tuple(readings))

    turned = RotationDone(on=days[1], odometer=Quantity(10_000, "km"), pattern="side_to_side")
    fronts = [one(id_, *rest) for id_, rest in depths.items()]
    rears = [worn(p, 8, 6, miles=12) for p in AXLES["rear"]]
    found = grounds(episode(*fronts, *rears, car=Car(rotations=(turned,))), TABLES).wear
    per_1000_km = {place: rate * 1000 / 1.609344 for place, rate in found.mean.items()}
    assert (found.unit, found.by_axle) == ("mi", False)
    assert (per_1000_km["front_left"], per_1000_km["front_right"]) == (pytest.approx(0.2), pytest.approx(0.1))


def test_left_and_right_are_taken_together_where_only_the_axle_can_be_told():
    whole = set_of((5, 5, 7, 7), (0.2, 0.2, 0.1, 0.1))
    fresh = tire("front_left", flat(5, unit="mm", gauge=FINE))  # read once: its place has shown no wear
    found = grounds(replace(whole, specimens=(fresh, *whole.specimens[1:])), TABLES).wear
    assert found.by_axle and found.mean["front_left"] == found.mean["front_right"]
    finding = plan(replace(whole, specimens=(fresh, *whole.specimens[1:])))
    assert any(line.startswith("Assumed: left and right of an axle wear alike") for line in finding.working)


def test_left_and_right_swapped_swap_the_tire_that_goes_first():
    whole = set_of((4.5, 5, 7, 7.2), (0.2, 0.18, 0.1, 0.1))
    swapped = tuple(
        replace(s, place=MIRROR[s.place], readings=tuple(replace(r, place=MIRROR[r.place]) for r in s.readings))
        for s in whole.specimens
    )
    one, two = plan(whole), plan(replace(whole, specimens=swapped))
    assert two.word("stay.first_out") == MIRROR[one.word("stay.first_out")]
    assert two.value == pytest.approx(one.value)


@pytest.mark.parametrize("units", ["us", "metric"])
def test_every_number_is_there_and_every_path_leads_somewhere(units):
    whole = replace(set_of((4, 4.2, 6, 6.1), (0.2, 0.2, 0.1, 0.1), spare=8), units=units)
    finding = plan(whole)
    assert len(finding.sentence) <= 90 and finding.would_change and finding.sources
    assert all(value_at(whole, path) is not None for path in finding.inputs)
    for name in ("stay", "longest", "closest"):
        assert all(number(finding, f"{name}_{end}") >= 0 for end in ("lasts", "apart", "most_apart", "end_apart"))
        assert finding.word(f"{name}.words") and finding.word(f"{name}.about")
    assert any("mi a year, the car's own (as entered)" in line for line in finding.working) or units == "metric"
    assert msgspec.json.encode(finding)


def test_what_bars_a_rotation_bars_its_plan():
    whole = set_of((5, 5, 7, 7), (0.2, 0.2, 0.1, 0.1))
    finding = plan(replace(whole, car=replace(whole.car, dual_rear_wheels=True)))
    assert finding.held_by == ("dual_wheels.car",) and finding.advises == ()
    assert "dual rear wheels" in finding.sentence and "car.dual_rear_wheels" in finding.inputs
