"""Where a puncture could be repaired: the crown of the public summary of BS AU 159g, and what rules a repair out."""

import pytest

from studio.decide import decide
from studio.model.finding import Finding
from studio.model.paths import value_at
from studio.model.specimen import Damage
from tests.decide.build import TABLES, episode, flat, number, tire

# nominal section width and crown in mm: 60 % up to 155 mm, 65 % up to 200 mm, 70 % above (BS AU 159g, public summary)
CROWNS = {"155/80R13 79T": (155, 93.0), "185/65R15 88H": (185, 120.25), "225/60R17 99H": (225, 157.5)}


def found(*damage, at=8, region="us", **more) -> Finding | None:
    whole = episode(tire("rear_left", flat(at, damage=damage), **more), region=region)
    return decide(whole, TABLES).get("repair_zone.rear_left")


@pytest.mark.parametrize("marking", CROWNS)
def test_bs_au_159g_the_crown_is_a_share_of_the_nominal_section_width(marking):
    width, crown = CROWNS[marking]
    finding = found(marking=marking)
    assert number(finding, "section_width") == width
    assert number(finding, "crown_width") == pytest.approx(crown)
    assert number(finding, "crown_half_width") == pytest.approx(crown / 2) == pytest.approx(finding.value)
    assert finding.sources[0].title == "British Standard BS AU 159g"


def test_it_says_where_a_hole_could_be_repaired_and_promises_nothing():
    finding = found()
    assert finding.sentence == (
        "Rear left can be repaired, if at all, only within 3.10 in (78.8 mm) of its center line."
    )
    assert finding.verdict is None and finding.caution == TABLES.cautions["repair"].text
    assert "qualified tire professional" in finding.caution and "tire off the wheel" in finding.word("look")


@pytest.mark.parametrize("kind", ["bulge", "cord", "separation"])
def test_what_condemns_a_tire_leaves_nothing_to_repair(kind):
    finding = found(Damage(kind=kind, zone="sidewall"))
    assert finding.sentence.startswith("Rear left is past repair: it shows ")
    assert finding.caution == TABLES.cautions["damage"].text and finding.word("repairable") == "no"


@pytest.mark.parametrize(("at", "past"), [(1, True), (2, False), (8, False)])
def test_no_repair_below_two_thirty_seconds(at, past):  # common practice, no source
    assert ("past repair: its tread is worn out" in found(at=at).sentence) is past


def test_a_recorded_puncture_is_left_to_the_condition_topic():
    assert found(Damage(kind="puncture", zone="crown")) is None


def test_without_a_marking_it_says_what_is_missing():
    finding = found(marking="")
    assert finding.verdict == "unknown" and finding.missing == ("the marking on the sidewall",)
    assert finding.figure("crown_width") is None


def test_its_inputs_are_in_the_episode():
    whole = episode(tire("rear_left", flat(8, damage=(Damage(kind="cracks", zone="sidewall"),))))
    for path in decide(whole, TABLES).get("repair_zone.rear_left").inputs:
        assert value_at(whole, path) is not None
