"""A gauge session from a spreadsheet: both forms, many encodings, each refusal with line, column and an example."""

import datetime as dt

import msgspec
import pytest
from hypothesis import given
from hypothesis import strategies as st

from studio.model.car import RotationDone
from studio.model.episode import Episode
from studio.model.quantity import Quantity
from studio.model.specimen import Damage, Reading
from studio.storage import csv_text
from studio.storage.csv_text import CsvError
from studio.storage.readings_columns import CONTRACT
from studio.storage.readings_csv import Session, read_readings, read_session
from tests.storage.episodes import SMALL, deeper_than_40, nothing_wrong

WIDE = """\
place,date,unit,resolution,odometer,pressure,temperature,outer 1,outer 2,center 1,center 2,inner 1,inner 2,note
front left,2026-11-10,32nds,1/32,41300 mi,33 psi,-4 C,5,5.5,6,6,5/32,,after rain
front right,2026-11-10,32nds,1/32,41300 mi,,,7,7,7,7,6,7,
"""
LONG = """\
place,date,odometer,odometer_unit,gauge,resolution,unit,groove,station,depth
FL,2026-11-10,66500,km,pin gauge,0.1,mm,outer,1,4.2
FL,2026-11-10,66500,km,pin gauge,0.1,mm,outer,2,4.1
FL,2026-11-10,,,,,,inner,1,3 mm
FL,2026-11-10,,,,,,inner,2,
"""


def take(text: str | bytes, episode: Episode = SMALL, *, replace: bool = False) -> Session:
    content = text if isinstance(text, bytes) else text.encode()
    return read_session(content, episode, deeper_than_40, replace=replace)


def the_reading(text: str | bytes, id_: str = "left") -> Reading:
    specimen = take(text).episode.specimen(id_)
    assert specimen is not None
    return specimen.readings[-1]


def complaint(text: str | bytes, episode: Episode = SMALL) -> str:
    with pytest.raises(CsvError) as caught:
        take(text, episode)
    message = str(caught.value)
    assert message.isprintable() and len(message) < 500
    return message


def table(*cells: tuple[str, str], unit: str = "32nds") -> str:
    """One row for the right front tire, with these columns besides the usual ones."""
    row = {"place": "front right", "date": "2026-11-10", "unit": unit, "resolution": "1/32", "outer 1": "5"}
    row.update(cells)
    return ";".join(row) + "\n" + ";".join(row.values()) + "\n"


def test_a_row_for_each_tire() -> None:
    session = take(WIDE)
    assert [(each.specimen.id, each.line, each.replaced) for each in session.taken] == [
        ("left", 2, False), ("right", 3, False),
    ]  # fmt: skip
    left = session.taken[0].reading
    assert left.depths == ((5.0, 5.5), (6.0, 6.0), (5.0, None))
    assert (left.on, left.place, left.unit) == (dt.date(2026, 11, 10), "front_left", "32nds")
    assert left.gauge.resolution == Quantity(1.0, "32nds", "depth")
    assert left.odometer == Quantity(41300.0, "mi", "distance")
    assert left.pressure is not None and left.pressure.cold
    assert left.pressure.pressure == Quantity(33.0, "psi", "pressure")
    assert left.pressure.temperature == Quantity(-4.0, "degC", "temperature")
    assert left.note == "after rain"
    assert session.taken[1].reading.pressure is None


def test_a_row_for_each_depth() -> None:
    reading = the_reading(LONG)
    assert reading.depths == ((4.2, 4.1), (3.0, None))
    assert reading.unit == "mm"
    assert reading.gauge.name == "pin gauge" and reading.gauge.resolution.to("mm").value == 0.1
    assert reading.odometer == Quantity(66500.0, "km", "distance")


def test_readings_are_added_in_the_order_of_their_dates_and_nothing_else_changes() -> None:
    text = WIDE.replace("2026-11-10", "2025-03-01")
    after = take(text).episode
    left = after.specimen("left")
    assert left is not None and [reading.on.year for reading in left.readings] == [2025, 2026]
    assert after.specimens[2:] == SMALL.specimens[2:]
    assert msgspec.structs.replace(after, specimens=SMALL.specimens) == SMALL
    assert read_readings(text.encode(), SMALL, nothing_wrong) == after


