"""The episode: one frozen value that holds everything the presenter brought."""

import datetime as dt
from typing import Annotated

import msgspec

from studio.model.car import Car, LongText, Name, ShortText
from studio.model.circumstances import Circumstances, Prices
from studio.model.places import Place
from studio.model.quantity import System
from studio.model.question import MOST_QUESTIONS, Question
from studio.model.rundown import Publication, Rundown
from studio.model.specimen import Identifier, Specimen

FORMAT = 2


class PictureChoice(msgspec.Struct, frozen=True, kw_only=True, forbid_unknown_fields=True):
    """What the presenter chose for one picture of the catalogue: which tires, another title."""

    picture: ShortText
    specimens: tuple[Identifier, ...] = ()
    title: Name = ""


class Episode(msgspec.Struct, frozen=True, kw_only=True, forbid_unknown_fields=True):
    """One episode. ``on`` is the date for which it speaks: ages and dates are computed for that day."""

    format: int = FORMAT
    title: Name
    channel: Name = ""
    on: dt.date
    region: Annotated[str, msgspec.Meta(pattern=r"^[a-z]{2}(-[a-z]{2})?$(?!\n)")] = "us"
    units: System = "us"
    look: ShortText = "chalk"
    story: LongText = ""
    car: Car = Car()
    prices: Prices = Prices()
    circumstances: Circumstances = Circumstances()
    specimens: Annotated[tuple[Specimen, ...], msgspec.Meta(max_length=200)] = ()
    rundown: Rundown = Rundown()
    questions: Annotated[tuple[Question, ...], msgspec.Meta(max_length=MOST_QUESTIONS)] = ()
    pictures: tuple[PictureChoice, ...] = ()
    published: tuple[Publication, ...] = ()

    def standing_at(self, place: Place) -> Specimen | None:
        """The specimen that stands at ``place`` now; None where there is none."""
        return next((specimen for specimen in self.specimens if specimen.place == place), None)

    def specimen(self, id_: str) -> Specimen | None:
        """The specimen with this id."""
        return next((specimen for specimen in self.specimens if specimen.id == id_), None)
