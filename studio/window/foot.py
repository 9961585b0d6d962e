"""The window's foot: saved or not, the region whose limits apply, both unit choices, work in progress."""

from typing import Any

from PySide6.QtCore import QTimer
from PySide6.QtWidgets import QHBoxLayout, QProgressBar, QWidget

from studio.window.document import Document
from studio.window.elided import ElidedLine
from studio.window.labels import name_field, plain_label, push_button
from studio.window.tasks import JobRunner, Progress

MESSAGE_MS = 8000
SHOW_REST_AFTER_S = 10.0


class Foot(QWidget):
    """One line. A message stands for some seconds in the middle; what the mouse is over for as long as it is there."""

    def __init__(self, document: Document, jobs: JobRunner) -> None:
        super().__init__()
        self._document, self._jobs, self._may_read = document, jobs, False
        self.saved = plain_label("", "quiet")
        self.region = plain_label("", "quiet")
        self.units = plain_label("", "quiet")
        self.message = ElidedLine("text")
        self.job = plain_label("", "quiet")
        self.bar = QProgressBar()
        self.bar.setTextVisible(False)
        self.bar.setFixedWidth(120)
        name_field(self.bar, "Progress")
        self.stop = push_button("Sto&p", self._stop)
        self._timer = QTimer(self)
        self._timer.setSingleShot(True)
        self._timer.setInterval(MESSAGE_MS)
        self._timer.timeout.connect(self._clear)
        layout = QHBoxLayout(self)
        layout.setContentsMargins(16, 4, 16, 4)
        layout.setSpacing(24)
        for label in (self.saved, self.region, self.units):
            layout.addWidget(label)
        layout.addWidget(self.message, 1)
        layout.addWidget(self.job)
        layout.addWidget(self.bar)
        layout.addWidget(self.stop)
        layout.addStretch(0)
        document.changed.connect(self.refresh)
        document.state_changed.connect(self.refresh)
        jobs.changed.connect(self.refresh_job)
        self.refresh()
        self.refresh_job()

    def say(self, text: str) -> None:
        """Show a message for some seconds."""
        self.message.show_text(text)
        self.message.setVisible(True)
        self._timer.start()

    def refresh(self) -> None:
        """Show how the episode stands."""
        document, episode = self._document, self._document.episode
        if document.read_only:
            saved = f"for reading only: open in {document.held_by}"
        else:
            clean = "saved" if document.path else "new"
            saved = clean if document.is_clean else "unsaved changes"
        self.saved.setText(saved)
        self.region.setText(f"limits: {self._region_name()}")
        self.units.setText("US units first, then metric" if episode.units == "us" else "metric first, then US units")

    def complete(self) -> None:
        """Read what could wait at the start: the region's name."""
        self._may_read = True
        self.refresh()

    @property
    def is_complete(self) -> bool:
        """Whether ``complete`` was called."""
        return self._may_read

    def _region_name(self) -> str:
        region = self._document.episode.region
        if not (self._may_read or self._document.knows_tables):
            return region.upper()
        row = self._document.tables.regions.get(region)
        return row.name if row else region

    def refresh_job(self) -> None:
        """Show the work in progress, or nothing."""
        current = self._jobs.current()
        for widget in (self.job, self.bar, self.stop):
            widget.setVisible(current is not None)
        if current is not None:
            name, progress, seconds = current
            share = progress.share if isinstance(progress, Progress) else progress
            known = isinstance(share, (int, float))
            self.bar.setRange(0, 1000 if known else 0)
            if known:
                self.bar.setValue(round(share * 1000))
            self.job.setText(job_words(name, progress, seconds))

    def _stop(self) -> None:
        self._jobs.stop()

    def _clear(self) -> None:
        self.message.show_text("")
        self.message.setVisible(True)


def job_words(name: str, progress: Any, seconds: float) -> str:
    """What a job is called, how far it is, what it works on, and after some time how long it will still take."""
    words = name
    if isinstance(progress, Progress):
        words += f": {progress.done} of {progress.total}"
        words += f", {progress.what}" if progress.what else ""
    share = progress.share if isinstance(progress, Progress) else progress
    if isinstance(share, (int, float)) and 0 < share < 1 and seconds > SHOW_REST_AFTER_S:
        words += f", about {max(1, round(seconds * (1 - share) / share))} s left"
    return words
