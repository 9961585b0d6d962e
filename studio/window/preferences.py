"""The presenter's settings while the window is open: every change is kept at once."""

import logging
from collections.abc import Callable
from typing import Any

from msgspec.structs import replace

from studio.storage.errors import StorageError
from studio.storage.settings import Settings, SettingsRead, read_settings, write_settings

_LOG = logging.getLogger(__name__)


class Preferences:
    """The settings as they are now; ``note`` says why a broken file was passed over."""

    def __init__(
        self,
        read: Callable[[], SettingsRead] = read_settings,
        write: Callable[[Settings], None] = write_settings,
    ) -> None:
        found = read()
        self.settings, self.note = found.settings, found.note
        self._write = write

    def change(self, **values: Any) -> None:
        """Change some settings. What cannot be written holds until the window closes: no work hangs on it."""
        self.settings = replace(self.settings, **values)
        try:
            self._write(self.settings)
        except StorageError as error:
            _LOG.warning("settings not kept: %s", error)

    def remember(self, name: str, text: str) -> None:
        """Keep one of the window's own words, such as its geometry."""
        self.change(window={**self.settings.window, name: text})

    def remembered(self, name: str) -> str:
        """What ``remember`` kept under that name; empty where there is nothing."""
        return self.settings.window.get(name, "")
