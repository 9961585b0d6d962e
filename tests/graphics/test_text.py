"""Measured text against Pillow, which shapes with a HarfBuzz of its own and draws with FreeType."""

import math

import pytest
from hypothesis import given
from hypothesis import strategies as st
from PIL import ImageFont, features

from studio import shipped
from studio.graphics.layout import text as text_
from studio.graphics.scene import Weight
from tests.graphics.paint.samples import along, line

WEIGHTS: tuple[Weight, ...] = ("regular", "semibold", "bold")
PHRASES = ("Section width 225 mm", "AVATAR To Ty.", "1147/1111", "P225/45ZR17 (91W) XL", "0.5 °C − 5 % × 3", "fi fl ->")


def font(weight: Weight, size: float) -> ImageFont.FreeTypeFont:
    if not features.check("raqm"):
        pytest.skip("Pillow has no text shaping here")
    path = shipped.resources() / "fonts" / text_.FONT_FILES[weight][0]
    return ImageFont.truetype(str(path), size, layout_engine=ImageFont.Layout.RAQM)


@pytest.mark.parametrize("weight", WEIGHTS)
@pytest.mark.parametrize("phrase", PHRASES)
def test_a_line_is_as_wide_as_pillow_says(phrase: str, weight: Weight) -> None:
    set_ = text_.typeset(phrase)
    expected = font(weight, 1000).getlength(set_, features=["kern", "-calt", "-liga"]) / 1000
    assert text_.width(phrase, 100.0, weight) == pytest.approx(expected * text_.font_size(100.0), rel=0.003)


@pytest.mark.parametrize("weight", WEIGHTS)
def test_capitals_are_as_high_as_asked(weight: Weight) -> None:
    _, top, _, bottom = font(weight, text_.font_size(500.0)).getbbox("H", anchor="ls")
    assert (-top, bottom) == (pytest.approx(500, abs=2), 0)


@pytest.mark.parametrize("weight", WEIGHTS)
def test_no_tail_of_a_letter_reaches_below_the_box(weight: Weight) -> None:
    size = text_.font_size(500.0)
    deepest = font(weight, size).getbbox("gjpqyQ", anchor="ls")[3]
    assert deepest <= math.ceil(text_.DESCENT_SHARE * size)


@pytest.mark.parametrize(
    ("given_", "set_"),
    [
        ("5/32 in", "5/32\u2009in"), ("35 psi", "35\u2009psi"), ("20 °C", "20\u2009°C"), ("5 %", "5\u2009%"),
        ("two in", "two in"), ("225 45", "225 45"), ("a\tb\nc", "a b c"), ("a\x00\x1b[31m\u202eb", "a[31mb"),
        ("\ud800x\ufffe", "x"), ("e\u200bf", "ef"),
    ],
)  # fmt: skip
def test_what_is_set_has_thin_spaces_before_units_and_no_control_characters(given_: str, set_: str) -> None:
    assert text_.typeset(given_) == set_


@given(st.text())
def test_setting_twice_changes_nothing(text: str) -> None:
    once = text_.typeset(text)
    assert text_.typeset(once) == once


def test_signs_that_inter_lacks_come_from_the_second_font_and_the_rest_are_named() -> None:
    assert [glyph.font for glyph in text_.shape("a⌀b", "bold")] == [
        "Inter-Bold.ttf", "DejaVuSans-Bold.ttf", "Inter-Bold.ttf",
    ]  # fmt: skip
    assert text_.missing_glyphs("5/32 in ⌀ ≈ ≤ ≥ → Δ ⅜ − × ° ∠ µ é ß Ł") == ""
    assert text_.missing_glyphs("漢a字漢") == "漢字"


@given(st.text(alphabet="AbVTo.5 /", max_size=12))
def test_glyphs_follow_one_another(text: str) -> None:
    glyphs = text_.shape(text, "regular")
    assert [glyph.x for glyph in glyphs] == sorted(glyph.x for glyph in glyphs)
    total = sum(glyph.advance for glyph in glyphs)
    assert text_.width(text, 30.0) == pytest.approx(total * text_.font_size(30.0))


@pytest.mark.parametrize(("anchor", "share"), [("start", 0.0), ("middle", 0.5), ("end", 1.0)])
def test_a_box_hangs_on_its_anchor(anchor: str, share: float) -> None:
    mark = line("Depth", at=(200.0, 100.0), anchor=anchor)
    box = text_.box(mark)
    assert box.left + share * box.width == pytest.approx(200)
    assert (box.top, box.width) == (70, pytest.approx(text_.width("Depth", 30.0)))


