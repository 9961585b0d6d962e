"""Spoils good input by chance: texts, bytes, JSON. The same `random.Random` spoils it the same way."""

import json
import zlib
from collections.abc import Callable, Iterator, Sequence
from random import Random
from typing import Any

SIGNS = (
    *"0123456789/.,-+ xXrRtT'\"%;:|\t\n\r\0()[]{}<>&$=@#~^\\", "\x1b", "\x7f", "\x85", "\xa0", "\u00b2", "\u00bd",
    "\u0301", "\u0661", "\u06f5", "\uff11", "\u2007", "\u200b", "\u200f", "\u2028", "\u202e", "\u2066", "\u2212",
    "\u2215", "\u3000", "\ufeff", "\ufffe", "\U0001f6de", "\U000e0041", "\ud800", "\udfff", "\u0130",
    "\u017f", "\u1e9e",
)  # fmt: skip
WORDS = (
    "0", "-0", "-1", "1e308", "-1e308", "1e-320", "1e999", "NaN", "Infinity", "-inf", "9" * 40, "0" * 60, "9" * 400,
    "1/0", "0/32", "32/32", "1.2.3", "1,000", "1.000,5", "٣٥", "½", "null", "true", "DOT", "=1+1", "@SUM(A1)", "-->",
    "]]>", "<script>", "&#0;", "&amp;", "{0.__class__}", "{tread_left.front_left}", "%s%n", "$\\frac{1}{0}$", "../../x",
    "C:\\x", "\\u0000", "\x1b[31m", "\u202e123", "a" * 300, "{" * 50, "(" * 200,
)  # fmt: skip
NUMBERS: tuple[Any, ...] = (
    0, -0.0, 1, -1, 0.1, 1e-320, 5e-324, 1e15, 1e16, 1e300, 1e308, -1e308, 1.7976931348623157e308, 10**30, -(10**30),
    2**63, 2**64, 255, 10**400, float("nan"), float("inf"), float("-inf"),
)  # fmt: skip
DATES = ("0001-01-01", "9999-12-31", "2026-02-30", "2024-02-29", "1900-01-01", "2026-11-14T00:00:00Z", "26-1-1")
DEEP = 30_000


