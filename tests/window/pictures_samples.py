"""Small pictures with real scenes, for tests of the place and not of the drawings."""

import threading
import time
from typing import Any

from studio.graphics.catalogue import CannotShow, Request
from studio.graphics.draw import rectangle
from studio.graphics.frame import Frame
from studio.graphics.look import Look
from studio.graphics.scene import Scene, Shape, Text
from studio.model.episode import Episode
from studio.model.finding import Findings

STEPS = ("the ground", "the number", "the limit")


class SamplePicture:
    """A picture in three steps that shows its title and the first number of the tires asked for."""

    def __init__(self, id_: str, name: str, takes: int = 0, slow_s: float = 0.0) -> None:
        self.id, self.name, self.takes, self.slow_s = id_, name, takes, slow_s
        self.composed: list[threading.Thread] = []

    def data(self, episode: Episode, findings: Findings, request: Request) -> Any:
        read = [its for its in findings if its.value is not None]
        if not read:
            raise CannotShow("no tire has a depth reading yet")
        return request.title or read[0].sentence, request.specimens, read[0].id, read[0].value

    def compose(self, data: Any, frame: Frame, look: Look) -> Scene:
        self.composed.append(threading.current_thread())
        time.sleep(self.slow_s)
        title, tires, id_, _value = data
        words = f"{title} {' '.join(tires)}".strip()
        middle = (frame.width / 2, frame.height / 2)
        line = {"at": middle, "cap_height": frame.cap_height("heading"), "fill": look.ink, "ground": look.ground}
        block = rectangle(frame.width * 0.4, frame.height * 0.6, frame.width * 0.2, frame.height * 0.1)
        return Scene(
            picture=self.id, frame=frame, background=look.ground, steps=STEPS, title=words,
            alternative=f"In words: {words}", findings=(id_,),
            marks=(
                Text(name="title", text=words, role="heading", anchor="middle", **line),
                Shape(name="number", step=1, outline=block, fill=look.measure),
                Shape(name="limit", step=2, outline=block, fill=look.verdicts.replace),
            ),
        )  # fmt: skip


class BrokenPicture(SamplePicture):
    """A picture with a bug in it."""

    def compose(self, data: Any, frame: Frame, look: Look) -> Scene:
        raise ZeroDivisionError("a bug")


def sample_catalogue(**more: Any) -> dict[str, SamplePicture]:
    """Three pictures under ids of the real catalogue, so that their files are named as real ones are."""
    return {
        "size_code": SamplePicture("size_code", "The size code", takes=1, **more),
        "depth_compare": SamplePicture("depth_compare", "Depths compared", takes=2, **more),
        "depth_by_wheel": SamplePicture("depth_by_wheel", "Depth at every wheel", **more),
    }
