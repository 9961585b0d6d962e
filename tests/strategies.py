"""Made-up episodes for property tests: ``episodes`` holds what a file may, ``plausible_episodes`` what may be true."""

import datetime as dt
from typing import get_args

from hypothesis import strategies as st

from studio.model import car, specimen
from studio.model.episode import Episode, PictureChoice
from studio.model.places import CORNERS, Place
from studio.model.quantity import Kind, Quantity, System, UnitName, depth, length
from studio.model.question import CorrectedFact, Question, QuestionState
from studio.model.rundown import (
    Dismissal,
    PaidTie,
    PictureCue,
    Point,
    Publication,
    Rate,
    ReadThen,
    Rundown,
    SaidNumber,
    Segment,
    Shot,
    Take,
    TakeTime,
)  # fmt: skip
from studio.model.specimen import Damage, Gauge, PressureReading, Reading, Specimen

WORDS = st.text(st.characters(exclude_categories=["Cs"]), max_size=20)
DATES = st.dates(dt.date(1990, 1, 1), dt.date(2030, 12, 31))
IDS = st.from_regex(r"[a-z0-9][a-z0-9_]{0,39}", fullmatch=True)
NUMBERS = st.floats(allow_nan=False, allow_infinity=False)
QUANTITIES = st.builds(
    Quantity, NUMBERS, st.sampled_from(get_args(UnitName)), st.none() | st.sampled_from(get_args(Kind))
)
GRIDS = st.lists(st.lists(st.none() | NUMBERS, max_size=4).map(tuple), max_size=4).map(tuple)


def chosen(literal: object) -> st.SearchStrategy[str]:
    """One of a Literal's values."""
    return st.sampled_from(get_args(literal))


def few(each: st.SearchStrategy[object], most: int = 3) -> st.SearchStrategy[tuple[object, ...]]:
    """A short tuple."""
    return st.lists(each, max_size=most).map(tuple)


def maybe(each: st.SearchStrategy[object]) -> st.SearchStrategy[object]:
    """``each``, or None."""
    return st.none() | each


PLACARD_TIRES = st.builds(car.PlacardTire, marking=WORDS, pressure=maybe(QUANTITIES))
CARS = st.builds(
    car.Car,
    name=WORDS,
    drivetrain=maybe(chosen(car.Drivetrain)),
    certified_as=maybe(chosen(car.Certified)),
    placard=st.builds(car.Placard, front=PLACARD_TIRES, rear=PLACARD_TIRES, spare=PLACARD_TIRES),
    front_axle_rating=maybe(QUANTITIES),
    wheelbase=maybe(QUANTITIES),
    wheel_nut_torque=maybe(QUANTITIES),
    tolerance=maybe(st.builds(car.Tolerance, form=chosen(car.ToleranceForm), limit=QUANTITIES)),
    rotations=few(st.builds(car.RotationDone, on=DATES, odometer=maybe(QUANTITIES), pattern=WORDS)),
)
DAMAGES = st.builds(
    Damage, kind=chosen(specimen.DamageKind), zone=chosen(specimen.Zone), size=maybe(QUANTITIES), note=WORDS
)
READINGS = st.builds(
    Reading,
    on=DATES,
    place=chosen(Place),
    gauge=st.builds(Gauge, name=WORDS, resolution=QUANTITIES),
    unit=chosen(specimen.DepthUnit),
    depths=GRIDS,
    odometer=maybe(QUANTITIES),
    pressure=maybe(st.builds(PressureReading, pressure=QUANTITIES, temperature=maybe(QUANTITIES), cold=st.booleans())),
    damage=few(DAMAGES, 2),
    note=WORDS,
)
SPECIMENS = st.builds(
    Specimen,
    id=IDS,
    place=chosen(Place),
    name=WORDS,
    marking=WORDS,
    date_code=WORDS,
    tread=chosen(specimen.TreadPattern),
    season=chosen(specimen.Season),
    depth_new=maybe(QUANTITIES),
    max_pressure=maybe(QUANTITIES),
    readings=few(READINGS, 2),
    photos=few(WORDS, 2),
    note=WORDS,
)
SECONDS = st.floats(0, 86_400)
TAKE_TIMES = st.builds(TakeTime, segment=WORDS, start_s=SECONDS, end_s=SECONDS)
RUNDOWNS = st.builds(
    Rundown,
    segments=few(
        st.builds(
            Segment,
            id=IDS,
            title=WORDS,
            points=few(st.builds(Point, text=WORDS, findings=few(WORDS, 2), pause_s=st.floats(0, 600)), 2),
            pictures=few(st.builds(PictureCue, picture=WORDS, with_point=st.integers(0, 9), steps=few(WORDS, 2)), 2),
            props=few(WORDS, 2),
            shots=few(st.builds(Shot, text=WORDS, framing=WORDS), 2),
            shows=few(WORDS, 2),
        ),
        2,
    ),
    paid_ties=few(st.builds(PaidTie, what=WORDS, segment=WORDS, line=WORDS, card=WORDS), 1),
    takes=few(st.builds(Take, on=DATES, recorded=st.booleans(), times=few(TAKE_TIMES, 2)), 1),
    dismissed=few(st.builds(Dismissal, segment=WORDS, text=WORDS, reason=WORDS), 1),
    words_per_minute=maybe(st.floats(110, 200)),
    target_s=maybe(st.floats(1, 86_400)),
    rate=chosen(Rate),
)
SAID = st.builds(
    SaidNumber,
    finding=WORDS,
    number=WORDS,
    text=WORDS,
    segment=WORDS,
    at_s=maybe(SECONDS),
    made_from=few(st.builds(ReadThen, path=WORDS, words=WORDS), 2),
)
QUESTIONS = st.builds(
    Question,
    id=IDS,
    text=WORDS,
    on=maybe(DATES),
    state=chosen(QuestionState),
    corrected=few(st.builds(CorrectedFact, field=WORDS, value=WORDS), 2),
    reply=WORDS,
    answered_on=maybe(DATES),
    asked=st.integers(1, 1_000_000),
)


