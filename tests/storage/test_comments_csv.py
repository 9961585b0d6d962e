"""Comments from a table: headings, encodings, broken quoting, markup, formulas, sizes; authors never read."""

import csv
import datetime as dt
import io
import random
import re

import pytest
from hypothesis import given
from hypothesis import strategies as st

from studio.storage.comments_csv import MOST_IN_COMMENT, MOST_ROWS, read_comments
from studio.storage.csv_text import CsvError

PLAIN = 'Author,Comment,Published,Likes\nann,"5/32, ok?",2026-02-01T10:00:00Z,3\nbob,4 mm?,2026-02-02,\n'


def texts(content: bytes) -> list[str]:
    return [comment.text for comment in read_comments(content).comments]


@pytest.mark.parametrize("encoding", ["utf-8", "utf-8-sig", "utf-16", "utf-16-le", "utf-16-be", "cp1252"])
@pytest.mark.parametrize("separator", [",", ";", "\t", "|"])
def test_encodings_and_separators(encoding: str, separator: str) -> None:
    table = f"autor{separator}kommentar\nann{separator}3 mm Profil für Österreich?\nbob{separator}5/32?\n"
    assert texts(table.encode(encoding)) == ["3 mm Profil für Österreich?", "5/32?"]


def test_words_and_days_are_taken_and_authors_are_not() -> None:
    found = read_comments(PLAIN.encode())
    assert [(it.text, it.on) for it in found.comments] == [
        ("5/32, ok?", dt.date(2026, 2, 1)),
        ("4 mm?", dt.date(2026, 2, 2)),
    ]
    assert (found.column, found.dropped) == ("Comment", ("Author",))


@pytest.mark.parametrize("sign", [*range(0x200E, 0x2010), *range(0x202A, 0x202F), *range(0x2066, 0x206A)])
def test_signs_that_turn_the_direction_of_reading_are_left_out(sign: int) -> None:
    """The bidirectional formatting characters of UAX #9, table 1: with them a comment can read as it is not written."""
    assert "\n".join(texts(f"comment\nis {chr(sign)}5/32 ok?\n".encode())) == "is 5/32 ok?"


def test_without_a_heading_the_longest_texts_are_the_comments() -> None:
    assert texts(b"1,are my tires at 5/32 still good,7\n2,what about a bulge in it,9\n") == [
        "are my tires at 5/32 still good",
        "what about a bulge in it",
    ]


def test_a_quotation_mark_that_is_never_closed_loses_nothing() -> None:
    broken = 'comment\n"one 5/32?\ntwo 4/32?\n' + "\n".join(f"more {n}/32?" for n in range(60)) + "\n"
    found = read_comments(broken.encode())
    assert len(found.comments) == 62 and found.comments[0].text == "one 5/32?"
    assert found.doubts_told == ("1 row has a quotation mark that never closes: line 2",)
    assert [(row.line, row.why, row.text) for row in found.in_doubt] == [(2, "open", "one 5/32?")]


def test_a_comment_of_several_lines_stays_one() -> None:
    assert texts(b'comment\n"first line\nsecond 5/32"\nnext\n') == ["first line\nsecond 5/32", "next"]


@pytest.mark.parametrize(
    ("cell", "text"),
    [
        ("5/32 <b>ok</b>?", "5/32 ok ?"),
        ("a<br>b", "a\nb"),
        ("Tom &amp; 5/32", "Tom & 5/32"),
        ("=1+1 5/32", "=1+1 5/32"),
        ("a\x07b\x1b[31m", "a b [31m"),
        ("5 < 6 and 7 > 3", "5 < 6 and 7 > 3"),
        ("{{7*7}}", "{{7*7}}"),
    ],
)
def test_cells_become_plain_text(cell: str, text: str) -> None:
    assert texts(f"comment\n{cell}\n".encode()) == [text]


