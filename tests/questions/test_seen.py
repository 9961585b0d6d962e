"""Which comments ask the same: told by the text alone, so that what is known is found again in whatever order."""

import pytest

from studio.questions.seen import seen


@pytest.mark.parametrize(
    ("one", "other"),
    [
        ("is 5/32 ok for rain?", "IS 5/32 OK FOR RAIN!!"),
        ("is 5/32 ok for rain?", "for rain is 5/32 ok"),
        ("is 5/32 ok for rain?", "is 5/32 ok for rain ?? pls"),
        ("my tires are at 5/32, enough for summer?", "thanks! tires at 5/32 enough for sumer?"),
    ],
)
def test_order_courtesy_and_slips_make_no_other_question(one: str, other: str) -> None:
    assert seen(one).key == seen(other).key


@pytest.mark.parametrize(
    ("one", "other"),
    [
        ("is 5/32 ok for rain?", "is 3/32 ok for rain?"),
        ("is it safe at 5/32", "is it not safe at 5/32"),
        ("front 5/32 and rear 7/32, ok?", "front 7/32 and rear 5/32, ok?"),
        ("33 psi at -5C, how much at 20C", "33 psi at 5C, how much at 20C"),
        ("225/60R17 on my car?", "225/60R18 on my car?"),
        ("bulge on the sidewall, ok?", "crack on the sidewall, ok?"),
        ("asked 3 times, is it legal", "asked 4 times, is it legal"),
    ],
)
def test_another_number_place_or_word_is_another_question(one: str, other: str) -> None:
    assert seen(one).key != seen(other).key
