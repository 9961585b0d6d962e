"""Paths into an episode, and what the model's values say of themselves."""

import datetime as dt
from typing import Any

import msgspec
import pytest
from hypothesis import given
from hypothesis import strategies as st

from studio.model.episode import Episode
from studio.model.paths import steps, value_at
from studio.model.problem import Problem
from tests.storage.episodes import SMALL
from tests.strategies import plausible_episodes


def leaves(value: Any, path: str) -> list[tuple[str, Any]]:
    """Every path of an episode with its value, walked without the module under test."""
    found = [(path, value)] if path else []
    if isinstance(value, msgspec.Struct):
        for name in value.__struct_fields__:
            found += leaves(getattr(value, name), f"{path}.{name}" if path else name)
    elif isinstance(value, tuple):
        for index, each in enumerate(value):
            found += leaves(each, f"{path}[{index}]")
    return found


def test_every_path_of_an_episode_leads_to_its_value() -> None:
    all_paths = leaves(SMALL, "")
    assert len(all_paths) > 80
    for path, value in all_paths:
        assert value_at(SMALL, path) is value or value_at(SMALL, path) == value


def test_the_steps_of_a_path() -> None:
    assert steps("specimens[2].readings[0].depths[1][3]") == ("specimens", 2, "readings", 0, "depths", 1, 3)


@pytest.mark.parametrize("path", ["", " ", "a b", "a[", "a[-1]", "a[x]", "a..b", "a.", "a]", "A"])
def test_what_is_no_path(path: str) -> None:
    with pytest.raises(ValueError, match="is not a path into an episode, such as"):
        steps(path)


@given(st.text(max_size=20))
def test_any_text_is_a_path_or_refused(text: str) -> None:
    try:
        value_at(SMALL, text)
    except (ValueError, LookupError):
        return


@pytest.mark.parametrize("path", ["specimens[99]", "nothing", "title.nothing", "on[0]", "specimens.title"])
def test_a_path_that_leads_nowhere(path: str) -> None:
    with pytest.raises(LookupError, match="nothing at"):
        value_at(SMALL, path)


def test_a_problem_reads_as_path_and_message() -> None:
    assert str(Problem("specimens[0].marking", "rim 71 was read")) == "specimens[0].marking: rim 71 was read"
    assert str(Problem("", "two tires stand at the front left")) == "two tires stand at the front left"


@given(plausible_episodes())
def test_who_stands_where(episode: Episode) -> None:
    for specimen in episode.specimens:
        assert episode.standing_at(specimen.place) is specimen
        assert episode.specimen(specimen.id) is specimen
        latest = specimen.latest
        assert latest is not None and latest.on == max(reading.on for reading in specimen.readings)
    assert episode.standing_at("spare") is None and episode.specimen("nobody") is None


def test_the_latest_reading_is_the_last_that_holds_a_depth() -> None:
    first = SMALL.specimens[0]
    empty = msgspec.structs.replace(first.readings[0], on=dt.date(2026, 12, 1), depths=((None,),))
    assert msgspec.structs.replace(first, readings=(empty, *first.readings)).latest == first.readings[0]
    assert msgspec.structs.replace(first, readings=(empty,)).latest is None
