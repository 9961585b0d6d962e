"""*Say it*: a finding's sentence with its numbers live."""

import pytest

from studio.decide import decide
from studio.model.finding import Figure, Finding
from studio.model.quantity import depth
from studio.reference.tables import load_tables
from studio.script.live import filled, screen_text
from studio.script.numbers import by_id
from studio.window.rundown_say import point_of, say
from tests.window.rundown_samples import demo, three

DEMOS = ("minivan_one_new_tire", "estate_before_winter", "feed_truck_three_hurt_tires")


def finding(sentence, **more):
    more = {"value": 4.0, "unit": "32nds", "limit": 2.0, "margin": 2.0, "limit_label": "legal minimum", **more}
    figures = (Figure(name="depth", label="lowest reading", quantity=depth(4.0, "32nds")),
               Figure(name="wet_advice", label="wet-road advice", quantity=depth(4.0, "32nds")))  # fmt: skip
    return Finding(id="tread_left.spare", topic="tread_left", subject="spare", sentence=sentence, figures=figures,
                   **more)  # fmt: skip


def test_numbers_of_the_sentence_become_live_in_the_form_they_stand_in():
    made = point_of(finding("It has 4/32 in (3.2 mm), 2/32 in above the limit of 14/32 in."), "us")
    assert made.text == (
        "It has {tread_left.spare both}, {tread_left.spare limit} above the limit of 14/32 in."
    )
    assert made.findings == ("tread_left.spare",)


def test_of_numbers_that_read_alike_the_one_named_before_it_is_meant():
    made = point_of(finding("Legal at 4/32 in; too close to the wet-road advice of 4/32 in."), "us")
    assert made.text == (
        "Legal at {tread_left.spare}; too close to the wet-road advice of {tread_left.spare wet_advice}."
    )


def test_a_sentence_without_its_number_gets_it_by_name():
    assert point_of(finding("It can stay."), "us").text == "It can stay. Lowest reading: {tread_left.spare depth both}."


def test_braces_from_outside_make_no_live_number():
    made = point_of(finding("“{tread_left.front_left}” stands well.", value=None, unit=None), "us")
    assert made.text == "“(tread_left.front_left)” stands well."


@pytest.mark.parametrize("name", DEMOS)
@pytest.mark.parametrize("units", ["us", "metric"])
def test_every_finding_of_a_demo_reads_as_its_sentence_and_leaves_no_hole(name, units):
    found = decide(demo(name), load_tables())
    index, live = by_id(found), 0
    for its in found:
        if its.verdict == "unknown":
            continue
        pieces = filled(point_of(its, units).text, index, units)
        assert all(piece.kind != "hole" for piece in pieces), its.id
        live += any(piece.kind == "number" for piece in pieces)
        if units == demo(name).units:
            assert screen_text(pieces).startswith(its.sentence.rstrip(".").replace("{", "(")), its.id
    assert live > 40


def test_it_is_said_at_the_end_of_the_segment_at_hand_or_in_a_new_one():
    its = finding("It can stay.")
    after, segment, point = say(three(), its, 1)
    assert (segment, point) == (1, 4)
    assert after.rundown.segments[1].points[-1].text.startswith("It can stay.")
    after, segment, point = say(three(), its, -1)
    assert (segment, point, len(after.rundown.segments)) == (3, 0, 4)
