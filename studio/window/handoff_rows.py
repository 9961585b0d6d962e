"""The rows of the hand-off: one a deliverable, with the state of its files taken together."""

from collections.abc import Sequence
from dataclasses import dataclass

from studio.handoff.manifest import FileState, State
from studio.handoff.works import ITEM_NAMES, ITEMS

WAITING = "looking…"


@dataclass(frozen=True)
class Row:
    """One deliverable: its files, the state that they have together, and why in one line."""

    item: str
    files: tuple[FileState, ...]

    @property
    def name(self) -> str:
        """What the trade calls it."""
        return ITEM_NAMES[self.item]

    @property
    def state(self) -> State | None:
        """Stale if one file is, not made if one is not made, else fresh; None while nobody has looked."""
        found = {file.state for file in self.files}
        if not found:
            return None
        return "stale" if "stale" in found else "not made" if "not made" in found else "fresh"

    @property
    def words(self) -> str:
        """The state in words, with the count where files differ."""
        if self.state is None:
            return WAITING
        counts = {state: sum(file.state == state for file in self.files) for state in ("stale", "not made", "fresh")}
        told = [f"{count} {state}" if len(self.files) > 1 else state for state, count in counts.items() if count]
        return ", ".join(told)

    @property
    def why(self) -> str:
        """The first reason."""
        return next((why for file in self.files if file.state == self.state for why in file.why), "")


def rows(states: Sequence[FileState] | None) -> tuple[Row, ...]:
    """All deliverables in order; without files while nobody has looked."""
    files = states or ()
    return tuple(
        Row(item, mine)
        for item in ITEMS
        if (mine := tuple(file for file in files if file.item == item)) or states is None
    )


def summary(states: Sequence[FileState]) -> str:
    """One short line: ``3 stale, 2 not made``, or that all is fresh."""
    every = rows(states)
    counts = {state: sum(row.state == state for row in every) for state in ("stale", "not made")}
    told = [f"{count} {state}" for state, count in counts.items() if count]
    return ", ".join(told) if told else "all fresh"
