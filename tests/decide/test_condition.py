"""The condition topic against Illinois 92 Adm. Code 428.20, COMAR, UK reg. 27, the public summaries of BS AU 159."""

import dataclasses
import datetime as dt
from typing import get_args

import msgspec
import pytest
from hypothesis import given
from hypothesis import strategies as st

from studio.decide import condition, decide
from studio.decide.condition_read import judge
from studio.model.finding import SEVERITY
from studio.model.paths import value_at
from studio.model.quantity import Quantity, depth, length
from studio.model.specimen import Damage, DamageKind, Zone
from tests.decide.build import TABLES, TENTHS, episode, flat, number, reading, tire

KINDS, ZONES = get_args(DamageKind), get_args(Zone)


FOUR_MM = length(4)


def hole(zone="crown", size=FOUR_MM, **more):
    return Damage(kind="puncture", zone=zone, size=size, **more)


def found(*damage, at=8, region="us", units="us", gauge=TENTHS, unit="32nds", **more):
    whole = episode(
        tire("rear_left", flat(at, damage=damage, gauge=gauge, unit=unit), **more), region=region, units=units
    )
    return decide(whole, TABLES).get("condition.rear_left")


def lines(finding):
    return " ".join(finding.working)


def test_a_tire_on_which_nothing_was_seen_has_no_finding():
    whole = episode(tire("front_left", flat(8)), tire("front_right", flat(8, damage=(hole(),))))
    assert [f.id for f in decide(whole, TABLES).of("condition")] == ["condition.front_right"]


@pytest.mark.parametrize("kind", ["cord", "bulge", "separation"])
@pytest.mark.parametrize("zone", ZONES)
def test_illinois_428_20_a_and_b_rule_a_tire_out_whatever_its_depth(kind, zone):
    finding = found(Damage(kind=kind, zone=zone), at=10)
    assert finding.verdict == "replace" and "Do not drive on it: replace it." in finding.sentence
    assert finding.sources[0].title == "Illinois 92 Adm. Code 428.20" and finding.sources[0].standing == "published"
    assert finding.caution == TABLES.cautions["damage"].text
    assert "What not to do: do not drive on it, fill it or repair it" in finding.working


@pytest.mark.parametrize("kind", ["cut", "cracks"])
def test_illinois_428_20_a_cuts_and_cracks_rule_it_out_where_cord_shows_when_parted(kind):
    finding = found(Damage(kind=kind, zone="sidewall"))
    assert finding.verdict == "inspect"
    assert finding.missing == ("whether cord shows when its edges are parted",)
    assert "when its edges are parted" in lines(finding)


@pytest.mark.parametrize(
    ("region", "kind", "title"),
    [("us-md", "cracks", "COMAR"), ("us-md", "cord", "COMAR"), ("us-md", "bulge", "COMAR"),
     ("uk", "cord", "Road Vehicles (Construction and Use) Regulations 1986"),
     ("uk", "bulge", "Road Vehicles (Construction and Use) Regulations 1986"),
     ("de", "bulge", "Illinois 92 Adm. Code 428.20"), ("zz", "bulge", "Illinois 92 Adm. Code 428.20")],
)  # fmt: skip
def test_the_regions_own_rule_is_named_first(region, kind, title):
    """COMAR 11.22.04.06(2)-(4); UK reg. 27 in police advice Q405."""
    assert found(Damage(kind=kind, zone="sidewall"), region=region).sources[0].title == title


@pytest.mark.parametrize(
    ("marking", "size_mm", "limit", "over"),
    [("205/55R16 91V", 24, 25, False), ("205/55R16 91V", 25, 25, False), ("205/55R16 91V", 26, 25, True),
     ("315/30R20 104Y", 30, 31.5, False), ("315/30R20 104Y", 32, 31.5, True)],
)  # fmt: skip
def test_uk_reg_27_a_cut_over_25_mm_or_a_tenth_of_the_section_width(marking, size_mm, limit, over):
    finding = found(Damage(kind="cut", zone="sidewall", size=length(size_mm)), region="uk", marking=marking)
    assert (finding.value, finding.limit) == (size_mm, limit)
    assert finding.verdict == "inspect" and ("the law rules the tire out" in lines(finding)) is over
    assert found(Damage(kind="cut", size=length(size_mm)), region="us", marking=marking).limit is None


