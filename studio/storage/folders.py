"""Where the program keeps its own files, by the platform's custom."""

import os
from pathlib import Path

import platformdirs

NAME = "tire-episode-studio"
OVERRIDE = "TIRE_EPISODE_STUDIO_HOME"
"""An environment variable that puts all of the program's own files below one folder."""


def settings_folder() -> Path:
    """The folder of the settings."""
    return _folder("settings", platformdirs.user_config_path(NAME, appauthor=False))


def data_folder() -> Path:
    """The folder of what the program remembers: recent files, rescue copies."""
    return _folder("data", platformdirs.user_data_path(NAME, appauthor=False))


def _folder(name: str, usual: Path) -> Path:
    home = os.environ.get(OVERRIDE)
    return Path(home) / name if home else usual


def made(folder: Path) -> Path:
    """``folder``, made if need be; OSErrors are left to the write that follows, which says more."""
    try:
        folder.mkdir(parents=True, exist_ok=True)
    except OSError:
        return folder
    return folder
