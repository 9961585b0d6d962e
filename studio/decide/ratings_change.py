"""What would change the verdict on the ratings of an axle, found by computing with other pressures and indices."""

from studio.decide.carried import Carried, carried
from studio.decide.ratings_read import Axle
from studio.decide.told import Told
from studio.model.finding import Verdict
from studio.model.quantity import Quantity
from studio.reference.tables import Tables
from studio.tires.errors import RangeError
from studio.tires.fitting import least_load_index
from studio.tires.marking import service_parts


def texts(axle: Axle, held: tuple[Told, ...], us_rules: bool, tables: Tables) -> tuple[str, ...]:
    """The changes as sentences: the pressure at which the load just fits, the index, the certificate."""
    gravest: Verdict = held[0].verdict if held else "keep"
    lines = [_pressure(axle), _index(axle, gravest, tables), _placard_marks(axle, held)]
    lines.append(_certificate(axle, tables) if us_rules else "")
    return tuple(line for line in lines if line)


def least_pressure(axle: Axle) -> Quantity | None:
    """The least pressure, in all tires of the axle, at which they carry its rating; None where none does."""
    loads = [wheel.load for wheel in axle.wheels if isinstance(wheel.load, Carried)]
    if axle.rating_kg is None or len(loads) < len(axle.wheels):
        return None
    needed = [load.pressure_for(axle.rating_kg / axle.count) for load in loads]
    known = [pressure.value for pressure in needed if pressure is not None]
    return Quantity(max(known), "kPa") if len(known) == len(needed) else None


def _pressure(axle: Axle) -> str:
    needed, weakest = least_pressure(axle), axle.weakest
    if needed is None or weakest is None or axle.rating_kg is None or axle.capacity_kg is None:
        return ""
    both = axle.part.audience.both
    if axle.capacity_kg < axle.rating_kg:
        return f"From {both(needed)} in all of them they would carry the axle rating."
    lowest = weakest.basis.lowest.value
    if needed.value <= lowest + 1e-9:
        return f"They would carry the axle rating still at {both(needed)}, under which no load is computed."
    fill = "the placard's pressure is the one to fill, not the least"
    return f"Under {both(needed)} they would no longer carry the axle rating; {fill}."


def least_index(axle: Axle, tables: Tables) -> int | None:
    """The least load index with which tires of the weaker one's kind would carry the axle rating as filled."""
    weakest = axle.weakest
    if weakest is None or axle.rating_kg is None:
        return None
    share = weakest.each_kg / weakest.full_kg
    try:
        return least_load_index(axle.rating_kg / axle.count / share, tables.load_kg)
    except RangeError:
        return None


def _index(axle: Axle, gravest: Verdict, tables: Tables) -> str:
    index = least_index(axle, tables)
    capacity_kg, rating_kg = axle.capacity_kg, axle.rating_kg
    if index is None or capacity_kg is None or rating_kg is None or axle.part.dual:
        return ""
    if capacity_kg < rating_kg:
        return f"Tires of the same kind with load index {index} or more would carry the axle rating as filled."
    return "" if gravest != "keep" else f"The axle rating asks for load index {index} at this pressure."


def _placard_marks(axle: Axle, held: tuple[Told, ...]) -> str:
    if axle.placard is None or not any(its.about in ("index", "speed") and its.verdict != "keep" for its in held):
        return ""
    marks = "".join(part.text for part in service_parts(axle.placard.marking))
    return f"Marked {marks} they would be what the placard asks for." if marks else ""


def _certificate(axle: Axle, tables: Tables) -> str:
    """What the divisor would do to a car whose certificate is not known."""
    weakest, part = axle.weakest, axle.part
    if part.certified is not None or weakest is None:
        return ""
    other = carried(weakest.size, weakest.pressure, "mpv", part.audience, tables, dual=part.dual)
    if not isinstance(other, Carried) or other.divisor is None:
        return ""
    load_kg = axle.count * other.each_kg
    end = ""
    if axle.rating_kg is not None:
        end = ", under the axle rating" if load_kg < axle.rating_kg else ", still not under the axle rating"
    load = part.audience.both(Quantity(load_kg, "kg"))
    return f"On a car certified as an MPV or light truck only {load} would count{end}."
