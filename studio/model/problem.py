"""A problem: a value that cannot be, with the path to it in the episode."""

import msgspec


class Problem(msgspec.Struct, frozen=True):
    """A physically impossible or contradictory value.

    ``path`` leads to it (``specimens[2].readings[0].depths[1][3]``; empty for the whole episode); ``message`` says what
    was read, what was expected, and why.
    """

    path: str
    message: str

    def __str__(self) -> str:
        return f"{self.path}: {self.message}" if self.path else self.message
