"""A wheel's words: its sign, its number, which of them is set in the deciding size."""

import pytest

from studio.graphics.frame import FRAMES
from studio.graphics.layout.text import box
from studio.graphics.look import shipped_looks
from studio.graphics.parts.wheel_card import FULLNESS, Card, card_marks, card_size
from studio.graphics.scene import Text

WIDE = FRAMES["wide"]
CHALK = shipped_looks()["chalk"]
CARD = Card(name="rear_left", title="Rear left", verdict="watch", number="4/32", unit="in", other="3.2 mm", step=3,
            last=6)  # fmt: skip


def texts(card: Card, fullness="full") -> dict[str, Text]:
    marks = card_marks(card, (50.0, 80.0), WIDE, CHALK, fullness)
    return {mark.name.partition("/")[2]: mark for mark in marks if isinstance(mark, Text)}


@pytest.mark.parametrize("fullness", FULLNESS)
@pytest.mark.parametrize("worst", [False, True])
def test_the_words_fit_the_size_that_the_card_claims(fullness, worst):
    card = Card(name="rear_left", title="Rear left", verdict="watch", number="10.5/32", unit="in", other="8.3 mm",
                worst=worst)  # fmt: skip
    wide, high = card_size(card, WIDE, fullness)
    for mark in texts(card, fullness).values():
        its = box(mark)
        assert its.left >= 50.0 and its.right <= 50.0 + wide + 0.01
        assert its.top >= 80.0 and its.bottom <= 80.0 + high


def test_only_the_worst_tires_number_has_the_deciding_role():
    assert texts(CARD)["depth"].role == "heading"
    worst = texts(Card(name="a", title="A", verdict="replace", number="1/32", unit="in", worst=True))["depth"]
    assert worst.role == "deciding" and worst.cap_height >= WIDE.cap_height("deciding")


def test_a_compact_card_leaves_the_name_to_the_plan_but_a_spare_is_always_named():
    assert "place" in texts(CARD) and "place" not in texts(CARD, "compact")
    spare = Card(name="spare", title="Spare", verdict="keep", number="4/32", unit="in", other="3.2 mm")
    assert texts(spare, "compact")["other"].text == "Spare 3.2 mm"


def test_the_name_comes_with_the_bars_and_number_and_sign_in_the_last_step_of_the_card():
    marks = card_marks(CARD, (0.0, 0.0), WIDE, CHALK)
    steps = {mark.name: mark.step for mark in marks}
    assert steps["rear_left/place"] == 3 and steps["rear_left/depth"] == steps["rear_left/other"] == 6
    assert {step for name, step in steps.items() if "/sign/" in name} == {6}


@pytest.mark.parametrize("fullness", FULLNESS)
def test_a_tire_without_a_reading_says_so(fullness):
    said = texts(Card(name="rear_left", title="Rear left", verdict="unknown"), fullness)
    assert "not measured" in {mark.text for mark in said.values()} and "depth" not in said
