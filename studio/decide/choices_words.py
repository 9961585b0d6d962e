"""The words of the choices."""

from studio.decide import matching_words
from studio.decide.choices_after import Placed
from studio.decide.choices_cost import Cost
from studio.decide.choices_told import Choice
from studio.decide.matching_read import Match
from studio.decide.money import amount
from studio.decide.pace import month_words
from studio.decide.rotation_plan_read import DUAL
from studio.decide.rounded import about_both
from studio.decide.wording import counted, joined, on_paper, upper_first
from studio.model.places import AXLES, place_words
from studio.model.quantity import MINUS, Quantity, depth, format_number
from studio.reference.tables import Tables

LABELS = {
    "keep": "keeping all", "one": "one new tire", "pair": "a new pair", "four": "four new tires",
    "shaved": "one new tire shaved to match", "used_pair": "a used pair",
}  # fmt: skip
_COUNTED = {"new": "new tire", "used": "used tire", "shaved": "new tire, shaved"}
_PRICES = {"new_tire": "new tire", "used_tire": "used tire", "mounting": "mounting", "shaving": "shaving"}


def label(its: Choice) -> str:
    """What the choice is called."""
    shaved = its.after.change.shaved
    return LABELS[its.part.kind] if shaved is None else f"shaving {place_words(shaved.name)}"


def sentence(its: Choice) -> str:
    """The finding in plain speech."""
    name = upper_first(label(its))
    if its.ruled_out:
        if its.state == "inspect" and its.told[0].close:
            return f"{name}: {its.told[0].sentence}."
        return f"{name} {'are' if its.part.kind == 'four' else 'is'} out: {its.told[0].sentence}."
    if its.cost.bill.missing:
        return f"{name}{_at(its)} would do; what it costs is not entered yet."
    paid = "nothing to pay" if not its.cost.bill.count else amount(its.cost.bill.total or 0.0, its.part.prices.currency)
    coming = its.cost.next
    if coming is None:
        return f"{name}{_at(its)}: {paid}; when the next purchase comes is not known yet."
    far = about_both(coming.distance, its.cost.unit, its.part.audience.units)
    return f"{name}{_at(its)}: {paid}, next purchase in about {far}."


def _at(its: Choice) -> str:
    """`` at the rear`` where both bought tires go there."""
    places = set(its.after.new_places)
    return next((f" at the {axle}" for axle, pair in AXLES.items() if places == set(pair)), "")


def unknown(missing: str) -> str:
    """The sentence where nothing can be computed yet."""
    if missing == DUAL:
        return "Keep or replace: with twin rear wheels all six tires count, which cannot be told here."
    return f"Keep or replace cannot be told yet; missing: {missing}."


def working(its: Choice, tables: Tables) -> tuple[str, ...]:
    """The steps from the tires to match, outlay and distance."""
    lines = [*_change(its), *_places(its, tables), *(_match(match, its) for match in its.after.matches)]
    lines += [f"Against it: {it.text}" for it in its.told] or ["Nothing speaks against it"]
    return (*lines, *_bill(its), *_tread(its), *_distance(its))


def _deep(value_mm: float, its: Choice) -> str:
    return on_paper(depth(value_mm, "mm").in_system(its.part.audience.units))


def _change(its: Choice) -> list[str]:
    change = its.after.change
    if change.shaved is not None:
        deep, to = _deep(change.shaved.mean_mm, its), _deep(change.shaved_mm, its)
        return [f"{upper_first(place_words(change.shaved.name))} stands out: shaved from {deep} to its mate's {to}"]
    if not change.off:
        return ["Nothing is bought and nothing moved"]
    off = joined([f"{place_words(s.name)} (lowest {_deep(s.lowest_mm, its)})" for s in change.off])
    bought = f"{counted(len(change.off), _COUNTED[change.bought or 'new'])} of {_deep(change.bought_mm or 0.0, its)}"
    lines = [f"Taken off: {off}; put on: {bought}"]
    if len(change.off) == 2:
        lines.append("Of the pairs with the tire that should go first, this one leaves the best match, axles first")
    if change.bought == "used":
        lines.append("Of a used tire read the date code, the inside, repairs and damage first (common practice)")
    else:
        lines.append("Assumed: what is bought is of the make, size, kind and depth when new of the tires on the car")
    return lines


def _places(its: Choice, tables: Tables) -> list[str]:
    """Where each tire goes, and why."""
    if not its.after.change.off or len(its.after.change.off) == len(its.after.placed):
        return []
    lines = [f"{upper_first(axle)}: {joined([_who(its.after.placed, p, its) for p in AXLES[axle]])}" for axle in AXLES]
    if its.part.axle_bound:
        return [*lines, "Front and rear sizes differ, so no tire changes its axle"]
    if its.after.change.stay:
        return [*lines, "Every tire goes where one stood"]
    rule = tables.matching["deeper_to_rear"]
    words = rule.wording.partition(":")[0]
    lines.append(f"Alike across an axle first; {words} ({rule.source.standing}); the vehicle's manual outranks it")
    return [*lines, *(["The tread keeps each tire on its side"] if its.part.side_bound else [])]


def _who(placed: tuple[Placed, ...], place: str, its: Choice) -> str:
    tire = next(tire for tire in placed if tire.place == place)
    return f"{tire.worn.subject.words} {_deep(tire.mean_mm, its)}"


