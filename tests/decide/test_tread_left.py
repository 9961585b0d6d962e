"""The tread topic against published limits, worked examples of the handbook, and its own promises."""

import datetime as dt

import msgspec
import pytest
from hypothesis import given
from hypothesis import strategies as st

from studio.decide import decide
from studio.decide import tread_left as topic
from studio.decide.tread_change import better, worse
from studio.model.finding import SEVERITY
from studio.model.paths import value_at
from studio.model.quantity import depth
from studio.model.specimen import Gauge
from tests.decide.build import ON, TABLES, TENTHS, damage, episode, flat, number, reading, tire


def found(*readings, place="front_left", region="us", units="us", **more):
    whole = episode(tire(place, *readings, **more), region=region, units=units)
    return decide(whole, TABLES).get(f"tread_left.{place}")


def read_of(*readings, region="us", **more):
    part = next(iter(topic.parts(episode(tire("front_left", *readings, **more), region=region), TABLES)))
    return topic.read_part(part, TABLES)


def test_49_cfr_393_75_b_any_point_counts_so_the_lowest_of_all_stations_governs():
    finding = found(reading(((7, 6, 7), (7, 7, 7), (5, 5, 4))))
    assert (finding.value, finding.unit) == (4, "32nds")
    assert finding.inputs[0] == "specimens[0].readings[0].depths[2][2]"


@pytest.mark.parametrize(("new", "now", "percent"), [(10, 6, 50), (11, 5, 100 / 3), (8, 2, 0)])
def test_usable_tread_is_now_less_limit_over_new_less_limit(new, now, percent):
    """Definition in the handbook rows E113, E115 and E116, computed."""
    finding = found(flat(now), depth_new=depth(new, "32nds"))
    assert number(finding, "usable_left") == pytest.approx(percent, abs=0.01)
    assert "2/32 in" in next(f.label for f in finding.figures if f.name == "usable_left")


def test_the_wear_bars_are_as_high_as_49_cfr_571_139_s5_4_asks():
    finding = found(flat(6))
    assert number(finding, "wear_bar") == 1.6
    assert any(source.title == "49 CFR 571.139" for source in finding.sources)


def test_share_of_full_depth_is_now_over_new():
    """Definition in the handbook row E117, computed."""
    assert number(found(flat(6), depth_new=depth(10, "32nds")), "full_depth_share") == pytest.approx(60)


@pytest.mark.parametrize(
    ("region", "limit", "unit", "title"),
    [
        ("us", 2, "32nds", "49 CFR 570.9"),
        ("us-md", 2, "32nds", "49 CFR 570.9"),
        ("de", 1.6, "mm", "StVZO"),
        ("uk", 1.6, "mm", "Road Vehicles (Construction and Use) Regulations 1986"),
        ("fr", 1.6, "mm", "French order of 29 July 1970 on tires"),
        ("at", 1.6, "mm", "Council Directive 89/459/EEC"),
        ("ca-qc", 1.6, "mm", "Government of Quebec"),
        ("au", 1.5, "mm", "Western Australia Road Traffic (Vehicles) Regulations 2014"),
    ],
)
def test_the_legal_minimum_is_the_regions_own(region, limit, unit, title):
    finding = found(flat(6), region=region)
    assert (finding.limit, finding.unit) == (limit, unit)
    assert finding.sources[0].title == title


@pytest.mark.parametrize(
    ("value", "unit", "gauge", "region", "verdict", "close"),
    [
        (2, "32nds", Gauge(resolution=depth(1, "32nds")), "us", "replace", True),
        (1, "32nds", Gauge(resolution=depth(1, "32nds")), "us", "replace", False),
        (2.5, "32nds", Gauge(resolution=depth(1, "32nds")), "us", "inspect", True),
        (3, "32nds", Gauge(resolution=depth(1, "32nds")), "us", "watch", False),
        (2.5, "32nds", Gauge(resolution=depth(0.5, "32nds")), "us", "inspect", True),
        (1.6, "mm", TENTHS, "us", "inspect", True),
        (1.6, "mm", TENTHS, "de", "replace", True),
        (1.3, "mm", TENTHS, "de", "replace", False),
        (1.8, "mm", TENTHS, "de", "inspect", True),
        (1.9, "mm", TENTHS, "de", "watch", False),
        (2, "32nds", Gauge(resolution=depth(1, "32nds")), "de", "replace", True),
        (4, "32nds", Gauge(resolution=depth(1, "32nds")), "us", "watch", False),
        (5, "32nds", Gauge(resolution=depth(1, "32nds")), "us", "keep", False),
    ],
)
def test_at_below_and_above_the_limit_as_far_as_the_gauge_can_tell(value, unit, gauge, region, verdict, close):
    """Half a step and 0.2 mm by hand: 0.60 mm for steps of 1/32 in, 0.25 mm for steps of 0.1 mm."""
    finding = found(flat(value, unit=unit, gauge=gauge), region=region)
    assert finding.verdict == verdict
    assert ("oo close to call with this gauge" in finding.sentence) is close


