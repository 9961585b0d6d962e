"""Privacy: nothing that tells who wrote a comment stays in it; tires' own markings do."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from studio.questions.reading import read
from studio.questions.scrub import GONE, scrub

SECRETS = [
    ("Greg wrote: 5/32 ok?", "Greg"),
    ("hi Mike, 5/32 ok?", "Mike"),
    ("5/32 ok? Thanks, Susan", "Susan"),
    ("5/32 ok?\n-- Jim", "Jim"),
    ("5/32 ok?\nJoan K.", "Joan"),
    ("I'm Dave from Ohio, 5/32 ok?", "Dave"),
    ("my name is anna and 5/32 ok?", "anna"),
    ("hi bob, 5/32 ok? thanks pete", "bob"),
    ("5/32 ok thanks pete", "pete"),
    ("@TreadHead_99 5/32 ok?", "TreadHead"),
    ("5/32? see https://who.example/me?x=1", "who.example"),
    ("5/32? www.mypage.example", "mypage"),
    ("5/32? mypage.shop", "mypage"),
    ("5/32? bob.smith@mail.example.com", "bob.smith"),
    ("5/32? bob at mail dot com", "mail dot"),
    ("5/32? call 555-234-5678", "555-234"),
    ("5/32? +49 171 2345678", "2345678"),
    ("5/32? 0171 5551234", "5551234"),
    ("5/32? plate ABC 1234", "ABC 1234"),
    ("B-MW 1234 5/32?", "B-MW"),
    ("AB12 CDE 5/32?", "AB12"),
    ("5/32? 1HGCM82633A004352", "1HGCM82633A004352"),
    ("VIN 82633A004352 5/32?", "82633A004352"),
    ("Username: roadking_77\n5/32?", "roadking"),
    ("my insta: tire.queen 5/32?", "tire.queen"),
]


@pytest.mark.parametrize(("text", "secret"), SECRETS)
def test_what_tells_the_author_goes(text: str, secret: str) -> None:
    clean = scrub(text)
    assert secret not in clean.text and GONE in clean.text and clean.removed
    assert "5/32" in clean.text


@pytest.mark.parametrize(
    "text",
    [
        "235/60R18 103V XL",
        "LT245/75R16 120/116S E",
        "DOT XJ4K 9B2R 2319",
        "DOT 1HUL RT9R 0119",
        "P215/65R17 98T",
        "31x10.50R15",
        "235 60 18",
        "5/32 left, was 8/32",
        "41,200 miles on the clock",
        "35 psi at 20C",
        "UTQG 400 A A",
        "I'm running AWD",
        "Thanks for the video",
        "Hello There",
        "thanks guys",
        "T145/80D17 107M",
        "1.6 to 2.2 mm",
        "week 23 of 2019",
        "2026-03-01",
        "we met at work. it was 5/32",
    ],
)
def test_what_tires_say_stays(text: str) -> None:
    assert scrub(text).text == text


def test_what_was_removed_is_counted() -> None:
    assert dict(scrub("@a_b and @c_d, 5/32?").removed) == {"handle": 2}
    assert "characters beyond" in scrub("5/32 " * 10_000).removed[-1][0]


@given(st.text(max_size=300))
def test_scrubbing_twice_changes_nothing_that_is_read(text: str) -> None:
    once = scrub(text).text
    assert len(once) <= 10_000 and not any(ord(c) < 32 and c != "\n" for c in once)
    assert isinstance(read(once).facts, tuple)


@pytest.mark.parametrize("part", ["a-", "@", "1", "a@", "A-1 ", "Ab ", "hi Bob, ", ".com", "0171 "])
def test_long_text_ends(part: str) -> None:
    assert len(scrub(part * (1_000_000 // len(part))).text) <= 10_000