@pytest.mark.parametrize(
    ("zone", "verdict"),
    [("crown", "inspect"), ("shoulder", "replace"), ("sidewall", "replace"), ("bead", "replace"),
     ("unknown", "inspect")],
)  # fmt: skip
def test_bs_au_159g_only_the_crown_is_repaired(zone, verdict):
    finding = found(hole(zone))
    assert finding.verdict == verdict and finding.caution == TABLES.cautions["repair"].text
    assert ("not repairable" in finding.sentence) is (verdict == "replace")
    assert ("where the hole is, from the tread's center line" in finding.missing) is (zone == "unknown")


@pytest.mark.parametrize(
    ("size", "verdict", "called"),
    [(length(5.9), "inspect", True), (length(6), "inspect", True), (length(6.2), "inspect", False),
     (length(0.25, "in"), "inspect", False), (length(6.4), "replace", True), (length(0.3, "in"), "replace", True),
     (None, "inspect", True)],
)  # fmt: skip
def test_bs_au_159g_the_widest_hole_between_6_mm_and_a_quarter_inch_nobody_can_call(size, verdict, called):
    """6 mm and 1/4 in (6.35 mm) are quoted as one limit."""
    finding = found(hole(size=size))
    assert finding.verdict == verdict
    assert ("between 6 mm and 0.25 in" in lines(finding)) is not called
    assert ("how wide the hole is" in finding.missing) is (size is None)


def test_the_crowns_half_width_is_worked_out_on_paper():
    """0.70 x 225 / 2 = 78.75 mm, the handbook's own example."""
    finding = found(hole())
    assert number(finding, "crown_half_width") == pytest.approx(78.75)
    assert "0.7 × 225 mm / 2 = 78.75 mm to either side of the center line" in lines(finding)
    flotation = found(hole(), marking="31x10.50R15LT 109Q")
    assert number(flotation, "section_width") == pytest.approx(266.7)  # 10.50 in x 25.4
    assert found(hole(), marking="").figure("crown_half_width") is None


@pytest.mark.parametrize(
    ("at", "unit", "region", "state"),
    [(1.9, "32nds", "us", "broken"), (2.0, "32nds", "us", "close"), (2.3, "32nds", "us", "close"),
     (2.4, "32nds", "us", "kept"), (1.5, "mm", "uk", "broken"), (1.6, "mm", "uk", "close"), (1.9, "mm", "uk", "kept")],
)  # fmt: skip
def test_no_repair_below_2_32_in_or_1_6_mm_in_britain(at, unit, region, state):
    """Common practice, no source; BS AU 159f as British fitters restate it. Doubt of a 0.1 mm gauge: 0.25 mm."""
    finding = found(hole(), at=at, unit=unit, region=region)
    expected = {"broken": "worn out: rule broken", "close": "too close to worn out", "kept": "tread left: rule kept"}
    assert finding.verdict == ("replace" if state == "broken" else "inspect")
    assert expected[state] in lines(finding)


@pytest.mark.parametrize(
    ("code", "verdict", "words"),
    [("0126", "inspect", "It is not over age: rule kept"), ("3618", "inspect", "It is 7.5 years old: not for us"),
     ("3614", "replace", "It is 11.5 years old: rule broken"), ("317", "replace", "before July 2000: rule broken"),
     ("", "inspect", "Its age is not known: not known")],
)  # fmt: skip
def test_an_old_tire_is_not_repaired(code, verdict, words):
    """BS AU 159f as restated: no repair of aged rubber; the ages are the advice of the age topic."""
    finding = found(hole(), date_code=code)
    assert finding.verdict == verdict and words in lines(finding)


def test_a_second_hole_and_other_damage_are_not_passed_over():
    two = found(hole(), hole(size=length(3)))
    assert two.verdict == "inspect" and "repairs must not overlap" in lines(two)
    assert "also shows cracks" in lines(found(hole(), Damage(kind="cracks", zone="sidewall")))
    bulge = found(hole(), Damage(kind="bulge", zone="sidewall"))
    assert bulge.verdict == "replace" and "also shows a bulge in the sidewall: rule broken" in lines(bulge)


def test_the_same_hole_seen_again_is_no_second_hole():
    earlier = flat(9, on=dt.date(2026, 1, 2), damage=(hole(size=None),))
    whole = episode(tire("rear_left", earlier, flat(8, damage=(hole(),))))
    assert "repairs must not overlap" not in lines(decide(whole, TABLES).get("condition.rear_left"))


