"""The window's door: build the application, open the episode, run until the window is closed.

Neither matplotlib nor reportlab is imported here or by what is imported here: the first picture that needs them does.
"""

import datetime as dt
import gc
import sys
from functools import partial
from pathlib import Path

from PySide6.QtCore import QTimer
from PySide6.QtWidgets import QApplication

from studio.model.episode import Episode
from studio.window.dialogs import WindowDialogs
from studio.window.document import Document
from studio.window.faults import Faults, start_log
from studio.window.main_window import NAME, MainWindow
from studio.window.palette import Appearance
from studio.window.preferences import Preferences
from studio.window.sweeping import start_sweep

PROGRAM = "tire-episode-studio"
_SOON_MS = 20
_LATER_MS = 3000


def run_window(path: Path | None = None) -> int:
    """Open the window, on the episode at ``path`` if given; returns the exit code when it is closed."""
    existing = QApplication.instance()
    app = existing if isinstance(existing, QApplication) else QApplication(sys.argv[:1])
    app.setApplicationName(PROGRAM)
    app.setApplicationDisplayName(NAME)
    start_log()
    window = open_window(app, path)
    faults = Faults(window.autosave.keep_now, window.dialogs.tell)
    faults.watch()
    if path is None:
        QTimer.singleShot(0, window.offer_unsaved)
    QTimer.singleShot(_SOON_MS, window.complete)
    QTimer.singleShot(_LATER_MS, partial(start_sweep, window.jobs))
    try:
        return app.exec()
    finally:
        faults.release()


def open_window(app: QApplication, path: Path | None) -> MainWindow:
    """The window, shown, on the episode at ``path`` if there is one."""
    gc.disable()  # what is built here stays: looking through it again and again would be a tenth of the start
    try:
        window = build_window(app)
        if path is not None:
            window.keeper.open(path)
        window.come_back()
        window.appearance.apply()
        window.show()
    finally:
        gc.enable()
    return window


def build_window(app: QApplication) -> MainWindow:
    """The window on an empty episode, neither styled nor shown yet."""
    preferences = Preferences()
    settings = preferences.settings
    appearance = Appearance(app, settings.scheme, settings.text_percent)
    dialogs = WindowDialogs()
    empty = Episode(title="Untitled", on=dt.date.today(), region=settings.region, units=settings.units)
    window = MainWindow(Document(empty), appearance, preferences, dialogs)
    dialogs.belong_to(window)
    if preferences.note:
        window.foot.say(preferences.note)
    return window
