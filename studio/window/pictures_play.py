"""Plays a picture's clip in the large preview: one button, a slider through its frames, the time.

For whoever places it: ``bar = PlayBar()``; ``bar.show_clip(scene, rate)`` gives it a finished picture, composed for a
frame of about the size it is shown at (a smaller one is as cheap to play as it looks) and over its background;
``bar.shown`` then gives each image to be shown in the stage's place, and ``bar.ended`` says that the still is wanted
again. ``bar.show_clip(None, rate)`` where there is no picture; ``bar.stop()`` when the place is left.
"""

import time
from collections.abc import Callable

from PySide6.QtCore import QObject, Qt, QTimer, Signal
from PySide6.QtWidgets import QHBoxLayout, QPushButton, QSizePolicy, QSlider, QWidget

from studio.graphics.motion import Clip
from studio.graphics.moving.clips import clip_of
from studio.graphics.paint.clip import ClipPainter
from studio.graphics.scene import Scene
from studio.model.rate import RATES
from studio.model.rundown import Rate
from studio.window.labels import field_label, plain_label, push_button
from studio.window.palette import GRID

_LATE_MS = 2  # how much later than its frame the next look at the clock is


class Player(QObject):
    """A clip in time: what is late is left out, so that it takes as long as it says."""

    shown = Signal(object)
    """The QImage of the frame to be seen now; it is painted over when the next one comes."""
    moved = Signal()
    """Another frame, or playing began or stopped."""
    ended = Signal()

    def __init__(self, parent: QObject | None = None, now: Callable[[], float] = time.monotonic) -> None:
        super().__init__(parent)
        self._now = now
        self._painter: ClipPainter | None = None
        self._from, self._since = 0, 0.0
        self.frame = 0
        self._timer = QTimer(self)
        self._timer.setTimerType(Qt.TimerType.PreciseTimer)
        self._timer.timeout.connect(self.tick)
        self._ahead = QTimer(self)
        self._ahead.setSingleShot(True)
        self._ahead.timeout.connect(self._prepare)

    @property
    def clip(self) -> Clip | None:
        """What is played."""
        return self._painter.clip if self._painter else None

    @property
    def playing(self) -> bool:
        """Whether it runs."""
        return self._timer.isActive()

    @property
    def frames(self) -> int:
        """How many frames there are."""
        return self._painter.clip.frames if self._painter else 0

    def load(self, clip: Clip | None) -> None:
        """Another clip, from its start; nothing is shown yet."""
        self.pause()
        self._painter = ClipPainter(clip) if clip else None
        self.frame = 0
        self.moved.emit()

    def play(self) -> None:
        """Run from the present frame, from the start if it is at the end."""
        if self._painter is None:
            return
        if self.frame >= self.frames - 1:
            self.frame = 0
        self._from, self._since = self.frame, self._now()
        self._timer.start(max(1, int(1000 / RATES[self._painter.clip.rate]) - _LATE_MS))
        self.seek(self.frame)

    def pause(self) -> None:
        """Stand where it is."""
        was = self.playing
        self._timer.stop()
        self._ahead.stop()
        if was:
            self.moved.emit()

    def seek(self, frame: int) -> None:
        """Show a frame; playing goes on from there."""
        if self._painter is None:
            return
        self.frame = min(max(0, frame), self.frames - 1)
        self._from, self._since = self.frame, self._now()
        self._show()

    def tick(self) -> None:
        """Show the frame that is due by the clock."""
        if self._painter is None:
            return
        clip = self._painter.clip
        due = self._from + int((self._now() - self._since) * RATES[clip.rate])
        if due >= clip.frames - 1:
            self.frame = clip.frames - 1
            self._show()
            self.pause()
            self.ended.emit()
        elif due != self.frame:
            stands = clip.still_at(due) is not None and clip.step_at(due) == clip.step_at(self.frame)
            still = stands and clip.still_at(self.frame) is not None
            self.frame = due
            self.moved.emit() if still else self._show()

    def _show(self) -> None:
        if self._painter is None:
            return
        self.shown.emit(self._painter.image(self.frame))
        self.moved.emit()
        if self.playing and self._painter.clip.still_at(self.frame) is not None:
            self._ahead.start(0)

    def _prepare(self) -> None:
        """While a step stands the next one is made ready, so that it begins without a stall."""
        if self._painter is not None:
            step = self._painter.clip.step_at(self.frame) + 1
            if step < len(self._painter.clip.steps):
                self._painter.prepare(step)


class PlayBar(QWidget):
    """Play and pause, the frames to scrub through, the time of all. ``player`` is what runs."""

    shown = Signal(object)
    ended = Signal()

    def __init__(self) -> None:
        super().__init__()
        self.player = Player(self)
        self.button: QPushButton = push_button("&Play", self.toggle)
        self.slider = QSlider(Qt.Orientation.Horizontal)
        self.slider.setSizePolicy(QSizePolicy.Policy.Expanding, QSizePolicy.Policy.Fixed)
        self.time = plain_label("", "quiet")
        self._label = field_label("&Clip", self.slider)
        row = QHBoxLayout(self)
        row.setContentsMargins(0, 0, 0, 0)
        row.setSpacing(GRID)
        for widget in (self.button, self._label, self.slider, self.time):
            row.addWidget(widget)
        self.slider.actionTriggered.connect(self._scrubbed)
        self.player.shown.connect(self.shown)
        self.player.ended.connect(self.ended)
        self.player.moved.connect(self._say)
        self.show_clip(None, "25")

    def show_clip(self, scene: Scene | None, rate: Rate) -> None:
        """The picture whose clip is to be played; None where there is none."""
        self.player.load(clip_of(scene, rate) if scene is not None else None)
        self.slider.setRange(0, max(0, self.player.frames - 1))
        for widget in (self.button, self.slider):
            widget.setEnabled(scene is not None)
        self._say()

    def toggle(self) -> None:
        """Play, or stand."""
        if self.player.playing:
            self.player.pause()
        else:
            self.player.play()

    def stop(self) -> None:
        """Stand, and let the still be shown again."""
        if self.player.playing:
            self.player.pause()
            self.ended.emit()

    def _scrubbed(self, _action: int) -> None:
        self.player.seek(self.slider.sliderPosition())

    def _say(self) -> None:
        clip = self.player.clip
        self.button.setText("&Pause" if self.player.playing else "&Play")
        self.slider.setValue(self.player.frame)
        if clip is None:
            self.time.setText("")
            return
        seconds = [round(count / RATES[clip.rate]) for count in (self.player.frame, clip.frames)]
        words = " of ".join(f"{value // 60}:{value % 60:02d}" for value in seconds)
        self.time.setText(words)
        self.slider.setAccessibleDescription(words)
