"""Episodes at the ends of what a presenter can bring: shortest, longest, most worn, markup in the names."""

import datetime as dt

from msgspec.structs import replace

from studio.decide import decide
from studio.model.car import Car, Placard, PlacardTire, RotationDone, Tolerance
from studio.model.episode import Episode, PictureChoice
from studio.model.finding import Findings
from studio.model.places import CORNERS, Place
from studio.model.quantity import Quantity, depth, length
from studio.model.question import Question
from studio.model.specimen import Gauge, Reading, Specimen, TreadPattern
from studio.questions.told import with_answer
from studio.reference.tables import load_tables

ON = dt.date(2026, 11, 14)
THIRTY_SECOND = Gauge(name="dial gauge", resolution=depth(1, "32nds"))
PICTURES = (
    "size_code", "cross_section", "sizes_beside", "rotation", "depth_compare", "depth_by_wheel", "coins",
    "wear_bars", "wear_profile", "date_code", "axle_match", "life_left", "choices", "ratings", "hydroplaning",
    "pressure_temperature", "repair_zone", "damage", "placard", "answer",
)  # fmt: skip
LONG_TITLE = (
    "Why this one tire, which looks perfectly good from the outside, has to come off before the first snow of the year"
)


def worn(place: Place, marking: str, worst: float, *, tread: TreadPattern = "plain", grooves: int = 3) -> Specimen:
    """A tire read twice, wearing evenly down to ``worst`` thirty-seconds in its innermost groove."""
    def reading(on: dt.date, miles: float, least: float) -> Reading:
        grid = tuple(tuple(least + (grooves - 1 - groove) * 0.5 for _ in range(3)) for groove in range(grooves))
        return Reading(on=on, place=place, gauge=THIRTY_SECOND, unit="32nds", depths=grid,
                       odometer=Quantity(miles, "mi"))  # fmt: skip

    visits = [(dt.date(2025, 5, 1), 30_000, worst + 1.6), (dt.date(2025, 7, 1), 36_000, worst + 0.8)]
    visits.append((dt.date(2025, 9, 1), 42_000, worst))
    readings = tuple(reading(*visit) for visit in visits)
    return Specimen(id=f"tire_{place}", place=place, marking=marking, date_code="2322", tread=tread,
                    depth_new=depth(12, "32nds"), readings=readings)  # fmt: skip


def episode(marking: str, worst: float, *, tread: TreadPattern = "plain", spare: str = "", title: str = "") -> Episode:
    """Four tires of one marking, the rear left one the most worn, and a spare if given."""
    tires = [worn(place, marking, worst + (0 if place == "rear_left" else 1), tread=tread) for place in CORNERS]
    if spare:
        tires.append(worn("spare", spare, 4))
    line = PlacardTire(marking=marking, pressure=Quantity(35, "psi"))
    car = Car(
        name="<b>Our car</b> & $5 $$", drivetrain="all",
        placard=Placard(front=line, rear=line, spare=PlacardTire(marking=spare)),
        wheelbase=length(118, "in"), front_track=length(66, "in"), rear_track=length(66, "in"),
        tolerance=Tolerance(form="depth", limit=depth(2, "32nds")), rotation_interval=Quantity(6000, "mi"),
        rotations=(RotationDone(on=dt.date(2025, 11, 1), odometer=Quantity(39_000, "mi"), pattern="rearward_cross"),),
    )  # fmt: skip
    pictures = tuple(PictureChoice(picture=id_, title=title) for id_ in PICTURES) if title else ()
    return Episode(title="An extreme", on=ON, car=car, specimens=tuple(tires), pictures=pictures)


ASKED = (
    "is 2/32 legal",
    "Hello there, I have been watching for years and love every episode, my neighbour does too. We measured all four "
    "of ours with your coin last Saturday, in the rain, twice: left rear 3/32, right rear 6/32, both fronts 5/32, all "
    "wheel drive, 225/60R17 99H. The shop wants $1,240 for four. Do I really need all four of them, or would one do?",
    "<b>bulge</b> &amp; {{7*7}} 😀 in the sidewall \u202eright\u202c, can I still drive?",
    "Darf ich statt 225/60R17 auch 235/55R18 fahren?",
)
"""What viewers ask of these episodes: the shortest, the longest, markup and signs that no face has, German."""


def asked(its: Episode, text: str) -> Episode:
    """The episode with this one comment."""
    return replace(its, questions=(Question(id="asked", text=text),))


def findings_of(its: Episode) -> Findings:
    """What pictures are drawn from: the findings, with the viewer's question that is to be shown."""
    return with_answer(its, decide(its, load_tables()), load_tables())


_EXTREMES: dict[str, Episode] = {
    "shortest marking, worn through": episode("155R13", 0),
    "longest marking, new, long title": episode(
        "LT315/75R16 127/124Q M+S", 8, spare="T165/80D17 104M", title=LONG_TITLE
    ),
    "high load, directional, metric": replace(
        episode("HL245/40R19 101Y XL", 2, tread="directional", spare="HL245/40R19 101Y XL"), region="de", units="metric"
    ),
    "at the limit, markup in the title": episode("225/60R17 99H", 2, title="<b>5 < 6 & $7</b>"),
}
EXTREMES = {
    name: asked(its, text) for (name, its), text in zip(_EXTREMES.items(), ASKED, strict=True)
}  # fmt: skip
