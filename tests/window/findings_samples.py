"""A small car with readings, and decisions simple enough to be checked by eye: they stand in for the real ones."""

import datetime as dt
from typing import Any

from studio.model.caution import Caution
from studio.model.episode import Episode
from studio.model.finding import Figure, Finding, Findings, as_steps
from studio.model.quantity import depth
from studio.model.source import Source
from studio.model.specimen import Gauge, Reading, Specimen
from studio.window.document import Document

READ_ON = dt.date(2026, 11, 14)
GAUGE = Gauge(name="dial gauge", resolution=depth(1, "32nds"))
LAW = Source(title="49 CFR 570.9", locator="(a)", standing="published")
HABIT = Source(title="trade practice, no source", locator="none", standing="common practice")
CAUTION = "Worn tread loses grip in rain; ask a qualified tire professional."
WARNING = Caution(id="worn_tire", signal="CAUTION", text=CAUTION, refers=True, source=HABIT)


def specimen(id_: str, place: Any, lowest: float, **more: Any) -> Specimen:
    """A tire read at two places in each of three grooves; the inner groove's second place is the lowest."""
    depths = ((9.0, 9.0), (8.0, 8.5), (lowest + 0.5, lowest))
    reading = Reading(on=READ_ON, place=place, gauge=GAUGE, unit="32nds", depths=depths)
    return Specimen(id=id_, place=place, readings=(reading,), depth_new=depth(10, "32nds"), **more)


def sample_episode() -> Episode:
    """Three corners read: one fine, one close to the limit, one done; the fourth has no reading."""
    return Episode(
        title="Sample", on=dt.date(2026, 11, 20),
        specimens=(
            specimen("a", "front_left", 7.0), specimen("b", "front_right", 2.5), specimen("c", "rear_left", 1.0),
            Specimen(id="d", place="rear_right"),
        ),
    )  # fmt: skip


def sample_decide(episode: Episode, _tables: Any) -> Findings:
    """One finding a tire against 2/32 in, one on the car as a whole that only gives a quantity."""
    found = [_tread(number, tire) for number, tire in enumerate(episode.specimens)]
    whole = Finding(id="count.car", topic="count", subject="car", sentence=f"{len(found)} tires are on hand.")
    return Findings((*found, whole) if found else ())


def sample_document(episode: Episode | None = None) -> Document:
    """A document on the sample with the decisions above."""
    return Document(episode or sample_episode(), tables=object(), decide=sample_decide, check=lambda *_: ())


def _tread(number: int, tire: Specimen) -> Finding:
    where, reading = tire.place.replace("_", " "), tire.latest
    id_ = f"tread_left.{tire.place}"
    if reading is None:
        return Finding(
            id=id_, topic="tread_left", subject=tire.place, sentence=f"No reading of {where} yet.", verdict="unknown",
            missing=("a depth reading",), inputs=(f"specimens[{number}]",), sources=(HABIT,),
        )  # fmt: skip
    lowest = min(d for groove in reading.depths for d in groove if d is not None)
    return Finding(
        id=id_, topic="tread_left", subject=tire.place, sentence=f"The tire {where} has {lowest:g}/32 in <b>left</b>.",
        verdict="replace" if lowest < 2 else "watch" if lowest < 4 else "keep", value=lowest, unit="32nds", limit=2.0,
        limit_label="legal minimum, United States", margin=lowest - 2, uncertainty=0.75,
        steps=as_steps(("Lowest of 6 readings", f"{lowest:g}/32 in − 2/32 in")),
        inputs=(f"specimens[{number}].readings[0].depths[2][1]", f"specimens[{number}].readings[0].gauge", "region"),
        sources=(LAW, HABIT), warning=WARNING,
        would_change=("A lower reading would change it.",),
        figures=(Figure(name="depth", label="lowest reading", quantity=depth(lowest, "32nds")),),
    )  # fmt: skip
