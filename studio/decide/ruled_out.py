"""What rules a tire out whatever its other numbers: condemning damage, or the age from which it should be replaced."""

import datetime as dt

import msgspec

from studio.decide import age
from studio.decide.damage import condemning
from studio.decide.subjects import Tire
from studio.decide.topic import remembered
from studio.model.episode import Episode
from studio.model.finding import Verdict
from studio.model.quantity import Quantity
from studio.model.source import Source
from studio.reference.tables import Tables


class RuledOut(msgspec.Struct, frozen=True, kw_only=True):
    """Why a tire is out: the words behind its name (``shows a bulge``), the verdict, the path, and who says so."""

    words: str
    verdict: Verdict
    path: str
    source: Source


def ruled_out(tire: Tire, episode: Episode, tables: Tables) -> RuledOut | None:
    """The damage that condemns the tire, else its age; None where neither does."""
    return _remembered((tire, episode.on, episode.region), tables)


def _ruled_out(its: tuple[Tire, dt.date, str], tables: Tables) -> RuledOut | None:
    tire, on, region = its
    specimen, path = tire.specimen, tire.subject.path
    seen = next(iter(condemning(specimen, path, on, tables)), None)
    if seen is not None:
        return RuledOut(words=f"shows {seen.words}", verdict="inspect", path=seen.path, source=seen.source)
    part = age.Part(subject=tire.subject, code=specimen.date_code, on=on, region=region)
    aged = age.read_part(part, tables)
    if aged is None or aged.verdict != "replace" or aged.reached is None:
        return None
    old = f"is {Quantity(aged.years, 'years').text()} old" if aged.code.decade_known else "was made before July 2000"
    return RuledOut(words=old, verdict="replace", path=f"{path}.date_code", source=aged.reached.source)


_remembered = remembered(_ruled_out, most=64)
