"""Read a tire marking as people write it: ``225/60R17 99H``, ``p225-60-17``, ``31x10.50 R15 LT``, ``T145/80D17 107M``.

The grammar is that of UN Regulations 30, 54 and 64 and of 49 CFR 571.139; the bounds are the widest sizes, aspects and
rims that those standards and the year books of the trade list, so what lies outside was misread.
"""

import re
import unicodedata
from dataclasses import replace

from studio.tires.description import read_description
from studio.tires.marking import Construction, Marking, MarkingError, Prefix, Suffix, format_marking, service
from studio.tires.spelling import MarkingField, spell_out

__all__ = ["Marking", "MarkingError", "MarkingField", "format_marking", "parse_marking", "service", "spell_out"]

LONGEST_TEXT = 120
WIDTHS_MM = (100, 455)
ASPECTS_PERCENT = (20, 95)
RIMS_IN = (8, 30)
OVERALL_DIAMETERS_IN = (20, 54)
SECTION_WIDTHS_IN = (4, 20)
LEAST_SECTION_HEIGHT_IN = 2
LEAST_DIAGONAL_ASPECT_PERCENT = (
    80  # lower diagonal car tires are temporary or trailer ones (common practice, no source)
)

_PREFIXES: dict[str, Prefix] = {"": "", "P": "P", "T": "T", "LT": "LT", "ST": "ST", "HL": "HL"}
_SUFFIXES: dict[str, Suffix] = {"": "", "C": "C", "LT": "LT", "CP": "CP"}
_DASH = "no construction letter: read as diagonal, as a sidewall prints the sign -"
_SAME = str.maketrans(
    {"×": "X", "✕": "X", "⁄": "/", "∕": "/", "÷": "/", "–": "-", "—": "-", "‐": "-", "‑": "-", "‒": "-", "−": "-"}
)
_PREFIX = r"(?P<prefix>LT|ST|HL|P|T)?\s*"
_LETTERS = r"(?P<old_speed>[ZHVS]?)(?P<letters>RF|R)|(?P<other>[DB])"
_RIM = r"(?P<rim>\d{1,3}(?:[.,]\d)?)(?![\d.,/]*\d)"
_SUFFIX = r"(?P<suffix>(?:\s*(?:LT|CP|C)(?![A-Z]))?)"
_METRIC = re.compile(
    rf"{_PREFIX}(?P<width>\d{{3}})\s*[/\- ]?\s*(?P<aspect>\d{{1,3}})\s*[/\-]?\s*(?:{_LETTERS})\s*-?\s*{_RIM}{_SUFFIX}"
)
_BARE = re.compile(
    rf"{_PREFIX}(?P<width>\d{{3}})(?P<first>\s*[/\-]\s*| )(?P<aspect>\d{{1,3}})(?P<second>\s*[/\-]\s*| ){_RIM}{_SUFFIX}"
)
_FULL_PROFILE = re.compile(rf"{_PREFIX}(?P<width>\d{{3}})\s*(?:{_LETTERS})\s*{_RIM}{_SUFFIX}")
_FLOTATION = re.compile(
    rf"(?P<prefix>LT)?\s*(?P<overall>\d{{2}}(?:[.,]\d{{1,2}})?)\s*X\s*(?P<section>\d{{1,2}}(?:[.,]\d{{1,2}})?)\s*"
    rf"(?:{_LETTERS}|-)\s*{_RIM}{_SUFFIX}"
)


def parse_marking(text: str) -> Marking:
    """Read a marking. Raises MarkingError, one line, for what is no marking or cannot be one."""
    plain = _plain(text)
    for pattern, build in _FORMS:
        if found := pattern.match(plain):
            return _whole(text, build(text, found), plain[_end(found) :])
    raise MarkingError(
        f"read {_clip(text)}, expected a tire size, such as 225/60R17 99H, LT245/75R16 E or 31x10.50R15LT"
    )


def _plain(text: str) -> str:
    """Upper case, ASCII signs, single blanks; refuses what is too long to be a marking."""
    if len(text) > LONGEST_TEXT:
        raise MarkingError(f"read {len(text)} characters, expected a tire marking, such as 225/60R17 99H")
    same = unicodedata.normalize("NFKC", text).translate(_SAME).upper().translate(_SAME)
    return " ".join(same.split()).strip(" .,;:\"'")


def _clip(text: str) -> str:
    return repr(text if len(text) <= 40 else text[:37] + "...")


def _metric(text: str, found: re.Match[str]) -> Marking:
    return replace(
        _full_profile(text, found),
        aspect_percent=_within(text, "aspect", found["aspect"], ASPECTS_PERCENT, "percent", "60"),
    )


