"""How long texts stand: the reading rule by hand, ``max(2 s, 0.375 s x words + 1 s for each label or long figure)``."""

from fractions import Fraction

import pytest

from studio.graphics.frame import Frame
from studio.graphics.scene import AnyMark, ArcText, Role, Scene, Shape, Text
from studio.graphics.timing import hold_s, long_figures_in, step_holds, words_in

FRAME = Frame(640, 360)


def said(name: str, text: str, step: int = 0, role: Role = "callout") -> Text:
    return Text(name=name, step=step, text=text, at=(50.0, 50.0), cap_height=12.0, fill="#000000", ground="#FFFFFF",
                role=role)  # fmt: skip


def scene(*marks: AnyMark, steps: int = 1) -> Scene:
    names = tuple(f"step {order}" for order in range(steps))
    return Scene(picture="any", frame=FRAME, background="#FFFFFF", marks=marks, steps=names)


@pytest.mark.parametrize(
    ("text", "words", "long"),
    [
        ("", 0, 0),
        ("Rear left is done", 4, 0),
        ("2/32 in", 2, 0),
        ("63,600 km", 4, 1),  # a number of five digits counts as three words
        ("1234 mi", 2, 0),
        ("4400–12,800 mi", 4, 1),
        ("225/60R17 99H", 2, 0),  # no single number in it has five digits
        ("24,630 mi · since first readings", 3 + 1 + 3, 1),  # a lone sign is no word
        ("±0.3 mm", 2, 0),
    ],
)
def test_words_and_long_figures(text: str, words: int, long: int) -> None:
    assert (words_in(text), long_figures_in(text)) == (words, long)


@pytest.mark.parametrize(
    ("words", "labels", "seconds"),
    [(0, 0, Fraction(2)), (2, 1, Fraction(2)), (3, 1, Fraction(17, 8)), (12, 0, Fraction(9, 2)),
     (10, 3, Fraction(27, 4))],
)  # fmt: skip
def test_the_rule_by_hand(words: int, labels: int, seconds: Fraction) -> None:
    assert hold_s(words, labels) == seconds


def test_each_step_is_held_for_what_it_newly_shows() -> None:
    drawn = Shape(name="tire", outline=(("M", 0.0, 0.0), ("L", 9.0, 9.0)))
    picture = scene(
        drawn,
        said("sentence/line0", "Rear left is worn", role="heading"),
        said("sentence/line1", "since 24,630 mi", role="heading"),
        said("depth/line0a", "2/32 in", step=1), said("depth/line1a", "lowest reading", step=1),
        said("limit/line0a", "a limit of the law", step=1),
        said("number/line0a", "63,600", step=2, role="deciding"), said("number/line0b", "km", step=2),
        steps=4,
    )  # fmt: skip
    sentence = Fraction(3, 8) * (4 + 1 + 3 + 1) + 1  # no label; its long figure counts as one
    assert step_holds(picture) == (sentence, Fraction(3, 8) * 9 + 2, Fraction(3, 8) * 4 + 1, Fraction(2))


def test_small_print_is_read_in_the_last_hold_and_lettering_not_at_all() -> None:
    caution = said("caution/line0", "A worn tire can slide in the rain", role="small")  # eight words
    sources = said("sources/line1", "Source: 49 CFR 570.9, (a), and a good many more", role="small")
    lettering = said("tire/maker", "ONE TWO THREE FOUR FIVE SIX SEVEN", role="incidental")
    picture = scene(said("note", "new", step=1), caution, sources, lettering, steps=2)
    assert step_holds(picture) == (Fraction(2), Fraction(2) + Fraction(3, 8) * 8)


def test_lettering_with_its_shade_is_read_once() -> None:
    arc = [ArcText(name=name, text="205/55R16 91V and a few words more of it", center=(300.0, 300.0), radius=200.0,
                   angle=0.0, cap_height=20.0, fill="#FFFFFF", ground="#000000")
           for name in ("marking/shade", "marking/face")]  # fmt: skip
    assert step_holds(scene(*arc)) == (Fraction(3, 8) * 9 + 1,)
