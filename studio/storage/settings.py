"""The presenter's settings, in the platform's folder; a broken file falls back on the usual values, with a note."""

from pathlib import Path
from typing import Annotated, Literal

import msgspec

from studio.model.quantity import System
from studio.storage.atomic import write_atomically
from studio.storage.episode_file import read_bytes
from studio.storage.errors import StorageError, plain
from studio.storage.folders import made, settings_folder

_MOST_BYTES = 1_000_000
_LONGEST_WHY = 200  # signs: a decoder repeats the whole of what it refused
Percent = Annotated[int, msgspec.Meta(ge=50, le=300)]
Seconds = Annotated[int, msgspec.Meta(ge=5, le=600)]
SmallText = Annotated[str, msgspec.Meta(max_length=20_000)]


class Settings(msgspec.Struct, frozen=True, kw_only=True):
    """What the presenter chose once for all episodes. A name that is not known here is left out when read.

    ``window`` holds the window's own words about its place and size, as it wrote them.
    """

    scheme: Literal["system", "light", "dark"] = "system"
    text_percent: Percent = 100
    region: Annotated[str, msgspec.Meta(pattern=r"^[a-z]{2}(-[a-z]{2})?$(?!\n)")] = "us"
    units: System = "us"
    gauge: Annotated[str, msgspec.Meta(max_length=40)] = ""
    keep_recent: bool = True
    autosave_every_s: Seconds = 20
    export_folder: Annotated[str, msgspec.Meta(max_length=4_000)] = ""
    window: dict[str, SmallText] = {}


class SettingsRead(msgspec.Struct, frozen=True):
    """The settings as read, and a note for the presenter where the file was not usable; empty otherwise."""

    settings: Settings
    note: str = ""


def settings_path() -> Path:
    """The file of the settings."""
    return settings_folder() / "settings.json"


def read_settings(path: Path | None = None) -> SettingsRead:
    """The settings at ``path`` (the platform's by default); the usual ones where there are none or they are broken."""
    path = path or settings_path()
    if not path.exists():
        return SettingsRead(Settings())
    try:
        return SettingsRead(msgspec.json.decode(read_bytes(path, _MOST_BYTES), type=Settings))
    except (StorageError, ValueError, RecursionError) as error:
        why = plain(str(error).removesuffix("."))
        why = why if len(why) <= _LONGEST_WHY else f"{why[:_LONGEST_WHY]}…"
        return SettingsRead(Settings(), f"the settings could not be read and are the usual ones again ({why})")


def write_settings(settings: Settings, path: Path | None = None) -> None:
    """Keep ``settings``. Raises StorageError."""
    path = path or settings_path()
    made(path.parent)
    write_atomically(path, msgspec.json.format(msgspec.json.encode(settings), indent=2) + b"\n")
