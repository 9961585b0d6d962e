"""The age topic against 49 CFR 574.5, the calendar library, and the advice of the handbook."""

import datetime as dt

import pytest
from hypothesis import given
from hypothesis import strategies as st

from studio.decide import decide
from studio.model.finding import SEVERITY
from studio.model.paths import value_at
from tests.decide.build import TABLES, episode, number, tire


def found(code, on=dt.date(2026, 3, 1), place="front_left", region="us"):
    return decide(episode(tire(place, date_code=code, id="it"), on=on, region=region), TABLES).of("age")[0]


def test_49_cfr_574_5_b_3_its_own_example_0109_is_the_week_of_4_to_10_january_2009():
    finding = found("0109")
    assert (finding.word("first_day"), finding.word("last_day")) == ("4 Jan 2009", "10 Jan 2009")
    assert (number(finding, "made_year"), number(finding, "made_week")) == (2009, 1)
    assert finding.sources[0].title == "49 CFR 574.5"


def test_the_handbooks_age_of_3618_on_1_march_2026():
    """Handbook row E146: 7.474 years from the Sunday of the week, 365.2425 days to a year."""
    finding = found("3618")
    assert finding.value == pytest.approx(7.474, abs=0.005) and finding.unit == "years"
    assert finding.word("on") == "1 Mar 2026"
    assert finding.sentence == (
        "Front left is 7.5 years old (week 36 of 2018). Advice: inspect it every year, plan a new one."
    )


@pytest.mark.parametrize(
    ("code", "verdict", "limit"),
    [("0126", "keep", 6), ("1020", "keep", 6), ("0820", "inspect", 10), ("3618", "inspect", 10),
     ("1016", "inspect", 10), ("0816", "replace", 10), ("3605", "replace", 10)],
)  # fmt: skip
def test_below_six_nothing_from_six_inspect_and_plan_from_ten_replace(code, verdict, limit):
    """Handbook, age advice: vehicle makers' handbooks six years, British rubber makers' practice of 2001 ten years."""
    finding = found(code)
    assert (finding.verdict, finding.limit) == (verdict, limit)
    assert finding.limit_label.startswith("advice") and finding.margin == pytest.approx(finding.limit - finding.value)
    advice = [line for line in finding.working if line.startswith("Advice from")]
    assert len(advice) == 3 and all("reached" in line for line in advice)


def test_from_five_years_on_the_working_says_the_trades_yearly_look():
    assert any("Advice from 5 years on (common practice), reached" in line for line in found("0821").working)
    assert any("Advice from 5 years on (common practice), not reached" in line for line in found("1021").working)


@pytest.mark.parametrize("region", ["us", "de", "uk", "zz"])
def test_the_advice_is_no_law_anywhere(region):
    assert "law" not in " ".join(found("3605", region=region).working).lower()
    assert found("3605", region=region).verdict == "replace"


def test_64_fr_36807_three_digits_mean_before_july_2000():
    finding = found("317", place="bench")
    assert finding.verdict == "replace" and "before July 2000" in finding.sentence
    assert number(finding, "made_year") == 1997 and finding.word("decade") == "open"
    assert finding.uncertainty is None and any(line.endswith("at least") for line in finding.working)
    assert finding.sources[0].title.startswith("64 FR 36807")


@pytest.mark.parametrize(
    ("code", "line"),
    [("3618", "on 3 Sep 2018, 6 days earlier"), ("0123", "on 2 Jan 2023, 1 day later"),
     ("0109", "on 29 Dec 2008, 6 days earlier"), ("5220", "on 21 Dec 2020, 6 days earlier")],
)  # fmt: skip
def test_the_iso_week_of_the_same_number_as_in_the_handbooks_table(code, line):
    """Handbook, decoding: US Sunday against ISO Monday, a gap of 6 days or -1 day always (computed there)."""
    assert any(line in text for text in found(code).working)


@pytest.mark.parametrize("code", ["5323", "5317", "5312", "5306"])
def test_a_week_that_only_the_us_rule_has_is_said_to_be_one(code):
    """53 Sundays in 2006, 2012, 2017 and 2023, where ISO 8601 has 52 weeks (handbook, computed)."""
    finding = found(code)
    assert any("by 49 CFR 574.5 only" in line for line in finding.working)
    assert finding.word("rule").startswith("49 CFR 574.5")


def test_what_is_said_of_age_beside_the_advice_has_its_standing():
    """NHTSA decided against an age limit in 2014; DOT HS 810 799 on heat; the UK rule is one for heavy vehicles."""
    us, uk = " ".join(found("3618").working), " ".join(found("3618", region="uk").working)
    assert "There is no US age limit for light-vehicle tires (published)" in us and "no US age limit" not in uk
    assert "Heat shortens a tire's life" in us and "not a rule for cars" in uk
    assert "British rubber makers' practice of June 2001 (published, restated)" in found("3618").limit_label


def test_nhtsa_letter_12375wkm_the_triangle_was_a_trade_sign():
    lines = " ".join(found("317").working)
    assert "not US law" in lines and "1997, or ten or more years earlier" in lines


def test_a_week_that_only_the_iso_calendar_has_is_taken_with_a_remark():
    """2020 has 52 Sundays and 53 ISO weeks (computed with the calendar library in the handbook)."""
    finding = found("5320")
    assert finding.sources[0].title == "ISO 8601" and "ISO 8601 only" in finding.word("remark")
    assert found("5323").sources[0].title == "49 CFR 574.5"


@pytest.mark.parametrize("code", ["", "  ", "abc", "5418", "1126"])
def test_without_a_readable_code_it_says_where_to_look(code):
    finding = found(code)
    assert (finding.verdict, finding.value, finding.missing) == ("unknown", None, ("the date code on the sidewall",))
    assert "inner side" in finding.working[0]


def test_the_day_on_which_the_advice_turns_is_the_day_on_which_it_turns():
    """Every other part of the answer is asked again just before and after the month that it names."""
    finding = found("3618")
    assert finding.would_change == ("In Sep 2028 it turns 10; then the advice is: replace it, whatever its tread.",)
    assert found("3618", on=dt.date(2028, 9, 1)).verdict == "inspect"
    assert found("3618", on=dt.date(2028, 9, 30)).verdict == "replace"


@given(week=st.integers(1, 52), year=st.integers(0, 25), days=st.integers(0, 9000), more=st.integers(0, 4000))
def test_an_older_tire_never_gets_a_milder_verdict_and_every_finding_is_complete(week, year, days, more):
    made = dt.date.fromisocalendar(2000 + year, week, 7)
    code = f"{week:02d}{year:02d}"
    verdicts = []
    for on in (made + dt.timedelta(days=14 + days), made + dt.timedelta(days=14 + days + more)):
        whole = episode(tire("spare", date_code=code), on=on)
        finding = decide(whole, TABLES).get("age.spare")
        assert finding.sources and finding.caution and finding.working and len(finding.sentence) <= 111
        assert all(value_at(whole, path) is not None for path in finding.inputs)
        verdicts.append(SEVERITY.index(finding.verdict))
    assert verdicts[0] <= verdicts[1]
