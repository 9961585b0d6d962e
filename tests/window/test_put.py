"""Put a value in by its path, and find where two episodes differ."""

import pytest
from hypothesis import given
from hypothesis import strategies as st
from msgspec.structs import replace

from studio.model.paths import value_at
from studio.window.difference import first_difference
from studio.window.differences import MOST_LINES, differences
from studio.window.put import put
from tests.window.helpers import five_tires, reading, with_reading

EPISODE = with_reading(five_tires(), 2, reading((8.0, 7.0), (6.0, 5.0)))
PATHS = ["title", "car.name", "car.placard.rear.marking", "specimens[4].marking", "specimens[2].readings[0].note"]


@given(st.sampled_from(PATHS), st.text(max_size=20))
def test_what_is_put_in_is_found_there_and_all_else_is_shared(path, text):
    after = put(EPISODE, path, text)
    assert value_at(after, path) == text
    assert put(after, path, value_at(EPISODE, path)) == EPISODE
    assert after.specimens[0] is EPISODE.specimens[0]


@given(st.sampled_from(PATHS), st.text(min_size=1, max_size=20))
def test_the_first_difference_is_the_path_of_what_was_put_in(path, text):
    after = put(EPISODE, path, "=" + text)
    assert first_difference(EPISODE, after) == path
    assert first_difference(after, EPISODE) == path


def test_one_depth_is_found_in_the_grid():
    assert first_difference(EPISODE, put(EPISODE, "specimens[2].readings[0].depths[1][0]", 4.0)) == (
        "specimens[2].readings[0].depths[1][0]"
    )


def test_a_tire_more_or_less_is_found_where_it_stands():
    without = replace(EPISODE, specimens=EPISODE.specimens[:3])
    assert first_difference(EPISODE, without) == "specimens[3]"
    assert first_difference(EPISODE, EPISODE) == ""


@pytest.mark.parametrize("path", ["specimens[9].marking", "car.wings", "title[0]"])
def test_a_path_that_leads_nowhere_is_refused(path):
    with pytest.raises(LookupError, match="nothing at"):
        put(EPISODE, path, "x")


def test_differences_are_lines_a_person_can_read():
    after = put(put(EPISODE, "car.name", "Van"), "specimens[2].readings[0].depths[0][1]", None)
    assert differences(EPISODE, after) == (
        "car.name: 'Test wagon' → 'Van'",
        "specimens[2].readings[0].depths[0][1]: 7.0 → nothing",
    )


def test_a_pressure_is_shown_as_a_pressure():
    after = put(EPISODE, "car.placard.front.pressure", None)
    assert differences(EPISODE, after) == ("car.placard.front.pressure: 35 psi → nothing",)


def test_no_more_differences_than_one_can_read():
    after = replace(EPISODE, specimens=())
    many = differences(replace(EPISODE, specimens=EPISODE.specimens * 12), after)
    assert len(many) == MOST_LINES + 1
    assert many[-1] == "and 20 more"
