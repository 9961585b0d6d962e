"""Numbers held against the reference tables: what they cite, and what they say of another place's law."""

import re
from collections.abc import Sequence

from studio.model.quantity import Quantity
from studio.script.agreement import agrees_with
from studio.script.aspects import Dimension
from studio.script.cited import Cited, stems
from studio.script.ground import Ground
from studio.script.said import Said
from studio.script.verdict import GENERAL, Around, Judged

_LOADS = "load index table"
_OF_LOAD = 0.005  # rounding between kg and lb
_ENOUGH = 2  # words that a row of the tables must share with the sentence
_LEGAL = re.compile(r"legal|\blaw\b|limit|minimum|needs?\b|ask|must|\bmay\b|allow|permit|require|advi[sc]e|"
                    r"recommend", re.IGNORECASE)


def elsewhere(said: Said, around: Around, ground: Ground, dimensions: Sequence[Dimension]) -> Judged | None:
    """The verdict on what is said of another place's law or advice; None where no other place is named."""
    if "len" not in dimensions:
        return None
    named = {ground.regions[match[0]] for match in ground.places.finditer(around.text)} - {ground.own_region}
    if not named or not _LEGAL.search(around.text):
        return None
    rows = [row for row in ground.cited.get("len", ()) if row.region in named]
    fitting = [row for row in rows if _fits(said, row)]
    if fitting:
        return Judged(state="cited", expected=fitting[0].says, source=_source(fitting[0]))
    words = stems(around.text)
    legal = sorted((row for row in rows if row.legal), key=lambda row: -len(row.words & words))
    if not legal or GENERAL.search(around.text):
        return None
    row = legal[0]
    what = Quantity(row.value, row.unit, "depth").both(ground.units)
    return Judged(state="contradicted", expected=what, source=_source(row), why=f"the tables say {what}: {row.says}")


def cited_in(
    said: Said, around: Around, ground: Ground, dimensions: Sequence[Dimension], *, strict: bool
) -> Judged | None:
    """The row of the tables that says so, if the sentence shares enough words with it."""
    words = stems(around.text)
    best, most = None, 0
    for dimension in dimensions:
        for row in ground.cited.get(dimension, ()):
            shared = len(words & row.words)
            if shared > most and _fits(said, row) and shared >= _ENOUGH + strict:
                best, most = row, shared
    if best is None:
        return _of_load_index(said, around, ground)
    return Judged(state="cited", expected=best.says, source=_source(best))


def _of_load_index(said: Said, around: Around, ground: Ground) -> Judged | None:
    """``Load index 103 means 875 kg``, whatever tires the episode has."""
    stated = re.search(r"load (?:index|number)\D{0,12}(\d{2,3})", around.text, re.IGNORECASE)
    load = ground.load_of.get(int(stated[1])) if stated and {"kg", "lb"} & set(said.units) else None
    if stated is None or load is None:
        return None
    said_kg = Quantity(said.value, said.units[0]).to("kg").value
    what = f"{load:g} kg ({Quantity(load, 'kg').in_system('us').text()})"
    if abs(said_kg - load) <= max(_OF_LOAD * load, said.step / 2):
        return Judged(state="cited", expected=what, source=_LOADS)
    return Judged(state="contradicted", expected=what, source=_LOADS, why=f"the table says {what} for {stated[1]}")


def _fits(said: Said, row: Cited) -> bool:
    ranges = ((unit, row.in_unit(unit)) for unit in said.units)
    return any(its is not None and agrees_with(said, unit, *its) for unit, its in ranges)


def _source(row: Cited) -> str:
    return row.source.title if row.source.locator == "none" else f"{row.source.title}, {row.source.locator}"
