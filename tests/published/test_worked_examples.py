"""Every row of the list of worked examples, computed with the shipped tables and the tire arithmetic.

The expected values were computed apart from this program, by two scripts that share no code with it, from the sources
that each row names.
"""

import csv
import datetime as dt
from pathlib import Path

import pytest

from tests.published import computed_road, computed_size, computed_use
from tests.published.register import COMPUTED

assert computed_road and computed_size and computed_use, "importing them fills the register"
PATH = Path(__file__).parent / "data" / "worked_examples.csv"
ROWS = list(csv.DictReader(PATH.read_text(encoding="utf-8").splitlines()))
UNCOVERED: frozenset[str] = frozenset()


def inputs_of(row: dict[str, str]) -> dict[str, str]:
    """``width_mm=205; aspect=55`` by name; a part without a name, as in a list of stations, is its own name."""
    parts = (part.strip().partition("=") for part in row["inputs"].split(";"))
    return {name: value for name, _, value in parts} | {"unit": row["unit"]}


def name_of(row: dict[str, str]) -> str:
    return f"{row['id']}: {row['quantity']} [{row['source'][:60]}]"


def test_the_list_has_all_its_rows_and_each_is_covered():
    assert [row["id"] for row in ROWS] == [f"E{number:03d}" for number in range(1, 211)]
    assert {row["id"] for row in ROWS if row["quantity"] not in COMPUTED} == UNCOVERED


def test_nothing_is_computed_that_no_row_asks_for():
    assert set(COMPUTED) == {row["quantity"] for row in ROWS}


@pytest.mark.parametrize("row", [row for row in ROWS if row["id"] not in UNCOVERED], ids=name_of)
def test_worked_example(row):
    computed = COMPUTED[row["quantity"]](inputs_of(row))
    if row["tolerance"] == "0 days":
        assert (computed.isoformat() if isinstance(computed, dt.date) else computed) == row["expected"]
    elif float(row["tolerance"]) == 0:
        assert computed == float(row["expected"])
    else:
        assert abs(computed - float(row["expected"])) <= float(row["tolerance"])
