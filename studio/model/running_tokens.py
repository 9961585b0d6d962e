"""Running text cut into digits, words and signs, and which of them are names and no numbers (sizes, dates, codes)."""

import re
from dataclasses import dataclass

_TOKEN = re.compile(r"(?P<digits>[0-9]+(?:[.,'’][0-9]+)*)|(?P<word>[^\W\d_]+)|(?P<sign>\S)")
_NAMES = re.compile(
    r"""
    (?<![0-9A-Za-z.,])(?:LT|ST|HL|P|T)?[0-9]{3}\s?/\s?[0-9]{2}\s?(?:[/ -]|Z?RF?|[DB])\s?[0-9]{2}(?![0-9])   # a size
    | (?<![0-9A-Za-z.,])[0-9]{2}(?:[.,][0-9])?\s?[x×]\s?[0-9]{1,2}[.,][0-9]{1,2}\s?-?R?\s?[0-9]{2}(?![0-9])  # flotation
    | (?<![0-9])[0-9]{4}-[0-9]{2}-[0-9]{2}(?![0-9])                                                         # a date
    | (?<![0-9.])[0-9]{1,2}\.[0-9]{1,2}\.(?:[0-9]{4}|[0-9]{2}(?![0-9]))                                       # a date
    | (?<![0-9A-Za-z])DOT[ :#]{0,3}(?:[0-9A-Z]{2,6}[ ]){0,3}[0-9A-Z]{0,9}[0-9]{3,4}(?![0-9A-Za-z])            # its code
    | (?<![0-9:])[0-9]{1,2}:[0-9]{2}(?::[0-9]{2})?(?![0-9:])                                                # a time
    """,
    re.VERBOSE | re.IGNORECASE,
)


@dataclass(frozen=True, slots=True)
class Token:
    """A run of characters: ``kind`` is digits, word or sign; ``text`` is in small letters."""

    kind: str
    text: str
    start: int
    end: int


def tokens_of(text: str) -> list[Token]:
    """Every token of ``text``, names left out, with its span."""
    names = [found.span() for found in _NAMES.finditer(text)] if any(c.isdigit() for c in text) else []
    tokens, ahead = [], 0
    for found in _TOKEN.finditer(text):
        start, end = found.span()
        while ahead < len(names) and names[ahead][1] <= start:
            ahead += 1
        named = ahead < len(names) and names[ahead][0] <= start
        kind = "name" if named else str(found.lastgroup)
        tokens.append(Token(kind, found[0].lower(), start, end))
    return tokens


def adjoin(first: Token, second: Token) -> bool:
    """Whether nothing stands between the two."""
    return first.end == second.start
