"""``readings``: a session goes in whole or not at all, and what was brought in is printed."""

import datetime as dt
import json
from pathlib import Path

import pytest

from studio.headless.main import main
from studio.headless.opening import open_episode
from studio.headless.readings import remarks_of
from studio.model.quantity import depth
from studio.model.specimen import Gauge, Reading
from studio.storage.lock import EpisodeLock

Captured = pytest.CaptureFixture[str]
SESSION = """\
place;date;unit;resolution;odometer;pressure;temperature;outer 1;outer 2;center 1;center 2;inner 1;inner 2
front left;2026-11-14;32nds;1/32;51600 mi;34 psi;41 F;9;10;10;10;9;9
rear left;2026-11-14;32nds;1/32;51600 mi;;;5;5;6;5;5;5
"""


@pytest.fixture
def episode(tmp_path: Path) -> Path:
    path = tmp_path / "mine.json"
    assert main(["new", str(path), "--demo"]) == 0
    return path


@pytest.fixture
def table(tmp_path: Path) -> Path:
    path = tmp_path / "session.csv"
    path.write_text(SESSION)
    return path


def test_what_was_brought_in_is_saved_and_printed(episode: Path, table: Path, capsys: Captured) -> None:
    before = open_episode(episode)
    capsys.readouterr()
    assert main(["readings", str(episode), str(table)]) == 0
    after = open_episode(episode)
    assert [len(new.readings) - len(old.readings) for old, new in zip(before.specimens, after.specimens, strict=True)][
        :4
    ] == [1, 0, 1, 0]
    said = capsys.readouterr().out.splitlines()
    assert said[0] == "mine.json: 2 readings brought in from session.csv"
    assert "(front left), 2026-11-14; 6 depths in 3 grooves; least 9/32 in; 51,600 mi; 34 psi; gauge in" in said[1]
    assert "(rear left), 2026-11-14; 6 depths in 3 grooves; least 5/32 in; 51,600 mi; gauge in steps" in said[2]
    assert sorted(path.name for path in episode.parent.iterdir()) == [".mine.json.bak", "mine.json", "session.csv"]


@pytest.mark.parametrize(
    ("old", "new", "said"),
    [
        (";9;10;", ";45/32;10;", "session.csv: line 2, column outer 1: 45/32 in was read; expected a tread depth"),
        ("51600 mi;34", "51600;34", "session.csv: line 2, column odometer: '51600' was read, expected a unit"),
        ("rear left;2026-11-14", "rear left;2026-11-20", "session.csv: line 3, column date: 20 Nov 2026 was read"),
        ("place;", "seat;", "session.csv: 'seat' is not a column"),
    ],
)
def test_a_refused_session_changes_nothing(
    episode: Path, table: Path, old: str, new: str, said: str, capsys: Captured
) -> None:
    before = episode.read_bytes()
    table.write_text(SESSION.replace(old, new))
    assert main(["readings", str(episode), str(table)]) == 2
    error = capsys.readouterr().err
    assert error.startswith(said) and error.count("\n") == 1
    assert episode.read_bytes() == before
    assert sorted(path.name for path in episode.parent.iterdir()) == ["mine.json", "session.csv"]


def test_a_second_time_needs_the_word_replace(episode: Path, table: Path, capsys: Captured) -> None:
    assert main(["readings", str(episode), str(table)]) == 0
    once = episode.read_bytes()
    assert main(["readings", str(episode), str(table)]) == 2
    assert "has a reading of 2026-11-14 already; nothing was taken" in capsys.readouterr().err
    assert main(["readings", str(episode), str(table), "--replace"]) == 0
    assert episode.read_bytes() == once
    assert capsys.readouterr().out.count("in place of the earlier reading of that day") == 2


def test_a_later_session_moves_the_episodes_day_if_asked_to(episode: Path, table: Path) -> None:
    table.write_text(SESSION.replace("2026-11-14", "2026-12-05"))
    assert main(["readings", str(episode), str(table)]) == 2
    assert main(["readings", str(episode), str(table), "--on", "2026-12-05"]) == 0
    assert open_episode(episode).on.isoformat() == "2026-12-05"


def test_an_episode_that_is_open_elsewhere_is_not_touched(episode: Path, table: Path, capsys: Captured) -> None:
    before = episode.read_bytes()
    with EpisodeLock.take(episode):
        assert main(["readings", str(episode), str(table)]) == 2
    assert "mine.json is open already (process " in capsys.readouterr().err
    assert episode.read_bytes() == before


@pytest.mark.parametrize("missing", [0, 1])
def test_a_file_that_is_not_there(episode: Path, table: Path, missing: int, capsys: Captured) -> None:
    names = [str(episode), str(table)]
    names[missing] += ".no"
    assert main(["readings", *names]) == 2
    said = capsys.readouterr().err
    assert ".no cannot be read: No such file or directory" in said and said.count("\n") == 1


def test_a_huge_table_is_refused_before_it_is_read(episode: Path, table: Path, capsys: Captured) -> None:
    with table.open("wb") as stream:
        stream.truncate(5_000_001)
    assert main(["readings", str(episode), str(table)]) == 2
    assert "session.csv: 5.0 MB is too large; expected at most 5 MB" in capsys.readouterr().err


def test_json_is_one_object_and_nothing_else(episode: Path, table: Path, capsys: Captured) -> None:
    capsys.readouterr()
    assert main(["readings", str(episode), str(table), "--json"]) == 0
    said = json.loads(capsys.readouterr().out)["readings"]
    assert [(its["specimen"], its["line"]) for its in said] == [("tire_e", 2), ("tire_a", 3)]
    assert not any(its["replaced"] for its in said)
    assert said[0]["reading"]["depths"] == [[9.0, 10.0], [10.0, 10.0], [9.0, 9.0]]
    assert said[0]["reading"]["on"] == "2026-11-14" and said[1]["reading"]["unit"] == "32nds"


def test_depths_finer_than_their_gauge_are_taken_and_each_is_remarked_once() -> None:
    taken = Reading(
        on=dt.date(2025, 6, 1), place="front_left", unit="32nds", gauge=Gauge(resolution=depth(1.0, "32nds")),
        depths=((5.0, 3.3), (3.25, 3.3)),
    )  # fmt: skip
    assert remarks_of(taken) == ("3.3/32 in is finer than a gauge with a step of 1/32 in can be read",)
