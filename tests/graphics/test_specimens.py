"""Which finding speaks of which tire, and which tire is shown when nobody chose."""

import pytest

from studio.decide import decide
from studio.graphics.catalogue import CannotShow, Request
from studio.graphics.specimens import chosen_subjects, finding_for, gravest, most_urgent, subject_of
from studio.reference.tables import load_tables
from tests.decide.build import damage, episode, flat, four, tire


def test_a_tire_on_the_car_goes_by_its_place_others_by_their_id():
    its = episode(tire("front_left", id="a"), tire("bench", id="b"), tire("front_left", id="c"))
    assert [subject_of(its, specimen) for specimen in its.specimens] == ["front_left", "b", "c"]


def test_every_subject_is_the_one_that_findings_have():
    its = episode(*four((6, 5, 4, 3)), tire("spare", flat(4)), tire("bench", flat(7), id="old_one"))
    subjects = {finding.subject for finding in decide(its, load_tables()).of("tread_left")}
    assert {subject_of(its, specimen) for specimen in its.specimens} == subjects


def test_choices_keep_their_order_and_no_more_than_the_picture_takes():
    its = episode(*four((6, 5, 4, 3)))
    chosen = Request(specimens=("rear_left", "front_left", "rear_left", "front_right"))
    assert chosen_subjects(its, chosen, most=3) == ("rear_left", "front_left")


def test_a_tire_that_is_gone_is_named():
    with pytest.raises(CannotShow, match="old_one"):
        chosen_subjects(episode(), Request(specimens=("old_one",)), most=1)
    with pytest.raises(CannotShow, match="front left"):
        finding_for(decide(episode(), load_tables()), "size", "front_left")


def test_the_gravest_verdict_weighs_more_than_the_least_depth():
    its = episode(tire("front_left", flat(8, damage=(damage("bulge"),))), tire("front_right", flat(3)))
    found = gravest(decide(its, load_tables()).of("tread_left"))
    assert found is not None and found.subject == "front_left"


def test_of_equal_verdicts_the_least_margin_counts():
    found = gravest(decide(episode(*four((8, 7, 6, 9))), load_tables()).of("tread_left"))
    assert found is not None and found.subject == "rear_left"


def test_wheels_come_before_the_bench_however_bad_it_is():
    its = episode(tire("front_left", flat(8)), tire("bench", flat(1), id="old_one"))
    findings = decide(its, load_tables()).of("tread_left")
    urgent, worst = most_urgent(findings), gravest(findings)
    assert urgent is not None and urgent.subject == "front_left"
    assert worst is not None and worst.subject == "old_one"


def test_with_nothing_measured_nothing_is_urgent():
    assert most_urgent(decide(episode(tire("front_left")), load_tables()).of("tread_left")) is None
