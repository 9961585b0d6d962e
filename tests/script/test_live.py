"""Live numbers: each form against plain arithmetic, holes that show themselves, hostile text left alone."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from studio.model.finding import Findings
from studio.script.live import HOLE, as_written, filled, read_reference, screen_text, spoken_text
from tests.script.made_up import MADE_UP


def shown(text: str) -> str:
    return screen_text(filled(text, MADE_UP, "us"))


def said(text: str) -> str:
    return spoken_text(filled(text, MADE_UP, "us"))


@pytest.mark.parametrize(
    ("text", "screen", "spoken"),
    [
        ("{tread_left.front_left}", "4/32 in", "four thirty-seconds of an inch"),
        ("{tread_left.front_left limit}", "2/32 in", "two thirty-seconds of an inch"),
        # 4/32 in = 3.175 mm
        ("{tread_left.front_left both}", "4/32 in (3.2 mm)",
         "four thirty-seconds of an inch, three point two millimeters"),
        ("{tread_left.front_left margin spoken}", *["two thirty-seconds of an inch"] * 2),
        ("{tread_left.front_left rounded}", *["about an eighth of an inch"] * 2),
        ("{ tread_left.front_left   depth_new  short }", "10/32 in", "ten thirty-seconds of an inch"),
        ("{tread_left.front_left usable_left}", "25 %", "twenty-five percent"),
        ("{matching.front_axle margin}", "−0.30 in", "minus zero point three inches"),
        ("{matching.front_axle both}", "0.80 in (20.3 mm)", "zero point eight inches, twenty point three "
         "millimeters"),
        ("{choices.four}", "784.00 USD", "seven hundred eighty-four dollars"),
        ("{choices.four rounded}", *["about seven hundred eighty-four dollars"] * 2),
    ],
)  # fmt: skip
def test_a_live_number_shows_what_the_finding_says(text: str, screen: str, spoken: str) -> None:
    assert shown(text) == screen and said(text) == spoken


def test_the_metric_audience_gets_millimeters() -> None:
    """4/32 in is 3.175 mm."""
    assert screen_text(filled("{tread_left.front_left both}", MADE_UP, "metric")) == "3.2 mm (4/32 in)"


@pytest.mark.parametrize(
    ("text", "why"),
    [
        ("{tread_left.rear_left}", "the finding tread_left.rear_left is gone"),
        ("{life.front_left}", "life.front_left is unknown"),
        ("{tread_left.front_left depht}", "tread_left.front_left has no number 'depht'"),
        ("{tread_left.front_left depth mean both}", "names no finding"),
        ("{front left}", "names no finding"),
        ("{}", "names no finding"),
    ],
)
def test_what_cannot_be_filled_is_a_hole_that_says_why(text: str, why: str) -> None:
    (piece,) = filled(text, MADE_UP, "us")
    assert piece.kind == "hole" and why in piece.why
    assert piece.text.startswith(HOLE) and why in piece.text and piece.spoken == ""


def test_a_finding_that_vanishes_takes_its_number_with_it() -> None:
    text = "It has {tread_left.front_left} left."
    assert "4/32 in" in shown(text)
    assert "4" not in screen_text(filled(text, Findings(()), "us"))


def test_the_pieces_cover_the_text_in_order_with_their_places() -> None:
    text = "At {tread_left.front_left}, not {life.front_left}!"
    pieces = filled(text, MADE_UP, "us")
    assert [piece.kind for piece in pieces] == ["text", "number", "text", "hole", "text"]
    assert "".join(text[piece.start : piece.end] for piece in pieces) == text
    number = pieces[1]
    assert (number.finding, number.number, number.form) == ("tread_left.front_left", "value", "short")
    assert number.quantity is not None and number.quantity.value == 4.0


@pytest.mark.parametrize("text", ["{tread_left.front_left.__class__}", "{0.__class__.__mro__}", "{a!r:>99}"])
def test_no_way_leads_into_the_program(text: str) -> None:
    assert filled(text, MADE_UP, "us")[0].kind == "hole"


@pytest.mark.parametrize("text", ["<b>&amp;</b> --> \U0001f600 \x00", ""])
def test_other_text_stays_as_it_is(text: str) -> None:
    assert shown(text) == text == said(text)


@given(st.text(st.sampled_from("{} tread_left.front_leftvaluebothx\n"), max_size=80))
def test_any_text_is_covered_without_gaps(text: str) -> None:
    pieces = filled(text, MADE_UP, "us")
    assert "".join(text[piece.start : piece.end] for piece in pieces) == text
    assert all(piece.start < piece.end for piece in pieces)


def test_a_reference_is_written_as_it_is_read() -> None:
    for inside in ("tread_left.front_left", "tread_left.front_left limit", "matching.front_axle both", "a.b c rounded"):
        reference = read_reference(inside)
        assert reference is not None and reference.written() == f"{{{inside}}}"


@pytest.mark.parametrize(
    ("text", "screen", "spoken"),
    [
        ("and only {25 % of it", f"and only {HOLE} unfinished number {HOLE} 25 % of it", "and only 25 % of it"),
        ("left {", f"left {HOLE} unfinished number {HOLE} ", "left "),
        ("a stray } here", f"a stray {HOLE} unfinished number {HOLE} here", "a stray  here"),
        ("{{tread_left.front_left}}", f"{HOLE} unfinished number {HOLE} 4/32 in{HOLE} unfinished number {HOLE}",
         "four thirty-seconds of an inch"),
        ("{far {tread_left.front_left}", f"{HOLE} unfinished number {HOLE} far 4/32 in",
         "far four thirty-seconds of an inch"),
        ("{a\nb}", f"{HOLE} unfinished number {HOLE} a\nb{HOLE} unfinished number {HOLE}", "a\nb"),
    ],
)  # fmt: skip
def test_a_lone_brace_is_a_marked_gap_and_never_shown_or_said(text: str, screen: str, spoken: str) -> None:
    assert shown(text) == screen and said(text) == spoken
    holes = [piece for piece in filled(text, MADE_UP, "us") if piece.kind == "hole"]
    assert {piece.why for piece in holes} == {"unfinished number"}
    assert {text[piece.start : piece.end] for piece in holes} == {piece.source for piece in holes} <= {"{", "}"}


@given(st.text(alphabet="{}a .\n1", max_size=200) | st.text(max_size=300))
def test_no_brace_is_ever_shown_or_said_and_no_other_sign_is_lost(text: str) -> None:
    for pieces in (filled(text, MADE_UP, "us"), as_written(text)):
        assert not set("{}") & set(screen_text(pieces) + spoken_text(pieces))
        assert [(piece.start, piece.end) for piece in pieces] == list(
            zip([0, *(piece.end for piece in pieces)], (piece.end for piece in pieces), strict=False)
        )
        assert sum(piece.end - piece.start for piece in pieces) == len(text)
