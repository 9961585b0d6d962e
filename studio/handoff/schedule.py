"""What is spoken and shown, and when: the frozen values from which captions, chapters and timeline are written.

All times are exact fractions of a second from the episode's start.
"""

from fractions import Fraction

import msgspec


class TimedPoint(msgspec.Struct, frozen=True, kw_only=True):
    """A talking point: its words as they stand on a screen, when it is spoken, and by how many spoken words."""

    text: str
    start: Fraction
    end: Fraction
    spoken_words: int


class TimedStep(msgspec.Struct, frozen=True, kw_only=True):
    """A step of a picture: its name and when it appears."""

    name: str
    start: Fraction


class TimedPicture(msgspec.Struct, frozen=True, kw_only=True):
    """A picture while it is on: its file by relative path, and its steps."""

    picture: str
    name: str
    file: str
    start: Fraction
    end: Fraction
    steps: tuple[TimedStep, ...] = ()


class TimedSegment(msgspec.Struct, frozen=True, kw_only=True):
    """A segment with what is said and shown in it; ``notes`` are its cautions, for the edit."""

    id: str
    title: str
    start: Fraction
    end: Fraction
    points: tuple[TimedPoint, ...] = ()
    pictures: tuple[TimedPicture, ...] = ()
    notes: tuple[str, ...] = ()


class Schedule(msgspec.Struct, frozen=True, kw_only=True):
    """The episode in time. ``basis`` says whether a take or the reading pace gave the times."""

    title: str
    segments: tuple[TimedSegment, ...]
    basis: str = ""

    @property
    def end(self) -> Fraction:
        """When it ends."""
        return self.segments[-1].end if self.segments else Fraction(0)