def test_what_only_the_workshop_sees_is_said_to_be_open():
    finding = found(hole())
    assert {"whether it was driven flat", "whether it was repaired since, from inside"} <= set(finding.missing)
    assert "Whether the hole goes straight through shows only inside: not known" in lines(finding)
    assert "off the rim" in lines(finding) and "temporary" in lines(finding)
    assert "run-flat tire" in lines(found(hole(), marking="225/45RF17 91W"))


@pytest.mark.parametrize(("region", "title"), [("sk", "Slovak decree 134/2018"), ("cz", "Czech decree 341/2014")])
def test_after_a_repair_only_the_same_or_a_lower_category(region, title):
    """Slovak decree 134/2018 s. 14(17); Czech decree 341/2014 annex part F."""
    assert f"({title})" in lines(found(hole(), region=region))


def test_in_britain_a_specialist_may_still_be_asked():
    assert "specialist's major repair" in lines(found(hole("shoulder"), region="uk"))
    assert "specialist's major repair" not in lines(found(hole("shoulder"), region="us"))


def test_what_would_change_it_is_found_by_judging_again():
    assert found(hole("shoulder")).would_change == (
        "Within 3.10 in (78.8 mm) of the tread's center line the same hole could perhaps be repaired.",
    )
    assert found(hole("shoulder", length(9))).would_change == (
        "Were it not for a puncture in the shoulder, only its tread and its age would be left to judge.",
    )
    assert found(hole(size=length(9)), units="metric").would_change == (
        "If the hole measured 3 mm (0.12 in) less, it could perhaps be repaired.",
    )
    inside = found(hole(size=length(5)), units="metric").would_change
    assert inside == (
        "More than 78.8 mm (3.10 in) from the tread's center line it could not be repaired.",
        "If cleaning it out makes it over 1.4 mm (0.05 in) wider, it cannot be repaired.",
    )


def test_damage_does_not_heal_and_text_from_outside_is_one_plain_line():
    older = flat(9, on=dt.date(2026, 1, 2), damage=(Damage(kind="bulge", note="Seen\x07\u202e in\nthe yard" * 60),))
    finding = decide(episode(tire("rear_left", older, flat(9))), TABLES).get("condition.rear_left")
    assert finding.verdict == "replace" and "Seen on 2 Jan 2026" in finding.working[0]
    assert not set("\x07\u202e\n") & set(finding.working[0]) and len(finding.working[0]) < 300


any_damage = st.builds(
    Damage, kind=st.sampled_from(KINDS), zone=st.sampled_from(ZONES),
    size=st.sampled_from([None, length(0.1, "in"), length(6), length(6.2), length(12), Quantity(3, "32nds")]),
)  # fmt: skip


@given(
    seen=st.lists(any_damage, min_size=1, max_size=4), more=any_damage, region=st.sampled_from([*TABLES.regions, "zz"]),
    units=st.sampled_from(["us", "metric"]), code=st.sampled_from(["", "0126", "3618", "317"]),
    grid=st.sampled_from([(), ((8.0,),), ((1.0, None), (2.5, 7.0))]),
)  # fmt: skip
def test_every_finding_is_complete_and_more_damage_never_makes_it_better(seen, more, region, units, code, grid):
    verdicts = []
    for damage in (seen, [*seen, more]):
        its = reading(grid, damage=tuple(damage))
        whole = episode(tire("rear_left", its, date_code=code), region=region, units=units)
        finding = decide(whole, TABLES).get("condition.rear_left")
        assert finding.sources and finding.caution and finding.working and len(finding.sentence) <= 100
        assert finding.verdict in ("inspect", "replace")
        for path in finding.inputs:
            value_at(whole, path)
        metric = msgspec.structs.replace(whole, units="metric" if units == "us" else "us")
        assert decide(metric, TABLES).get("condition.rear_left").verdict == finding.verdict
        verdicts.append(SEVERITY.index(finding.verdict))
    assert verdicts[0] <= verdicts[1]


def test_the_limits_come_from_the_tables():
    whole = episode(tire("rear_left", flat(8, damage=(hole(size=length(5)),))))
    (part,) = condition.parts(whole, TABLES)
    assert judge(part, TABLES).verdict == "inspect"
    names = ("hole_most", "hole_most_inch")
    rows = {name: msgspec.structs.replace(TABLES.repair[name], value=4.0, unit="mm") for name in names}
    assert judge(part, dataclasses.replace(TABLES, repair={**TABLES.repair, **rows})).verdict == "replace"
    assert part.tread.depth(8.0) == depth(8.0, "32nds")