def episodes() -> st.SearchStrategy[Episode]:
    """Any episode that a file can hold, sensible or not."""
    return st.builds(
        Episode,
        title=WORDS,
        channel=WORDS,
        on=DATES,
        region=st.from_regex(r"[a-z]{2}(-[a-z]{2})?", fullmatch=True),
        units=chosen(System),
        look=WORDS,
        story=WORDS,
        car=CARS,
        specimens=few(SPECIMENS),
        rundown=RUNDOWNS,
        questions=few(QUESTIONS, 2),
        pictures=few(st.builds(PictureChoice, picture=WORDS, specimens=few(IDS, 2), title=WORDS), 2),
        published=few(st.builds(Publication, on=DATES, title=WORDS, said=few(SAID, 2)), 1),
    )


MARKINGS = ("225/60R17 99H", "205/55R16 91V", "195/65R15 91T", "P215/65R17 98T", "235/60R18 103H XL")
US_GAUGE, METRIC_GAUGE = Gauge(resolution=depth(1, "32nds")), Gauge(resolution=depth(0.1, "mm"))


def _visit(place: Place, us: bool, day: dt.date, odometer: Quantity) -> st.SearchStrategy[Reading]:
    """A visit with the gauge: three grooves, three places round the tire, depths as a used tire may have them."""
    one = st.integers(2, 12).map(float) if us else st.integers(16, 90).map(lambda tenths: tenths / 10)
    grid = st.tuples(*[st.tuples(one, one, one)] * 3)
    return st.builds(
        Reading,
        on=st.just(day),
        place=st.just(place),
        gauge=st.just(US_GAUGE if us else METRIC_GAUGE),
        unit=st.just("32nds" if us else "mm"),
        depths=grid,
        odometer=st.just(odometer),
    )


@st.composite
def plausible_specimens(draw: st.DrawFn, place: Place, us: bool, on: dt.date, marking: str) -> Specimen:
    """A tire in use, made one to eight years before ``on``, read once or twice."""
    made = draw(st.integers(1, 51)), on.year - draw(st.integers(1, 8))
    visits = draw(st.integers(1, 2))
    readings = []
    for back in range(visits - 1, -1, -1):
        kilometers = Quantity(60_000.0 - 8_000 * back, "km")
        odometer = kilometers.to("mi") if us else kilometers
        readings.append(draw(_visit(place, us, on - dt.timedelta(days=1 + 200 * back), odometer)))
    return Specimen(
        id=f"tire_{place}",
        place=place,
        marking=marking,
        date_code=f"{made[0]:02d}{made[1] % 100:02d}",
        tread=draw(st.sampled_from(get_args(specimen.TreadPattern))),
        season=draw(st.sampled_from(("summer", "all_season", "winter"))),
        depth_new=depth(11, "32nds") if us else depth(8.0, "mm"),
        max_pressure=draw(st.sampled_from((None, Quantity(44.0, "psi"), Quantity(350.0, "kPa")))),
        readings=tuple(readings),
    )


@st.composite
def plausible_episodes(draw: st.DrawFn) -> Episode:
    """An episode of a car with four tires of one size, with readings that can be true."""
    us = draw(st.booleans())
    on = draw(st.dates(dt.date(2024, 1, 1), dt.date(2026, 12, 1)))
    marking = draw(st.sampled_from(MARKINGS))
    cold = Quantity(35.0, "psi") if us else Quantity(230.0, "kPa")
    line = car.PlacardTire(marking=marking, pressure=cold)
    return Episode(
        title="A made-up episode",
        on=on,
        region=draw(st.sampled_from(("us",) if us else ("de", "uk", "eu"))),
        units="us" if us else "metric",
        car=car.Car(
            name="A made-up car",
            drivetrain=draw(chosen(car.Drivetrain)),  # type: ignore[arg-type]
            placard=car.Placard(front=line, rear=line),
            wheelbase=length(2700.0),
        ),
        specimens=tuple(draw(plausible_specimens(place, us, on, marking)) for place in CORNERS),
    )
