"""The marks themselves: what load index and speed symbol of each tire stand for, beside those the placard asks for."""

from collections.abc import Iterator

from studio.decide.ratings_read import Axle, Wheel
from studio.decide.sizes import Size
from studio.model.finding import Figure
from studio.model.quantity import Quantity
from studio.reference.rows import LoadIndex


def mark_figures(axle: Axle) -> Iterator[Figure]:
    """Loads in kg and speeds in km/h of the marks, and each tire's share of the axle rating."""
    for wheel in axle.wheels:
        name, words = wheel.fitted.subject.name, wheel.words
        if load := _counted(axle, wheel.size):
            yield Figure(name=f"index_load_{name}", label=f"load of the index, {words}",
                         quantity=Quantity(load.load_kg, "kg"))  # fmt: skip
        if wheel.size.speed:
            yield Figure(name=f"symbol_speed_{name}", label=f"speed of the symbol, {words}",
                         quantity=Quantity(wheel.size.speed.speed_kmh, "km/h"))  # fmt: skip
    yield from _asked(axle)


def _asked(axle: Axle) -> Iterator[Figure]:
    placard = axle.placard
    if placard and (load := _counted(axle, placard)):
        yield Figure(name="placard_load", label="load of the placard's index", quantity=Quantity(load.load_kg, "kg"))
    if placard and placard.speed:
        speed = Quantity(placard.speed.speed_kmh, "km/h")
        yield Figure(name="placard_speed", label="speed of the placard's symbol", quantity=speed)
    if axle.rating_kg is not None:
        share = Quantity(axle.rating_kg / axle.count, "kg")
        yield Figure(name="axle_share", label="one tire's share of the axle rating", quantity=share)


def mark_words(axle: Axle) -> dict[str, str]:
    """The marks as they stand on sidewall and placard; ``weakest`` is the tire that carries least as filled."""
    words = {"weakest": _weakest(axle)}
    for wheel in axle.wheels:
        name = wheel.fitted.subject.name
        words |= {f"service_{name}": _service(wheel), **_of(axle, wheel.size, f"_{name}")}
    return words | (_of(axle, axle.placard, "_placard") if axle.placard else {})


def _of(axle: Axle, size: Size, suffix: str) -> dict[str, str]:
    load = _counted(axle, size)
    return {
        f"load_index{suffix}": str(load.load_index) if load else "",
        f"speed_symbol{suffix}": size.speed.symbol if size.speed else "",
    }


def _counted(axle: Axle, size: Size) -> LoadIndex | None:
    """The index that counts: of dual wheels the second one, where there is one."""
    return (size.load_dual if axle.part.dual else None) or size.load


def _weakest(axle: Axle) -> str:
    at = [wheel for wheel in axle.wheels if axle.weakest is not None and wheel.load == axle.weakest]
    return at[0].fitted.subject.name if at else ""


def _service(wheel: Wheel) -> str:
    """Load index and speed symbol as they are molded: ``103H``, ``115/112R``, ``(101Y)``."""
    marking = wheel.size.marking
    if marking.load_index is None:
        return ""
    dual = f"/{marking.load_index_dual}" if marking.load_index_dual is not None else ""
    text = f"{marking.load_index}{dual}{marking.speed_symbol or ''}"
    return f"({text})" if marking.bracketed else text