def test_long_rows_are_cut_and_said() -> None:
    found = read_comments(b"comment\n" + b"x" * 1_000_000 + b"\n5/32?\n")
    assert [len(it.text) for it in found.comments] == [MOST_IN_COMMENT, 5]
    assert len(found.remarks) == len(found.doubts_told) == 1


def test_a_hundred_thousand_rows_are_read_and_one_more_refused() -> None:
    rows = b"is 5/32 ok?\n" * MOST_ROWS
    assert len(read_comments(b"comment\n" + rows).comments) == MOST_ROWS
    with pytest.raises(CsvError, match="expected at most 100,000"):
        read_comments(b"comment\n" + rows + b"one more\n")


@pytest.mark.parametrize("content", [b"", b"\n\n", b"PK\x03\x04xx", b"comment\n,,\n", b"%PDF-1.4"])
def test_what_holds_no_comments_is_refused_in_one_line(content: bytes) -> None:
    with pytest.raises(CsvError) as refused:
        read_comments(content)
    assert "expected" in str(refused.value) and "\n" not in str(refused.value)


@given(st.binary(max_size=400))
def test_any_bytes_are_comments_or_refused(content: bytes) -> None:
    try:
        found = read_comments(content)
    except CsvError:
        return
    assert all(it.text and "\x00" not in it.text for it in found.comments)


@pytest.mark.parametrize(
    "broken",
    ['{n},tread is 5" wide no {n}', '{n},"never closed no {n}', '{n},said "so no {n}', '{n},"a" b "c no {n}'],
)
def test_stray_quotation_marks_lose_no_row(broken: str) -> None:
    rows = [broken.format(n=n) if n % 2 else f"{n},whole comment no {n}" for n in range(400)]
    read = read_comments("\n".join(["id,comment", *rows]).encode())
    assert len(read.comments) == 400
    assert all(comment.text.endswith(f"no {n}") for n, comment in enumerate(read.comments))


def test_a_comment_of_several_lines_with_commas_and_doubled_marks_is_one() -> None:
    content = 'id,comment\n1,"Hi there,\nlove it, thanks\n""really"" do, you"\n2,next\n'
    assert [comment.text for comment in read_comments(content.encode()).comments] == [
        'Hi there,\nlove it, thanks\n"really" do, you', "next",
    ]  # fmt: skip


def test_a_mark_that_closes_rows_later_takes_in_no_row_between() -> None:
    rows = ['1,ann,"mine never closes 5/32', "2,bob,between one", "3,cy,between two", '4,dee,"ends here 4/32"']
    found = read_comments("\n".join(["id,author,comment", *rows, '5,eve,said so"', "6,fay,after"]).encode())
    assert [comment.text for comment in found.comments] == [
        "mine never closes 5/32", "between one", "between two", "ends here 4/32", 'said so"', "after",
    ]  # fmt: skip
    assert [(row.line, row.why) for row in found.in_doubt] == [(2, "open")]


def test_a_comment_with_separators_of_its_own_is_whole_and_its_row_in_doubt() -> None:
    found = read_comments(b"author,comment,date\nann,5/32, ok, or not?,2026-02-01\nbob,4/32?,2026-02-02\n")
    assert next((it.text, it.on) for it in found.comments) == ("5/32, ok, or not?", dt.date(2026, 2, 1))
    assert found.doubts_told == ("1 row has more cells than the heading: line 2",)


@pytest.mark.parametrize("row", ["Doe, Jo,are 5/32 ok?,x", "are 5/32 ok?,Doe, Jo"])
def test_an_author_with_a_separator_in_the_name_is_no_part_of_the_comment(row: str) -> None:
    heading = "author,comment,likes" if row.startswith("Doe") else "comment,author"
    (comment,) = read_comments(f"{heading}\n{row}\n".encode()).comments
    assert comment.text == "are 5/32 ok?"


