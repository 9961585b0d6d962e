"""Where every number of a picture comes from, one click away; and the picture in words."""

from PySide6.QtCore import Qt, Signal
from PySide6.QtWidgets import QFrame, QScrollArea, QVBoxLayout, QWidget

from studio.graphics.scene import Scene
from studio.model.finding import Findings
from studio.window.findings_link import Link
from studio.window.labels import plain_label
from studio.window.palette import GRID, Appearance

ANSWER = "answer."


class Origin(QScrollArea):
    """``followed`` gives the id of the finding that was clicked; of a viewer's answer it begins with ``ANSWER``."""

    followed = Signal(str)

    def __init__(self, appearance: Appearance) -> None:
        super().__init__()
        self._appearance = appearance
        self._shown: tuple[str, tuple[tuple[str, str], ...]] = ("", ())
        self.setWidgetResizable(True)
        self.setFrameShape(QFrame.Shape.NoFrame)
        self.setFocusPolicy(Qt.FocusPolicy.NoFocus)
        self.setHorizontalScrollBarPolicy(Qt.ScrollBarPolicy.ScrollBarAlwaysOff)
        self.viewport().setAutoFillBackground(False)
        self._bound()
        appearance.changed.connect(self._bound)

    def show_scene(self, scene: Scene | None, findings: Findings) -> None:
        """Show the findings of this picture, and its words."""
        ids = scene.findings if scene else ()
        known = ((id_, findings.get(id_)) for id_ in ids)
        listed = tuple(
            (id_, its.sentence if its else f"A viewer's question: {scene.title if scene else ''}")
            for id_, its in known if its or id_.startswith(ANSWER)
        )  # fmt: skip
        words = scene.alternative if scene else ""
        if (words, listed) != self._shown:
            self._shown = (words, listed)
            self._fill(words, listed)

    def links(self) -> list[Link]:
        """The findings that can be followed, in order."""
        return self.findChildren(Link)

    def _fill(self, words: str, listed: tuple[tuple[str, str], ...]) -> None:
        inside = QWidget()
        column = QVBoxLayout(inside)
        column.setContentsMargins(GRID, GRID, GRID, GRID)
        column.setSpacing(GRID // 2)
        if listed:
            column.addWidget(plain_label("Where its numbers come from", "strong"))
        for id_, sentence in listed:
            link = Link(sentence, id_, self._appearance)
            link.clicked.connect(self._clicked)
            column.addWidget(link)
        if words:
            column.addSpacing(GRID)
            column.addWidget(plain_label("In words, for those who do not see it", "strong"))
            text = plain_label(words, wrap=True)
            text.setTextInteractionFlags(Qt.TextInteractionFlag.TextSelectableByMouse)
            column.addWidget(text)
        column.addStretch(1)
        inside.setAutoFillBackground(False)
        self.setWidget(inside)

    def _clicked(self) -> None:
        link = self.sender()
        if isinstance(link, Link):
            self.followed.emit(link.target)

    def _bound(self) -> None:
        self.setMinimumHeight(self._appearance.px(80))