def test_the_example_in_the_help_reads() -> None:
    lines = CONTRACT.splitlines()
    for start in ("  place,date,unit", "  place,date,odometer,"):
        at = next(index for index, line in enumerate(lines) if line.startswith(start))
        text = "\n".join(line.strip() for line in lines[at : at + 2])
        assert len(take(text).taken) == 1


@pytest.mark.parametrize("encoding", ["utf-8", "utf-8-sig", "utf-16", "utf-16-le", "utf-16-be", "cp1252"])
@pytest.mark.parametrize("separator", [",", ";", "\t"])
@pytest.mark.parametrize("ending", ["\n", "\r\n", "\r"])
def test_what_spreadsheets_save(encoding: str, separator: str, ending: str) -> None:
    text = WIDE.replace("after rain", "für später").replace(",", separator).replace("\n", ending)
    session = take(text.encode(encoding))
    assert len(session.taken) == 2
    assert session.taken[0].reading.note == "für später"
    assert session.taken[0].reading.depths == ((5.0, 5.5), (6.0, 6.0), (5.0, None))


def test_a_decimal_comma_between_semicolons_or_in_quotes() -> None:
    assert the_reading(table(("unit", "mm"), ("outer 1", "4,2"), ("resolution", "0,1 mm")), "right").depths == ((4.2,),)
    text = 'place,date,unit,resolution,outer 1\nRF,2026-11-10,mm,"0,1 mm","4,2"\n'
    assert the_reading(text, "right").depths == ((4.2,),)


def test_a_decimal_comma_that_splits_a_cell_is_explained() -> None:
    message = complaint("place,date,unit,resolution,outer 1\nRF,2026-11-10,mm,0.1 mm,4,2\n")
    assert message == (
        "line 2: 6 cells were read, expected at most 5; write a decimal comma in quotation marks or put semicolons"
        " between cells"
    )


def test_the_separator_line_of_a_spreadsheet_and_its_empty_rows_and_columns() -> None:
    text = "sep=;\nPlace;Date;UNIT;Resolution;Outer_1;;\n\nfront right;2026-11-10;32nds;1/32;5;;\n;;;;;;\n"
    session = take(text)
    assert [(each.line, each.reading.depths) for each in session.taken] == [(4, ((5.0,),))]


@pytest.mark.parametrize("place", ["front left", "Front_Left", "front-left", "LEFT FRONT", "lf", "FL", " front  left "])
def test_a_place_as_people_write_it(place: str) -> None:
    assert take(table(("place", place))).taken[0].specimen.id == "left"


@pytest.mark.parametrize(
    ("cell", "unit", "value"),
    [("5", "32nds", 5.0), ("5/32", "", 5.0), ("5/32 in", "", 5.0), ("0.25 in", "", 8.0), ("4 mm", "", 4.0),
     ("4,25", "mm", 4.25), ("4.5/32", "32nds", 4.5), ("0", "mm", 0.0)],
)  # fmt: skip
def test_a_depth_as_people_write_it(cell: str, unit: str, value: float) -> None:
    reading = the_reading(table(("outer 1", cell), ("unit", unit)), "right")
    assert reading.depths[0][0] == pytest.approx(value)
    assert reading.unit == ("mm" if "mm" in cell + unit else "32nds")


@pytest.mark.parametrize(
    ("date", "day"),
    [("2026-11-10", (2026, 11, 10)), ("10.11.2026", (2026, 11, 10)), ("11/13/2026", (2026, 11, 13)),
     ("13/11/2026", (2026, 11, 13)), ("6/6/2026", (2026, 6, 6))],
)  # fmt: skip
def test_a_date_that_can_be_read_in_one_way(date: str, day: tuple[int, int, int]) -> None:
    assert take(table(("date", date))).taken[0].reading.on == dt.date(*day)


