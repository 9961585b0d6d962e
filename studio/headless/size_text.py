"""The ``size`` verb's text for people: aligned, in both unit systems."""

from collections.abc import Mapping

from studio.decide.sizes import Size
from studio.decide.swap_rules import Swap
from studio.model.quantity import MINUS, Quantity, format_number, length

_VERDICTS = {
    "keep": "stays within the bounds", "inspect": "must be confirmed before it is used",
    "replace": "choose another size",
}  # fmt: skip


def described(size: Size, worn: Mapping[str, float]) -> list[str]:
    """One size, a line to each fact."""
    its, marking = size.dimensions, size.marking
    rows = [
        ("section width", _both(its.section_width_mm)),
        ("aspect ratio", Quantity(its.aspect_percent, "%").text()),
        ("construction", marking.construction + (", run-flat" if marking.run_flat else "")),
        ("rim diameter", f"{its.rim_in:g} in"),
        ("section height", _both(its.section_height_mm)),
        ("overall diameter", f"{_both(its.geometric_overall_diameter_mm)}, unrounded"),
        *_design(size),
        ("circumference", f"{_both(size.circumference.value)} by tape"),
        ("rolling circumference", f"{_both(size.rolling_circumference.value)}, {its.rolling_basis}"),
        ("turns", f"{size.turns_per_mile.text()}, {size.turns_per_km.text()}"),
        ("load", _load(size)),
        ("speed", _speed(size)),
        ("service", marking.service),
    ]
    for name, value in worn.items():
        rows.append((_WORN[name], f"{_both(value)}, level with the wear bars"))
    rows += [("note", note) for note in (*marking.assumed, *its.notes)]
    return [str(marking), *(f"  {name:<23}{value}" for name, value in rows)]


_WORN = {"worn_overall_diameter_mm": "worn diameter", "worn_rolling_circumference_mm": "worn rolling circ."}


def _design(size: Size) -> list[tuple[str, str]]:
    design = size.dimensions.standard_overall_diameter_mm
    return [] if design is None else [("design diameter", f"{_both(design)}, rounded as the standard does")]


def _both(value_mm: float) -> str:
    return length(value_mm).both("metric")


def _load(size: Size) -> str:
    if size.load is None:
        return "not marked" if size.marking.load_index is None else f"index {size.marking.load_index}: not in the table"
    return f"index {size.load.load_index}: {Quantity(size.load.load_kg, 'kg').both('metric')}"


def _speed(size: Size) -> str:
    if size.speed is None:
        return "not marked" if size.marking.speed_symbol is None else f"symbol {size.marking.speed_symbol}: not known"
    above = "above " if size.marking.bracketed else ""
    return f"symbol {size.speed.symbol}: {above}{Quantity(size.speed.speed_kmh, 'km/h').both('metric')}"


def compared(change: Swap) -> list[str]:
    """The second size in place of the first."""
    percent, steps = change.diameter_change_percent, change.load_index_change
    rows = [
        ("overall diameter", f"{_signed(percent, 2)} %"),
        ("true speed at 60", format_number(change.true_speed_at_60, 2)),
        ("load index", "not known" if steps is None else _signed(steps, 0)),
        ("verdict", f"{change.verdict}: {_VERDICTS[change.verdict]}"),
    ]
    heading = f"{change.after.marking} in place of {change.before.marking}"
    reasons = [f"  - {reason.text}" for reason in change.reasons]
    return [heading, *(f"  {name:<23}{value}" for name, value in rows), *reasons]


def _signed(value: float, decimals: int) -> str:
    number = format_number(abs(value), decimals)
    zero = float(number.replace(",", "")) == 0
    return number if zero else f"{'+' if value > 0 else MINUS}{number}"
