"""Comments from a table: headings, encodings, broken quoting, markup, formulas, sizes; authors never read."""

import datetime as dt

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
    assert any("quotation marks" in remark for remark in found.remarks)


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
    assert [len(it.text) for it in found.comments] == [MOST_IN_COMMENT, 5] and len(found.remarks) == 2


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