def test_grooves_by_number_keep_their_number_and_named_ones_close_up() -> None:
    head = "tire,date,unit,resolution,groove,station,depth\n"
    by_number = head + "right,2026-11-10,mm,0.1,1,1,4\nright,2026-11-10,mm,0.1,3,2,5\n"
    assert the_reading(by_number, "right").depths == ((4.0, None), (None, None), (None, 5.0))
    by_name = head + "right,2026-11-10,mm,0.1,outer,1,4\nright,2026-11-10,mm,0.1,inner center,1,5\n"
    assert the_reading(by_name, "right").depths == ((4.0,), (5.0,))


def test_a_tire_on_the_bench_is_named() -> None:
    assert "expected a column tire that says which, one of bench_a, bench_b" in complaint(table(("place", "bench")))
    reading = take(table(("place", "bench"), ("tire", "bench_b"))).taken[0]
    assert (reading.specimen.id, reading.reading.place) == ("bench_b", "bench")
    named = take(table(("place", ""), ("tire", "Left one"))).taken[0]
    assert (named.specimen.id, named.reading.place) == ("left", "front_left")


def test_after_a_rotation_a_place_alone_does_not_say_which_tire_it_was() -> None:
    done = (RotationDone(on=dt.date(2026, 11, 12)),)
    rotated = msgspec.structs.replace(SMALL, car=msgspec.structs.replace(SMALL.car, rotations=done))
    message = complaint(table(), rotated)
    assert "rotated on 2026-11-12, after this reading of 2026-11-10" in message
    assert len(take(table(("tire", "right")), rotated).taken) == 1
    assert len(take(table(("date", "2026-11-12")), rotated).taken) == 1


def test_the_gauge_of_the_last_reading_stands_in_where_none_is_named() -> None:
    text = "place,date,unit,outer 1\nfront left,2026-11-10,32nds,5\n"
    assert the_reading(text).gauge == SMALL.specimens[0].readings[0].gauge
    assert "line 2, column resolution: nothing was read" in complaint(text.replace("left", "right"))
    assert "column resolution: nothing was read" in complaint(text.replace("32nds", "mm"))


def test_a_pressure_alone_is_a_reading() -> None:
    text = "place,date,pressure,pressure_unit,temperature,temperature_unit,cold\nLF,2026-11-10,2.3,bar,-3,C,no\n"
    reading = the_reading(text)
    assert reading.depths == () and reading.pressure is not None and not reading.pressure.cold
    assert reading.pressure.pressure == Quantity(2.3, "bar", "pressure")


def test_a_reading_of_the_same_day_is_refused_or_replaced_with_its_damage_kept() -> None:
    damage = (Damage(kind="puncture"),)
    first = SMALL.specimens[0]
    seen = msgspec.structs.replace(first.readings[0], damage=damage)
    episode = msgspec.structs.replace(
        SMALL, specimens=(msgspec.structs.replace(first, readings=(seen,)), *SMALL.specimens[1:])
    )
    text = WIDE.replace("2026-11-10", "2026-11-07")
    assert "line 2: Left one has a reading of 2026-11-07 already; nothing was taken" in complaint(text, episode)
    session = take(text, episode, replace=True)
    left = session.episode.specimen("left")
    assert session.taken[0].replaced and not session.taken[1].replaced
    assert left is not None and len(left.readings) == 1
    assert left.readings[0].damage == damage and left.readings[0].depths[0] == (5.0, 5.5)


