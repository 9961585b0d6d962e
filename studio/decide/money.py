"""Money as it is written: the number with its currency code, ISO 4217."""

from studio.model.quantity import Quantity


def money(value: float) -> Quantity:
    """An amount of money."""
    return Quantity(value, "money")


def amount(value: float, currency: str) -> str:
    """``348.00 EUR``."""
    return f"{money(value).text()} {currency}"