def spoilt_text(chance: Random, good: Sequence[str], longest: int = 100_000) -> str:
    """One of ``good`` with some signs, stretches or words of it replaced, doubled, left out; now and then very long."""
    text = chance.choice(good)
    for _ in range(chance.choice((0, 1, 1, 2, 3, 8))):
        text = _spoil(chance, text, good)
    if chance.random() < 0.002:
        text *= chance.randint(2, max(2, longest // max(1, len(text))))
    return text[:longest]


def _spoil(chance: Random, text: str, good: Sequence[str]) -> str:
    start = chance.randint(0, len(text))
    end = min(len(text), start + chance.choice((0, 0, 1, 1, 2, 5, 20)))
    what = chance.randrange(6)
    if what == 0:
        return text[:start] + chance.choice(SIGNS) + text[end:]
    if what == 1:
        return text[:start] + chance.choice(WORDS) + text[end:]
    if what == 2:
        return text[:start] + text[end:]
    if what == 3:
        return text[:end] + text[start:]
    if what == 4:
        return text[:start] + chance.choice(good)[start:]
    return text[:start] + "".join(chance.choices(SIGNS, k=chance.randint(1, 6))) + text[end:]


def spoilt_bytes(chance: Random, good: bytes) -> bytes:
    """``good`` with some of its bytes turned, cut, doubled or replaced."""
    content = bytearray(good)
    for _ in range(chance.choice((1, 1, 2, 5, 20))):
        at = chance.randint(0, len(content))
        size = chance.choice((1, 1, 2, 4, 16, 200))
        what = chance.randrange(5)
        if what == 0 and at < len(content):
            content[at] ^= 1 << chance.randrange(8)
        elif what == 1:
            content[at : at + size] = chance.randbytes(size)
        elif what == 2:
            del content[at : at + size]
        elif what == 3:
            content[at:at] = content[max(0, at - size) : at]
        elif chance.random() < 0.2:
            del content[at:]
        else:
            content[at : at + size] = chance.choice((b"\x00", b"\xff")) * size
    return bytes(content)


def spoilt_png(chance: Random, good: bytes) -> bytes:
    """A PNG with parts spoilt whose checksums are right again as often as not, so that readers go on into it."""
    chunks = list(_chunks(good))
    at = chance.randrange(len(chunks))
    kind, data = chunks[at]
    what = chance.randrange(6)
    if what == 0:
        del chunks[at]
    elif what == 1:
        chunks.insert(at, chunks[chance.randrange(len(chunks))])
    elif what == 2:
        chunks[at] = (chance.choice((b"IDAT", b"PLTE", b"tRNS", b"zTXt", b"iCCP", b"eXIf", b"IHDR")), data)
    elif what == 3:
        chunks.insert(at, (b"zTXt", b"Comment\0\0" + zlib.compress(bytes(chance.choice((10, 10**6))))))
    else:
        chunks[at] = (kind, spoilt_bytes(chance, data))
    whole = good[:8] + b"".join(_chunk(*chunk) for chunk in chunks)
    return whole if chance.random() < 0.7 else spoilt_bytes(chance, whole)


def _chunks(content: bytes) -> Iterator[tuple[bytes, bytes]]:
    at = 8
    while at < len(content):
        size = int.from_bytes(content[at : at + 4], "big")
        yield content[at + 4 : at + 8], content[at + 8 : at + 8 + size]
        at += 12 + size


def _chunk(kind: bytes, data: bytes) -> bytes:
    return len(data).to_bytes(4, "big") + kind + data + zlib.crc32(kind + data).to_bytes(4, "big")


def spoilt_json(chance: Random, good: Any, mildly: bool = False) -> bytes:
    """A JSON file like ``good`` with some of its values, names and entries spoilt.

    ``mildly`` keeps kinds of values, so that most of what comes out is still taken.
    """
    value = json.loads(json.dumps(good))
    for _ in range(chance.choice((1, 1, 2, 3)) if mildly else chance.choice((1, 1, 2, 3, 6))):
        holder, key = _somewhere(chance, value)
        if holder is not None:
            (_shift if mildly else _break)(chance, holder, key)
    text = json.dumps(value, ensure_ascii=chance.random() < 0.5)
    if mildly or chance.random() < 0.8:
        return text.encode("utf-8", "surrogatepass")
    if chance.random() < 0.3:
        return _twice(chance, text).encode("utf-8", "surrogatepass")
    if chance.random() < 0.1:
        return text.replace("[]", "[" * DEEP + "]" * DEEP, 1).encode("utf-8", "surrogatepass")
    return spoilt_bytes(chance, text.encode("utf-8", "surrogatepass"))


def _twice(chance: Random, text: str) -> str:
    """A name that stands twice in its object, the second time with another value."""
    at = text.find('": ', chance.randrange(len(text)))
    start = text.rfind('"', 0, at) if at > 0 else -1
    another = chance.choice(("0", "null", "[]"))
    return text if start < 0 else f"{text[: at + 2]} {another}, {text[start:]}"


def _somewhere(chance: Random, value: Any) -> tuple[Any, Any]:
    """A place in ``value``: what holds it and its key there; deep places as likely as high ones."""
    here, found = value, (None, None)
    while isinstance(here, (dict, list)) and here:
        key = chance.choice(list(here)) if isinstance(here, dict) else chance.randrange(len(here))
        found = (here, key)
        if chance.random() < 0.15:
            break
        here = here[key]
    return found


def _break(chance: Random, holder: Any, key: Any) -> None:
    """Put anything in the place of a value, or take it, its name or its order away."""
    what = chance.randrange(9)
    if what == 0:
        del holder[key]
    elif what == 1:
        holder[key] = chance.choice(NUMBERS)
    elif what == 2:
        holder[key] = chance.choice((None, True, False, [], {}, [[]], "", "x" * 30_000, chance.choice(DATES)))
    elif what == 3:
        holder[key] = [holder[key]] * chance.choice((1, 2, 300))
    elif what == 4:
        holder[key] = {"value": chance.choice(NUMBERS), "unit": chance.choice(("mm", "psi", "money", "", "x"))}
    elif what == 5 and isinstance(holder, dict):
        holder[spoilt_text(chance, [str(key)], 500)] = holder[key]
    elif what == 6 and isinstance(holder, list):
        chance.shuffle(holder)
    elif isinstance(holder[key], str):
        holder[key] = spoilt_text(chance, [holder[key]], 30_000)
    else:
        holder[key] = chance.choice(WORDS)


def _shift(chance: Random, holder: Any, key: Any) -> None:
    """Another value of the same kind, or nothing at all."""
    its = holder[key]
    if isinstance(its, bool):
        holder[key] = not its
    elif isinstance(its, (int, float)):
        holder[key] = chance.choice((0, its * 2, its / 3, its + 1, -its, its * 1.001, 1, 1e-9, 24, 300, 1e6))
    elif isinstance(its, str) and len(its) == 10 and its[4:5] == "-":
        holder[key] = f"{chance.randint(1990, 2030)}-{chance.randint(1, 12):02d}-{chance.randint(1, 28):02d}"
    elif isinstance(its, str):
        holder[key] = spoilt_text(chance, [its], 200)
    elif isinstance(its, list) and its:
        holder[key] = chance.choice((its[1:], its + its[:1], its[::-1], []))
    else:
        del holder[key]


def shrunk(content: Any, still: Callable[[Any], bool], tries: int = 120) -> Any:
    """A shorter text or bytes for which ``still`` holds: halves, quarters and so on are cut out while it does."""
    if isinstance(content, tuple):
        return (shrunk(content[0], lambda cut: still((cut, *content[1:])), tries), *content[1:])
    size = len(content) // 2
    while size and tries > 0:
        at = 0
        while at < len(content) and tries > 0:
            shorter, tries = content[:at] + content[at + size :], tries - 1
            if still(shorter):
                content = shorter
            else:
                at += size
        size //= 2
    return content
