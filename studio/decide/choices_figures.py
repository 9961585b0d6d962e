"""The numbers of a choice that pictures and scripts show."""

from studio.decide.choices_told import Choice
from studio.decide.money import money
from studio.model.finding import Figure
from studio.model.places import place_words
from studio.model.quantity import Quantity, depth

_GROUPS = {"front_axle": "front", "rear_axle": "rear", "set": "set"}


def figures(its: Choice) -> tuple[Figure, ...]:
    """Outlay, tread, distance, match, and each tire's depth after the choice."""
    return (*_money(its), *_tread(its), *_distance(its), *_matches(its))


def _money(its: Choice) -> list[Figure]:
    cost, currency = its.cost, its.part.prices.currency
    amounts = (
        ("outlay", f"outlay, {currency}", cost.bill.total),
        ("cost_per_1000", f"per tire bought and 1000 {cost.unit}, {currency}", cost.per_1000),
        ("cost_until_next", f"for the car per 1000 {cost.unit} until the next purchase, {currency}", cost.until_next),
    )
    return [Figure(name=name, label=label, quantity=money(sum_)) for name, label, sum_ in amounts if sum_ is not None]


def _tread(its: Choice) -> list[Figure]:
    cost = its.cost
    found = [
        Figure(name="tread_bought", label="usable tread bought, all tires", quantity=depth(cost.bought_mm, "mm")),
        Figure(name="tread_given_up", label="usable tread given up", quantity=depth(cost.given_up_mm, "mm")),
        Figure(name="bought", label="tires bought", quantity=Quantity(float(len(its.after.change.off)), "")),
    ]
    return found + [
        Figure(name=f"depth_{tire.place}", label=f"mean depth then, {place_words(tire.place)}",
               quantity=depth(tire.mean_mm, "mm"))
        for tire in its.after.placed
    ]  # fmt: skip


def _distance(its: Choice) -> list[Figure]:
    coming, unit = its.cost.next, its.cost.unit
    if coming is None:
        return []
    found = [
        Figure(name="next", label="to the next purchase", quantity=Quantity(coming.distance, unit)),
        Figure(name="next_low", label="to the next purchase, at least", quantity=Quantity(coming.low, unit)),
    ]
    if coming.yearly:
        years = Quantity(coming.distance / coming.yearly, "years")
        found.append(Figure(name="next_years", label="years to the next purchase", quantity=years))
    return found


def _matches(its: Choice) -> list[Figure]:
    """How far each axle and the set are apart, in depth and in the form of the limit that binds."""
    found = []
    for match in its.after.matches:
        name, title = _GROUPS[match.part.name], match.part.title.lower()
        apart = depth(match.compared.depth_mm, "mm")
        found.append(Figure(name=f"apart_{name}", label=f"{title}, mean depths apart", quantity=apart))
        if held := match.binding:
            found += [
                Figure(name=f"match_{name}", label=f"{title}, in the form of the limit", quantity=held.actual_quantity),
                Figure(name=f"limit_{name}", label=f"{title}, {held.limit.label}", quantity=held.limit.limit),
            ]
    return found
