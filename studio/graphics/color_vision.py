"""How colours are seen with a colour-vision deficiency, and how far apart two colours are seen.

The deficiencies are those of Machado, Oliveira and Fernandes, "A Physiologically-based Model for Simulation of Color
Vision Deficiency" (IEEE TVCG 15, 2009), severity 1, applied to linear sRGB; the distance is CIEDE2000 (ISO/CIE
11664-6), with D65 as white. tests/graphics/test_color_vision.py holds both against published values.
"""

import math
from functools import lru_cache
from typing import Literal

from studio.graphics.color import rgba

Deficiency = Literal["protan", "deutan", "tritan"]
Triple = tuple[float, float, float]
MATRICES: dict[Deficiency, tuple[Triple, Triple, Triple]] = {
    "protan": ((0.152286, 1.052583, -0.204868), (0.114503, 0.786281, 0.099216), (-0.003882, -0.048116, 1.051998)),
    "deutan": ((0.367322, 0.860646, -0.227968), (0.280085, 0.672501, 0.047413), (-0.011820, 0.042940, 0.968881)),
    "tritan": ((1.255528, -0.076749, -0.178779), (-0.078411, 0.930809, 0.147602), (0.004733, 0.691367, 0.303900)),
}
_TO_XYZ = (
    (0.4124564, 0.3575761, 0.1804375), (0.2126729, 0.7151522, 0.0721750), (0.0193339, 0.1191920, 0.9503041),
)  # fmt: skip
_WHITE = (0.95047, 1.0, 1.08883)
_POW7 = 25.0**7


@lru_cache(maxsize=512)
def lab(color: str, deficiency: Deficiency | None = None) -> Triple:
    """L*, a*, b* of a colour as it is seen, with a deficiency or without."""
    linear = _linear(color)
    if deficiency is not None:
        # Clipped as a screen would: what the matrix gives outside of sRGB cannot be shown.
        red, green, blue = (min(1.0, max(0.0, value)) for value in _times(MATRICES[deficiency], linear))
        linear = (red, green, blue)
    x, y, z = (_f(value / white) for value, white in zip(_times(_TO_XYZ, linear), _WHITE, strict=True))
    return 116 * y - 16, 500 * (x - y), 200 * (y - z)


def apart(one: str, other: str, deficiency: Deficiency | None = None) -> float:
    """The CIEDE2000 distance of two colours as they are seen, with a deficiency or without."""
    return ciede2000(lab(one, deficiency), lab(other, deficiency))


def lightness_apart(one: str, other: str) -> float:
    """How far apart two colours are in grey, in L*."""
    return abs(lab(one)[0] - lab(other)[0])


def ciede2000(one: Triple, other: Triple) -> float:
    """The CIEDE2000 distance of two colours given as L*, a*, b*; the weights are 1."""
    (l1, a1, b1), (l2, a2, b2) = one, other
    c7 = ((math.hypot(a1, b1) + math.hypot(a2, b2)) / 2) ** 7
    stretch = 1 + 0.5 * (1 - math.sqrt(c7 / (c7 + _POW7)))
    (c1, h1), (c2, h2) = _polar(a1 * stretch, b1), _polar(a2 * stretch, b2)
    dh, h = _hues(c1, h1, c2, h2)
    d_hue = 2 * math.sqrt(c1 * c2) * math.sin(math.radians(dh) / 2)
    light, chroma = (l1 + l2) / 2 - 50, (c1 + c2) / 2
    sl = 1 + 0.015 * light**2 / math.sqrt(20 + light**2)
    sc, sh = 1 + 0.045 * chroma, 1 + 0.015 * chroma * _tilt(h)
    dl, dc, dh_ = (l2 - l1) / sl, (c2 - c1) / sc, d_hue / sh
    return math.sqrt(dl**2 + dc**2 + dh_**2 + _turn(chroma, h) * dc * dh_)


def _tilt(h: float) -> float:
    parts = ((-0.17, 1, -30), (0.24, 2, 0), (0.32, 3, 6), (-0.20, 4, -63))
    return 1 + sum(share * math.cos(math.radians(times * h + shift)) for share, times, shift in parts)


def _turn(chroma: float, h: float) -> float:
    """The rotation term, which matters for blues."""
    c7 = chroma**7
    angle = 60 * math.exp(-(((h - 275) / 25) ** 2))
    return -2 * math.sqrt(c7 / (c7 + _POW7)) * math.sin(math.radians(angle))


def _hues(c1: float, h1: float, c2: float, h2: float) -> tuple[float, float]:
    """The hues' difference and mean in degrees, the short way round; a grey has none."""
    if c1 * c2 == 0:
        return 0.0, h1 + h2
    difference, total = h2 - h1, h1 + h2
    if abs(difference) <= 180:
        return difference, total / 2
    mean = (total + 360) / 2 if total < 360 else (total - 360) / 2
    return (difference - 360 if difference > 180 else difference + 360), mean


def _polar(a: float, b: float) -> tuple[float, float]:
    return math.hypot(a, b), math.degrees(math.atan2(b, a)) % 360


def _linear(color: str) -> Triple:
    red, green, blue = (_decoded(value / 255) for value in rgba(color)[:3])
    return red, green, blue


def _decoded(value: float) -> float:
    return value / 12.92 if value <= 0.04045 else float(((value + 0.055) / 1.055) ** 2.4)


def _times(matrix: tuple[Triple, Triple, Triple], vector: Triple) -> Triple:
    x, y, z = (sum(a * b for a, b in zip(row, vector, strict=True)) for row in matrix)
    return x, y, z


def _f(t: float) -> float:
    return t ** (1 / 3) if t > (6 / 29) ** 3 else t / (3 * (6 / 29) ** 2) + 4 / 29
