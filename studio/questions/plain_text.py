"""A comment as plain text of bounded length, each character in its place: what a reader never sees is blanked."""

import re

from studio.questions.facts import MOST_READ

_MORE = re.compile(r"[^\n\x20-\x7e\xa0-\U0010ffff]|[\u200b-\u200f\u2028-\u202e\u2060-\u2064\ufeff\ud800-\udfff]")
_COLOR = re.compile("\x1b\\[[0-9;]{0,20}[A-Za-z]")  # what colors a terminal
_SAME = str.maketrans({
    "×": "x", "✕": "x", "⁄": "/", "∕": "/", "–": "-", "—": "-", "‐": "-", "‑": "-", "‒": "-", "−": "-", "’": "'",
    "‘": "'", "´": "'", "`": "'", "“": '"', "”": '"', "″": '"', "′": "'", "\xa0": " ", "\u202f": " ", "\u2009": " ",
    "º": "°", "\t": " ", "\r": " ", "！": "!", "？": "?", "，": ",", "：": ":", "／": "/", "％": "%",
    **{chr(0xFF10 + n): str(n) for n in range(10)},
})  # fmt: skip


def small_letters(text: str) -> str:
    """The text in small letters, each in its place: a pattern that need not look for both takes half the time."""
    small = text.lower()
    return small if len(small) == len(text) else "".join(c.lower() if len(c.lower()) == 1 else c for c in text)


_HEDGE = re.compile(
    r"\b(?:like|about|around|roughly|approx\w*\.?|maybe|nearly|almost|circa|say|probably|exactly|barely|literally"
    r"|(?:a )?(?:little |bit )?(?:over|under)|at least|at most)[ ~]+(?=(?:a |an )?[0-9])|~ ?(?=[0-9])",
    re.IGNORECASE,
)
_HEDGE_END = re.compile(
    r"(?:\b(?:like|about|around|roughly|approx\w*\.?|maybe|nearly|almost|circa|say|probably|exactly|barely|literally"
    r"|somewhere) ?|~ ?)+$",
    re.IGNORECASE,
)
_FILLER = re.compile(
    r"\b(?:literally|actually|really|basically|honestly|kinda|kind of|sort of|sorta|lol|lmao|bro|dude|mate|man"
    r"|guys|please|pls|plz|btw|fwiw|tbh|imo) ",
)


def without_hedges(before: str) -> str:
    """What stands before a number, without the words that only say it is not exact: ``at about`` is ``at``."""
    return _HEDGE_END.sub("", before)


def plainly(text: str) -> str:
    """Small letters without fillers and without hedges before numbers, for what is asked; no place is kept."""
    return _FILLER.sub("", _HEDGE.sub("", small_letters(text)))


def plain_text(text: str) -> tuple[str, str]:
    """(the text to read, what was left out of it in one sentence or nothing). Spans in it are spans of ``text``."""
    kept = _COLOR.sub(lambda found: " " * len(found[0]), text[:MOST_READ].translate(_SAME))
    out = ""
    if len(text) > MOST_READ:
        out = f"Only the first {MOST_READ:,} of {len(text):,} characters were read."
    return _MORE.sub(" ", kept), out
