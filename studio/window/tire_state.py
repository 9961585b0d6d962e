"""What the plan shows of each tire: its readings in order, its mark, and what the findings say of it."""

from dataclasses import dataclass
from typing import TYPE_CHECKING

from studio.model.episode import Episode
from studio.model.finding import SEVERITY, Finding, Findings, Verdict
from studio.model.places import ON_CAR, Place, place_words
from studio.model.quantity import Quantity
from studio.model.specimen import Reading, Specimen
from studio.window.document import Document
from studio.window.grid_words import groove_words, lowest
from studio.window.words import upper_first

if TYPE_CHECKING:
    from studio.decide.subjects import Tire


@dataclass(frozen=True)
class Bar:
    """The least depth of one groove: in mm for its height, and as it is written; None where nothing was read."""

    groove: str
    depth_mm: float | None
    text: str


@dataclass(frozen=True)
class TireState:
    """One tire, or a place on the car where none stands (``index`` None).

    ``bars`` run from the car's outer side to its inner one. ``limit_mm`` is the legal limit the finding used.
    """

    place: Place
    title: str
    index: int | None = None
    marking: str = ""
    age: str = ""
    bars: tuple[Bar, ...] = ()
    new_mm: float | None = None
    limit_mm: float | None = None
    verdict: Verdict | None = None
    sentence: str = ""

    @property
    def inner_first(self) -> bool:
        """Whether the inner side lies at the left on the plan: so it does on the car's right side."""
        return self.place.endswith("right")

    @property
    def spoken(self) -> str:
        """All of it in words, for assistive technology."""
        if self.index is None:
            return f"{self.title}: no tire entered"
        depths = ", ".join(f"{bar.groove} {bar.text or 'not read'}" for bar in self.bars) or "no readings"
        return ". ".join(part for part in (self.title, self.marking, self.age, depths, self.sentence) if part)


def states(document: Document) -> tuple[TireState, ...]:
    """The four corners and the spare in walking order, tire or none, then what lies on the bench."""
    if not document.episode.specimens:  # an empty window needs no decisions, which take a sixth of its start
        return tuple(TireState(place, upper_first(place_words(place))) for place in ON_CAR)
    from studio.decide.subjects import tires

    found = tires(document.episode)
    on_car = {tire.subject.name: tire for tire in found if tire.subject.name in ON_CAR}
    placed = [
        _state(on_car[place], document) if place in on_car else TireState(place, upper_first(place_words(place)))
        for place in ON_CAR
    ]
    return (*placed, *(_state(tire, document) for tire in found if tire.subject.name not in ON_CAR))


def index_of(path: str) -> int:
    """The number of the specimen in a path such as ``specimens[2]``."""
    return int(path.removeprefix("specimens[").partition("]")[0])


def worst_finding(document: Document, path: str) -> Finding | None:
    """The finding on the tire at ``path`` that asks most; None where no finding has a verdict on it."""
    from studio.decide.subjects import tires

    name = next((tire.subject.name for tire in tires(document.episode) if tire.subject.path == path), "")
    return worst(document.findings, name) if name else None


def worst(findings: Findings, subject: str) -> Finding | None:
    """The finding on a subject that asks most; what is not known yet counts least."""
    judged = [finding for finding in findings if finding.subject == subject and finding.verdict]
    return max(judged, key=lambda f: SEVERITY.index(f.verdict) if f.verdict in SEVERITY else -1, default=None)


def _state(tire: "Tire", document: Document) -> TireState:
    findings, name, specimen = document.findings, tire.subject.name, tire.specimen
    finding = worst(findings, name)
    age = findings.get(f"age.{name}")
    return TireState(
        place=specimen.place, title=_title(tire), index=index_of(tire.subject.path),
        marking=specimen.marking, age=_value_text(age), bars=_bars(specimen, document.episode),
        new_mm=_mm(specimen.depth_new), limit_mm=_mm(_limit(findings.get(f"tread_left.{name}"))),
        verdict=finding.verdict if finding else None, sentence=finding.sentence if finding else "",
    )  # fmt: skip


def _title(tire: "Tire") -> str:
    """The place on the car, or the name that the presenter gave to a tire on the bench."""
    named = tire.specimen.name if tire.specimen.place == "bench" else ""
    return upper_first(named or tire.subject.words)


def _value_text(finding: Finding | None) -> str:
    if finding is None or finding.value is None or finding.unit is None:
        return ""
    return Quantity(finding.value, finding.unit).text()


def _limit(finding: Finding | None) -> Quantity | None:
    if finding is None or finding.limit is None or finding.unit not in ("mm", "32nds", "in"):
        return None
    return Quantity(finding.limit, finding.unit, "depth")


def _mm(quantity: Quantity | None) -> float | None:
    return quantity.to("mm").value if quantity else None


def _bars(specimen: Specimen, episode: Episode) -> tuple[Bar, ...]:
    reading = specimen.latest
    if reading is None:
        return ()
    return tuple(_bar(reading, groove, episode) for groove in range(len(reading.depths)))


def _bar(reading: Reading, groove: int, episode: Episode) -> Bar:
    found = lowest(reading, groove)
    name = groove_words(groove, len(reading.depths))
    if found is None:
        return Bar(name, None, "")
    return Bar(name, found.to("mm").value, found.in_system(episode.units).number())
