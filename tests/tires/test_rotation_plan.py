"""Plans of rotation against a simulation in small steps, against every plan tried, and their own promises."""

import itertools
import math

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from studio.tires.errors import RangeError
from studio.tires.rotation import PATTERNS, SPARE
from studio.tires.rotation_plan import STAY, Plan, Rates, Wheel, first_to_go, plans, rotations_until, run, search

CORNERS = ("front_left", "front_right", "rear_left", "rear_right")
FOUR = [pattern for pattern in PATTERNS.values() if not pattern.takes_spare]


def wheels(*depths, limit=2.0, below=0.0, spare=None):
    names = (*CORNERS, SPARE) if spare is not None else CORNERS
    every = (*depths, spare) if spare is not None else depths
    return {n: Wheel(mean=d, lowest=d - below, limit=limit) for n, d in zip(names, every, strict=True)}


def rates(front, rear, lowest=1.0):
    mean = {"front_left": front, "front_right": front, "rear_left": rear, "rear_right": rear}
    return Rates(mean=mean, lowest={place: rate * lowest for place, rate in mean.items()})


def stepped(its, wear, plan, over, steps=4000):
    """The same by small steps: (distance to the first tire at its limit, most, average and last spread until over)."""
    at = {name: name for name in its}
    mean, low = ({n: getattr(w, field) for n, w in its.items()} for field in ("mean", "lowest"))
    step, lasts, gone, due = over / steps, None, 0.0, plan.first
    spans = []
    while len(spans) < steps or lasts is None:
        while plan.pattern and gone + step / 2 >= due:
            at = {n: plan.pattern.moves.get(p, p) for n, p in at.items()}
            due += plan.interval
        road = [n for n in its if at[n] != SPARE]
        if len(spans) < steps:
            before = max(mean[n] for n in road) - min(mean[n] for n in road)
        for n in road:
            mean[n] -= wear.mean[at[n]] * step
            low[n] -= wear.lowest[at[n]] * step
        gone += step
        if len(spans) < steps:
            spans.append((before + max(mean[n] for n in road) - min(mean[n] for n in road)) / 2)
        if lasts is None and any(low[n] <= its[n].limit for n in road):
            lasts = gone
    return lasts, max(spans), sum(spans) / steps, spans[-1]


def test_not_rotating_is_the_handbooks_projection():
    """Handbook rows E119 and E120, computed: 6/32 in, limit 2/32 in, 0.2/32 in per 1000 mi: 20,000 mi."""
    assert first_to_go(wheels(6, 7, 8, 9), rates(0.2, 0.2), STAY) == (pytest.approx(20), "front_left")


def test_a_full_round_shares_the_wear_equally():
    """Forward cross is one round of four (handbook, computed): after four legs every tire lost the same."""
    wear = rates(0.2, 0.1)
    course = run(wheels(10, 10, 10, 10), wear, Plan(PATTERNS["forward_cross"], 5, 5), over=20)
    assert list(course.ends.values()) == pytest.approx([10 - 20 * 0.15] * 4)
    assert (course.end_apart, course.rotations) == (pytest.approx(0, abs=1e-9), 3)
    assert course.most_apart == pytest.approx(5 * 0.1) == run(wheels(10, 10, 10, 10), wear, STAY, 5).most_apart


def test_five_wheels_roll_four_fifths_of_the_way():
    """Handbook, computed: after five rotations of the five-wheel pattern each tire has rolled 4/5 of the distance."""
    course = run(
        wheels(10, 10, 10, 10, spare=10), rates(0.2, 0.2), Plan(PATTERNS["five_wheel_rearward_cross"], 4, 4), over=20
    )
    assert list(course.ends.values()) == pytest.approx([10 - 0.2 * 20 * 4 / 5] * 5)


def test_rotating_at_once_counts_as_a_rotation():
    plan = Plan(PATTERNS["x"], 0, 5)
    assert [rotations_until(plan, over) for over in (0, 3, 5, 5.1, 20)] == [0, 1, 1, 2, 4]
    assert rotations_until(STAY, 100) == 0
    course = run(wheels(5, 5, 9, 9), rates(0.2, 0.1), plan, over=5)
    assert course.ends["front_left"] == pytest.approx(4.5) and course.end_apart == pytest.approx(3.5)


depth = st.floats(2.5, 11)
place_rates = st.fixed_dictionaries({place: st.floats(0.02, 0.4) for place in CORNERS})


@st.composite
def cases(draw):
    spare = draw(st.one_of(st.none(), depth))
    its = wheels(*draw(st.lists(depth, min_size=4, max_size=4)), below=draw(st.floats(0, 0.5)), spare=spare)
    mean = draw(place_rates)
    wear = Rates(mean=mean, lowest={place: rate * draw(st.floats(0.9, 1.4)) for place, rate in mean.items()})
    allowed = list(PATTERNS.values()) if spare is not None else FOUR
    plan = Plan(draw(st.sampled_from(allowed)), draw(st.sampled_from([0.0, 2.0, 5.0])), draw(st.floats(3, 12)))
    return its, wear, draw(st.sampled_from([plan, STAY]))


