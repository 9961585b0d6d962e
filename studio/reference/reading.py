"""Make typed rows of a table: what a cell may hold is said once, by the fields of the row's class."""

import functools
import math
from collections.abc import Mapping
from pathlib import Path
from types import MappingProxyType, NoneType
from typing import Annotated, Any, Literal, NoReturn, TypeVar, get_args, get_origin, get_type_hints

import msgspec

from studio.model.quantity import UnitName
from studio.reference.rows import Coin, CoinFact, CoinRow
from studio.reference.table import RawRow, TableError, read_table

Made = TypeVar("Made", bound=msgspec.Struct)


def read_rows(path: Path, kind: type[Made]) -> Mapping[Any, Made]:
    """Read a table into rows of ``kind`` by their first column, in the file's order. Raises TableError."""
    columns = _shape(kind).columns
    key, column = next(iter(columns.items()))
    made = (_row(raw, kind) for raw in read_table(path, tuple(columns.values()), (column,)))
    return MappingProxyType({getattr(row, key): row for row in made})


def read_coins(path: Path) -> Mapping[str, Coin]:
    """Read the coins: one row a fact, so that each dimension and each test keeps its own source. Raises TableError."""
    facts: dict[str, dict[str, CoinRow]] = {}
    for raw in read_table(path, tuple(_shape(CoinRow).columns.values()), ("coin", "fact")):
        row = _row(raw, CoinRow)
        facts.setdefault(row.coin, {})[row.fact] = row
    return MappingProxyType({coin: _coin(path.name, coin, rows) for coin, rows in facts.items()})


def _coin(file: str, coin: str, rows: Mapping[str, CoinRow]) -> Coin:
    if absent := [fact for fact in ("diameter", "thickness") if fact not in rows]:
        raise TableError(f"{file}: coin {coin!r} has no {' and no '.join(absent)}")
    facts = {fact: _fact(row) for fact, row in rows.items()}
    first = rows["diameter"]
    return Coin(id=coin, name=first.name, region=first.region, test=facts.pop("test", None), **facts)


def _fact(row: CoinRow) -> CoinFact:
    return CoinFact(
        value=row.value, unit=row.unit, wording=row.wording, over=row.over, under=row.under,
        landmark=row.landmark or "none", source=row.source,
    )  # fmt: skip


class _Shape(msgspec.Struct, frozen=True):
    """What a row's class asks of its table: each field's column, and the fields whose cells need more than a type."""

    columns: Mapping[str, str]
    words: tuple[str, ...]
    absent: tuple[str, ...]
    numbers: tuple[str, ...]
    units: tuple[str, ...]


@functools.cache
def _shape(kind: type[msgspec.Struct]) -> _Shape:
    """Where a row comes from is read with the file, so ``source`` is no column here."""
    types = get_type_hints(kind)
    columns = {field.name: field.encode_name for field in msgspec.structs.fields(kind) if field.name != "source"}
    return _Shape(
        columns=columns,
        words=tuple(columns[field] for field in columns if get_origin(types[field]) is tuple),
        absent=tuple(columns[field] for field in columns if NoneType in get_args(types[field])),
        numbers=tuple(field for field in columns if float in (types[field], *get_args(types[field]))),
        units=tuple(field for field in columns if types[field] == UnitName),
    )


def _row(raw: RawRow, kind: type[Made]) -> Made:
    shape = _shape(kind)
    cells: dict[str, object] = {**raw.cells, "source": raw.source}
    for column in shape.words:
        cells[column] = raw.cells[column].split()
    for column in shape.absent:
        cells[column] = raw.cells[column] or None
    try:
        row = msgspec.convert(cells, kind, strict=False)
    except msgspec.ValidationError as error:
        _refuse(raw, cells, kind, str(error))
    for field in shape.numbers:
        if not math.isfinite(getattr(row, field) or 0.0):
            column = shape.columns[field]
            raw.refuse(_expectation(column, raw.cells[column], float))
    for field in shape.units:
        if not getattr(row, field):  # a bare count has no unit, but no row may forget one
            raw.refuse(f"{shape.columns[field]} is empty")
    return row


def _refuse(raw: RawRow, cells: Mapping[str, object], kind: type[msgspec.Struct], otherwise: str) -> NoReturn:
    """Name the first cell that its column cannot hold; where each can be, the row's own objection."""
    types = get_type_hints(kind, include_extras=True)
    for field, column in _shape(kind).columns.items():
        try:
            msgspec.convert(cells[column], types[field], strict=False)
        except msgspec.ValidationError:
            raw.refuse(_expectation(column, raw.cells[column], types[field]))
    raw.refuse(otherwise)


@functools.cache
def _types(kind: type[msgspec.Struct]) -> Mapping[str, Any]:
    return get_type_hints(kind)


def _expectation(column: str, cell: str, kind: Any) -> str:
    if not cell:
        return f"{column} is empty"
    bare, *rules = get_args(kind) if get_origin(kind) is Annotated else (kind,)
    above = [f" above {rule.gt:g}" for rule in rules if rule.gt is not None]
    if get_origin(bare) is Literal:
        expected = f"one of {', '.join(word for word in get_args(bare) if word)}"
    elif bare is bool:
        expected = "true or false"
    else:
        expected = "a whole number such as 91" if bare is int else f"a number{''.join(above) or ' such as 1.6'}"
    return f"{column} is {cell!r}, expected {expected}"
