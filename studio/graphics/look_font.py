"""The channel's own fonts: can the file be read, does it hold our letters, may it be embedded, do its lines keep apart.

The bits of the licence are those of OS/2.fsType (OpenType 1.9: 2 restricted, 0x100 no subsetting, 0x200 bitmaps only).
"""

import logging
from functools import lru_cache
from hashlib import sha256
from io import BytesIO
from pathlib import Path
from typing import Any

from fontTools.ttLib import TTFont

from studio.graphics.face import Face
from studio.graphics.layout.text import CAP_SHARE, FONT_FILES, cap_share, descent_share
from studio.graphics.look_file import beside, read_bytes
from studio.graphics.look_parts import Fonts, LookError

# What fontTools remarks of a broken font would go to stderr, where a verb says one line of its own.
logging.getLogger("fontTools").addHandler(logging.NullHandler())
SHIPPED: dict[str, tuple[str, str, str]] = {
    "Inter": tuple(FONT_FILES[weight][0] for weight in ("regular", "semibold", "bold")),  # type: ignore[dict-item]
    "DejaVu Sans": tuple(FONT_FILES[weight][1] for weight in ("regular", "semibold", "bold")),  # type: ignore[dict-item]
}
LETTERS = "ABCDEFGHIJKLMNOPQRSTUVWXYZabcdefghijklmnopqrstuvwxyz0123456789 .,:;!?'\"()/%+-&"
SIGNS = "°×−≤≥≈→…·½⅜⌀–—’“”µ"
MOST_BYTES = 20_000_000
_ENDINGS = (".ttf", ".otf")
_RESTRICTED, _NO_SUBSET, _BITMAPS = 0x0002, 0x0100, 0x0200
_DEEPEST = 0.40  # of Inter's size: lines stand 1.2 sizes apart, capitals are 0.73 high


def read_face(fonts: Fonts, folder: Path) -> Face | None:
    """The face that ``fonts`` names; None is the shipped one. Raises LookError naming the file and what is wrong."""
    if not (fonts.regular or fonts.semibold or fonts.bold):
        if fonts.family not in SHIPPED:
            raise LookError(f"fonts.family {fonts.family!r} is not shipped; there are: {', '.join(SHIPPED)}")
        files = SHIPPED[fonts.family]
        return None if fonts.family == "Inter" else _face(fonts.family, *files)
    if not fonts.regular:
        raise LookError("fonts.regular is missing; expected a TTF or OTF file beside the look for it")
    regular = _own(folder, fonts.regular, "fonts.regular")
    bold = _own(folder, fonts.bold, "fonts.bold") if fonts.bold else ""
    semibold = _own(folder, fonts.semibold, "fonts.semibold") if fonts.semibold else ""
    return _face(fonts.family, regular, semibold or bold or regular, bold or semibold or regular)


def signs_from_elsewhere(face: Face | None) -> str:
    """The signs of our pictures that the face lacks: they are taken from the shipped fonts."""
    if face is None or ":" not in face.regular:
        return ""
    path = Path(face.regular.partition(":")[2])
    return _about(read_bytes(path, MOST_BYTES, "a font"))[1]


def _face(family: str, regular: str, semibold: str, bold: str) -> Face:
    return Face(family=family, regular=regular, semibold=semibold, bold=bold)


def _own(folder: Path, name: str, what: str) -> str:
    """The checked file as the text layer knows it: its digest, so that a file that changes is another one, and path."""
    path = beside(folder, name, what)
    if path.suffix.lower() not in _ENDINGS:
        raise LookError(f"{what} {name[:60]!r} is not a font's file; expected TTF or OTF, such as OurSans-Regular.ttf")
    content = read_bytes(path, MOST_BYTES, "a font")
    fault, _ = _about(content)
    file = f"{sha256(content).hexdigest()[:16]}:{path.resolve()}"
    if fault or (fault := _measured(file)):
        raise LookError(f"{what} {name[:60]!r} {fault}")
    return file


@lru_cache(maxsize=16)
def _about(content: bytes) -> tuple[str, str]:
    """What speaks against a font (empty where nothing does), and the signs that it lacks."""
    try:
        with TTFont(BytesIO(content), lazy=True) as font:
            if font.flavor or not ("glyf" in font or "CFF " in font or "CFF2" in font):
                return "is packed for the web or holds no outlines; expected a TTF or OTF with outlines", ""
            known, embedding = set(font.getBestCmap() or ()), _embedding(font)
    except Exception as error:  # a broken file makes the reader raise nearly anything
        return f"is not a font that can be read ({type(error).__name__})", ""
    if missing := "".join(char for char in LETTERS if ord(char) not in known):
        return f"lacks {missing[:12]!r}; expected a font with the letters, numbers and signs of English", ""
    return embedding, "".join(char for char in SIGNS if ord(char) not in known)


def _embedding(font: Any) -> str:
    bits = int(font["OS/2"].fsType) if "OS/2" in font else 0
    if bits & _RESTRICTED and not bits & 0x000C:
        return "may not be embedded by its licence (fsType 2); expected a font that may be embedded"
    if bits & _NO_SUBSET or bits & _BITMAPS:
        return f"may not be embedded as we need it (fsType {bits}); expected a font that may be embedded"
    return ""


@lru_cache(maxsize=16)
def _measured(file: str) -> str:
    """What speaks against the measures of a font's letters."""
    try:
        caps, tails = cap_share(file), descent_share(file)
    except Exception as error:  # HarfBuzz refused what fontTools took
        return f"is not a font that can be measured ({type(error).__name__})"
    if not 0.4 <= caps <= 1.2:
        return f"has capitals {caps:.2f} of its size high; expected about {CAP_SHARE:.2f}"
    if tails > _DEEPEST:
        return f"has tails {tails:.2f} deep at capitals {CAP_SHARE:.2f} high: lines would touch; at most {_DEEPEST:g}"
    return ""
