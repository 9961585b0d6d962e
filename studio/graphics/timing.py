"""How long a picture's texts must stand to be read: the reading rule, applied to what each step newly shows.

``max(2 s, 0.375 s x words + 1 s for each label or long figure)``, a number of five or more digits counted as three
words: house rule, of the kind that museums and broadcasters use for labels; from memory.
"""

import re
from collections.abc import Iterable
from fractions import Fraction

from studio.graphics.scene import AnyMark, ArcText, Scene, Text

LEAST_S = Fraction(2)
WORD_S = Fraction(3, 8)
LABEL_S = Fraction(1)
_LONG_DIGITS, _LONG_WORDS = 5, 3
_NUMBER = re.compile(r"\d+(?:[.,]\d+)*")
_SENTENCE = "sentence"
_SMALL_PRINT = ("caution", "sources")


def words_in(text: str) -> int:
    """Words to be read, a number of five or more digits counted as three; lone signs are none."""
    return sum(_weight(word) for word in text.split() if any(map(str.isalnum, word)))


def long_figures_in(text: str) -> int:
    """How many numbers of five or more digits there are."""
    return sum(1 for number in _NUMBER.findall(text) if sum(map(str.isdigit, number)) >= _LONG_DIGITS)


def hold_s(words: int, labels: int) -> Fraction:
    """The reading rule in seconds, exact."""
    return max(LEAST_S, WORD_S * words + LABEL_S * labels)


def step_holds(scene: Scene) -> tuple[Fraction, ...]:
    """How long each step stands, in seconds, by what it newly shows.

    Texts whose names have one whole are one label. The sentence on top is read as words, each long figure in it counts
    as a label does. Incidental lettering is not read. The small print stands from the first step to the end: the
    last hold is longer by the caution's words, and the sources are for whoever stops the film.
    """
    holds = [_hold(_labels(scene, step)) for step in range(len(scene.steps))]
    caution = " ".join(mark.text for mark in scene.texts if _whole(mark.name) == "caution")
    if holds:
        holds[-1] += WORD_S * words_in(caution)
    return tuple(holds)


def _hold(labels: dict[str, list[str]]) -> Fraction:
    sentence = " ".join(labels.pop(_SENTENCE, ()))
    words = sum(words_in(text) for texts in labels.values() for text in texts) + words_in(sentence)
    return hold_s(words, len(labels) + long_figures_in(sentence))


def _labels(scene: Scene, step: int) -> dict[str, list[str]]:
    """The texts that a step newly shows, by the whole they are parts of; what is drawn twice is read once."""
    found: dict[str, list[str]] = {}
    for mark in _readable(mark for mark in scene.marks if mark.step == step):
        texts = found.setdefault(_whole(mark.name), [])
        if not (isinstance(mark, ArcText) and mark.text in texts):
            texts.append(mark.text)
    return found


def _readable(marks: Iterable[AnyMark]) -> Iterable[Text | ArcText]:
    for mark in marks:
        if not isinstance(mark, Text | ArcText) or (isinstance(mark, Text) and mark.role == "incidental"):
            continue
        if mark.text.strip() and _whole(mark.name) not in _SMALL_PRINT:
            yield mark


def _whole(name: str) -> str:
    return name.rpartition("/")[0] or name


def _weight(word: str) -> int:
    return max(1, _LONG_WORDS * long_figures_in(word))
