"""Fields of the rundown: seconds, a length as a clock shows it, a pace, the point with which a picture comes on."""

import re
from fractions import Fraction
from typing import Any, get_args

from studio.model.rundown import PictureCue, Rate, Segment
from studio.window.chooser import Chooser
from studio.window.document import Document
from studio.window.fields import ValueField
from studio.window.rundown_edit import clean_line
from studio.window.rundown_rows import clock
from studio.window.subject import Subject

SLOWEST, FASTEST, LONGEST_PAUSE_S, LONGEST_S = 110, 200, 600, 86_400
RATES: tuple[tuple[Rate, str], ...] = (
    ("24000/1001", "23.976 (24000/1001)"), ("25", "25"), ("30000/1001", "29.97 (30000/1001)"), ("60", "60"),
)  # fmt: skip
assert {rate for rate, _ in RATES} == set(get_args(Rate))
_CLOCK = re.compile(r"(?:(\d{1,2}):)?(\d{1,4}):([0-5]\d)")
_LENGTH = re.compile(r"(\d{1,6}(?:[.,]\d{1,3})?)\s*(s|sec|seconds?|min|minutes?)?", re.IGNORECASE)


def read_length(text: str) -> float:
    """Seconds that ``text`` states, as 8:30, 1:02:00, 510 s or 8.5 min; raises ValueError with an example."""
    if match := _CLOCK.fullmatch(text.strip()):
        hours, minutes, seconds = (int(part or 0) for part in match.groups())
        found = float(3600 * hours + 60 * minutes + seconds)
    elif match := _LENGTH.fullmatch(text.strip()):
        number = float(match[1].replace(",", "."))
        found = number * (60 if (match[2] or "s").lower().startswith("m") else 1)
    else:
        found = 0.0
    if not 0 < found <= LONGEST_S:
        raise ValueError(f"{text[:20]!r} was read; expected a length up to 24 hours, such as 8:30 or 510 s")
    return found


class PauseField(ValueField):
    """Seconds of silence after a point."""

    def read(self, text: str) -> float:
        """The seconds that ``text`` states: ``2``, ``1.5 s``."""
        match = re.fullmatch(r"(\d{1,3}(?:[.,]\d{1,2})?)\s*(?:s|sec|seconds?)?", text.strip(), re.IGNORECASE)
        found = float(match[1].replace(",", ".")) if match else -1.0
        if not 0 <= found <= LONGEST_PAUSE_S:
            raise ValueError(f"{text[:20]!r} was read; expected from 0 to {LONGEST_PAUSE_S} seconds, such as 1.5")
        return found

    def write(self, value: Any, merge: str = "") -> None:
        """Nothing typed is no pause."""
        super().write(0.0 if value is None else value, merge)

    def words_of(self, value: Any) -> str:
        """The seconds."""
        return f"{value:g} s" if value else ""


class LengthField(ValueField):
    """The length wanted of the whole."""

    def read(self, text: str) -> float:
        """The seconds that ``text`` states."""
        return read_length(text)

    def words_of(self, value: Any) -> str:
        """As a clock shows it; to a part of a second where it has one."""
        if value is None:
            return ""
        return clock(Fraction(value)) if value == int(value) else f"{value:g} s"

    def aside_of(self, value: Any) -> str:
        """The same in seconds."""
        return "" if value is None else f"{value:g} s"


class PaceField(ValueField):
    """Words a minute; nothing typed lets the takes teach it."""

    def read(self, text: str) -> float:
        """The words a minute that ``text`` states."""
        match = re.fullmatch(r"(\d{2,3}(?:[.,]\d)?)(?:\s*(?:wpm|words.*))?", text.strip(), re.IGNORECASE)
        found = float(match[1].replace(",", ".")) if match else 0.0
        if not SLOWEST <= found <= FASTEST:
            raise ValueError(
                f"{text[:20]!r} was read; expected from {SLOWEST} to {FASTEST} words a minute, such as 150"
            )
        return found

    def words_of(self, value: Any) -> str:
        """The number."""
        return "" if value is None else f"{value:g}"


class WithPointField(ValueField):
    """The number, from 1, of the point with which a picture comes on."""

    optional = False

    def read(self, text: str) -> int:
        """The index, from 0, that ``text`` states."""
        number = int(text) if text.strip().isascii() and text.strip().isdigit() else 0
        if not 1 <= number <= 10_000:
            raise ValueError(f"{text[:20]!r} was read; expected the number of a point, such as 1")
        return number - 1

    def words_of(self, value: Any) -> str:
        """The number, from 1."""
        return "" if value is None else str(value + 1)


class StepsField(ValueField):
    """The names of a picture's steps with commas between them; nothing typed shows all."""

    def read(self, text: str) -> tuple[str, ...]:
        """The names."""
        names = tuple(dict.fromkeys(name for part in text.split(",") if (name := clean_line(part))))
        if long := next((name for name in names if len(name) > 100), ""):
            raise ValueError(f"{long[:20]!r}… was read; expected names of steps of at most 100 characters")
        return names

    def write(self, value: Any, merge: str = "") -> None:
        """Nothing typed is no choice."""
        super().write(() if value is None else value, merge)

    def words_of(self, value: Any) -> str:
        """The names."""
        return ", ".join(value or ())


class SegmentChoice(Chooser):
    """One of the rundown's segments, by its title; a name that leads nowhere is shown as it is."""

    def __init__(self, subject: Subject, part: str, what: str) -> None:
        super().__init__(16)
        self.subject, self.part, self.what = subject, part, what
        self._shown: tuple[tuple[str, str], ...] = ()
        self.activated.connect(self._chosen)
        subject.document.changed.connect(self.refresh)
        self.refresh()

    @property
    def path(self) -> str:
        """The path into the episode of what is shown here."""
        return f"{self.subject.path}.{self.part}"

    def refresh(self) -> None:
        """List the segments as they are and show the one that is named."""
        value = self.subject.value()
        held = getattr(value, self.part) if value is not None else ""
        listed = [("", "none yet"), *_titles(self.subject.document)]
        if held not in dict(listed):
            listed.append((held, f"{held}: no such segment"))
        if tuple(listed) != self._shown:
            self._shown = tuple(listed)
            self.clear()
            for id_, words in listed:
                self.addItem(words, id_)
        self.setCurrentIndex(self.findData(held))

    def _chosen(self, _index: int) -> None:
        from msgspec.structs import replace

        value = self.subject.value()
        if value is not None:
            self.subject.write(self.what, replace(value, **{self.part: self.currentData()}))


def _titles(document: Document) -> list[tuple[str, str]]:
    def words(number: int, segment: Segment) -> str:
        return f"{number}. {clean_line(segment.title)[:60] or 'without a title'}"

    return [(its.id, words(n, its)) for n, its in enumerate(document.episode.rundown.segments, start=1)]


def cue_words(cue: PictureCue, names: dict[str, str]) -> str:
    """A picture cue on one line."""
    return f"{names.get(cue.picture, f'{cue.picture}: no such picture')} with point {cue.with_point + 1}"
