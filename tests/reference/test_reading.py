"""A cell holds what its row's field says, and a row that does not is refused with file, line, column and what fits."""

import pytest

from studio.reference import rows
from studio.reference.reading import read_rows
from studio.reference.table import TableError

SOURCE = "source,locator,standing"


def read(folder, kind, header, line):
    path = folder / "numbers.csv"
    path.write_text(f"{header},{SOURCE}\n{line},S,L,published\n", encoding="utf-8")
    (row,) = read_rows(path, kind).values()
    return row


@pytest.mark.parametrize("cell", ["nan", "inf", "-inf", "many", '"1,5"', "", "null"])
def test_a_number_is_a_finite_number(tmp_path, cell):
    with pytest.raises(TableError, match=r"^numbers\.csv, line 2: value is "):
        read(tmp_path, rows.Value, "key,value,unit,means", f"a,{cell},mm,words")


@pytest.mark.parametrize("cell", ["1.5", "-1", "+1", "٣", "²", "x"])
def test_a_whole_number_has_digits_only(tmp_path, cell):
    with pytest.raises(TableError, match=r"line 2: load_index is '.+', expected a whole number such as 91"):
        read(tmp_path, rows.LoadIndex, "load_index,load_kg", f"{cell},615")


def test_a_number_that_may_be_absent_is_none_and_not_zero(tmp_path):
    rule = read(tmp_path, rows.Rule, "id,region,value,unit,wording", "a,us,,,words")
    assert (rule.value, rule.unit) == (None, "")


def test_words_are_told_apart_at_blanks(tmp_path):
    order = read(tmp_path, rows.RotationOrder, "drivetrain,patterns", "fwd,forward_cross  x")
    assert order.patterns == ("forward_cross", "x")


@pytest.mark.parametrize(
    ("line", "complaint"),
    [
        (",us,wet,4,32nds,words", "id is empty"),
        ("a,us,wet,4,,words", "unit is empty"),
        ("a,us,wet,4,furlong,words", "unit is 'furlong', expected one of mm, 32nds, in"),
        ("a,us,wet,4,32nds,", "wording is empty"),
    ],
)
def test_a_cell_that_must_say_something_does(tmp_path, line, complaint):
    with pytest.raises(TableError, match=rf"^numbers\.csv, line 2: {complaint}"):
        read(tmp_path, rows.TreadAdvice, "id,region,season,value,unit,wording", line)


@pytest.mark.parametrize("verdict", ["keep", "unknown", "never"])
def test_no_table_says_that_a_tire_can_be_kept(tmp_path, verdict):
    header = "kind,verdict,brief,meaning,brief_meaning,avoid,look"
    with pytest.raises(TableError, match=r"verdict is '.+', expected one of watch, rotate, inspect, replace"):
        read(tmp_path, rows.DamageKind, header, f"bulge,{verdict},b,m,bm,a,l")


def test_a_column_may_have_another_name_than_its_field(tmp_path):
    region = read(tmp_path, rows.Region, "region,name,units,spelling,parent", "xx,Nowhere,us,tire,")
    assert (region.id, region.parent) == ("xx", "")
