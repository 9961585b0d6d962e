"""Readings pasted from a spreadsheet: a column in the order of measuring, or a block as it stands in the grid."""

from studio.model.entry import EntryError, read_quantity
from studio.model.quantity import Quantity
from studio.model.specimen import Reading
from studio.window.grid_words import groove_words

MOST_CHARACTERS = 10_000
Put = tuple[int, int, Quantity | None]


class PasteError(ValueError):
    """What was pasted does not fit the grid; the message says what was read and what was expected."""


def pasted_depths(text: str, reading: Reading, groove: int, station: int) -> tuple[Put, ...]:
    """Where each pasted value goes, from the cell (``groove``, ``station``) on. Raises PasteError."""
    if len(text) > MOST_CHARACTERS:
        raise PasteError(f"{len(text)} characters were pasted; expected a column of depths, such as 5, 5, 4, 5")
    rows = [line.split("\t") for line in text.strip("\r\n").replace("\r\n", "\n").replace("\r", "\n").split("\n")]
    if all(len(row) == 1 for row in rows):
        return _column([row[0] for row in rows], reading, groove, station)
    return _block(rows, reading, groove, station)


def _column(values: list[str], reading: Reading, groove: int, station: int) -> tuple[Put, ...]:
    stations = len(reading.depths[0])
    start = groove * stations + station
    room = len(reading.depths) * stations - start
    if len(values) > room:
        raise PasteError(f"{len(values)} values were pasted; there are {room} cells from here on")
    places = [divmod(start + index, stations) for index in range(len(values))]
    return tuple((g, s, _read(value, reading, g, s)) for (g, s), value in zip(places, values, strict=True))


def _block(rows: list[list[str]], reading: Reading, groove: int, station: int) -> tuple[Put, ...]:
    wide, high = max(len(row) for row in rows), len(rows)
    if groove + high > len(reading.depths) or station + wide > len(reading.depths[0]):
        raise PasteError(
            f"{high} rows of {wide} values were pasted; there are {len(reading.depths) - groove} rows of "
            f"{len(reading.depths[0]) - station} cells from here on"
        )
    return tuple(
        (groove + y, station + x, _read(value, reading, groove + y, station + x))
        for y, row in enumerate(rows) for x, value in enumerate(row)
    )  # fmt: skip


def _read(value: str, reading: Reading, groove: int, station: int) -> Quantity | None:
    if not value.strip():
        return None
    try:
        return read_quantity(value, "depth", reading.unit)
    except EntryError as error:
        where = f"{groove_words(groove, len(reading.depths))} groove, place {station + 1}"
        raise PasteError(f"{where}: {error}; nothing was pasted") from None
