"""The check over a whole script: places, live numbers, dismissals, holes, hostile text."""

import datetime as dt
from pathlib import Path
from typing import get_args

import msgspec
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from studio import shipped
from studio.decide import decide
from studio.headless.opening import open_episode
from studio.model.episode import Episode
from studio.model.finding import Findings
from studio.model.rundown import Dismissal, PaidTie, Point, Rundown, Segment
from studio.reference.tables import load_tables
from studio.script.check import TIE, TITLE, ScriptCheck, check_script, check_text
from studio.script.verdict import State

TABLES = load_tables()
VAN = open_episode(shipped.demos() / "minivan_one_new_tire.json")
FOUND = decide(VAN, TABLES)


def checked(*points: str, title: str = "", about: tuple[str, ...] = (), **more: object) -> ScriptCheck:
    segment = Segment(id="one", title=title, points=tuple(Point(text=text, findings=about) for text in points))
    rundown = msgspec.structs.replace(Rundown(segments=(segment,)), **more)
    return check_script(msgspec.structs.replace(VAN, rundown=rundown), FOUND, TABLES)


def states(check: ScriptCheck) -> list[tuple[str, str]]:
    return [(mark.text, mark.state) for mark in check.marks]


def test_titles_points_and_paid_lines_are_read_and_say_where() -> None:
    tie = PaidTie(what="gauge", segment="one", line="The gauge reads to 0.77 inches.", card="lent")
    points = ("The front left has 9/32 in.", "The front left has 8/32 in.")
    check = checked(*points, title="Down to 2/32?", paid_ties=(tie,))
    assert [(m.point, m.state) for m in check.marks] == [
        (TITLE, "computed"), (0, "computed"), (1, "contradicted"), (TIE, "unbacked"),
    ]  # fmt: skip
    wrong = check.contradicted[0]
    assert (wrong.segment, wrong.expected, wrong.source) == ("one", "9/32 in", "tread_left.front_left")
    assert "1/32 in too low" in wrong.why


def test_a_live_number_is_computed_by_itself_and_a_hole_is_named() -> None:
    check = checked("It has {tread_left.front_left both}, and {tread_left.nobody} more.")
    assert [(m.text, m.live, m.source) for m in check.marks] == [
        ("9/32 in", True, "tread_left.front_left"), ("7.1 mm", True, "tread_left.front_left"),
    ]  # fmt: skip
    assert [(hole.reference, hole.why) for hole in check.holes] == [
        ("{tread_left.nobody}", "the finding tread_left.nobody is gone")
    ]


def test_an_unfinished_number_is_a_hole_of_its_own_wherever_it_stands() -> None:
    tie = PaidTie(what="gauge", segment="one", line="It is {cheap", card="lent")
    check = checked("It has only {25 % left.", title="How far} now", paid_ties=(tie,))
    assert [(its.point, its.reference, its.why) for its in check.holes] == [
        (TITLE, "}", "unfinished number"), (0, "{", "unfinished number"), (TIE, "{", "unfinished number"),
    ]  # fmt: skip
    assert [(its.start, its.end) for its in check.holes][:2] == [(7, 28), (12, 34)]  # with the signs around its mark
    assert [m.text for m in check.marks] == ["25 %"]


def test_a_dismissed_mark_is_still_listed_and_only_with_a_reason() -> None:
    text = "The tires save 12 percent."
    assert [m.text for m in checked(text).standing] == ["12 percent"]
    set_aside = checked(text, dismissed=(Dismissal(segment="one", text="12 percent", reason="the maker's own figure"),))
    assert set_aside.standing == () and set_aside.marks[0].dismissed == "the maker's own figure"
    blank = checked(text, dismissed=(Dismissal(segment="one", text="12 percent", reason="  "),))
    assert len(blank.standing) == 1
    elsewhere = checked(text, dismissed=(Dismissal(segment="two", text="12 percent", reason="no"),))
    assert len(elsewhere.standing) == 1


def test_what_is_often_said_wrongly_is_named_with_what_is_right() -> None:
    check = checked("2/32 is the federal legal limit for drivers.", "The federal limit of 2/32 is a myth.")
    assert [(s.id, s.point) for s in check.statements] == [("federal_limit", 0)]
    assert "States set the limit" in check.statements[0].correct


def test_the_points_findings_say_who_is_meant() -> None:
    assert states(checked("It has 6/32 in left.", about=("tread_left.front_left",))) == [("6/32 in", "contradicted")]
    assert states(checked("It has 4/32 in left.", about=("tread_left.front_right",))) == [("4/32 in", "computed")]


def test_an_episode_without_segments_or_readings_gives_an_empty_answer() -> None:
    empty = Episode(title="Nothing yet", on=dt.date(2026, 11, 14))
    nothing = check_script(empty, decide(empty, TABLES), TABLES)
    assert nothing.marks == () and nothing.note.endswith("nothing to check yet.")
    words = msgspec.structs.replace(empty, rundown=Rundown(segments=(Segment(id="a", title="Hello"),)))
    assert check_script(words, Findings(()), TABLES) == ScriptCheck()


def test_the_check_of_a_reply() -> None:
    found = check_text("Your front left has 9/32 in, that is 5 mm.", FOUND, TABLES, "us")
    assert [(m.text, m.state, m.conversion) for m in found.marks] == [
        ("9/32 in", "computed", False), ("5 mm", "contradicted", True),
    ]  # fmt: skip


@pytest.mark.parametrize(
    "text",
    ["<b>9/32 in</b> --> &amp; \U0001f600\u202e", "9/32 " * 2000, "1" * 5000, "1/1/1/1/" * 500, "half of " * 1000,
     "week week week 53 of 2026 2026", "-" * 9000, "\x00\x1b[31m 9 mm", "∞ mm, 1e999 mm", "twice " * 3000,
     "front left rear right spare " * 700],
)  # fmt: skip
def test_hostile_text_does_no_harm(text: str) -> None:
    checked(text[:20_000], title=text[:100])


@settings(max_examples=60)
@given(st.text(st.sampled_from("0123456789/.,- mpsinch%two halftwice\nof the front left tire:;()–ÅÄ½"), max_size=200))
def test_any_text_gives_marks_within_it(text: str) -> None:
    for mark in checked(text).marks:
        assert text[mark.start : mark.end] == mark.text and mark.state in get_args(State)


def test_no_file_is_read_and_nothing_but_the_core_is_known() -> None:
    folder = Path(__file__).parents[2] / "studio" / "script"
    assert not [path for path in folder.glob("*.py") if "open(" in path.read_text(encoding="utf-8")]
