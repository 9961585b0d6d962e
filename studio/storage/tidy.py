"""Lay JSON out for people: two blanks a level, each quantity and each row of numbers on one line.

A line break inside a JSON text is always escaped, so a pattern that begins with a real line break never touches a text.
"""

import re

import msgspec

_NUMBERS = re.compile(rb"\[\n\s+((?:-?[0-9][-+.eE0-9]*|null)(?:,\n\s+(?:-?[0-9][-+.eE0-9]*|null))*)\n\s+\]")
_NAMES = re.compile(rb'\[\n\s+("[a-z0-9_.]*"(?:,\n\s+"[a-z0-9_.]*")*)\n\s+\]')
_QUANTITY = re.compile(rb'\{\n\s+("value": [-+.eE0-9]+),\n\s+("unit": "[^"\n]*")(?:,\n\s+("kind": "[a-z]+"))?\n\s+\}')
_BREAK = re.compile(rb",\n\s+")


def tidy(content: bytes) -> bytes:
    """``content``, a JSON text, laid out; it ends with a line break."""
    laid = msgspec.json.format(content, indent=2)
    for rows in (_NUMBERS, _NAMES):
        laid = rows.sub(lambda found: b"[" + _BREAK.sub(b", ", found[1]) + b"]", laid)
    return _QUANTITY.sub(_one_line, laid) + b"\n"


def _one_line(found: re.Match[bytes]) -> bytes:
    return b"{" + b", ".join(part for part in found.groups() if part) + b"}"
