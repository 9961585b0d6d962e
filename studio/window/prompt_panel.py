"""How the prompting view is opened: on which screen, mirrored or not, how large."""

from dataclasses import dataclass

from PySide6.QtCore import Signal
from PySide6.QtGui import QGuiApplication, QScreen
from PySide6.QtWidgets import QCheckBox, QVBoxLayout, QWidget

from studio.window.chooser import Chooser
from studio.window.flow import flow, low
from studio.window.form_parts import FieldBox
from studio.window.labels import plain_label, push_button
from studio.window.palette import GRID

KEYS = (
    "Space runs and holds; Page Down and Page Up, or the arrows of a clicker, go on and back; + and − change the "
    "speed; B blackens; Esc ends."
)


@dataclass(frozen=True)
class PromptChoice:
    """The choices: a screen's number and whether the picture is mirrored for a pane of glass."""

    screen: int
    mirrored: bool


class PromptPanel(QWidget):
    """``wanted`` says that the view is to open."""

    wanted = Signal()

    def __init__(self) -> None:
        super().__init__()
        self.screens = Chooser(26)
        self.mirrored = QCheckBox("&Mirrored, for a pane of glass")
        self.start = push_button("Open the prompting vie&w", self.wanted.emit, primary=True)
        column = QVBoxLayout(self)
        column.setContentsMargins(0, 0, 0, 0)
        column.setSpacing(GRID)
        column.addWidget(flow(FieldBox("Screen", self.screens), low(self.mirrored), low(self.start)))
        column.addWidget(plain_label(KEYS, "quiet", wrap=True))
        self.list_screens()

    def list_screens(self) -> None:
        """List the screens that are there now; another than the first one is chosen at first."""
        held = self.screens.currentIndex()
        every = QGuiApplication.screens()
        self.screens.clear()
        for number, screen in enumerate(every, start=1):
            self.screens.addItem(screen_words(number, screen))
        self.screens.setCurrentIndex(held if 0 <= held < len(every) else len(every) - 1)

    def choice(self) -> PromptChoice:
        """What is chosen."""
        return PromptChoice(max(0, self.screens.currentIndex()), self.mirrored.isChecked())


def screen_words(number: int, screen: QScreen) -> str:
    """A screen in words."""
    size = screen.size()
    return f"{number}: {screen.name() or 'screen'}, {size.width()} × {size.height()}"