@given(st.lists(st.text(alphabet="abcWV5", min_size=1, max_size=14), max_size=12), st.integers(1, 4))
def test_wrapped_lines_fit_and_lose_words_only_behind_an_ellipsis(words: list[str], most: int) -> None:
    lines = text_.wrap(" ".join(words), 20.0, "regular", 300.0, most)
    assert len(lines) <= most
    assert all(text_.width(part, 20.0) <= 300.0 for part in lines)
    if not any("…" in part for part in lines):
        assert " ".join(lines) == " ".join(words)


def test_a_cut_line_ends_in_one_ellipsis() -> None:
    (only,) = text_.wrap("one two three four five six seven eight", 20.0, "regular", 200.0, 1)
    assert only.endswith("…") and only.count("…") == 1 and only.startswith("one two")


@pytest.mark.parametrize("inward", [False, True])
@pytest.mark.parametrize("angle", [0.0, 45.0, 200.0])
def test_text_along_an_arc_is_spread_evenly_about_its_angle(angle: float, inward: bool) -> None:
    mark = along("HHHHH", angle=angle, inward=inward)
    middle = text_.arc_glyphs(mark)[2]
    _, _, x, y, size, turned = middle
    advance = text_.shape("H", mark.weight)[0].advance * size / 2
    here = (x + advance * math.cos(math.radians(turned)), y + advance * math.sin(math.radians(turned)))
    expected = (240 + 90 * math.sin(math.radians(angle)), 135 - 90 * math.cos(math.radians(angle)))
    assert here == pytest.approx(expected, abs=0.01)
    assert turned % 360 == pytest.approx((angle + (180 if inward else 0)) % 360, abs=0.01)


def test_letters_along_an_arc_stay_on_it_and_spacing_spreads_them() -> None:
    def spread(spacing: float) -> float:
        placed = text_.arc_glyphs(along("2255", spacing=spacing))
        middles = [
            (x + math.cos(math.radians(turned)) * half, y + math.sin(math.radians(turned)) * half)
            for (_, glyph, x, y, size, turned) in placed
            for half in [text_.shape("2255", "bold")[0].advance * size / 2]
        ]
        return math.dist(middles[0], middles[-1])

    assert spread(0.2) > spread(0.0) > 0
    assert text_.arc_glyphs(along("")) == ()


@pytest.mark.parametrize(
    ("text", "lines"),
    [
        ("Aaaa aaaa aaaa aaaa aaaa aaaa aaaa, bb", ("Aaaa aaaa aaaa aaaa", "aaaa aaaa aaaa, bb")),
        ("Aaaa aaaa aaaa: bbbb bbbb bbbb bbbb", ("Aaaa aaaa aaaa:", "bbbb bbbb bbbb bbbb")),
        ("Aaaa aaaa", ("Aaaa aaaa",)),
    ],
)
def test_lines_are_of_like_width_and_end_behind_a_piece_of_the_sentence(text: str, lines: tuple[str, ...]) -> None:
    widest = text_.width("Aaaa aaaa aaaa aaaa aaaa aaaa", 40.0, "bold")
    assert text_.wrap_even(text, 40.0, "bold", widest, 3) == lines


@given(st.lists(st.text("abcdefgh.,:", min_size=1, max_size=9), min_size=1, max_size=14), st.integers(1, 4))
def test_evened_lines_fit_and_keep_every_word(words: list[str], most: int) -> None:
    plain = text_.wrap(" ".join(words), 30.0, "regular", 300.0, most)
    even = text_.wrap_even(" ".join(words), 30.0, "regular", 300.0, most)
    assert " ".join(even) == " ".join(plain) and len(even) == len(plain)
    assert all(text_.width(line, 30.0, "regular") <= 300.0 for line in even)


@pytest.mark.parametrize("together", ["24 Oct 2026", "July 2000", "121.00 EUR", "week 31", "No. 30", "6830 mi"])
def test_no_line_ends_within_a_date_or_before_a_currency(together: str) -> None:
    widest = text_.width(f"seen on {together}", 40.0, "regular") - 1
    assert text_.wrap_even(f"seen on {together}", 40.0, "regular", widest, 3) == ("seen on", together)
