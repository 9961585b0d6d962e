"""A rundown of our own on a demo's car, and the fixtures' helpers around it."""

from functools import lru_cache
from typing import Any

from msgspec.structs import replace

from studio import shipped
from studio.model.episode import Episode
from studio.model.rundown import PictureCue, Point, Rundown, Segment, Shot
from studio.storage.episode_file import decode

HOSTILE = "<b>bold</b> & --> <img src='/etc/passwd'> \U0001f600"


@lru_cache(maxsize=4)
def demo(name: str = "minivan_one_new_tire") -> Episode:
    """A shipped demo."""
    return decode((shipped.demos() / f"{name}.json").read_bytes())


def point(text: str, **more: Any) -> Point:
    """A talking point."""
    return Point(text=text, **more)


def segment(id_: str, *texts: str, **more: Any) -> Segment:
    """A segment with points of these texts."""
    more = {"title": id_.capitalize(), **more}
    return Segment(id=id_, points=tuple(Point(text=text) for text in texts), **more)


def rundown_of(*segments: Segment, **more: Any) -> Episode:
    """The demo's car with this rundown."""
    return replace(demo(), rundown=Rundown(segments=segments, **more))


def three() -> Episode:
    """Three segments: numbers that are live, that are wrong, and what goes with a segment."""
    return rundown_of(
        segment("opening", "One screw, one tire. The front right has {tread_left.front_right both} left."),
        segment(
            "wrong", "The front left has 4/32 inch left.", "Seventeen elephants weigh 3000 kg.",
            "Inflate to the number on the sidewall.", "It has {no.such both}.",
        ),
        segment(
            "closing", "Measure yours on Saturday.", pictures=(PictureCue(picture="depth_by_wheel"),),
            shots=(Shot(text="The foot of the gauge", framing="close"),), props=("chalk",), shows=("measuring",),
        ),
    )  # fmt: skip


def long_script(words: int, segments: int) -> Episode:
    """A script of so many words in so many segments, each point of 20 words with a number in it."""
    text = "The front right tire has {tread_left.front_right} left and that is all " + "there is to say here " * 2
    points = words // 20
    each = points // segments
    return rundown_of(
        *(
            Segment(id=f"part_{n}", title=f"Part {n}", points=tuple(Point(text=text) for _ in range(each)))
            for n in range(segments)
        )
    )
