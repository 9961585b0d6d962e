"""Add, move and remove tires; the order in which a person goes to them; a reading that joins with its first value."""

import pytest
from hypothesis import given
from hypothesis import strategies as st
from msgspec.structs import replace

from studio.decide.admission import problems
from studio.model.episode import PictureChoice
from studio.model.quantity import depth
from studio.reference.tables import load_tables
from studio.window.document import Document
from studio.window.reading_subject import ReadingSubject, new_reading, resized, with_depth
from studio.window.session import measured_on, neighbour, walking_order
from studio.window.specimens import MOST, free_id, free_place, moved, with_new_tire, without_tire
from tests.window.helpers import DAY, five_tires, reading, tire, with_reading

ON_CAR = ("front_left", "front_right", "rear_left", "rear_right", "spare")


@given(st.integers(0, 4), st.sampled_from(ON_CAR))
def test_moving_there_and_back_is_as_before_and_never_puts_two_at_one_place(index, place):
    episode = five_tires()
    left = episode.specimens[index].place
    after = moved(episode, index, place)
    assert after.specimens[index].place == place
    assert problems(after, load_tables()) == ()
    assert moved(after, index, left) == episode


def test_a_tire_from_the_bench_takes_the_place_and_the_one_there_goes_to_the_bench():
    episode = replace(five_tires(), specimens=(*five_tires().specimens, tire("tire_x", "bench")))
    after = moved(episode, 5, "rear_left")
    assert (after.specimens[5].place, after.specimens[2].place) == ("rear_left", "bench")


def test_two_may_lie_on_the_bench():
    after = moved(moved(five_tires(), 0, "bench"), 1, "bench")
    assert [specimen.place for specimen in after.specimens[:2]] == ["bench", "bench"]


def test_tires_are_added_where_there_is_room_and_have_ids_of_their_own():
    episode = replace(five_tires(), specimens=())
    for place in (*ON_CAR, "bench", "bench"):
        assert free_place(episode) == place
        episode = with_new_tire(episode, free_place(episode))
    assert len({specimen.id for specimen in episode.specimens}) == 7
    assert problems(episode, load_tables()) == ()


def test_there_is_an_id_for_every_tire_that_an_episode_may_hold_and_no_more():
    episode = replace(five_tires(), specimens=())
    for _ in range(MOST):
        episode = with_new_tire(episode, "bench")
    assert len({specimen.id for specimen in episode.specimens}) == MOST
    assert free_id(episode) not in {specimen.id for specimen in episode.specimens}
    with pytest.raises(ValueError, match="no more than 200"):
        with_new_tire(episode, "bench")


def test_a_tire_that_is_gone_is_asked_for_by_no_picture():
    chosen = PictureChoice(picture="size_code", specimens=("tire_a", "tire_b"))
    after = without_tire(replace(five_tires(), pictures=(chosen,)), 0)
    assert [specimen.id for specimen in after.specimens] == ["tire_b", "tire_c", "tire_d", "tire_e"]
    assert after.pictures[0].specimens == ("tire_b",)


def test_a_person_goes_to_the_corners_then_the_spare_then_the_bench_whatever_the_files_order():
    episode = five_tires()
    rows = (tire("tire_x", "bench"), *reversed(episode.specimens))
    episode = replace(episode, specimens=rows)
    assert [rows[index].place for index in walking_order(episode)] == [*ON_CAR, "bench"]
    assert neighbour(episode, 0, 1) is None
    assert neighbour(episode, 0, -1) == 1
    assert neighbour(episode, 99, 1) is None


def test_what_was_measured_that_day_is_counted_and_what_was_not_is_not():
    episode = with_reading(five_tires(), 0, reading((5.0,)))
    episode = with_reading(episode, 1, reading((None,)))
    episode = with_reading(episode, 2, reading((5.0,), on=DAY.replace(day=2)))
    assert measured_on(episode, DAY) == (1, 5)


def test_a_draft_joins_the_readings_with_its_first_value_and_leaves_with_its_undo(qapp):
    document = Document(five_tires())
    subject = ReadingSubject(document)
    draft = new_reading(document.episode, document.episode.specimens[0], DAY)
    subject.show_draft(0, draft, "front left")
    assert subject.write("gauge", replace(draft, gauge=replace(draft.gauge, name="dial"))) == ""
    assert (subject.is_draft, document.undo_stack.count()) == (True, 0)
    assert subject.write("depth", with_depth(subject.value(), 0, 0, depth(5.0, "32nds"))) == ""
    assert document.episode.specimens[0].readings[0].gauge.name == "dial"
    assert not subject.is_draft
    document.undo_stack.undo()
    assert subject.is_draft
    assert subject.value().gauge.name == "dial"


def test_a_new_reading_takes_gauge_unit_and_grid_of_the_last_one_and_none_of_its_depths():
    episode = with_reading(five_tires(), 3, reading((5.0, 4.0), (6.0, 5.0)))
    fresh = new_reading(episode, episode.specimens[0], DAY)
    assert fresh.depths == ((None, None), (None, None))
    assert (fresh.place, fresh.gauge) == ("front_left", episode.specimens[3].readings[0].gauge)


def test_the_very_first_reading_is_in_the_units_that_come_first():
    episode = five_tires(units="metric")
    fresh = new_reading(episode, episode.specimens[0], DAY)
    assert (fresh.unit, fresh.gauge.resolution, len(fresh.depths), len(fresh.depths[0])) == (
        "mm", depth(0.1, "mm"), 3, 4,
    )  # fmt: skip


def test_the_first_depth_typed_with_another_unit_turns_an_empty_reading():
    taken = with_depth(reading((None, None)), 0, 0, depth(4.0, "mm"))
    assert (taken.unit, taken.depths) == ("mm", ((4.0, None),))
    taken = with_depth(reading((5.0, None)), 0, 1, depth(25.4, "mm"))
    assert taken.depths == ((5.0, 32.0),)  # NIST SP 811: 25.4 mm are an inch, 32 thirty-seconds


@given(st.integers(1, 8), st.integers(1, 24), st.integers(1, 8), st.integers(1, 24))
def test_a_grid_of_another_shape_keeps_what_still_fits(grooves, stations, more_grooves, more_stations):
    grid = tuple(tuple(float(g * 100 + s) for s in range(stations)) for g in range(grooves))
    after = resized(grid, more_grooves, more_stations)
    assert [len(row) for row in after] == [more_stations] * more_grooves
    for g, row in enumerate(after):
        for s, value in enumerate(row):
            assert value == (float(g * 100 + s) if g < grooves and s < stations else None)
