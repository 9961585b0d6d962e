"""Colours: sRGB text to numbers, contrast (WCAG 2.2), mixing."""

import re
from functools import lru_cache

_HEX = re.compile(r"#[0-9A-Fa-f]{6}(?:[0-9A-Fa-f]{2})?")


@lru_cache(maxsize=512)
def rgba(color: str) -> tuple[int, int, int, int]:
    """``#RRGGBB`` or ``#RRGGBBAA`` as four numbers 0..255; raises ValueError on anything else."""
    if not _HEX.fullmatch(color):
        raise ValueError(f"{color[:20]!r} is not a colour: expected #RRGGBB, such as #1A1D21")
    values = [int(color[start : start + 2], 16) for start in range(1, len(color), 2)]
    red, green, blue, alpha = (*values, 255)[:4]
    return red, green, blue, alpha


def luminance(color: str) -> float:
    """Relative luminance, 0..1 (WCAG 2.2)."""
    linear = [_linear(value / 255) for value in rgba(color)[:3]]
    return 0.2126 * linear[0] + 0.7152 * linear[1] + 0.0722 * linear[2]


def contrast(one: str, other: str) -> float:
    """Contrast ratio, 1..21 (WCAG 2.2)."""
    low, high = sorted((luminance(one), luminance(other)))
    return (high + 0.05) / (low + 0.05)


def mix(one: str, other: str, share: float) -> str:
    """``one`` moved towards ``other`` by ``share`` (0..1), in sRGB."""
    pairs = zip(rgba(one)[:3], rgba(other)[:3], strict=True)
    return "#" + "".join(f"{round(a + (b - a) * share):02X}" for a, b in pairs)


def faded(color: str, alpha: float) -> str:
    """``color`` with this opacity (0..1)."""
    return f"{color[:7]}{round(255 * alpha):02X}"


def _linear(value: float) -> float:
    return value / 12.92 if value <= 0.04045 else float(((value + 0.055) / 1.055) ** 2.4)