@pytest.mark.parametrize(
    ("region", "season", "value", "verdict", "words"),
    [
        ("us", "all_season", 3.9, "watch", "wet-road advice"),
        ("us", "winter", 4.9, "watch", "winter-tire advice"),
        ("us", "winter", 5.0, "watch", "too close to the winter-tire advice of 5/32 in to call"),
        ("us", "winter", 5.8, "keep", ""),
        ("at", "winter", 5.0, "replace", "Austria's winter minimum of 4.0 mm"),
        ("at", "winter", 5.1, "inspect", "Too close to call"),
        ("at", "winter", 5.8, "keep", ""),
        ("at", "summer", 4.6, "keep", ""),
        ("de", "summer", 3.7, "watch", "summer-tire advice of 3.0 mm"),
        ("no", "studded", 3.7, "replace", "counts as worn out"),
    ],
)
def test_advice_and_winter_minima_on_1_march_speak_under_their_own_name(region, season, value, verdict, words):
    units = "us" if region == "us" else "metric"
    finding = found(flat(value), region=region, season=season, units=units)
    assert finding.verdict == verdict
    assert words in finding.sentence


def test_advice_is_called_advice_in_the_working():
    lines = " ".join(found(flat(3), season="winter").working)
    assert "Wet-road advice (advice, not law)" in lines and "Winter-tire advice (advice, not law)" in lines


def test_a_temporary_spare_is_held_against_the_law_alone():
    finding = found(reading(((3, 3, 3),)), place="spare", marking="T145/80D17 107M", depth_new=None)
    assert finding.verdict == "keep" and "short trips" in finding.sentence
    assert finding.caution == TABLES.cautions["temporary_spare"].text
    assert found(reading(((2, 3, 3),)), place="spare", marking="T145/80D17 107M").verdict == "replace"


@pytest.mark.parametrize("kind", ["cord", "bulge", "separation"])
def test_illinois_92_428_20_condemning_damage_outweighs_any_depth(kind):
    finding = found(flat(9, damage=(damage(kind),)))
    assert finding.verdict == "replace" and "Do not drive on it" in finding.sentence
    assert finding.caution == TABLES.cautions["damage"].text
    assert found(flat(1, damage=(damage(kind),))).verdict == "replace"


def test_damage_does_not_heal_when_a_later_reading_is_silent_about_it():
    older = flat(9, on=dt.date(2026, 1, 3), damage=(damage("bulge"),))
    assert "Do not drive" in found(older, flat(9)).sentence
    cracked = found(flat(9, damage=(damage("cracks"),)))
    assert cracked.verdict == "inspect" and "cracks (sidewall), 14 Feb 2026" in " ".join(cracked.working)
    assert "but shows cracks: have it looked at" in cracked.sentence


@pytest.mark.parametrize(
    ("code", "verdict", "words"),
    [("3621", "keep", ""), ("3618", "inspect", "but is 7.5 years old: have it looked at"),
     ("3614", "replace", "but is 11.5 years old: replace it"),
     ("317", "replace", "but was made before July 2000: replace it")],
)  # fmt: skip
def test_an_old_tire_is_not_told_that_it_can_stay_on(code, verdict, words):
    """The ages are the advice of the age topic: vehicle makers' handbooks six years, British practice of 2001 ten."""
    finding = found(flat(9), date_code=code)
    assert finding.verdict == verdict and words in finding.sentence
    assert ("By the topic age, whatever its tread" in " ".join(finding.working)) is bool(words)
    assert (finding.caution == TABLES.cautions["over_age"].text) is bool(words)
    assert (finding.value, finding.margin) == (9, 7)
    assert ("By its tread alone it would have tread enough." in finding.would_change) is bool(words)


