"""``size``: what a marking says in numbers, and how another size compares."""

import argparse
import json
from typing import TYPE_CHECKING, Any

from studio.decide.bounds import check_depth_new
from studio.decide.sizes import Size, measure
from studio.decide.swap_rules import Swap, swap
from studio.headless.opening import fail
from studio.headless.size_text import compared, described
from studio.model.entry import EntryError, read_quantity
from studio.reference.tables import Tables, load_tables
from studio.tires.designation import parse_marking
from studio.tires.geometry import rolling_circumference_mm, worn_diameter_mm
from studio.tires.marking import MarkingError

if TYPE_CHECKING:
    from argparse import _SubParsersAction

EPILOG = """\
overall_diameter_mm is the geometric diameter: rim code x 25.4 mm and two section heights. The rolling circumference is
taken from the standard's design diameter, and the turns from the rolling circumference. With --against the verdict is
keep (the second stays within the bounds), inspect (it must be confirmed) or replace (choose another size).
--depth-new adds diameter and rolling circumference when worn to the height of the wear bars.

examples:
  python -m studio size "225/60R17 99H"
  python -m studio size "225/60R17 99H" --against "225/65R17 102H" --json
  python -m studio size 31x10.50R15LT --depth-new 16
"""


def add_parser(verbs: "_SubParsersAction[argparse.ArgumentParser]") -> None:
    """Enter the verb."""
    parser = verbs.add_parser(
        "size",
        help="what a tire's marking says, and how another size compares",
        description="Spell a tire's marking out in numbers, and compare another size with it.",
        epilog=EPILOG,
        formatter_class=argparse.RawDescriptionHelpFormatter,
    )
    parser.add_argument("marking", metavar="MARKING", help='as on the sidewall, such as "225/60R17 99H"')
    parser.add_argument("--against", metavar="MARKING", help="another size, to be put in place of the first")
    parser.add_argument("--depth-new", metavar="32NDS", help="tread depth when new, such as 10, 10/32 or 8mm")
    parser.add_argument("--json", action="store_true", help="print one JSON object")


def run(arguments: argparse.Namespace) -> int:
    """Print the size, and the comparison if one is asked for."""
    tables = load_tables()
    new_mm = None if arguments.depth_new is None else _depth_new_mm(arguments.depth_new, tables)
    first = _size(arguments.marking, tables)
    change = swap(first, _size(arguments.against, tables), tables) if arguments.against is not None else None
    if arguments.json:
        print(json.dumps(_answer(first, change, new_mm, tables), indent=2, ensure_ascii=False, allow_nan=False))
    else:
        print("\n".join(_text(first, change, new_mm, tables)))
    return 0


def _size(text: str, tables: Tables) -> Size:
    try:
        return measure(parse_marking(text), tables)
    except MarkingError as error:
        fail(str(error))


def _depth_new_mm(text: str, tables: Tables) -> float:
    try:
        depth = read_quantity(text, "depth", "32nds")
        check_depth_new(depth, tables)
    except (EntryError, ValueError) as error:
        fail(f"--depth-new: {error}")
    return depth.to("mm").value


def _answer(first: Size, change: Swap | None, new_mm: float | None, tables: Tables) -> dict[str, Any]:
    answer = _numbers(first, new_mm, tables)
    if change is None:
        return answer
    return answer | {
        "against": _numbers(change.after, new_mm, tables),
        "overall_diameter_change_percent": change.diameter_change_percent,
        "true_speed_at_60": change.true_speed_at_60,
        "load_index_change": change.load_index_change,
        "verdict": change.verdict,
        "reasons": [reason.text for reason in change.reasons],
    }


def _numbers(size: Size, new_mm: float | None, tables: Tables) -> dict[str, Any]:
    its, marking = size.dimensions, size.marking
    numbers = {
        "marking": str(marking),
        "section_width_mm": its.section_width_mm,
        "aspect_ratio_percent": its.aspect_percent,
        "construction": marking.construction,
        "rim_diameter_in": its.rim_in,
        "section_height_mm": its.section_height_mm,
        "overall_diameter_mm": its.geometric_overall_diameter_mm,
        "circumference_mm": size.circumference.value,
        "rolling_circumference_mm": size.rolling_circumference.value,
        "rolling_circumference_basis": its.rolling_basis,
        "revs_per_mile": size.turns_per_mile.value,
        "revs_per_km": size.turns_per_km.value,
        "load_index": marking.load_index,
        "load_kg": size.load.load_kg if size.load else None,
        "speed_symbol": marking.speed_symbol,
        "speed_kmh": size.speed.speed_kmh if size.speed else None,
        "service": marking.service,
    }
    return numbers if new_mm is None else numbers | _worn(size, new_mm, tables)


def _worn(size: Size, new_mm: float, tables: Tables) -> dict[str, float]:
    """Diameter and rolling circumference when the tread is level with the wear bars."""
    bar_mm = min(tables.measuring["indicator_height_mm"].value, new_mm)
    its = size.dimensions
    rolling = worn_diameter_mm(its.rolling_diameter_mm, new_mm, bar_mm)
    return {
        "worn_overall_diameter_mm": worn_diameter_mm(its.geometric_overall_diameter_mm, new_mm, bar_mm),
        "worn_rolling_circumference_mm": rolling_circumference_mm(rolling, its.rolling_factor),
    }


def _text(first: Size, change: Swap | None, new_mm: float | None, tables: Tables) -> list[str]:
    lines = described(first, _worn(first, new_mm, tables) if new_mm is not None else {})
    if change is None:
        return lines
    worn = _worn(change.after, new_mm, tables) if new_mm is not None else {}
    return [*lines, "", *described(change.after, worn), "", *compared(change)]
