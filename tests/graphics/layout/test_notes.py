"""Notes: values with labels, set in rows that fit; the deciding number large, its unit smaller."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from studio.graphics.frame import FRAMES, Box
from studio.graphics.layout.notes import (
    Note,
    deciding_note,
    first_middle,
    height,
    least_number_width,
    note_of,
    rows,
    set_note,
)
from studio.graphics.layout.text import box, width
from studio.graphics.look import shipped_looks
from studio.model.quantity import depth, length

LOOK = shipped_looks()["chalk"]
WIDE, TALL = FRAMES["wide"], FRAMES["tall"]


def texts(note: Note, room: float) -> list[str]:
    return [text.strip() for row in rows(note, WIDE, room) for text, *_ in row.parts]


def test_a_note_gives_a_quantity_in_the_audiences_units_and_the_other_system_after_it():
    us, metric = (note_of("n", depth(5, "32nds"), "left", units) for units in ("us", "metric"))
    assert (us.value, us.other) == ("5/32 in", "4.0 mm")
    assert (metric.value, metric.other) == ("4.0 mm", "5/32 in")


def test_the_deciding_number_parts_from_its_unit():
    note = deciding_note("n", depth(5, "32nds"), "left", "us")
    assert (note.value, note.unit, note.other, note.priority) == ("5/32", "in", "4.0 mm", 0)


def test_the_deciding_number_is_the_largest_and_its_unit_at_least_a_callout():
    first = rows(deciding_note("n", depth(5, "32nds"), "left", "us"), WIDE, 600.0)[0]
    (_, number, _, _, role), (_, unit, _, _, _) = first.parts
    assert role == "deciding" and number >= WIDE.cap_height("deciding")
    assert WIDE.cap_height("callout") <= unit < number


@pytest.mark.parametrize("room", [205.0, 260.0, 320.0, 500.0])
def test_a_deciding_number_shrinks_to_its_least_size_and_no_further(room):
    note = deciding_note("n", depth(10.5, "32nds"), "left", "us")
    parts = rows(note, WIDE, room)[0].parts
    wide = sum(width(text, cap, weight) for text, cap, weight, _, _ in parts)
    assert wide <= max(room, least_number_width(note, WIDE)) + 0.01
    assert parts[0][1] >= WIDE.cap_height("deciding") - 0.01


def test_other_units_and_label_share_a_row_or_stand_apart_without_a_dangling_dot():
    note = deciding_note("n", depth(5, "32nds"), "lowest reading", "us")
    assert "4.0 mm · lowest reading" in texts(note, 700.0)
    narrow = texts(note, 250.0)
    assert "4.0 mm" in narrow and not any(text.endswith("·") for text in narrow)


def test_a_shortened_note_stands_on_one_line_label_first_then_brief_words():
    note = Note(name="n", value="225 mm", label="section width", brief="wide", other="8.86 in")
    assert len(rows(note, WIDE, 500.0)) == 2
    assert texts(note.shortened(), 500.0) == ["225 mm", "section width"]
    room = width("225 mm", WIDE.cap_height("callout"), "semibold") + width("  wide", WIDE.cap_height("small")) + 1
    assert texts(note.shortened(), room) == ["225 mm", "wide"]


def test_what_decides_or_has_no_brief_words_is_not_shortened():
    plain = Note(name="n", value="225 mm", label="section width")
    assert plain.shortened() is plain
    deciding = deciding_note("n", depth(5, "32nds"), "left", "us")
    assert deciding.shortened() is deciding


def test_a_note_is_as_high_as_its_rows_and_is_set_inside_its_box():
    note = note_of("n", length(225.0), "section width", "us")
    high = height(note, WIDE, 400.0)
    place = Box(100.0, 200.0, 400.0, high)
    assert all(place.holds(box(mark), slack=0.5) for mark in set_note(note, place, WIDE, LOOK))


def test_the_first_middle_is_that_of_the_first_lines_capitals():
    note = note_of("n", length(225.0), "section width", "us")
    first = set_note(note, Box(0.0, 0.0, 400.0, 200.0), WIDE, LOOK)[0]
    assert first_middle(note, WIDE, 400.0) == pytest.approx(first.at[1] - first.cap_height / 2)


@given(st.text(max_size=60), st.text(max_size=60), st.floats(210.0, 900.0))
def test_whatever_it_says_a_note_stays_in_its_width(value, label, room):
    note = Note(name="n", value=value, label=label)
    for mark in set_note(note, Box(0.0, 0.0, room, 500.0), TALL, LOOK):
        assert box(mark).right <= room + 0.5 or len(mark.text) <= 1