@pytest.mark.parametrize(
    ("text", "said"),
    [
        ("", "the file is empty; expected a first line with the names of the columns"),
        ("\n\n", "the file is empty"),
        ("hello\n", "line 1: \"hello\" was read, expected the names of the columns"),
        ("place,date,outer 1\n", "there is no row under the names of the columns"),
        (table(("temprature", "5 C")), "'temprature' is not a column of this table; temperature is one"),
        (table(("outer 25", "5")), "'outer 25' is not a column"),
        (table(("groove", "outer")), "the columns groove and outer 1 belong to two forms"),
        ("place,date,groove,depth\nLF,2026-11-10,outer,5\n", "expected the columns groove, station and depth together"),
        ("place,outer 1\nLF,5\n", "expected the columns date and place (or tire), read place, outer 1"),
        ("place,date,note\nLF,2026-11-10,x\n", "no column with a depth"),
        ("place,date,date\nLF,2026-11-10,x\n", "line 1, column date: the name is there twice"),
        (table(("place", "front middle")), "line 2, column place: 'front middle' was read, expected front left"),
        (table(("place", "spare")), "line 2, column place: 'spare' was read, and no tire of the episode stands there"),
        (table(("place", "")), "line 2, column place: nothing was read, expected where the tire stood"),
        (table(("tire", "nobody")), "line 2, column tire: 'nobody' was read, expected the id or the name of a tire"),
        (table(("date", "")), "line 2, column date: nothing was read, expected a day of the calendar, such as 2026"),
        (table(("date", "2026-02-30")), "column date: '2026-02-30' was read, expected a day of the calendar"),
        (table(("date", "03/04/2026")), "column date: '03/04/2026' was read, expected a day that can be read in one"),
        (table(("unit", "cm")), "line 2, column unit: 'cm' was read, expected 32nds or mm; for example 32nds"),
        (table(("unit", "")), "line 2, column outer 1: '5' was read, expected a unit: 5/32, 4 mm, or a column unit"),
        (table(("outer 1", "five")), "line 2, column outer 1: 'five' was read, expected a depth, such as 5/32"),
        (table(("outer 1", "5/30")), "column outer 1: '5/30' was read, expected a depth"),
        (table(("outer 1", "35 psi")), "column outer 1: '35 psi' was read, expected a depth"),
        (table(("outer 1", "4 mm")), "column outer 1: '4 mm' was read, expected a depth in 32nds, as the rest of this"),
        (table(("outer 1", "5/32"), ("unit", "mm")), "expected a depth in mm, as the rest of this reading; for ex"),
        (table(("outer 1", "45/32")), "line 2, column outer 1: 45/32 in was read; at most 40/32 in can be"),
        (table(("outer 1", "-5")), "column outer 1: '-5' was read, expected a value that does not begin with = + - @"),
        (table(("outer 1", "=A1")), "column outer 1: '=A1' was read, expected a value that does not begin with"),
        (table(("note", "@cmd")), "column note: '@cmd' was read, expected a value that does not begin with"),
        (table(("note", "+1")), "column note: '+1' was read"),
        (table(("outer 1", "")), "line 2: there is neither a depth nor a pressure for Right one"),
        (table(("odometer", "41200")), "column odometer: '41200' was read, expected a unit with it, or in a column od"),
        (table(("odometer", "41200 psi")), "column odometer: '41200 psi' was read, expected a distance, such as 4"),
        (table(("odometer", "41,200 mi")), "column odometer: '41,200 mi' was read, expected a distance"),
        (table(("odometer", "1 mi"), ("odometer unit", "km")), "column odometer unit: 'km' was read, expected the un"),
        (table(("odometer", "1"), ("odometer unit", "yd")), "column odometer unit: 'yd' was read, expected a distance"),
        (table(("pressure", "33")), "column pressure: '33' was read, expected a unit with it"),
        (table(("temperature", "5 C")), "column pressure: nothing was read, expected the pressure that belongs to the"),
        (table(("pressure", "33 psi"), ("cold", "maybe")), "column cold: 'maybe' was read, expected yes or no"),
        (table(("resolution", "0")), "column resolution: '0' was read, expected the gauge's smallest step, above noth"),
        (table(("resolution", "fine")), "column resolution: 'fine' was read, expected a depth, such as"),
        (WIDE + "LF,2026-11-10,32nds,1/32,,,,5,,,,,,\n", "line 4: a second row for Left one on 2026-11-10; the first"),
        (LONG + "FL,2026-11-10,,,,,,outer,1,4\n", "line 6: this groove and station of Left one stand in line 2"),
        (LONG + "FL,2026-11-10,,,,,,1,3,4\n", "line 6, column groove: '1' was read, expected words or numbers"),
        (LONG + "FL,2026-11-10,5,mi,,,,outer,3,4\n", "line 6, column odometer: '5' was read, expected '66500' as in"),
        (LONG + "FL,2026-11-10,,,,,,rim,3,4\n", "line 6, column groove: 'rim' was read, expected outer, outer center"),
        (LONG + "FL,2026-11-10,,,,,,9,3,4\n", "line 6, column groove: '9' was read"),
        (LONG + "FL,2026-11-10,,,,,,outer,0,4\n", "line 6, column station: '0' was read, expected the place round"),
        ('place,date\nLF,"2026\n', "line 2: the quotation marks do not match"),
        (table(("note", "a\x07b")), "line 2, column note: \"a\\u0007b\" holds a control character"),
        (table(("note", "x" * 501)), "line 2, column note: 501 characters, expected at most 500"),
        ("place,date,\nLF,2026-11-10,5\n", 'line 2: "5" stands in a column without a name'),
        (b"PK\x03\x04" + b"\x00" * 50, "this is a spreadsheet's or document's own file; expected text"),
        (b"place,date\n\x00\x01\x02", "this is not text"),
        (b"place,date\n\x81\x8d", "this is not text"),
        (b"\xff\xfe\x00", "this is not text"),
    ],
)  # fmt: skip
def test_each_refusal_says_where_what_was_read_and_what_was_expected(text: str | bytes, said: str) -> None:
    assert said in complaint(text)


