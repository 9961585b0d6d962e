"""The deliverable at hand: its files with states and reasons; below, the corrections that are due."""

from PySide6.QtCore import Qt
from PySide6.QtGui import QGuiApplication
from PySide6.QtWidgets import QFrame, QScrollArea, QVBoxLayout, QWidget

from studio.handoff.published import Correction
from studio.window.flow import flow
from studio.window.handoff_rows import Row
from studio.window.labels import plain_label, push_button
from studio.window.palette import GRID

_ABOUT = {
    "brief": "The episode on paper: verdicts, car, tires, rundown with pictures, findings with working and sources.",
    "pictures": "Every picture of the episode as PNG, named so that files sort as the rundown does.",
    "clips": "The rundown's pictures, moving, with transparency for the edit.",
    "captions": "What is spoken, as SubRip and WebVTT.",
    "chapters": "Chapter lines for the description, and as WebVTT.",
    "description": "The text under the film: chapters, sources, cautions, disclosures.",
    "timeline": "Segments, pictures where they are spoken, steps as markers: OpenTimelineIO.",
    "edit_list": "The same cut as a CMX 3600 edit decision list.",
    "cue_cards": "Talking points in large print, two cards to a page.",
    "shot_list": "Shots, pictures and props by segment, on paper and as a table.",
}


class HandoffSheet(QScrollArea):
    """Shows one row large, and the corrections due."""

    def __init__(self) -> None:
        super().__init__()
        self.setWidgetResizable(True)
        self.setFrameShape(QFrame.Shape.NoFrame)
        self.setHorizontalScrollBarPolicy(Qt.ScrollBarPolicy.ScrollBarAlwaysOff)
        self.setAccessibleName("Deliverable at hand")
        self.setFocusPolicy(Qt.FocusPolicy.NoFocus)
        self._heading = plain_label("", "heading", wrap=True)
        self._about = plain_label("", "quiet", wrap=True)
        self._files = plain_label("", wrap=True)
        self._due = plain_label("Corrections due", "strong")
        self._corrections = plain_label("", wrap=True)
        self.copy_it = push_button("&Copy the corrections", self.copy_corrections)
        self._text = ""
        inside = QWidget()
        column = QVBoxLayout(inside)
        column.setContentsMargins(3 * GRID, 2 * GRID, 3 * GRID, 2 * GRID)
        column.setSpacing(GRID)
        for widget in (self._heading, self._about, self._files, self._due, self._corrections, flow(self.copy_it)):
            column.addWidget(widget)
        column.addStretch(1)
        self.setWidget(inside)
        for label in (self._files, self._corrections):
            label.setTextInteractionFlags(Qt.TextInteractionFlag.TextSelectableByMouse)
        self.show_corrections(())

    @property
    def shown(self) -> str:
        """All that is told of the deliverable at hand."""
        return f"{self._heading.text()}\n{self._files.text()}"

    def show_row(self, row: Row | None) -> None:
        """Show this deliverable."""
        self._heading.setText(row.name if row else "")
        self._about.setText(_ABOUT.get(row.item, "") if row else "")
        lines = []
        for file in row.files if row else ():
            lines.append(f"{file.file}: {file.state}")
            lines += [f"    {why}" for why in file.why[:6]]
            lines += [f"    and {len(file.why) - 6} more" for _ in range(1) if len(file.why) > 6]
        self._files.setText("\n".join(lines))

    def show_corrections(self, due: tuple[Correction, ...]) -> None:
        """Show the corrections that published numbers call for."""
        self._text = "\n\n".join(correction.text() for correction in due)
        self._corrections.setText(self._text)
        for widget in (self._due, self._corrections, self.copy_it):
            widget.setVisible(bool(due))

    def copy_corrections(self) -> None:
        """Put the corrections' text on the clipboard."""
        QGuiApplication.clipboard().setText(self._text)
