"""How the window looks: the shipped looks as Qt palettes, the fonts, one small style sheet.

The look comes from this object and not from Qt's own colour scheme: a system that reports none, and tests, set it here.
"""

from collections.abc import Callable
from typing import Literal

from PySide6.QtCore import QObject, Qt, Signal
from PySide6.QtGui import QColor, QFont, QFontDatabase, QPalette
from PySide6.QtWidgets import QApplication, QStyleFactory, QToolTip, QWidget
from shiboken6 import isValid

from studio import shipped
from studio.graphics.look import Look, shipped_looks
from studio.window.labels import Role
from studio.window.style_sheet import style_sheet

Choice = Literal["light", "dark", "system"]
GRID = 8
SIZES_PX: dict[str, int] = {"number": 15, "strong": 13, "heading": 20, "deciding": 28}
TEXT_PX = 13
TEXT_PERCENTS = (100, 125, 150, 200)
_SEMIBOLD: tuple[str, ...] = ("strong", "heading", "deciding")
_FONT_FILES = ("Inter-Regular.ttf", "Inter-SemiBold.ttf", "Inter-Bold.ttf", "DejaVuSans.ttf")


class Appearance(QObject):
    """The window's look, text size and fonts. ``changed`` says that they are others now: repaint what you painted.

    Call ``apply`` once the window is built: under a style sheet every widget is looked at anew with each step up into
    its place, which took more than half of the start. The style sheet is the windows, whose children have it from them:
    Qt takes five times as long for one of the application, and longer with every widget.
    """

    changed = Signal()

    def __init__(
        self, app: QApplication, choice: Choice = "system", percent: int = 100,
        system_is_dark: Callable[[], bool] | None = None,
    ) -> None:  # fmt: skip
        super().__init__()
        self._system_is_dark = system_is_dark or self._ask_system
        self._app = app
        self.choice: Choice = choice
        self.percent = percent
        self._windows: list[QWidget] = []
        self._looks = shipped_looks()
        _load_fonts()
        app.setStyle(QStyleFactory.create("Fusion"))
        app.styleHints().colorSchemeChanged.connect(self._scheme_changed)
        self._app.setFont(self.font())
        self._app.setPalette(_palette(self.look))

    @property
    def is_dark(self) -> bool:
        """Whether the dark look is shown."""
        if self.choice != "system":
            return self.choice == "dark"
        return self._system_is_dark()

    @property
    def look(self) -> Look:
        """The look shown: the colours to paint with."""
        return self._looks["night_bay" if self.is_dark else "chalk"]

    def dress(self, window: QWidget) -> None:
        """Style ``window`` and all that belongs to it from the next ``apply`` on, for as long as it lives."""
        self._windows.append(window)

    def choose(self, choice: Choice) -> None:
        """Light, dark, or as the system says."""
        self.choice = choice
        self.apply()

    def set_percent(self, percent: int) -> None:
        """Scale all text; 100 is the size that the art direction gives."""
        self.percent = percent
        self.apply()

    def px(self, length: float) -> int:
        """A length that grows with the text, such as a row's height, in px."""
        return round(length * self.percent / 100)

    def color(self, name: str) -> QColor:
        """A colour of the look by its name there, such as ``ink``, ``quiet`` or ``measure``."""
        return QColor(getattr(self.look, name))

    def font(self, role: Role = "text") -> QFont:
        """The font of a role: Inter, numbers with tabular figures (which would set hyphens in words apart)."""
        font = QFont(["Inter", "DejaVu Sans"])
        font.setPixelSize(self.px(SIZES_PX.get(role, TEXT_PX)))
        font.setWeight(QFont.Weight.DemiBold if role in _SEMIBOLD else QFont.Weight.Normal)
        if role in ("number", "deciding"):
            font.setFeature(QFont.Tag("tnum"), 1)
        return font

    def apply(self) -> None:
        """Give the application its font and palette, the windows their style sheet."""
        self._app.setFont(self.font())
        palette = _palette(self.look)
        self._app.setPalette(palette)
        QToolTip.setPalette(palette)
        sheet = style_sheet(self.look, self.percent)
        self._windows = [window for window in self._windows if isValid(window)]
        for window in self._windows:
            if sheet != window.styleSheet():  # every widget in it is looked at anew
                window.setStyleSheet(sheet)
        self.changed.emit()

    def _ask_system(self) -> bool:
        return self._app.styleHints().colorScheme() == Qt.ColorScheme.Dark

    def _scheme_changed(self) -> None:
        if self.choice == "system":
            self.apply()


def _load_fonts() -> None:
    if "Inter" not in QFontDatabase.families():
        for name in _FONT_FILES:
            QFontDatabase.addApplicationFont(str(shipped.resources() / "fonts" / name))


def _palette(look: Look) -> QPalette:
    palette = QPalette()
    Role = QPalette.ColorRole
    for role, color in (
        (Role.Window, look.ground), (Role.WindowText, look.ink), (Role.Base, look.plate), (Role.Text, look.ink),
        (Role.AlternateBase, look.ground), (Role.Button, look.plate), (Role.ButtonText, look.ink),
        (Role.PlaceholderText, look.quiet), (Role.ToolTipBase, look.plate), (Role.ToolTipText, look.ink),
        (Role.Highlight, look.measure), (Role.HighlightedText, look.plate), (Role.Link, look.measure),
        (Role.BrightText, look.ink), (Role.Accent, look.measure), (Role.Mid, look.steel), (Role.Dark, look.steel),
        (Role.Midlight, look.ground), (Role.Light, look.plate), (Role.Shadow, look.shadow),
    ):  # fmt: skip
        palette.setColor(role, QColor(color))
    for role in (Role.WindowText, Role.Text, Role.ButtonText):
        palette.setColor(QPalette.ColorGroup.Disabled, role, QColor(look.quiet))
    return palette
