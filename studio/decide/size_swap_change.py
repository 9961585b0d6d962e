"""What would change the verdict on another size, found by computing with other aspect ratios and load indices."""

from studio.decide.carried import Carried
from studio.decide.size_swap_read import Change
from studio.decide.wording import joined
from studio.model.quantity import Quantity
from studio.reference.tables import Tables
from studio.tires.errors import RangeError
from studio.tires.fitting import Fit, least_load_index, sizes_within
from studio.tires.marking import Marking


def aspects(tables: Tables) -> range:
    """The aspect ratios that are gone through."""
    rows = tables.assumed
    low, high, step = (round(rows[f"search_aspect_{name}_percent"].value) for name in ("least", "most", "step"))
    return range(low, high + 1, step)


def named(fit: Fit, like: Marking) -> str:
    """A size found, with the letters of the kind of tire that ``like`` is: LT in front, C behind."""
    prefix = like.prefix if like.prefix == "LT" else ""
    return f"{prefix}{fit.size}{like.suffix if like.suffix == 'C' else ''}"


def texts(its: Change, tables: Tables) -> tuple[str, ...]:
    """The changes as sentences."""
    return tuple(text for text in (_aspect(its, tables), _index(its, tables), _pressure(its)) if text)


def _aspect(its: Change, tables: Tables) -> str:
    """Beyond the band: the sizes of the same width and rim that would stay within it."""
    bound, width = tables.design["substitute_diameter_percent"].value, its.after.marking.width_mm
    if abs(its.percent) <= bound or width is None:
        return ""
    within = sizes_within(
        its.before.overall_diameter.value, bound, rim_in=its.after.marking.rim_diameter_in, widths_mm=(width,),
        aspects_percent=aspects(tables),
    )  # fmt: skip
    if not within:
        return f"No tire of {width} mm on that rim stays within {bound:g} %."
    sizes = [named(fit, its.after.marking) for fit in within]
    return f"{joined(sizes, 'or')} would stay within {bound:g} %."


def least_index(its: Change, tables: Tables) -> int | None:
    """The least load index with which the new size would carry what the placard's does at the placard pressure."""
    before, after = its.load_before, its.load_after
    if not isinstance(before, Carried):
        return None
    share = after.undivided_kg / after.full_kg if isinstance(after, Carried) else before.undivided_kg / before.full_kg
    try:
        return max(least_load_index(before.undivided_kg / share, tables.load_kg), before.row.load_index)
    except RangeError:
        return None


def _index(its: Change, tables: Tables) -> str:
    index = least_index(its, tables)
    mine = its.after.load.load_index if its.after.load else None
    if index is None or (mine is not None and mine >= index):
        return ""
    kind = "extra load and " if its.after.marking.extra_load else ""
    return f"It would carry what the placard's tire carries with {kind}load index {index} or more."


def _pressure(its: Change) -> str:
    before, after = its.load_before, its.load_after
    if not isinstance(before, Carried) or not isinstance(after, Carried) or after.each_kg >= before.each_kg - 1e-6:
        return ""
    needed = after.pressure_for(before.each_kg)
    if needed is None:
        return ""
    load = its.part.audience.both(Quantity(before.each_kg, "kg"))
    who = "only the vehicle's or tire's maker can allow another pressure than the placard's"
    return f"At {its.part.audience.both(needed)} it would carry the same {load}; {who}."
