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
    ("my zapgram: tire.wizard 5/32?", "tire.wizard"),
    ("follow me on zapgram treadwizard 5/32?", "treadwizard"),
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


GLUED = [
    "https://who.example/me?x=1", "http://who.example", "www.mypage.example", "mypage.shop",
    "bob.smith@mail.example.com", "bob at mail dot com",
    "+49 171 2345678", "555-234-5678", "my name is Bertil", "my name is bertil", "I'm Bertil",
    "hi Bertil", "plate ABC 1234", "AB12 CDE", "1HGCM82633A004352", "VIN 82633A004352", "@treadhead", "u/treadhead",
]  # fmt: skip
TOLD = ("who.example", "mypage", "smith", "mail dot", "2345678", "234-5678", "ertil", "1234", "B12 CD", "33A0043",
        "treadhead")  # fmt: skip


@pytest.mark.parametrize("secret", GLUED)
@pytest.mark.parametrize("before", ["", "5/32", "72", "35psi", "ok", "Tread ok,", "x_", "ü", "at 5/32 and 4 mm "])
@pytest.mark.parametrize("after", ["", "?", " 5/32", ", ok?", "\nthanks"])
def test_what_tells_the_author_goes_also_when_glued(before: str, secret: str, after: str) -> None:
    spoken = secret[0].isalpha() and " " in secret and not secret.startswith(("my name", "bob", "AB12"))
    if before[-1:].isalpha() and (spoken or secret.startswith(("u/", "I'm"))):
        before += " "  # letters on letters are one word: nobody can tell where the second begins
    clean = scrub(before + secret + after).text
    assert not [told for told in TOLD if told in clean], clean


@pytest.mark.parametrize("after", ["5/32", "72", "thanks", "Thanks"])
@pytest.mark.parametrize("secret", ["bob.smith@mail.example.com", "555-234-5678", "+49 171 2345678", "mypage.shop/me"])
def test_what_tells_the_author_goes_with_something_glued_behind(secret: str, after: str) -> None:
    clean = scrub(f"at 5/32, {secret}{after}").text
    assert not [told for told in TOLD if told in clean] and "5/32" in clean, clean


@given(st.text(st.characters(codec="utf-8"), max_size=30), st.sampled_from(["https://who.example", "b@mail.example"]),
       st.text(st.characters(codec="utf-8"), max_size=30))  # fmt: skip
def test_no_link_and_no_mail_address_stays_between_whatever_signs(before: str, secret: str, after: str) -> None:
    assert secret not in scrub(before + secret + after).text


@pytest.mark.parametrize(
    "text",
    [
        "32psi@20C, ok?", "5/32@40k miles", "aww.that is low", "driving 225/60R17 at 33psi", "P215/65R17 98T and 0119",
        "DOT0119 on two, DOT 3925 on two", "245/45ZR18 100Y", "LT245/75R16 10PLY", "my size: LT245/75R16",
        "call it 225 60 17", "follow me on the road", "my dealer: no idea",
    ],
)  # fmt: skip
def test_what_looks_alike_stays(text: str) -> None:
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