def test_a_row_that_does_not_reach_the_comments_is_shown_and_not_taken() -> None:
    found = read_comments(b"author,comment\nann,first half\nthe other half\nbob,4/32?\n")
    assert [comment.text for comment in found.comments] == ["first half", "4/32?"]
    assert [(row.line, row.text, row.is_taken) for row in found.in_doubt] == [(3, "the other half", False)]
    assert found.doubts_told == ("1 row ends before the column of comments and was not taken: line 3",)


def test_one_wrong_byte_changes_one_letter_and_not_the_whole_table() -> None:
    content = "comment\nReifen für Österreich 4 mm?\n".encode() + b"caf\xe9 5/32?\n"
    assert texts(content) == ["Reifen für Österreich 4 mm?", "café 5/32?"]


WORDS = ["tread", "5/32", "worn, uneven", "cold; wet", "tab\there", 'a "so" b', "größer", "ok?", "bulge", "-- why"]


def _row(chance: random.Random, number: int, separator: str) -> tuple[str, str]:
    """(what a hostile or a good writer puts into the file, the mark of its comment that has to come out)."""
    mark = f"m{number}x"
    words = " ".join([mark, *chance.choices(WORDS, k=chance.randint(1, 5))])
    kind = chance.choice(["good", "good", "good", "open", "stray", "inches", "torn", "lines"])
    if kind == "good":
        out = io.StringIO()
        csv.writer(out, delimiter=separator, lineterminator="").writerow([number, f"ann{number}", words])
        return out.getvalue(), mark
    if kind == "lines":
        inner = words.replace('"', '""')
        return f'{number}{separator}ann{number}{separator}"{inner}\nmore, of it\n{separator} and end"', mark
    broken = {"open": f'"{words}', "stray": f'{words}"', "inches": f'5" {words} "', "torn": f'"{words}" and "{words}'}
    return f"{number}{separator}ann{number}{separator}{broken[kind]}", mark


@pytest.mark.parametrize("encoding", ["utf-8", "utf-8-sig", "utf-16", "utf-16-le", "cp1252"])
@pytest.mark.parametrize("separator", [",", ";", "\t"])
@given(seed=st.integers(0, 2**32), count=st.integers(1, 60), end=st.sampled_from(["\n", "\r", "\r\n"]))
def test_no_row_disappears_however_marks_are_broken(
    encoding: str, separator: str, seed: int, count: int, end: str
) -> None:
    chance = random.Random(seed)
    made = [_row(chance, number, separator) for number in range(count)]
    table = "\n".join([separator.join(["id", "author", "comment"]), *(row for row, _ in made)])
    found = read_comments(table.replace("\n", end).encode(encoding, "replace"))
    told = [comment.text for comment in found.comments] + [row.text for row in found.in_doubt if not row.is_taken]
    # a pair of stray marks can make one good cell of two rows, as the standard reads it: then both stand in it
    assert [mark for _, mark in made if not any(re.search(rf"\b{mark}\b", text) for text in told)] == []
    began = len(found.comments) + found.without_words + sum(not row.is_taken for row in found.in_doubt)
    assert began + found.joined == found.lines == table.count("\n")


@given(seed=st.integers(0, 2**32))
def test_a_table_as_the_standard_writes_it_is_read_as_written(seed: int) -> None:
    chance = random.Random(seed)
    words = ["a, b", "line\nline", '"said"', "5/32, ok", "x,y,z\n1,2,3", "plain"]
    wanted = [f"{' '.join(chance.choices(words, k=chance.randint(1, 4)))} n{n}" for n in range(30)]
    out = io.StringIO()
    order = chance.choice([1, -1])
    rows = [["author", "comment"], *([f"ann_{n}", text] for n, text in enumerate(wanted))]
    csv.writer(out).writerows(row[::order] for row in rows)
    found = read_comments(out.getvalue().encode())
    assert [comment.text for comment in found.comments] == wanted and not found.in_doubt
