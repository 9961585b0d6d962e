"""What a wrong number should have been, in the unit spoken, and from which finding; values read off the findings."""

import pytest

from studio.script.check_text import check_numbers
from tests.script.scoring import ground_of

VAN, ESTATE, TRUCK = "minivan_one_new_tire", "estate_before_winter", "feed_truck_three_hurt_tires"
CASES = (
    (VAN, "ratings.rear_axle", "The rear pair carries 3,523 pounds at the pressure we found.", "3253 lb"),
    (VAN, "rotation.car", "This set has gone 8,630 miles since it was last rotated.", "6830 mi"),
    (VAN, "slip.front_axle", "The right front wheel makes 8.6 rpm more than the left one.", "6.8 rpm"),
    (VAN, "choices.four", "Four new ones run 748 dollars installed.", "784.00 USD"),
    (VAN, "pressure.spare", "The spare is 29 psi short of where it should be.", "19 psi"),
    (VAN, "tread_left.front_left", "The needle stops at 9.1 millimeters on the front left.", "7.1 mm"),
    (VAN, "size.front_left", "The rim is 19 inches.", "18 in"),  # 235/60R18; the tire is 29.10 in tall
    (ESTATE, "placard.car", "2.5 bar in front, so says the sticker on the fuel flap.", "2.30 bar"),
    (ESTATE, "pressure.front_left", "The front left would be only 2.7 bar under the placard then.", "0.27 bar"),
    (ESTATE, "pressure.car", "At eighteen degrees in the workshop I fill to 206 kilopascals in front.", "260 kPa"),
    (ESTATE, "rotation.car", "Thirty-six thousand six hundred kilometres without a rotation.", "63,600 km"),
    (TRUCK, "life.rear_left", "The rear left is good for another 61,600 kilometres.", "16,600 km"),
    (TRUCK, "condition.tire_4", "The bulge is 54 millimetres across.", "45 mm"),
    (TRUCK, "placard.car", "The placard wants 450 kilopascals in front.", "380 kPa"),
)


@pytest.mark.parametrize(("episode", "finding", "sentence", "right"), CASES)
def test_the_right_value_comes_in_the_unit_spoken_from_the_finding_meant(
    episode: str, finding: str, sentence: str, right: str
) -> None:
    wrong = [m for m in check_numbers(sentence, ground_of(episode), frozenset({finding})) if m.state == "contradicted"]
    assert [(mark.expected, mark.source) for mark in wrong] == [(right, finding)]


def test_a_right_number_of_a_wheel_is_not_taken_for_a_slip_of_another() -> None:
    text = "The front left shows 9/32, the front right 4/32."
    marks = check_numbers(text, ground_of(VAN), frozenset({"tread_left.front_left", "tread_left.front_right"}))
    assert [(mark.state, mark.source) for mark in marks] == [
        ("computed", "tread_left.front_left"), ("computed", "tread_left.front_right"),
    ]  # fmt: skip
