"""A catalogue of small pictures in the place of the shipped one: whole, in steps, with nothing to show, broken."""

import sys
from types import ModuleType
from typing import Any

import pytest

from studio.graphics import catalogue as catalogue_
from studio.graphics.catalogue import CannotShow, Request
from studio.graphics.frame import Frame
from studio.graphics.look import Look
from studio.graphics.scene import ArcText, Scene, Shape, Text
from studio.model.episode import Episode
from studio.model.finding import Findings

IDS = ("plain", "stepped", "nothing", "broken", "odd_signs")


class Small:
    """One text that says which picture it is."""

    id, name, takes, said = "", "A small picture", 1, "Depth 5/32 in"

    def data(self, episode: Episode, findings: Findings, request: Request) -> Any:
        return self.said

    def compose(self, data: Any, frame: Frame, look: Look) -> Scene:
        said = Text(name="said", text=data, at=(frame.titles.left, frame.height / 2), cap_height=frame.short / 24,
                    fill=look.ink, ground=look.ground, role="heading")  # fmt: skip
        return Scene(picture=self.id, frame=frame, background=look.ground, marks=(said,), findings=("tread_left.set",))


class Stepped(Small):
    """A ring, then its marking along an arc."""

    name, takes = "A picture in steps", 0

    def compose(self, data: Any, frame: Frame, look: Look) -> Scene:
        from studio.graphics.draw import ring

        center, side = (frame.width / 2, frame.height / 2), frame.short
        marks = (
            Shape(name="tire", outline=ring(center, side * 0.4, side * 0.2), fill=look.rubber),
            ArcText(name="marking", text="225/45R17", center=center, radius=side * 0.3, angle=0.0,
                    cap_height=side / 20, fill=look.letter, ground=look.rubber, step=1),
        )  # fmt: skip
        return Scene(picture=self.id, frame=frame, background=look.ground, marks=marks, steps=("tire", "marking"))


class Nothing(Small):
    def data(self, episode: Episode, findings: Findings, request: Request) -> Any:
        raise CannotShow("it needs a reading of each tire")


class Broken(Small):
    def compose(self, data: Any, frame: Frame, look: Look) -> Scene:
        raise ZeroDivisionError("division by zero")


class OddSigns(Small):
    said = "\u6f22 and <b>"


@pytest.fixture
def small_catalogue(monkeypatch: pytest.MonkeyPatch) -> tuple[str, ...]:
    """The ids of the small pictures, which stand in the catalogue during the test."""
    pictures = dict(zip(IDS, (Small(), Stepped(), Nothing(), Broken(), OddSigns()), strict=True))
    for id_, picture in pictures.items():
        picture.id = id_
        monkeypatch.setitem(sys.modules, f"studio.graphics.{id_}", ModuleType(id_))
    monkeypatch.setattr(catalogue_, "CATALOGUE", pictures)
    monkeypatch.setattr(catalogue_, "_MODULES", IDS)
    return IDS