@pytest.mark.parametrize(
    ("zone", "verdict", "words"),
    [("shoulder", "replace", "a hole beyond repair. Do not drive on it"),
     ("crown", "inspect", "but is punctured: have it looked at")],
)  # fmt: skip
def test_bs_au_159g_a_punctured_tire_is_not_told_that_it_can_stay_on(zone, verdict, words):
    finding = found(flat(9, damage=(damage("puncture", zone),)))
    assert finding.verdict == verdict and words in finding.sentence


def test_a_worn_out_tire_stays_worn_out_whatever_else_is_held_against_it():
    finding = found(flat(1, damage=(damage("cracks"),)), date_code="3618")
    assert finding.verdict == "replace" and "is done" in finding.sentence
    assert "By the topic age" in " ".join(finding.working)


def test_4_1_mm_against_the_winter_advice_of_4_mm_is_too_close_to_call_with_a_gauge_of_0_1_mm():
    """Half a step 0.05 mm and 0.2 mm by hand: 4.1 mm may be 3.85 mm."""
    finding = found(flat(4.1, unit="mm", gauge=TENTHS), region="de", season="winter", units="metric")
    assert finding.verdict == "watch" and finding.sentence == (
        "Front left is legal at 4.1 mm; too close to the winter-tire advice of 4.0 mm to call."
    )
    assert any("not under it, too close to call with this gauge" in line for line in finding.working)
    assert found(flat(4.3, unit="mm", gauge=TENTHS), region="de", season="winter").verdict == "keep"
    under = found(flat(3.7, unit="mm", gauge=TENTHS), region="de", season="winter", units="metric")
    assert "under the winter-tire advice of 4.0 mm" in under.sentence


def test_damage_is_said_even_before_any_depth_was_read():
    finding = found(reading((), damage=(damage("cord"),)))
    assert finding.verdict == "replace" and finding.missing == ("a depth reading",)


def test_without_a_reading_it_says_what_is_missing():
    finding = found()
    assert (finding.verdict, finding.value, finding.missing) == ("unknown", None, ("a depth reading",))
    assert found(flat(6), region="zz").verdict == "unknown"


def test_the_last_reading_up_to_the_day_counts():
    earlier, later = flat(8, on=dt.date(2025, 9, 1)), flat(5, on=dt.date(2026, 2, 1))
    assert found(later, earlier).value == 5
    before = episode(tire("front_left", later, earlier), on=dt.date(2025, 12, 1))
    assert decide(before, TABLES).get("tread_left.front_left").value == 8


def test_of_two_readings_on_one_day_the_one_entered_last_counts_everywhere():
    its = tire("front_left", flat(8), flat(5))
    assert found(flat(8), flat(5)).value == 5 and its.latest.depths[0][0] == 5


def test_a_reading_above_the_new_depth_is_remarked_not_hidden():
    finding = found(flat(11), depth_new=depth(10, "32nds"))
    assert finding.word("remark") and number(finding, "full_depth_share") == pytest.approx(110)


def test_two_tires_on_the_bench_speak_under_their_ids_even_if_one_has_the_name_of_a_place():
    whole = episode(
        tire("front_left", flat(6)),
        tire("bench", flat(3), id="front_left", name="yard find"),
        tire("bench", flat(3), id="old", name="A\x07\u202ename " * 20),
    )
    findings = decide(whole, TABLES)
    assert [f.subject for f in findings.of("tread_left")] == ["front_left", "front_left_2", "old"]
    assert findings.get("tread_left.front_left_2").sentence.startswith("“yard find” is legal at")
    assert "\u202e" not in findings.get("tread_left.old").sentence


@given(
    lower=st.floats(0, 12), higher=st.floats(0, 12), step=st.sampled_from([0.01, 0.1, 0.5, 0.79375]),
    region=st.sampled_from(sorted(TABLES.regions)),
    season=st.sampled_from(["summer", "all_season", "winter", "studded"]),
)  # fmt: skip
def test_more_tread_never_gives_a_worse_verdict(lower, higher, step, region, season):
    lower, higher = sorted((lower, higher))
    gauge = Gauge(resolution=depth(step, "mm"))
    less, more = (
        found(flat(d, unit="mm", gauge=gauge), region=region, season=season).verdict for d in (lower, higher)
    )
    assert SEVERITY.index(more) <= SEVERITY.index(less)


@given(value=st.floats(0, 12), unit=st.sampled_from(["mm", "32nds"]), region=st.sampled_from(["us", "de", "at"]))
def test_the_unit_system_changes_words_and_no_verdict(value, unit, region):
    us, metric = (found(flat(value, unit=unit), region=region, units=units) for units in ("us", "metric"))
    assert (us.verdict, us.value, us.limit, us.margin) == (metric.verdict, metric.value, metric.limit, metric.margin)


