"""What goes wrong in this room."""


class RangeError(ValueError):
    """A number lies outside what a table or formula covers. One line: what was given, what is covered."""


def require_positive(**named: float) -> None:
    """Raise RangeError for the first of ``named`` that is not above 0."""
    for name, value in named.items():
        if not value > 0:
            raise RangeError(f"{name} is {value:g}, expected a number above 0")


def require_at_least_zero(**named: float) -> None:
    """Raise RangeError for the first of ``named`` that is below 0."""
    for name, value in named.items():
        if not value >= 0:
            raise RangeError(f"{name} is {value:g}, expected 0 or more")
