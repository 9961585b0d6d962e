"""A look: colours, letters, corners, logo and small print of the channel in one small file, checked when it is read."""

from functools import lru_cache
from pathlib import Path

from studio import shipped
from studio.graphics.color import rgba
from studio.graphics.face import Face
from studio.graphics.logo.art import Art, LogoError
from studio.graphics.look_check import check
from studio.graphics.look_file import ENDING, MOST_BYTES, beside, read_bytes, read_look_file
from studio.graphics.look_parts import Fonts, Logo, LookError, LookFile, VerdictFills, Zones

__all__ = [
    "MOST_BYTES", "Fonts", "Logo", "Look", "LookError", "LookFile", "VerdictFills", "Zones", "check", "fitted_out",
    "is_own", "look_for", "look_named", "read_background", "read_look", "shipped_looks",
]  # fmt: skip


class Look(LookFile, frozen=True, kw_only=True):
    """A look with what lies beside its file: the face to set text in (None is the shipped one) and the logo."""

    face: Face | None = None
    art: Art | None = None


def read_look(path: Path) -> Look:
    """Read and check one look file and the files it names. Raises LookError."""
    values = read_look_file(path)
    check(values)
    return fitted_out(values, path.parent)


def fitted_out(values: LookFile, folder: Path) -> Look:
    """The look with the fonts and the logo that lie in ``folder``. Raises LookError naming the file."""
    face = None
    if values.fonts != Fonts():
        from studio.graphics.look_font import read_face

        face = read_face(values.fonts, folder)
    fields = {name: getattr(values, name) for name in LookFile.__struct_fields__}
    return Look(**fields, face=face, art=_art(values.logo, folder) if values.logo.file else None)


def is_own(name: str) -> bool:
    """Whether an episode's ``look`` names a file of the channel's own and not a shipped look."""
    return name.lower().endswith(ENDING)


def look_for(name: str, folder: Path | None) -> Look:
    """The look that an episode names: a shipped one by id, or a file by its path from the episode's ``folder``.

    Raises LookError saying what is wrong with it, or that there is none.
    """
    if not is_own(name):
        return look_named(name)
    if folder is None:
        raise LookError(f"the look {name[:60]!r} lies beside the episode's file: save the episode first")
    return read_look(beside(folder, name, "the look"))


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


def read_background(text: str, look: LookFile) -> str | None:
    """``look``, ``clear`` or a key colour as a scene's background (None is transparent); raises ValueError."""
    if text == "look":
        return look.ground
    if text == "clear":
        return None
    try:
        return text.upper() if rgba(text)[3] == 255 else None
    except ValueError as error:
        raise ValueError(f"{text[:20]!r} is not a background: expected look, clear or #RRGGBB") from error


def _art(logo: Logo, folder: Path) -> Art:
    from studio.graphics.logo.reading import MOST_BYTES as MOST_LOGO
    from studio.graphics.logo.reading import art_of

    path = beside(folder, logo.file, "logo.file")
    try:
        return art_of(read_bytes(path, MOST_LOGO, "a logo"), path.name)
    except LogoError as error:
        raise LookError(f"logo.file {logo.file[:60]!r}: {error}") from error