@given(value=st.floats(0, 12), other=st.floats(0, 12), region=st.sampled_from(["us", "de", "at", "ca-bc"]),
       season=st.sampled_from(["all_season", "winter"]))  # fmt: skip
def test_what_would_change_it_does_change_it(value, other, region, season):
    """The change that the finding names, made in the episode, gives the verdict that the finding promises."""
    grid = ((value, other), (other, other))
    its = read_of(reading(grid, unit="mm", gauge=TENTHS), region=region, season=season)
    for change, sign in ((worse(its), -1), (better(its), 1)):
        if change is None:
            continue
        least = min(value, other) + change.more.value + sign * 1e-5
        if sign < 0:
            grid_then = tuple(tuple(least if d == min(value, other) else d for d in groove) for groove in grid)
        else:
            grid_then = tuple(tuple(max(least, d) for d in groove) for groove in grid)
        again = found(reading(grid_then, unit="mm", gauge=TENTHS), region=region, season=season)
        assert again.verdict == change.verdict


@given(
    grid=st.lists(st.lists(st.one_of(st.none(), st.floats(0, 14)), min_size=0, max_size=4), min_size=0, max_size=4),
    region=st.sampled_from(sorted(TABLES.regions)), units=st.sampled_from(["us", "metric"]),
)  # fmt: skip
def test_every_finding_has_sources_caution_working_inputs_that_resolve_and_a_short_sentence(grid, region, units):
    whole = episode(tire("rear_right", reading(grid)), region=region, units=units)
    for finding in decide(whole, TABLES).of("tread_left"):
        assert finding.sources and finding.caution and finding.inputs
        assert all(value_at(whole, path) is not None for path in finding.inputs)
        assert len(finding.sentence) <= 111
        assert finding.verdict == "unknown" or finding.working
        assert "nan" not in " ".join((finding.sentence, *finding.working)).lower()


def test_a_verdict_comes_from_memory_until_something_it_depends_on_changes():
    whole = episode(tire("front_left", flat(6)), tire("front_right", flat(6)))
    edited = (whole.specimens[0], tire("front_right", flat(5)))
    other = msgspec.structs.replace(whole, title="Another", specimens=edited)
    first, second = decide(whole, TABLES), decide(other, TABLES)
    assert first.get("tread_left.front_left") is second.get("tread_left.front_left")
    assert first.get("tread_left.front_right") != second.get("tread_left.front_right")
    assert whole.on == ON


@pytest.mark.parametrize(
    ("on", "season", "mm", "verdict"),
    [
        ("2026-11-21", "summer", 2.6, "replace"),
        ("2026-11-21", "winter", 2.6, "replace"),
        ("2026-07-01", "summer", 2.6, "watch"),
        ("2026-10-31", "summer", 2.6, "watch"),
        ("2026-11-21", "summer", 3.4, "watch"),
    ],
)
def test_norway_asks_3_mm_of_any_tire_in_winter(on, season, mm, verdict):
    """Norwegian Public Roads Administration; rule of 25 January 1990 no. 92: from 1 November, any tire."""
    one = tire("front_left", flat(mm, unit="mm", gauge=TENTHS), season=season, date_code="3625")
    whole = episode(one, region="no", units="metric", on=dt.date.fromisoformat(on))
    finding = decide(whole, TABLES).get("tread_left.front_left")
    assert finding.verdict == verdict
    if verdict == "replace":
        assert "under the legal 3.0 mm" in finding.sentence and "on" in finding.inputs
        assert (finding.limit, finding.unit) == (3, "mm")


@pytest.mark.parametrize("code", ["3625", "3619"])
def test_no_age_hides_a_winter_law(code):
    """Austria: 4 mm for radial winter tires from 1 November to 15 April (Austrian federal citizen portal)."""
    one = tire("front_left", flat(3.6, unit="mm", gauge=TENTHS), season="winter", date_code=code)
    whole = episode(one, region="at", units="metric", on=dt.date(2026, 11, 21))
    finding = decide(whole, TABLES).get("tread_left.front_left")
    assert finding.verdict == "replace"
    assert finding.sentence.startswith("Front left no longer counts as a winter tire at 3.6 mm")
    summer = decide(episode(one, region="at", on=dt.date(2026, 7, 1)), TABLES).get("tread_left.front_left")
    assert summer.verdict != "replace"
