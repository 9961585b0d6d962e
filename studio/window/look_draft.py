"""A look while it is being made: its values, its files in a folder of its own, what speaks against it, how it is kept.

Nothing is written beside the episode before it is saved; then the look, its logo and its fonts lie there together.
"""

import os
import re
from pathlib import Path
from typing import Any

from msgspec.structs import replace

from studio.graphics.logo.art import Art, LogoError
from studio.graphics.look import Fonts, Look, LookError, LookFile, fitted_out, shipped_looks
from studio.graphics.look_check import faults, remarks
from studio.graphics.look_file import beside, encode_look_file, read_bytes, read_look_file
from studio.storage.atomic import write_atomically
from studio.storage.leftovers import remove_temporary_folder, temporary_folder

_FONT_ROLES = ("regular", "semibold", "bold")
_NOT_ID = re.compile(r"[^a-z0-9_]+")


class Draft:
    """``values`` are those of the file to be; ``folder`` holds the fonts and the logo that they name."""

    def __init__(self) -> None:
        self._folder: Path | None = None
        self.values: LookFile = plain(next(iter(shipped_looks().values())))
        self.is_changed = False
        self.notes: tuple[str, ...] = ()

    @property
    def folder(self) -> Path:
        """The draft's own folder, made when first needed."""
        if self._folder is None:
            self._folder = temporary_folder("look")
        return self._folder

    def begin(self, look: LookFile, folder: Path | None) -> None:
        """Begin with a copy of ``look``, whose files lie in ``folder`` (None: it is a shipped one)."""
        self.clear()
        values = plain(look)
        if folder is None:
            values = replace(values, id="own", name=f"{values.name}, ours"[:60])
        else:
            for name in named_files(values):
                self._copy(beside(folder, name, "the look's file"), name)
        self.values, self.is_changed, self.notes = values, False, ()

    def change(self, **fields: Any) -> None:
        """Change some of its values."""
        after = replace(self.values, **fields)
        self.is_changed = self.is_changed or after != self.values
        self.values = after

    def take_logo(self, art: Art) -> None:
        """Take in a logo that ``read_logo`` gave: written anew, so that nothing else of its file is kept."""
        from studio.graphics.logo.reading import clean_file

        name = f"logo.{'png' if art.png else 'svg'}"
        (self.folder / name).write_bytes(clean_file(art))
        self.change(logo=replace(self.values.logo, file=name))
        self.notes = art.notes

    def take_font(self, source: Path, role: str) -> None:
        """Take in a font's file for a weight. Raises LookError saying what is wrong with it."""
        name = f"{role}{source.suffix.lower()}"
        self._copy(source, name)
        fonts = self.values.fonts
        own = fonts if fonts.regular else Fonts(family=source.stem[:60])
        after = replace(own, **{role: name}, **({} if own.regular or role == "regular" else {"regular": name}))
        fitted_out(replace(self.values, fonts=after, logo=replace(self.values.logo, file="")), self.folder)
        self.change(fonts=after)

    def look(self) -> Look:
        """The look as it would be drawn. Raises LookError where one of its files cannot be used."""
        return fitted_out(self.values, self.folder)

    def faults(self) -> tuple[str, ...]:
        """What has to be changed before it can be saved."""
        found = list(faults(self.values))
        if not self.values.name.strip():
            found.append("the look has no name")
        try:
            self.look()
        except LookError as error:
            found.append(str(error))
        return tuple(found)

    def remarks(self) -> tuple[str, ...]:
        """What is worth knowing."""
        return (*remarks(self.values), *(f"Of the logo, {note}" for note in self.notes))

    def save(self, path: Path) -> None:
        """Write the look and its files beside each other. Raises LookError or StorageError; then no look is there."""
        if found := self.faults():
            raise LookError(found[0])
        refuse_strange(path)
        values = replace(self.values, id=_NOT_ID.sub("_", path.stem.lower())[:40].strip("_") or "own")
        for name in named_files(values):
            kept = f"{path.stem}_{name}" if not name.startswith(f"{path.stem}_") else name
            write_atomically(path.with_name(kept), (self.folder / name).read_bytes())
            values = renamed(values, name, kept)
        write_atomically(path, encode_look_file(values))
        self.is_changed = False

    def clear(self) -> None:
        """Remove the draft's folder."""
        if self._folder is not None:
            remove_temporary_folder(self._folder)
            self._folder = None

    def _copy(self, source: Path, name: str) -> None:
        target = self.folder / name
        target.parent.mkdir(parents=True, exist_ok=True)
        target.write_bytes(read_bytes(source, 30_000_000, "a look's file"))


def read_logo(source: Path) -> Art:
    """A logo's file, read with suspicion. Raises LookError saying what is wrong with it."""
    from studio.graphics.logo.reading import MOST_BYTES, art_of

    try:
        return art_of(read_bytes(source, MOST_BYTES, "a logo"), source.name)
    except LogoError as error:
        raise LookError(f"{source.name}: {error}") from error


def plain(look: LookFile) -> LookFile:
    """The values alone, without what was read from other files."""
    return LookFile(**{name: getattr(look, name) for name in LookFile.__struct_fields__})


def named_files(values: LookFile) -> tuple[str, ...]:
    """The files that a look names, each once."""
    names = (*(getattr(values.fonts, role) for role in _FONT_ROLES), values.logo.file)
    return tuple(dict.fromkeys(name for name in names if name))


def renamed(values: LookFile, name: str, kept: str) -> LookFile:
    """The look with one of its files under another name."""
    fonts = {role: kept for role in _FONT_ROLES if getattr(values.fonts, role) == name}
    logo = replace(values.logo, file=kept) if values.logo.file == name else values.logo
    return replace(values, fonts=replace(values.fonts, **fonts), logo=logo)


def refuse_strange(path: Path) -> None:
    """Raise LookError where ``path`` holds something that is no look: an episode must not be written over."""
    if not path.exists():
        return
    try:
        read_look_file(path)
    except LookError as error:
        raise LookError(f"{path.name} is there already and is no look; choose another name") from error


def relative_look(path: Path, folder: Path) -> str | None:
    """The look's path from the episode's folder; None where it lies elsewhere or its name is too long."""
    try:
        name = Path(os.path.realpath(path)).relative_to(os.path.realpath(folder)).as_posix()
    except ValueError:
        return None
    return name if len(name) <= 100 else None
