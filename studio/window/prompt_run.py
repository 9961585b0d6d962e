"""Where a run through the script stands: which part, how far into it, how fast, and when each segment was spoken."""

import datetime as dt
from collections.abc import Sequence

from studio.model.rundown import Take, TakeTime
from studio.window.prompt_script import PromptPart

SLOWEST, FASTEST, STEP = 0.3, 2.5, 0.1
_SHORTEST_S = 1.0  # what is passed over faster was not spoken
_NEARLY = 0.8  # of the last part: whoever ends here has said it


class PromptRun:
    """A run through ``parts``. Its clock stands while it is held."""

    def __init__(self, parts: Sequence[PromptPart], start: int = 0) -> None:
        self.parts = tuple(parts)
        self.at = min(max(0, start), max(0, len(parts) - 1))
        self.share = 0.0
        """How much of the part is said, from 0 to 1; its pause comes after that."""
        self.running = self.by_hand = self.ended = False
        self.speed = 1.0
        self.clock_s = 0.0
        self._paused_s = 0.0
        self._began_s = 0.0
        self._times: list[TakeTime] = []

    @property
    def part(self) -> PromptPart | None:
        """The part being said."""
        return self.parts[self.at] if self.parts else None

    def tick(self, seconds: float) -> None:
        """So much time has gone by."""
        if not self.running or self.ended or not self.parts:
            return
        if self.by_hand:
            self.clock_s += seconds
        else:
            self._go_on(seconds * self.speed)

    def _go_on(self, seconds: float) -> None:
        """Say so many seconds of the script, its pauses too; the clock goes along, part by part."""
        while seconds > 0 and not self.ended:
            part = self.parts[self.at]
            said = min(seconds, part.speaking_s * (1 - self.share))
            paused = min(seconds - said, max(0.0, part.pause_s - self._paused_s))
            seconds -= said + paused
            self.clock_s += (said + paused) / self.speed
            self._paused_s += paused
            if seconds <= 0 and (said < part.speaking_s * (1 - self.share) or self._paused_s < part.pause_s):
                self.share = min(1.0, self.share + said / part.speaking_s) if part.speaking_s else 0.0
                return
            self.share = 1.0
            self._next()

    def _next(self) -> None:
        if self.at + 1 < len(self.parts):
            self._stand_at(self.at + 1)
        else:
            self._end_segment()
            self.ended, self.running = True, False

    def turn(self) -> None:
        """Run, or hold."""
        self.running = not self.running and not self.ended

    def turn_by_hand(self) -> None:
        """Scroll by itself, or only by the clicker while the clock runs."""
        self.by_hand = not self.by_hand

    def step(self, count: int) -> None:
        """Go on (1) or back (-1) so many parts; past the last one the run has ended."""
        if not self.parts:
            return
        if count > 0 and self.at + count >= len(self.parts):
            if not self.ended:
                self.share = 1.0
                self._next()
            return
        self.ended = False
        self._stand_at(max(0, self.at + count))

    def faster(self, count: int) -> None:
        """Change the speed by so many steps."""
        self.speed = round(min(FASTEST, max(SLOWEST, self.speed + count * STEP)), 2)

    def _stand_at(self, at: int) -> None:
        here, there = self.parts[self.at].segment, self.parts[at].segment
        if here != there:
            self._end_segment() if at > self.at else self._say_again(there)
            self._began_s = self.clock_s
        self.at, self.share, self._paused_s = at, 0.0, 0.0

    def _end_segment(self) -> None:
        segment = self.parts[self.at].segment
        if self.clock_s - self._began_s >= _SHORTEST_S and not any(its.segment == segment for its in self._times):
            self._times.append(TakeTime(segment=segment, start_s=self._began_s, end_s=self.clock_s))

    def _say_again(self, segment: str) -> None:
        """Who goes back says it anew: what was timed from there on does not count."""
        order = list(dict.fromkeys(part.segment for part in self.parts))
        self._times = [its for its in self._times if order.index(its.segment) < order.index(segment)]

    def take(self, on: dt.date) -> Take | None:
        """The times of the segments that were said to their end; None where none was."""
        part = self.part
        times = list(self._times)
        if part is not None and part.last and not self.ended and (self.by_hand or self.share >= _NEARLY):
            self._end_segment()
            times, self._times = list(self._times), times
        rounded = (TakeTime(segment=t.segment, start_s=round(t.start_s, 2), end_s=round(t.end_s, 2)) for t in times)
        kept = tuple(its for its in rounded if its.end_s > its.start_s)
        return Take(on=on, times=kept) if kept else None
