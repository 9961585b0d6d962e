"""The window's door: build the application, open the episode, run until the window is closed.

Neither matplotlib nor reportlab is imported here or by what is imported here: the first picture that needs them does.
"""

import datetime as dt
import sys
from pathlib import Path

from PySide6.QtWidgets import QApplication

from studio.model.episode import Episode
from studio.window.about import NAME
from studio.window.car_place import CarPlace
from studio.window.dialogs import WindowDialogs
from studio.window.document import Document
from studio.window.faults import Faults, start_log
from studio.window.findings_place import FindingsPlace
from studio.window.main_window import MainWindow, PlaceClass
from studio.window.palette import Appearance
from studio.window.pictures_place import PicturesPlace
from studio.window.preferences import Preferences

PLACES: tuple[PlaceClass, ...] = (CarPlace, FindingsPlace, PicturesPlace)


def run_window(path: Path | None = None) -> int:
    """Open the window, on the episode at ``path`` if given; returns the exit code when it is closed."""
    existing = QApplication.instance()
    app = existing if isinstance(existing, QApplication) else QApplication(sys.argv[:1])
    app.setApplicationName("tire-episode-studio")
    app.setApplicationDisplayName(NAME)
    start_log()
    window = build_window(app)
    faults = Faults(window.autosave.keep_now, window.dialogs.tell)
    faults.watch()
    window.come_back()
    window.show()
    open_first(window, path)
    try:
        return app.exec()
    finally:
        faults.release()


def build_window(app: QApplication) -> MainWindow:
    """The window on an empty episode, not shown yet."""
    preferences = Preferences()
    settings = preferences.settings
    appearance = Appearance(app, settings.scheme, settings.text_percent)
    dialogs = WindowDialogs()
    empty = Episode(title="Untitled", on=dt.date.today(), region=settings.region, units=settings.units)
    window = MainWindow(Document(empty), appearance, preferences, dialogs, PLACES)
    dialogs.belong_to(window)
    if preferences.note:
        window.foot.say(preferences.note)
    return window


def open_first(window: MainWindow, path: Path | None) -> None:
    """Open what was asked for; without that, offer unsaved work of an earlier window."""
    if path is not None:
        window.keeper.open(path)
    else:
        window.keeper.recover_untitled()
