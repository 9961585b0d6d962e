"""What would change a choice: the reading that decides the match, the price that evens the cost."""

from studio.decide import matching_change
from studio.decide.choices_after import match_verdict
from studio.decide.choices_told import Choice
from studio.decide.choices_words import label
from studio.decide.money import amount
from studio.decide.rounded import about
from studio.decide.wording import upper_first
from studio.model.finding import SEVERITY
from studio.model.quantity import depth

_TENTH_MM = 0.1


def texts(its: Choice, new_mm: float | None) -> tuple[str, ...]:
    """The changes as sentences."""
    found = [*_match(its), _even_price(its, new_mm), _tenth(its)]
    return tuple(text for text in found if text)


def _match(its: Choice) -> tuple[str, ...]:
    """What would turn the verdict of the worst match, by the matching topic's own search."""
    worst = max(its.after.matches, key=lambda match: SEVERITY.index(match_verdict(match)), default=None)
    return matching_change.texts(worst) if worst is not None else ()


def _even_price(its: Choice, new_mm: float | None) -> str:
    """The price of a used tire at which its tread costs as much as a new one's."""
    prices, used_mm = its.part.prices, its.after.change.bought_mm
    if its.part.kind != "used_pair" or None in (prices.new_tire, prices.mounting, new_mm, used_mm):
        return ""
    limit = next(tire.limit_mm for tire in its.after.placed if not tire.origin)
    share = ((used_mm or 0.0) - limit) / ((new_mm or 0.0) - limit) if (new_mm or 0.0) > limit else 0.0
    even = ((prices.new_tire or 0.0) + (prices.mounting or 0.0)) * share - (prices.mounting or 0.0)
    if even <= 0:
        return "At no price would its tread be as cheap as a new tire's, with mounting counted."
    return f"At {amount(even, prices.currency)} a tire its tread would cost as much per distance as a new one's."


def _tenth(its: Choice) -> str:
    """What a tenth of a millimeter of the tire that is next does to the next purchase."""
    coming, cost = its.cost.next, its.cost
    if coming is None or cost.wear is None or not cost.rate:
        return ""
    tire = next(tire for tire in its.after.placed if tire.place == coming.place)
    rate = cost.wear.lowest[coming.place] * cost.rate / cost.wear.whole
    if rate <= 0 or not tire.origin:
        return ""
    far = about(_TENTH_MM / rate, cost.unit, its.part.audience.units).text()
    tenth = its.part.audience.both(depth(_TENTH_MM, "mm"))
    return f"{upper_first(label(its))}: each {tenth} that {tire.worn.subject.words} is off moves the next by {far}."
