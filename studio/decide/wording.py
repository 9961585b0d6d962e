"""Words that all topics share: dates, names from outside made harmless, lists, counts."""

import datetime as dt
import unicodedata
from collections.abc import Sequence

from studio.model.quantity import MINUS, UNITS, Quantity, format_number

MONTHS = "Jan Feb Mar Apr May Jun Jul Aug Sep Oct Nov Dec".split()
LONGEST_NAME = 24


def day_words(day: dt.date) -> str:
    """A date as a presenter writes it, the same whatever the machine's language: ``14 Feb 2026``."""
    return f"{day.day} {MONTHS[day.month - 1]} {day.year}"


def plain(text: str, longest: int = LONGEST_NAME) -> str:
    """Text from outside as one short line without control or direction characters."""
    kept = "".join(c if not unicodedata.category(c).startswith("C") else " " for c in text[: 10 * longest])
    line = " ".join(kept.split())
    return line if len(line) <= longest else line[: longest - 1].rstrip() + "…"


def upper_first(text: str) -> str:
    """The text with its first letter large, the rest as it is."""
    return text[:1].upper() + text[1:]


def lower_first(text: str) -> str:
    """The text with its first letter small, the rest as it is."""
    return text[:1].lower() + text[1:]


def joined(parts: Sequence[str], last: str = "and") -> str:
    """``a``, ``a and b``, ``a, b and c``."""
    return parts[0] if len(parts) == 1 else f"{', '.join(parts[:-1])} {last} {parts[-1]}" if parts else ""


def counted(number: int, one: str, many: str = "") -> str:
    """``1 reading``, ``12 readings``."""
    return f"{number} {one if number == 1 else many or one + 's'}"


def on_paper(quantity: Quantity) -> str:
    """A quantity with as many digits as a calculation on paper needs to come out, and no needless zeros."""
    number, symbol = paper_number(quantity), UNITS[quantity.unit].symbol
    return f"{number}{symbol}" if quantity.unit == "32nds" else f"{number} {symbol}".rstrip()


def paper_number(quantity: Quantity) -> str:
    """The number alone, as ``on_paper`` writes it."""
    number = format_number(quantity.value, 3)
    return number.rstrip("0").rstrip(".") if "." in number else number


def signed(value: float, decimals: int = 2) -> str:
    """A change with its sign, ``+0.41`` or ``−5.40``; no sign where it rounds to nothing."""
    number = format_number(abs(value), decimals)
    return number if not any(c in "123456789" for c in number) else f"{'+' if value > 0 else MINUS}{number}"
