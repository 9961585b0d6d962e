"""What the program gives is what it gave; ``python -m tests.golden.renew`` keeps a change that is meant."""

import pytest

from studio.decide.admission import problems
from studio.reference.tables import load_tables
from tests.golden.kept import KINDS, as_read_back, changes, kept
from tests.golden.made_up import COUNT, episodes

_MOST_SHOWN = 80


@pytest.mark.parametrize("kind", KINDS)
def test_what_is_given_is_what_was_given(kind: str) -> None:
    before = kept(kind)
    assert before, f"no golden of {kind} is kept"
    lines = list(changes(before, as_read_back(KINDS[kind]())))
    assert not lines, "\n".join(("`python -m tests.golden.renew` shows all of it:", *lines[:_MOST_SHOWN]))


def test_the_made_up_episodes_can_be_opened_and_span_what_they_should() -> None:
    made, tables = episodes(), load_tables()
    assert len(made) == COUNT
    assert {name: found for name, its in made.items() if (found := problems(its, tables))} == {}
    assert {its.region for its in made.values()} == set(tables.regions)
    assert {its.car.drivetrain for its in made.values()} == {"front", "rear", "all", "part_time_four", None}
    assert {its.units for its in made.values()} == {"us", "metric"}
    damaged = [hurt.kind for its in made.values() for tire in its.specimens for r in tire.readings for hurt in r.damage]
    assert len(set(damaged)) >= 5


def test_a_change_of_one_word_is_shown_under_its_heading() -> None:
    before = {"one": ["says a", "value 1"], "two": ["says b"]}
    assert list(changes(before, before)) == []
    now = {"one": ["says c", "value 1"], "three": ["says b"]}
    assert list(changes(before, now)) == ["@ one", "- says a", "+ says c", "@ two", "- says b", "@ three", "+ says b"]