def test_limits_on_size_rows_and_columns(monkeypatch: pytest.MonkeyPatch) -> None:
    assert (csv_text.MOST_BYTES, csv_text.MOST_ROWS) == (5_000_000, 20_000)
    assert "5.0 MB is too large; expected at most 5 MB" in complaint(b" " * 5_000_001)
    row = "left,2026-11-10,mm,0.1 mm,1,1,4\n"
    assert "line 20002: expected at most 20000 rows" in complaint(
        "tire,date,unit,resolution,groove,station,depth\n" + row * 20_001
    )
    names = ",".join(["place", "date", *(f"x{number}" for number in range(300))])
    assert "302 columns, expected at most 250" in complaint(names + "\nLF,2026-11-10\n")


def test_nothing_is_taken_unless_all_of_it_reads() -> None:
    bad = WIDE.replace("front right,2026-11-10,32nds", "front right,2026-11-10,inches")
    assert "line 3, column unit" in complaint(bad)


def test_an_impossible_value_is_found_in_the_long_form_too() -> None:
    text = "tire,date,unit,resolution,groove,station,depth\nright,2026-11-10,32nds,1,outer,1,5\n"
    text += "right,2026-11-10,32nds,1,inner,1,45\n"
    assert complaint(text) == "line 3, column depth: 45/32 in was read; at most 40/32 in can be"


def test_what_was_wrong_before_is_not_blamed_on_the_table() -> None:
    first = SMALL.specimens[0]
    odd = msgspec.structs.replace(first.readings[0], depths=((99.0,),))
    episode = msgspec.structs.replace(
        SMALL, specimens=(msgspec.structs.replace(first, readings=(odd,)), *SMALL.specimens[1:])
    )
    assert len(take(table(), episode).taken) == 1


@given(st.binary(max_size=300))
def test_any_bytes_are_refused_in_one_line(content: bytes) -> None:
    complaint(content)


CELLS = st.text(max_size=12) | st.sampled_from(
    ["5", "5/32", "4 mm", "front right", "2026-11-10", "mm", "32nds", "1/32"]
)


@given(st.lists(CELLS, min_size=6, max_size=6), st.sampled_from([",", ";", "\t"]))
def test_any_cells_are_taken_or_refused_in_one_line(cells: list[str], separator: str) -> None:
    names = ("place", "date", "unit", "resolution", "outer 1", "pressure")
    text = separator.join(names) + "\n" + separator.join(cells)
    content = text.encode("utf-8", "surrogatepass")
    try:
        take(content)
    except CsvError:
        complaint(content)
