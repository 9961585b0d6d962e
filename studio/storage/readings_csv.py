"""A gauge session from a spreadsheet: rows in, readings of the episode's tires out. All of it is taken, or nothing."""

import datetime as dt
import difflib
from collections.abc import Sequence
from typing import NamedTuple

import msgspec

from studio.model.episode import Episode
from studio.model.problem import Problem
from studio.model.specimen import Damage, DepthUnit, Reading, Specimen
from studio.storage import readings_cells as cells
from studio.storage.csv_text import CsvError, Row, at, read_rows
from studio.storage.episode_file import ProblemFinder
from studio.storage.errors import plain
from studio.storage.readings_columns import FACTS, MOST_STATIONS, SINGLE, depth_column, read_groove, read_station
from studio.storage.readings_tires import Standing, standing_in

Spot = tuple[int, int]
_SHARED = tuple(name for name in FACTS if name not in ("tire", "place", "date"))


class Taken(NamedTuple):
    """One reading that was brought in: its tire, the line it stands in, and whether it took the place of another."""

    specimen: Specimen
    reading: Reading
    line: int
    replaced: bool


class Session(NamedTuple):
    """The episode with the session's readings in it, and what was taken."""

    episode: Episode
    taken: tuple[Taken, ...]


class _Draft:
    """One reading while its rows are read: one row in the wide form, one for each depth in the long one."""

    def __init__(self, row: Row, standing: Standing, day: dt.date) -> None:
        self.row, self.standing, self.day = row, standing, day
        self.unit: DepthUnit | None = cells.declared_unit(row)
        self.spots: dict[Spot, float | None] = {}
        self.origin: dict[Spot, tuple[int, str]] = {}
        self.naming = ""

    def add(self, row: Row, spot: Spot, column: str, cell: str) -> None:
        """Enter one depth; an empty cell is a place where nothing was read."""
        if spot in self.spots:
            raise CsvError(
                f"line {row.line}: this groove and station of {self.standing.words} stand in line"
                f" {self.origin[spot][0]} already; expected each once"
            )
        if cell:
            self.spots[spot], self.unit = cells.read_depth(row, column, cell, self.unit)
        else:
            self.spots[spot] = None
        self.origin[spot] = (row.line, column)

    def join(self, row: Row, standing: Standing) -> None:
        """Take the facts of a further row of the same reading; what both rows say must agree."""
        facts = self.row.cells
        if standing.place != self.standing.place:
            cells.refuse(row, "place", row.cells.get("place", ""), f"the place of line {self.row.line}, the same visit")
        for name in _SHARED:
            mine, its = facts.get(name, ""), row.cells.get(name, "")
            if mine and its and mine != its:
                raise CsvError(
                    f"{at(row.line, name)}: {its[:40]!r} was read, expected {mine[:40]!r} as in line {self.row.line},"
                    f" which is the same visit to {self.standing.words}"
                )
        self.row = Row(self.row.line, {**row.cells, **{name: cell for name, cell in facts.items() if cell}})
        self.unit = self.unit or cells.declared_unit(row)


def read_readings(content: bytes, episode: Episode, problems: ProblemFinder, *, replace: bool = False) -> Episode:
    """``episode`` with the readings of ``content``; as ``read_session``."""
    return read_session(content, episode, problems, replace=replace).episode


def read_session(content: bytes, episode: Episode, problems: ProblemFinder, *, replace: bool = False) -> Session:
    """Read the table ``content`` (``readings_columns.CONTRACT``) into ``episode``; readings are sorted by date.

    ``problems`` finds what cannot be. A tire's reading of the same day is refused, or replaced if ``replace`` says so.
    Raises CsvError with line, column, what was read, what was expected and an example; then nothing was taken.
    """
    columns, rows = read_rows(content, (*FACTS, *SINGLE))
    grid = _check_columns(columns)
    drafts = _long_drafts(rows, episode) if not grid else _wide_drafts(rows, episode, grid)
    if not drafts:
        raise CsvError("there is no row under the names of the columns; expected one for each tire")
    taken = [_finish(draft, replace) for draft in drafts]
    after = _with_readings(episode, taken)
    _refuse_impossible(episode, after, taken, drafts, problems)
    return Session(after, tuple(taken))


def _check_columns(columns: Sequence[str]) -> dict[str, Spot]:
    """The wide form's depth columns, empty for the long form; raises CsvError for what belongs to neither."""
    grid = {name: spot for name in columns if (spot := depth_column(name)) is not None}
    known = (*FACTS, *SINGLE)
    for name in columns:
        if name not in known and name not in grid:
            near = difflib.get_close_matches(name, (*known, "outer 1", "center 1", "inner 1"), 1)
            hint = f"; {near[0]} is one" if near else ""
            raise CsvError(
                f"{plain(name)[:40]!r} is not a column of this table{hint}; expected such as place or outer 1"
            )
    if "date" not in columns or not {"place", "tire"} & set(columns):
        raise CsvError(f"expected the columns date and place (or tire), read {', '.join(columns)[:200]}")
    single = [name for name in SINGLE if name in columns]
    if grid and single:
        raise CsvError(f"the columns {single[0]} and {next(iter(grid))} belong to two forms; expected one of them")
    if single and len(single) < len(SINGLE):
        raise CsvError(f"expected the columns groove, station and depth together, read only {', '.join(single)}")
    if not grid and not single and "pressure" not in columns:
        raise CsvError("there is no column with a depth; expected columns such as outer 1, or groove, station, depth")
    return grid


