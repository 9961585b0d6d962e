"""The rundown: segments in order, what is said in each, and what was measured when it was said."""

import datetime as dt
from typing import Annotated, Literal

import msgspec

from studio.model.car import LongText, Name, ShortText
from studio.model.specimen import Identifier

Rate = Literal["24000/1001", "25", "30000/1001", "60"]


class Point(msgspec.Struct, frozen=True, kw_only=True, forbid_unknown_fields=True, omit_defaults=True):
    """A talking point. ``text`` may hold live numbers, such as ``{tread_left.front_left margin both}``.

    ``findings`` are the ids of what it speaks about; ``pause_s`` is the planned silence after it.
    """

    text: LongText
    findings: tuple[Name, ...] = ()
    pause_s: Annotated[float, msgspec.Meta(ge=0, le=600)] = 0.0


class PictureCue(msgspec.Struct, frozen=True, kw_only=True, forbid_unknown_fields=True, omit_defaults=True):
    """A picture of the catalogue that comes on with the segment's point of index ``with_point``.

    ``steps`` are the names of the steps wanted; empty means all of them, in their order.
    """

    picture: ShortText
    with_point: Annotated[int, msgspec.Meta(ge=0, le=10_000)] = 0
    steps: tuple[ShortText, ...] = ()


class Shot(msgspec.Struct, frozen=True, kw_only=True, forbid_unknown_fields=True, omit_defaults=True):
    """What the camera takes, and how: ``framing`` in the presenter's words, such as ``close, from above``."""

    text: Name
    framing: Name = ""


class Segment(msgspec.Struct, frozen=True, kw_only=True, forbid_unknown_fields=True):
    """A segment of the rundown.

    ``shows`` names the work that it shows, by ids of the cautions table (``jacking``, ``wheel_nuts``): their cautions
    stand with it.
    """

    id: Identifier
    title: Name
    points: tuple[Point, ...] = ()
    pictures: tuple[PictureCue, ...] = ()
    props: tuple[Name, ...] = ()
    shots: tuple[Shot, ...] = ()
    shows: tuple[ShortText, ...] = ()


class PaidTie(msgspec.Struct, frozen=True, kw_only=True, forbid_unknown_fields=True):
    """Something paid or lent for this episode: its spoken line, where it is said, and the card on the screen."""

    what: Name
    segment: ShortText = ""
    line: LongText = ""
    card: Name = ""


class TakeTime(msgspec.Struct, frozen=True, kw_only=True, forbid_unknown_fields=True):
    """When a segment was spoken in a take, in seconds from the take's start."""

    segment: ShortText
    start_s: Annotated[float, msgspec.Meta(ge=0, le=86_400)]
    end_s: Annotated[float, msgspec.Meta(ge=0, le=86_400)]


class Take(msgspec.Struct, frozen=True, kw_only=True, forbid_unknown_fields=True):
    """One take, a rehearsal or the recorded one."""

    on: dt.date
    recorded: bool = False
    times: tuple[TakeTime, ...] = ()


class Dismissal(msgspec.Struct, frozen=True, kw_only=True, forbid_unknown_fields=True):
    """A mark of the number check that the presenter set aside: which text in which segment, and why."""

    segment: ShortText
    text: Name
    reason: Name


class Rundown(msgspec.Struct, frozen=True, kw_only=True, forbid_unknown_fields=True):
    """The order of segments with all that belongs to speaking them. ``words_per_minute`` None is learnt from takes."""

    segments: tuple[Segment, ...] = ()
    paid_ties: tuple[PaidTie, ...] = ()
    takes: tuple[Take, ...] = ()
    dismissed: tuple[Dismissal, ...] = ()
    words_per_minute: Annotated[float, msgspec.Meta(ge=110, le=200)] | None = None
    target_s: Annotated[float, msgspec.Meta(gt=0, le=86_400)] | None = None
    rate: Rate = "30000/1001"

    def segment(self, id_: str) -> Segment | None:
        """The segment with this id."""
        return next((segment for segment in self.segments if segment.id == id_), None)


class ReadThen(msgspec.Struct, frozen=True, kw_only=True, forbid_unknown_fields=True):
    """An input as it stood when something was published: its path into the episode, and it in words."""

    path: Name
    words: Name


class SaidNumber(msgspec.Struct, frozen=True, kw_only=True, forbid_unknown_fields=True):
    """A number as it was published: of which finding, as which text, in which segment, when (seconds), from what."""

    finding: Name
    number: ShortText
    text: Name
    segment: ShortText = ""
    at_s: Annotated[float, msgspec.Meta(ge=0, le=86_400)] | None = None
    made_from: tuple[ReadThen, ...] = ()


class Publication(msgspec.Struct, frozen=True, kw_only=True, forbid_unknown_fields=True):
    """What was published, when, with which numbers: a correction is drafted when one of them has changed."""

    on: dt.date
    title: Name
    said: tuple[SaidNumber, ...] = ()
