"""A look: the channel's colours in one small file, checked when it is read."""

from functools import lru_cache
from pathlib import Path
from typing import Annotated

import msgspec

from studio import shipped
from studio.graphics.color import contrast, rgba
from studio.model.finding import Verdict

Hex = Annotated[str, msgspec.Meta(pattern=r"^#[0-9A-Fa-f]{6}$(?!\n)")]
MOST_BYTES = 100_000
_TEXT, _GRAPHIC = 4.5, 3.0


class VerdictFills(msgspec.Struct, frozen=True, forbid_unknown_fields=True):
    """Fills of the verdicts' signs; ``inspect`` is ink on ground and ``unknown`` has none."""

    keep: Hex
    watch: Hex
    rotate: Hex
    replace: Hex


class Look(msgspec.Struct, frozen=True, kw_only=True, forbid_unknown_fields=True):
    """Colours of a look; every text colour is legible on ``ground`` and on ``plate``."""

    id: Annotated[str, msgspec.Meta(pattern=r"^[a-z0-9_]{1,40}$(?!\n)")]
    name: Annotated[str, msgspec.Meta(max_length=60)]
    ground: Hex
    plate: Hex
    ink: Hex
    quiet: Hex
    measure: Hex
    rubber: Hex
    rubber_light: Hex
    rubber_edge: Hex | None = None
    groove: Hex
    letter: Hex
    steel: Hex
    steel_light: Hex
    water: Hex
    car: Hex
    shadow: Hex
    verdicts: VerdictFills

    def fill_of(self, verdict: Verdict | None) -> str | None:
        """The fill of a verdict's sign; None where the sign is drawn in ink alone."""
        return getattr(self.verdicts, verdict, None) if verdict else None


class LookError(ValueError):
    """A look file cannot be used; the message names the pair or the field."""


def read_look(path: Path) -> Look:
    """Read and check one look file. Raises LookError."""
    try:
        content = path.read_bytes()
    except OSError as error:
        raise LookError(f"{path.name} cannot be read: {error.strerror}") from error
    if len(content) > MOST_BYTES:
        raise LookError(f"{path.name} holds {len(content)} bytes; a look is a small file of at most {MOST_BYTES}")
    try:
        look = msgspec.json.decode(content, type=Look)
    except (msgspec.MsgspecError, UnicodeDecodeError) as error:
        raise LookError(f"{path.name} is not a look: {error}") from error
    check(look)
    return look


def check(look: Look) -> None:
    """Refuse a look whose texts or signs cannot be told from their ground."""
    for text in ("ink", "quiet", "measure"):
        for ground in ("ground", "plate"):
            _least(look, text, ground, _TEXT)
    _least(look, "letter", "rubber", _TEXT)
    for part in ("rubber", "steel"):
        if not (part == "rubber" and look.rubber_edge):
            _least(look, part, "ground", 1.8 if part == "steel" else _GRAPHIC)
    if look.rubber_edge:
        _least(look, "rubber_edge", "ground", _GRAPHIC)


def _least(look: Look, one: str, other: str, least: float) -> None:
    ratio = contrast(getattr(look, one), getattr(look, other))
    if ratio < least:
        raise LookError(f"{look.name}: {one} on {other} has contrast {ratio:.2f}:1; at least {least}:1 is needed")


@lru_cache(maxsize=1)
def shipped_looks() -> dict[str, Look]:
    """The shipped looks by id."""
    looks = [read_look(path) for path in sorted((shipped.resources() / "looks").glob("*.json"))]
    return {look.id: look for look in looks}


def look_named(name: str) -> Look:
    """A shipped look by id; raises LookError naming those that exist."""
    looks = shipped_looks()
    if name not in looks:
        raise LookError(f"{name[:40]!r} is not a look; there are: {', '.join(looks)}")
    return looks[name]


def read_background(text: str, look: Look) -> str | None:
    """``look``, ``clear`` or a key colour as a scene's background (None is transparent); raises ValueError."""
    if text == "look":
        return look.ground
    if text == "clear":
        return None
    try:
        return text.upper() if rgba(text)[3] == 255 else None
    except ValueError as error:
        raise ValueError(f"{text[:20]!r} is not a background: expected look, clear or #RRGGBB") from error
