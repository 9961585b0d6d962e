"""A number that changes after publication calls for its correction; one that stays the same does not."""

import datetime as dt

from msgspec.structs import replace

from studio.handoff.published import corrections, publication
from tests.handoff.test_making import EPISODE, FRONT_LEFT, REAR_LEFT, live, material_of, with_reading

SPOKEN = live(
    EPISODE, "The front left has {tread_left.front_left}, {tread_left.front_left margin both} above the limit."
)  # fmt: skip


def published():
    made = publication(material_of(SPOKEN), "One tire or four")
    return replace(SPOKEN, published=(made,))


def test_every_live_number_is_kept_with_its_place_and_inputs() -> None:
    (made,) = published().published
    assert [(said.finding, said.number, said.text) for said in made.said] == [
        ("tread_left.front_left", "value", "9/32 in"), ("tread_left.front_left", "margin", "7/32 in (5.6 mm)"),
    ]  # fmt: skip
    assert made.on == dt.date(2026, 11, 14)
    assert made.said[0].segment == EPISODE.rundown.segments[0].id and made.said[0].at_s == 0
    assert any("outer groove" in each.words for each in made.said[0].made_from)


def test_nothing_changed_needs_no_correction() -> None:
    assert corrections(material_of(published())) == ()


def test_a_changed_reading_gives_the_correction_with_the_reason() -> None:
    first, second = corrections(material_of(with_reading(published(), FRONT_LEFT, 8.0)))
    assert first.said == "9/32 in"
    assert first.where == f"{EPISODE.rundown.segments[0].title}, at 0:00"
    assert first.right.startswith("It is 8/32 in (6.4 mm).")
    assert first.why == ("front left, reading of 7 Nov 2026, outer groove, place 1: 9/32 in, now 8/32 in.",)
    assert first.text().startswith("Correction to “One tire or four” (")
    assert second.said == "7/32 in (5.6 mm)" and second.right.startswith("It is 6/32 in (4.8 mm).")


def test_another_tire_s_reading_needs_none() -> None:
    assert corrections(material_of(with_reading(published(), REAR_LEFT, 4.0))) == ()


def test_what_can_no_longer_be_said_is_said_to_be_so() -> None:
    gone = replace(published(), specimens=tuple(t for t in SPOKEN.specimens if t.id != FRONT_LEFT))
    made = corrections(material_of(gone))
    assert len(made) == 2
    assert all("no longer" in each.right or "not" in each.right.lower() for each in made)