def _match(match: Match, its: Choice) -> str:
    """One axle or the set against the limit that binds."""
    apart = its.part.audience.both(depth(match.compared.depth_mm, "mm"))
    if match.binding is None:
        return f"{match.part.title}: {apart} of tread apart; held against no limit"
    held, form = match.binding, dict(matching_words.detail(match))["tolerance_form"]
    limit, actual = on_paper(held.limit.limit), on_paper(held.actual_quantity)
    margin = on_paper(Quantity(held.margin, held.limit.limit.unit, held.limit.limit.kind))
    left = f"{held.limit.label} {limit} {MINUS} {actual} {form} = {margin} left"
    return f"{match.part.title}: {apart} of tread apart; {left}"


def _bill(its: Choice) -> list[str]:
    bill, currency = its.cost.bill, its.part.prices.currency
    if not bill.count:
        return ["Outlay: none"]
    parts = " + ".join(
        f"{_PRICES[name]} {amount(value, currency)}" if value is not None else f"{_PRICES[name]} (not entered)"
        for name, value in bill.parts
    )
    total = "not known" if bill.total is None else amount(bill.total, currency)
    return [f"Outlay: {bill.count} × ({parts}) = {total}"]


def _tread(its: Choice) -> list[str]:
    cost, lines = its.cost, []
    bought = [tire for tire in its.after.placed if not tire.origin]
    if bought:
        one = f"({_deep(bought[0].lowest_mm, its)} {MINUS} {_deep(bought[0].limit_mm, its)})"
        lines.append(f"Usable tread bought: {len(bought)} × {one} = {_deep(cost.bought_mm, its)}")
    if cost.given_up_mm > 0:
        lines.append(f"Usable tread given up with what comes off: {_deep(cost.given_up_mm, its)}")
    if bought and cost.rate and cost.per_1000 is not None:
        lines += _per_1000(its, cost, cost.rate, cost.per_1000, len(bought))
    return lines


def _per_1000(its: Choice, cost: Cost, rate: float, per_1000: float, count: int) -> list[str]:
    wear, unit, currency = _fine(rate * 1000, its), cost.unit, its.part.prices.currency
    lasts = cost.bought_mm / count / rate
    far = on_paper(Quantity(round(lasts), unit))
    return [
        f"A tire that goes round the car loses {wear} per 1000 {unit} at its lowest spot, so each of these lasts {far}",
        f"Cost per tire and 1000 {unit}: {amount(cost.bill.each, currency)} / {format_number(lasts / 1000, 2)} = "
        f"{amount(per_1000, currency)}",
    ]


def _fine(value_mm: float, its: Choice) -> str:
    shown = depth(value_mm, "mm").in_system(its.part.audience.units)
    number = format_number(shown.value, 4)
    return f"{number}/32 in" if shown.unit == "32nds" else f"{number} mm"


def _distance(its: Choice) -> list[str]:
    """When the next purchase comes, where every tire stays where it is put."""
    coming, cost = its.cost.next, its.cost
    if coming is None or cost.wear is None or not cost.rate:
        return []
    tire = next(tire for tire in its.after.placed if tire.place == coming.place)
    rate = cost.wear.lowest[coming.place] * cost.rate / cost.wear.whole
    far, low = (on_paper(Quantity(round(value), cost.unit)) for value in (coming.distance, coming.low))
    whole = f"({_deep(tire.lowest_mm, its)} {MINUS} {_deep(tire.limit_mm, its)}) / {_fine(rate * 1000, its)} × 1000"
    when = f", {month_words(coming.day)}" if coming.day else ""
    first = place_words(coming.place)
    lines = [f"Next purchase, without rotating: {first} first, {whole} = {far}{when} (at least {low})"]
    if coming.day and coming.yearly:
        lines.append(f"At {on_paper(Quantity(round(coming.yearly), cost.unit))} a year that this set rolls")
    if cost.until_next is not None:
        spent = amount(cost.until_next, its.part.prices.currency)
        total = amount(cost.bill.total or 0.0, its.part.prices.currency)
        thousands = format_number(coming.distance / 1000, 2)
        lines.append(f"Cost of the car per 1000 {cost.unit} until then: {total} / {thousands} = {spent}")
    return lines


def missing(its: Choice) -> tuple[str, ...]:
    """What would make the answer complete."""
    return its.cost.missing


def detail(its: Choice) -> tuple[tuple[str, str], ...]:
    """What is taken off, where each tire goes, what speaks against it."""
    coming, change = its.cost.next, its.after.change
    pairs = [
        ("label", label(its)), ("off", ",".join(stand.name for stand in change.off)),
        ("shaved", change.shaved.name if change.shaved else ""), ("bought", change.bought or ""),
        ("currency", its.part.prices.currency), ("state", its.state), ("ruled_out", "yes" if its.ruled_out else ""),
        ("against", "; ".join(it.text for it in its.told)), ("reason", its.told[0].brief if its.told else ""),
        *((f"at.{tire.place}", tire.origin or f"{change.bought}") for tire in its.after.placed),
    ]  # fmt: skip
    if its.cost.bill.total is not None:
        pairs.append(("outlay", amount(its.cost.bill.total, its.part.prices.currency)))
    if coming is not None:
        pairs += [
            ("next.place", coming.place), ("next.until", month_words(coming.day)),
            ("next.about", about_both(coming.distance, its.cost.unit, its.part.audience.units)),
        ]  # fmt: skip
    return tuple((name, text) for name, text in pairs if text)
