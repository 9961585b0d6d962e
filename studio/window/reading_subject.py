"""The reading that a sheet shows: one of the specimen's, or a new one that joins them with its first value."""

import datetime as dt

from msgspec.structs import replace

from studio.model.episode import Episode
from studio.model.paths import value_at
from studio.model.quantity import Quantity, depth
from studio.model.specimen import DepthUnit, Gauge, Grid, Reading, Specimen
from studio.window.document import Document
from studio.window.put import put
from studio.window.subject import edit_checked

FIRST_GRID = (3, 4)  # grooves x places round the tire of the very first reading; later ones take the last one's


class ReadingSubject:
    """What the fields of a reading write to. A draft stands behind the last reading until it holds something."""

    def __init__(self, document: Document) -> None:
        self._document = document
        self._draft: Reading | None = None
        self._specimen, self._index = 0, 0
        self.words = ""

    @property
    def document(self) -> Document:
        """The document that is edited."""
        return self._document

    @property
    def path(self) -> str:
        """The path of the reading, or the one that the draft will have."""
        return f"specimens[{self._specimen}].readings[{self._index}]"

    @property
    def specimen(self) -> Specimen | None:
        """The specimen whose reading is shown."""
        every = self._document.episode.specimens
        return every[self._specimen] if self._specimen < len(every) else None

    @property
    def index(self) -> int:
        """The number of the reading in the specimen; that of the draft is one more than there are."""
        return self._index

    @property
    def is_draft(self) -> bool:
        """Whether the reading shown is not in the episode yet."""
        return self.specimen is not None and self._index >= len(self.specimen.readings)

    def show_reading(self, specimen: int, index: int, words: str) -> None:
        """Speak of a reading that is there."""
        self._specimen, self._index, self._draft, self.words = specimen, index, None, words

    def show_draft(self, specimen: int, draft: Reading, words: str) -> None:
        """Speak of a new reading that joins the specimen's with its first value."""
        count = len(self._document.episode.specimens[specimen].readings)
        self._specimen, self._index, self._draft, self.words = specimen, count, draft, words

    def value(self) -> Reading | None:
        """The reading; the draft where it is not there yet, or no longer by an undo."""
        specimen = self.specimen
        if specimen is None:
            return None
        if self._index < len(specimen.readings):
            return specimen.readings[self._index]
        return self._draft if self._index == len(specimen.readings) else None

    def write(self, what: str, after: Reading, merge: str = "") -> str:
        """Make the reading ``after``; a draft stays one while it holds nothing that was read."""
        document, specimen = self._document, self.specimen
        if specimen is None:
            return ""
        if not self.is_draft or holds_something(after):
            return edit_checked(document, f"Change {self.words} {what}", self._episode_with(after, specimen), merge)
        if problem := self.objection(after):
            return problem
        self._draft = after
        document.changed.emit()
        return ""

    def objection(self, after: Reading) -> str:
        """What would speak against the reading being ``after``; empty where nothing does."""
        specimen = self.specimen
        found = self._document.objections(self._episode_with(after, specimen)) if specimen else ()
        return found[0].message if found else ""

    def _episode_with(self, after: Reading, specimen: Specimen) -> Episode:
        if not self.is_draft:
            return put(self._document.episode, self.path, after)
        return put(self._document.episode, f"specimens[{self._specimen}].readings", (*specimen.readings, after))


def holds_something(reading: Reading) -> bool:
    """Whether anything that was read or seen stands in the reading."""
    depths = any(d is not None for groove in reading.depths for d in groove)
    return depths or bool(reading.odometer or reading.pressure or reading.damage or reading.note)


def empty_grid(grooves: int, stations: int) -> Grid:
    """A grid in which nothing was read."""
    return ((None,) * stations,) * grooves


def resized(grid: Grid, grooves: int, stations: int) -> Grid:
    """The grid with so many grooves and places; what no longer fits is dropped from its ends."""
    rows = [(*row[:stations], *(None,) * (stations - len(row))) for row in grid[:grooves]]
    return (*rows, *empty_grid(grooves - len(rows), stations))


def new_reading(episode: Episode, specimen: Specimen, on: dt.date) -> Reading:
    """An empty reading of ``specimen`` on that day: gauge, unit and grid as in the episode's last reading."""
    like = _last_reading(episode, specimen)
    if like is None:
        unit: DepthUnit = "32nds" if episode.units == "us" else "mm"
        gauge = Gauge(resolution=depth(1.0, "32nds") if unit == "32nds" else depth(0.1, "mm"))
        return Reading(on=on, place=specimen.place, gauge=gauge, unit=unit, depths=empty_grid(*FIRST_GRID))
    grooves = len(like.depths) or FIRST_GRID[0]
    stations = max((len(groove) for groove in like.depths), default=0) or FIRST_GRID[1]
    return Reading(
        on=on, place=specimen.place, gauge=like.gauge, unit=like.unit, depths=empty_grid(grooves, stations)
    )  # fmt: skip


def _last_reading(episode: Episode, specimen: Specimen) -> Reading | None:
    """The latest reading of the specimen and, where that is older, the latest of the episode."""
    every = [reading for each in episode.specimens for reading in each.readings]
    mine = max(specimen.readings, key=lambda reading: reading.on, default=None)
    latest = max(every, key=lambda reading: reading.on, default=None)
    return mine if mine and latest and mine.on >= latest.on else latest


def depth_at(reading: Reading, groove: int, station: int) -> Quantity | None:
    """A depth of the reading with its unit; None where nothing was read."""
    try:
        value = value_at(reading, f"depths[{groove}][{station}]")
    except LookupError:
        return None
    return None if value is None else depth(value, reading.unit)


def with_depth(reading: Reading, groove: int, station: int, read: Quantity | None) -> Reading:
    """The reading with one depth put in; the first one of all decides the unit in which the reading is kept."""
    if read is None:
        return put(reading, f"depths[{groove}][{station}]", None)
    unit = unit_for(reading, read)
    value = read.to(unit).value
    return put(replace(reading, unit=unit), f"depths[{groove}][{station}]", value)


def unit_for(reading: Reading, first: Quantity) -> DepthUnit:
    """The unit in which the depths are kept: the reading's, unless it is empty and the gauge turns out to read mm."""
    if any(d is not None for groove in reading.depths for d in groove):
        return reading.unit
    return "32nds" if first.unit == "32nds" else "mm" if first.unit == "mm" else reading.unit
