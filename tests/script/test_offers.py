"""What typing offers: the numbers that fit, each as it would be filled in."""

import pytest

from studio.script.live import filled, screen_text
from studio.script.offers import forms_of, offers
from tests.script.made_up import MADE_UP, TREAD


def test_own_numbers_come_before_figures() -> None:
    found = offers(MADE_UP, "{tread_left.fr")
    assert [(offer.number, offer.text) for offer in found] == [
        ("value", "4/32 in"), ("limit", "2/32 in"), ("margin", "2/32 in"), ("uncertainty", "0.8/32 in"),
        ("depth", "4/32 in"), ("depth_new", "10/32 in"), ("usable_left", "25 %"),
    ]  # fmt: skip


@pytest.mark.parametrize(
    ("typed", "insert"),
    [
        ("front left new", "{tread_left.front_left depth_new}"),
        ("lowest reading both", "{tread_left.front_left depth both}"),
        ("match tolerance", "{matching.front_axle limit}"),
        ("{choices.four rounded", "{choices.four rounded}"),
    ],
)
def test_words_find_a_number_by_id_name_or_label(typed: str, insert: str) -> None:
    assert offers(MADE_UP, typed)[0].insert == insert


def test_each_offer_fills_to_its_own_text() -> None:
    for offer in [*offers(MADE_UP, ""), *forms_of(TREAD, "depth", "us")]:
        assert screen_text(filled(offer.insert, MADE_UP, "us")) == offer.text


def test_nothing_is_offered_of_what_is_unknown_or_not_there() -> None:
    assert not [offer for offer in offers(MADE_UP, "") if offer.finding == "life.front_left"]
    assert offers(MADE_UP, "no such thing") == [] and forms_of(TREAD, "depht", "us") == []
    assert len(offers(MADE_UP, "", most=3)) == 3
    offers(MADE_UP, "{" * 100_000)