def _wide_drafts(rows: Sequence[Row], episode: Episode, grid: dict[str, Spot]) -> list[_Draft]:
    drafts: dict[tuple[str, dt.date], _Draft] = {}
    for row in rows:
        draft = _begin(row, episode)
        key = (draft.standing.specimen.id, draft.day)
        if key in drafts:
            raise CsvError(
                f"line {row.line}: a second row for {draft.standing.words} on {draft.day}; the first is in line"
                f" {drafts[key].row.line}; expected one row for each tire and day"
            )
        drafts[key] = draft
        filled = {name: spot for name, spot in grid.items() if row.cells.get(name)}
        for name, spot in filled.items():
            draft.add(row, spot, name, cells.no_formula(row, name))
    return list(drafts.values())


def _long_drafts(rows: Sequence[Row], episode: Episode) -> list[_Draft]:
    drafts: dict[tuple[str, dt.date], _Draft] = {}
    for row in rows:
        begun = _begin(row, episode)
        draft = drafts.setdefault((begun.standing.specimen.id, begun.day), begun)
        if draft is not begun:
            draft.join(row, begun.standing)
        _add_single(draft, row)
    return list(drafts.values())


def _add_single(draft: _Draft, row: Row) -> None:
    groove, station, depth = (cells.no_formula(row, name) for name in SINGLE)
    if not groove and not station and not depth:
        return
    naming, index = read_groove(groove, row.line)
    if draft.naming not in ("", naming):
        cells.refuse(row, "groove", groove, "words or numbers, and not both for one tire; for example outer")
    draft.naming = naming
    draft.add(row, (index, read_station(station, row.line)), "depth", depth)


def _begin(row: Row, episode: Episode) -> _Draft:
    day = cells.read_day(row)
    return _Draft(row, standing_in(row, day, episode), day)


def _finish(draft: _Draft, replace: bool) -> Taken:
    row, (specimen, place) = draft.row, draft.standing
    there = [reading for reading in specimen.readings if reading.on == draft.day]
    if there and not replace:
        raise CsvError(
            f"line {row.line}: {draft.standing.words} has a reading of {draft.day} already; nothing was taken"
            f" (readings --replace puts the new one in its place)"
        )
    unit: DepthUnit = draft.unit or (specimen.readings[-1].unit if specimen.readings else "mm")
    pressure = cells.read_pressure(row)
    if pressure is None and all(depth is None for depth in draft.spots.values()):
        raise CsvError(f"line {row.line}: there is neither a depth nor a pressure for {draft.standing.words}")
    reading = Reading(
        on=draft.day,
        place=place,
        gauge=cells.read_gauge(row, unit, specimen.readings[-1] if specimen.readings else None),
        unit=unit,
        depths=_grid(draft),
        odometer=cells.read_fact(row, "odometer", "distance"),
        pressure=pressure,
        damage=_kept_damage(there),
        note=cells.no_formula(row, "note"),
    )
    return Taken(specimen, reading, row.line, bool(there))


def _kept_damage(there: Sequence[Reading]) -> tuple[Damage, ...]:
    """The table has no column for damage: what was seen that day stays."""
    return tuple(damage for reading in there for damage in reading.damage)


def _ranks(draft: _Draft) -> list[int]:
    """The grooves in order: named ones close up, numbered ones keep their number."""
    used = sorted({groove for groove, _ in draft.spots})
    return list(range(used[-1] + 1)) if used and draft.naming == "number" else used


def _grid(draft: _Draft) -> tuple[tuple[float | None, ...], ...]:
    """The depths by groove and station, as many stations in each groove; None where nothing was read."""
    stations = range(1 + max((station for _, station in draft.spots), default=-1))
    return tuple(tuple(draft.spots.get((groove, station)) for station in stations) for groove in _ranks(draft))


def _with_readings(episode: Episode, taken: Sequence[Taken]) -> Episode:
    changed = []
    for specimen in episode.specimens:
        new = [each.reading for each in taken if each.specimen.id == specimen.id]
        days = {reading.on for reading in new}
        kept = [reading for reading in specimen.readings if reading.on not in days]
        readings = tuple(sorted((*kept, *new), key=lambda reading: reading.on)) if new else specimen.readings
        changed.append(msgspec.structs.replace(specimen, readings=readings))
    return msgspec.structs.replace(episode, specimens=tuple(changed))


def _refuse_impossible(
    before: Episode, after: Episode, taken: Sequence[Taken], drafts: Sequence[_Draft], problems: ProblemFinder
) -> None:
    known = {problem.message for problem in problems(before)}
    for problem in problems(after):
        if problem.message not in known:
            raise CsvError(f"{_place_in_file(problem, after, taken, drafts)}: {plain(problem.message)}")


def _place_in_file(problem: Problem, after: Episode, taken: Sequence[Taken], drafts: Sequence[_Draft]) -> str:
    """The line and column that the problem's path came from, or the path where it lies outside of the table."""
    for each, draft in zip(taken, drafts, strict=True):
        s = next(index for index, specimen in enumerate(after.specimens) if specimen.id == each.specimen.id)
        r = after.specimens[s].readings.index(each.reading)
        start = f"specimens[{s}].readings[{r}]"
        if not problem.path.startswith(start):
            continue
        rest = problem.path[len(start) :].lstrip(".")
        for groove, rank in enumerate(_ranks(draft)):
            for station in range(MOST_STATIONS):
                if rest == f"depths[{groove}][{station}]" and (rank, station) in draft.origin:
                    return at(*draft.origin[rank, station])
        column = rest.partition(".")[0].partition("[")[0]
        return at(each.line, {"on": "date", "gauge": "resolution"}.get(column, column or "date"))
    return problem.path
