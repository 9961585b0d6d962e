"""Sentences that state what is often said wrongly about tires; one that denies or corrects it is left alone.

What is wrong, what is right and the source are rows of the table of myths; here are only the wordings by which each is
recognised (custom of speech, no source).
"""

import re
from collections.abc import Sequence

import msgspec

from studio.model.source import Source
from studio.reference.tables import Tables
from studio.script.myth_wordings import COMPILED, ONLY_IF, TELLS, UNLESS
from studio.script.sentences import sentence_span, sentence_starts

_DENIES = re.compile(
    r"\b(?:not|never|nothing|neither|nor|cannot|myth|wrong(?:ly)?|false(?:ly)?|mistak\w*|incorrect|nonsense|untrue|"
    r"rumou?r|"
    r"contrary|misread|misunderst\w*|confus\w*|forget|hardly|nobody|far from|legend|avoid|resist|ignore|stop|beware|"
    r"think|thinks|thought|believe|believes|believed|assume|assumes|no such|tempt\w*|trap|fooled|fable|error|rather "
    r"than|instead of|no longer|self-certif\w*|supposedly|so-called|no (?:more|tires?|tyres?|federal|law|agency|"
    r"rule|one|us|country|nation|government))\b|n['’]t\b", re.IGNORECASE)  # fmt: skip
_TAKES_BACK = re.compile(
    r"\s*(?:[\"“”’)\]]*\s*)?(?:no\b|it (?:is ?n['’]t|is not|does ?n['’]t|does not|was ?n['’]t|just is)|that(?:'s|’s|"
    r" is) (?:wrong|false|a myth|not|nonsense|untrue|only)|wrong\b|false\b|not so|not true|not quite|untrue|nonsense|"
    r"that is ?n"
    r"['’]t|this is (?:wrong|false|a myth|not)|they (?:are ?n['’]t|are not|do ?n['’]t|do not)|a myth|myth\b|nope\b|"
    r"(?:sounds|looks) (?:right|good|simple)[^.]{0,30}(?:wrong|not|but)|but\b|actually\b|in fact\b)",
    re.IGNORECASE)  # fmt: skip
_PLAIN_NO = frozenset(("not", "never", "nothing", "neither", "nor", "cannot", "n't", "n’t"))
_TAG = re.compile(
    r",\s*(?:see|right|ok|okay|you know|got it|agreed|no|huh|(?:is|are|do|does|was)n['’]t \w+)\?\W*$", re.IGNORECASE)
_HEDGED = re.compile(r"\b(?:about|roughly|around|approximately|nearly|rule of thumb|more or less|or so|give or "
                     r"take)\b", re.I)
_ONLY_UNHEDGED = frozenset({"one_psi_rule"})
_ALWAYS = re.compile(r"\b(?:always|exactly|every time|no matter)\b", re.IGNORECASE)
_LONGEST = 600
_QUESTION = 60
_ANSWERS = re.compile(r"\s*(?:that|it|this|yes|yep|sure|of course|just|simply)\b", re.IGNORECASE)


class Statement(msgspec.Struct, frozen=True, kw_only=True):
    """A sentence at ``start`` to ``end`` of the text that states the myth of this id, and what is right."""

    id: str
    text: str
    start: int
    end: int
    correct: str
    source: Source


def statements_in(text: str, tables: Tables) -> tuple[Statement, ...]:
    """Every sentence of ``text`` that states one of the myths of ``tables``, in order; time grows with its length."""
    starts = sentence_starts(text)
    found = []
    for start in starts:
        begin, end = sentence_span(starts, start, len(text))
        sentence = text[begin : min(end, begin + _LONGEST)]
        after = text[end : end + 80]
        for id_ in _stated(sentence, after) or _answered(text, starts, begin, sentence, after):
            if (myth := tables.myths.get(id_)) is not None:
                shown = sentence.strip()
                found.append(Statement(id=id_, text=shown, start=begin, end=begin + len(sentence.rstrip()),
                                       correct=myth.correct, source=myth.source))  # fmt: skip
    return tuple(found)


def _stated(sentence: str, after: str) -> list[str]:
    if len(sentence) < 12:
        return []
    if _asks(sentence, after) or _TAKES_BACK.match(after):
        return []
    small = sentence.lower()
    told = [id_ for id_, words in TELLS.items() if any(word in small for word in words)]
    return [id_ for id_ in told if any(_says(id_, wording, sentence) for wording in COMPILED[id_])]


def _asks(sentence: str, after: str) -> bool:
    """Whether a sentence only asks; "..., right?" states, and so does a question that is answered with yes."""
    if not sentence.rstrip().rstrip("\"”’)").endswith("?"):
        return False
    return not _TAG.search(sentence) and not re.match(r"\s*yes\b", after, re.IGNORECASE)


def _says(id_: str, wording: re.Pattern[str], sentence: str) -> bool:
    match = wording.search(sentence)
    if match is None:
        return False
    if id_ in _ONLY_UNHEDGED and _HEDGED.search(sentence) and not _ALWAYS.search(sentence):
        return False
    if (id_ in UNLESS and UNLESS[id_].search(sentence)) or (id_ in ONLY_IF and not ONLY_IF[id_].search(sentence)):
        return False
    own = match.span("own") if "own" in match.re.groupindex else (0, 0)
    rest = sentence[: own[0]] + " " * (own[1] - own[0]) + sentence[own[1] :]
    return not any(_counts(denial, rest, match.start()) for denial in _DENIES.finditer(rest))


def _counts(denial: re.Match[str], sentence: str, at: int) -> bool:
    """A plain "not" denies only what stands in its own part of the sentence; "a myth" denies all of it."""
    plain = denial[0].lower() in _PLAIN_NO
    return not (plain and denial.end() < at and re.search(r"[:;–—]", sentence[denial.end() : at]))


def _answered(text: str, starts: Sequence[int], begin: int, sentence: str, after: str) -> list[str]:
    """What a short question and the sentence that answers it state together."""
    if not begin:
        return []
    before = text[slice(*sentence_span(starts, begin - 1, len(text)))]
    asked = before.rstrip().endswith("?") and len(before) <= _QUESTION and _ANSWERS.match(sentence)
    return _stated(before + sentence, after) if asked else []