def _full_profile(text: str, found: re.Match[str]) -> Marking:
    width_mm = _within(text, "width", found["width"], WIDTHS_MM, "mm", "225")
    odd = () if width_mm % 5 == 0 else (f"width {width_mm} mm: metric widths end in 5 or 0",)
    old_speed = found["old_speed"] or ""
    return Marking(
        prefix=_PREFIXES[found["prefix"] or ""], width_mm=width_mm, rim_diameter_in=_rim(text, found),
        construction=_construction(found), run_flat=found["letters"] == "RF", z_rated=old_speed == "Z",
        speed_symbol=old_speed if old_speed in ("H", "V", "S") else None, suffix=_suffix(found), assumed=odd,
    )  # fmt: skip


def _bare(text: str, found: re.Match[str]) -> Marking:
    """A size without construction letter. A sidewall prints a diagonal tire so, 145/80-13, but people also write radial
    ones like that: it is read as diagonal only where such tires are made."""
    as_printed = "/" in found["first"] and "-" in found["second"]
    aspect_percent = _within(text, "aspect", found["aspect"], ASPECTS_PERCENT, "percent", "60")
    diagonal = as_printed and (found["prefix"] in ("T", "ST") or aspect_percent >= LEAST_DIAGONAL_ASPECT_PERCENT)
    width_mm = _within(text, "width", found["width"], WIDTHS_MM, "mm", "225")
    read = _DASH if diagonal else "no construction letter: read as radial"
    return Marking(
        prefix=_PREFIXES[found["prefix"] or ""], width_mm=width_mm, rim_diameter_in=_rim(text, found),
        aspect_percent=aspect_percent, construction="diagonal" if diagonal else "radial", suffix=_suffix(found),
        assumed=(read,),
    )  # fmt: skip


def _flotation(text: str, found: re.Match[str]) -> Marking:
    overall = _inches(text, "overall diameter", found["overall"], OVERALL_DIAMETERS_IN)
    section = _inches(text, "section width", found["section"], SECTION_WIDTHS_IN)
    rim = _rim(text, found)
    if (overall - rim) / 2 < LEAST_SECTION_HEIGHT_IN:
        raise MarkingError(f"read {_clip(text)}: a {overall:g} in tire leaves no sidewall on a {rim:g} in rim; "
                           "expected one such as 31x10.50R15LT")  # fmt: skip
    return Marking(
        kind="flotation", prefix=_PREFIXES[found["prefix"] or ""], overall_diameter_in=overall,
        section_width_in=section, construction=_construction(found), run_flat=found["letters"] == "RF",
        rim_diameter_in=rim, z_rated=found["old_speed"] == "Z", suffix=_suffix(found),
        assumed=() if found["letters"] or found["other"] else (_DASH,),
    )  # fmt: skip


def _construction(found: re.Match[str]) -> Construction:
    if found["letters"]:
        return "radial"
    return "bias-belted" if found["other"] == "B" else "diagonal"


def _suffix(found: re.Match[str]) -> Suffix:
    return "" if found["prefix"] in ("LT", "ST") else _SUFFIXES[found["suffix"].strip()]


def _end(found: re.Match[str]) -> int:
    """Where the size ends: a C behind the rim of an LT or ST size is its load range, no suffix."""
    a_range = found["prefix"] in ("LT", "ST") and found["suffix"].strip() == "C"
    return found.start("suffix") if a_range else found.end()


def _rim(text: str, found: re.Match[str]) -> float:
    rim = float(found["rim"].replace(",", "."))
    if not (RIMS_IN[0] <= rim <= RIMS_IN[1] and rim % 1 in (0, 0.5)):
        raise MarkingError(
            f"read {_clip(text)}: rim diameter {found['rim']}, expected {RIMS_IN[0]} to {RIMS_IN[1]} inches in whole "
            "or half inches, such as 17 in 225/60R17"
        )
    return rim


def _within(text: str, name: str, digits: str, bounds: tuple[int, int], unit: str, example: str) -> int:
    value = int(digits)
    if not bounds[0] <= value <= bounds[1]:
        raise MarkingError(
            f"read {_clip(text)}: {name} {value}, expected {bounds[0]} to {bounds[1]} {unit}, such as {example} in "
            "225/60R17"
        )
    return value


def _inches(text: str, name: str, digits: str, bounds: tuple[int, int]) -> float:
    value = float(digits.replace(",", "."))
    if not bounds[0] <= value <= bounds[1]:
        raise MarkingError(
            f"read {_clip(text)}: {name} {digits}, expected {bounds[0]} to {bounds[1]} inches, as in 31x10.50R15LT"
        )
    return value


def _whole(text: str, size: Marking, rest: str) -> Marking:
    """Add what follows the size."""
    try:
        return read_description(size, rest)
    except MarkingError as error:
        raise MarkingError(f"read {_clip(text)}: {error}") from None


_FORMS = ((_FLOTATION, _flotation), (_METRIC, _metric), (_BARE, _bare), (_FULL_PROFILE, _full_profile))