@settings(max_examples=40, deadline=None)
@given(cases())
def test_a_plan_is_followed_exactly(case):
    """Against the simulation in 4000 steps, which is off by no more than a step's wear and a step's length."""
    its, wear, plan = case
    over = 20.0
    course = run(its, wear, plan, over)
    lasts, most, mean, _ = stepped(its, wear, plan, over)
    step = over / 4000
    assert course.lasts == pytest.approx(lasts, abs=3 * step + 1e-9)
    assert course.most_apart == pytest.approx(most, abs=0.03)
    assert course.mean_apart == pytest.approx(mean, abs=0.01)


@settings(max_examples=60)
@given(cases(), st.lists(st.floats(3, 12), min_size=1, max_size=3))
def test_the_search_misses_no_plan_and_is_never_worse_than_not_rotating(case, intervals):
    its, wear, _ = case
    patterns = list(PATTERNS.values()) if SPARE in its else FOUR
    every = plans(patterns, itertools.product([0.0, 2.0], intervals))
    assert len(every) == len(patterns) * len(intervals) * 2
    found = search(its, wear, every)
    assert found.stay.lasts >= 0 and found.stay.plan == STAY
    assert found.longest.lasts >= found.stay.lasts
    assert found.closest.mean_apart <= found.stay.mean_apart
    for pattern, first, interval in itertools.product(patterns, (0.0, 2.0), intervals):
        other = run(its, wear, Plan(pattern, first, interval), found.stay.lasts)
        assert other.lasts <= found.longest.lasts * (1 + 1e-8) + 1e-9
        assert other.mean_apart >= found.closest.mean_apart * (1 - 1e-8) - 1e-9


def test_plans_that_nobody_can_tell_apart_count_as_equal_and_staying_wins():
    its, wear = wheels(6, 6.01, 6, 6), rates(0.2, 0.2)
    every = plans(FOUR, [(0.0, 5.0), (0.0, 8.0)])
    found = search(its, wear, every, same_way=0.1, same_depth=0.05)
    assert found.longest.plan == found.closest.plan == STAY
    uneven = search(wheels(6, 6, 9, 9), rates(0.2, 0.1), every, same_way=0.1, same_depth=0.05)
    assert uneven.longest.plan.pattern == uneven.closest.plan.pattern == FOUR[0]


@given(cases())
def test_left_and_right_swapped_swap_nothing_but_the_names(case):
    its, wear, plan = case
    other = {"front_left": "front_right", "front_right": "front_left", "rear_left": "rear_right",
             "rear_right": "rear_left", SPARE: SPARE}  # fmt: skip
    if plan.pattern is not None and plan.pattern.takes_spare:
        plan = STAY  # the five-wheel patterns are not their own mirror image
    mirrored = Rates(**{f: {other[p]: r for p, r in getattr(wear, f).items()} for f in ("mean", "lowest")})
    one = run(its, wear, plan, 10)
    two = run({other[n]: wheel for n, wheel in its.items()}, mirrored, plan, 10)
    assert (one.lasts, one.mean_apart) == (pytest.approx(two.lasts), pytest.approx(two.mean_apart))


@given(cases(), st.floats(0.1, 3))
def test_more_tread_everywhere_never_lasts_less(case, more):
    its, wear, plan = case
    deeper = {n: Wheel(mean=w.mean + more, lowest=w.lowest + more, limit=w.limit) for n, w in its.items()}
    assert run(deeper, wear, plan, 5).lasts >= run(its, wear, plan, 5).lasts - 1e-9


def test_a_tire_at_its_limit_has_no_way_left_and_a_spare_does_not_wear():
    assert first_to_go(wheels(2, 9, 9, 9), rates(0.2, 0.2), STAY) == (0, "front_left")
    assert first_to_go(wheels(1, 9, 9, 9), rates(0.2, 0.2), STAY) == (0, "front_left")
    stay = run(wheels(9, 9, 9, 9, spare=5), rates(0.2, 0.2), STAY, 10)
    assert stay.ends[SPARE] == 5 and stay.end_apart == 0


def test_nothing_to_watch_gives_todays_spread():
    found = search(wheels(2, 9, 9, 9), rates(0.2, 0.2), plans(FOUR, [(0, 5)]))
    assert found.stay.over == 0 and found.stay.mean_apart == found.stay.end_apart == 7


@pytest.mark.parametrize(
    ("wear", "plan"),
    [(rates(0, 0), STAY), (rates(0.2, 0.2), Plan(PATTERNS["x"], -1, 5)), (rates(0.2, 0.2), Plan(PATTERNS["x"], 0, 0))],
)
def test_what_cannot_be_followed_is_refused(wear, plan):
    with pytest.raises(RangeError, match="expected"):
        run(wheels(5, 5, 5, 5), wear, plan, 10)


def test_a_wear_too_slow_to_end_is_refused():
    with pytest.raises(RangeError, match="no tire has to go"):
        run(wheels(8, 8, 8, 8), rates(1e-9, 1e-9), Plan(PATTERNS["x"], 0, 1), 1)
    assert math.isfinite(run(wheels(8, 8, 8, 8), rates(1e-9, 1e-9), STAY, 1).lasts)
