"""The reader refuses whatever cannot be traced, and says which file, which line, and why."""

from pathlib import Path

import pytest

from studio.reference.table import MAX_BYTES, TableError, read_table

HEADER = "key,value,source,locator,standing\n"


def write(folder: Path, text: str | bytes) -> Path:
    path = folder / "numbers.csv"
    path.write_bytes(text.encode() if isinstance(text, str) else text)
    return path


def read(path: Path):
    return read_table(path, ("key", "value"), ("key",))


def test_a_row_keeps_its_cells_and_its_source(tmp_path):
    (row,) = read(write(tmp_path, HEADER + "bar,1.6,49 CFR 571.139,S5.4,published\n"))
    assert (row.cells["key"], row.cells["value"], row.line) == ("bar", "1.6", 2)
    assert (row.source.title, row.source.locator, row.source.standing) == ("49 CFR 571.139", "S5.4", "published")


def test_a_byte_order_mark_and_blank_lines_are_tolerated(tmp_path):
    rows = read(write(tmp_path, "\ufeff" + HEADER + "\na,1,S,L,computed\n\nb,2,S,L,computed\n"))
    assert [(row.cells["key"], row.line) for row in rows] == [("a", 3), ("b", 5)]


def test_columns_may_stand_in_any_order(tmp_path):
    (row,) = read(write(tmp_path, "source,value,locator,key,standing\nS,1,L,a,computed\n"))
    assert (row.cells["key"], row.cells["value"], row.source.title) == ("a", "1", "S")


@pytest.mark.parametrize(
    ("row", "complaint"),
    [
        ("a,1,,L,published", "line 2: no source"),
        ("a,1,S,,published", "line 2: no locator"),
        ("a,1,S,L,", "line 2: no standing"),
        ("a,1,,,", "line 2: no source and no locator and no standing"),
        ("a,1,S,L,surely", "line 2: standing is 'surely', expected one of published; published, restated"),
        ("a,1,S,L", "line 2: 4 cells, expected 5"),
        ("a,1,S,L,published,more", "line 2: 6 cells, expected 5"),
        ("a,1,S,L,published\nb,1,S,L,published\na,2,S,L,published", "line 4: key 'a' stands in line 2 already"),
        ("a\u202e,1,S,L,published", "line 2: key holds a control character"),
        (f"{'a' * 601},1,S,L,published", "line 2: key is longer than 600 characters"),
        ('"a,1,S,L,published', "not comma-separated text"),
    ],
)
def test_a_row_that_cannot_be_traced_does_not_load(tmp_path, row, complaint):
    with pytest.raises(TableError) as error:
        read(write(tmp_path, HEADER + row + "\n"))
    assert complaint in str(error.value)
    assert str(error.value).startswith("numbers.csv")
    assert "\n" not in str(error.value)


@pytest.mark.parametrize(
    ("content", "complaint"),
    [
        ("", "line 1: columns are ; expected key, value, source, locator, standing"),
        ("key,value\na,1\n", "line 1: columns are key, value"),
        (HEADER.replace("value", "value,value"), "line 1: columns are key, value, value"),
        (HEADER.encode() + b"\xff,1,S,L,published\n", "not UTF-8 text (byte 34)"),
        (HEADER + "#" * MAX_BYTES, "larger than 1000000 bytes, which no reference table is"),
        (HEADER + "".join(f"k{n},1,S,L,computed\n" for n in range(5001)), "5001 rows"),
    ],
)
def test_a_file_of_another_kind_does_not_load(tmp_path, content, complaint):
    with pytest.raises(TableError, match=r"^numbers\.csv") as error:
        read(write(tmp_path, content))
    assert complaint in str(error.value)


def test_a_missing_file_is_named(tmp_path):
    with pytest.raises(TableError, match=r"absent\.csv: cannot be read"):
        read_table(tmp_path / "absent.csv", ("key",), ("key",))


def test_the_cells_cannot_be_changed(tmp_path):
    (row,) = read(write(tmp_path, HEADER + "a,1,S,L,published\n"))
    with pytest.raises(TypeError):
        row.cells["value"] = "2"
