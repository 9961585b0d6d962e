"""The placard read out: nothing is computed, so what was entered comes back, and what is missing is named."""

import pytest

from studio.decide import decide
from studio.model.car import Car, Placard, PlacardTire
from studio.model.quantity import Quantity
from tests.decide.build import TABLES, episode, number


def line(marking="", pressure=0.0, unit="psi"):
    return PlacardTire(marking=marking, pressure=Quantity(pressure, unit) if pressure else None)


def found(front=None, rear=None, spare=None, units="us", **car):
    placard = Placard(front=front or line(), rear=rear or line(), spare=spare or line())
    return decide(episode(car=Car(placard=placard, **car), units=units), TABLES).get("placard.car")


BOTH = line("235/60R18 103H", 36)


def test_equal_axles_are_said_once_with_the_spare_after_them():
    finding = found(BOTH, BOTH, line("T165/80D17 104M", 60))
    # 36 psi is 248 kPa (NIST SP 811, Appendix B: 6.894757 kPa)
    assert finding.sentence == "The placard asks for 36 psi (248 kPa) cold, front and rear; 60 psi in the spare."
    assert number(finding, "spare_pressure") == 60 and finding.value == 36
    assert finding.verdict is None and finding.missing == ()


def test_unequal_axles_are_said_apart():
    finding = found(line("205/55R16 91V", 230, "kPa"), line("205/55R16 91V", 220, "kPa"), units="metric")
    assert finding.sentence == "The placard asks for 230 kPa front and 220 kPa rear, cold."


@pytest.mark.parametrize(
    ("front", "rear", "spare", "says"),
    [
        (line("205/55R16 91V"), None, None, "205/55R16; its cold pressures are not entered yet"),
        (None, line("", 33), None, "33 psi rear, cold."),
        (None, None, line("", 60), "in the spare; the other pressures are missing"),
    ],
)
def test_what_is_not_entered_is_named(front, rear, spare, says):
    finding = found(front, rear, spare)
    assert says in finding.sentence and finding.missing and len(finding.sentence) <= 111


def test_cold_and_the_number_on_the_sidewall_are_explained_with_their_sources():
    finding = found(BOTH, BOTH)
    assert finding.word("cold") == "parked 3 hours or more"  # vehicle handbooks, restated
    assert finding.word("sidewall") == "that is the maximum; use the placard, cold"  # US consumer guidance, published
    assert {"vehicle handbooks", "US consumer guidance"} <= {source.title for source in finding.sources}
    assert "fill cold" in finding.caution


def test_axle_ratings_come_from_the_certification_label():
    finding = found(BOTH, BOTH, front_axle_rating=Quantity(3050, "lb"))
    assert number(finding, "front_axle_rating") == 3050 and finding.figure("rear_axle_rating") is None
    assert any("certification label" in source.title for source in finding.sources)
    assert "car.front_axle_rating" in finding.inputs


def test_an_empty_placard_has_no_finding():
    assert found() is None
    assert found(front_axle_rating=Quantity(3050, "lb")) is None
