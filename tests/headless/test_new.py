"""``new``: an empty episode or a copy of a demo, and never over a file that is there."""

import datetime as dt
import json
from pathlib import Path

import pytest

from studio import shipped
from studio.headless.main import main
from studio.headless.new import FIRST_DEMO, demo_names
from studio.headless.opening import open_episode
from studio.model.episode import Episode

Captured = pytest.CaptureFixture[str]


def test_an_empty_episode_of_today_with_a_title_from_its_name(tmp_path: Path, capsys: Captured) -> None:
    path = tmp_path / "one_tire-or_four.json"
    before = dt.date.today()
    assert main(["new", str(path)]) == 0
    episode = open_episode(path)
    assert before <= episode.on <= dt.date.today()
    assert episode == Episode(title="One tire or four", on=episode.on)
    assert f"open it with: python -m studio {path}" in capsys.readouterr().out


@pytest.mark.parametrize(
    ("given", "name"),
    [(["--demo"], FIRST_DEMO), (["--demo", "estate_before_winter"], "estate_before_winter"),
     (["--demo", "estate_before_winter.json"], "estate_before_winter")],
)  # fmt: skip
def test_a_copy_of_a_demo_is_the_demo_byte_for_byte(tmp_path: Path, given: list[str], name: str) -> None:
    path = tmp_path / "mine.json"
    assert main(["new", str(path), *given]) == 0
    assert path.read_bytes() == (shipped.demos() / f"{name}.json").read_bytes()


def test_a_file_that_is_there_is_left_alone(tmp_path: Path, capsys: Captured) -> None:
    path = tmp_path / "mine.json"
    path.write_bytes(b"mine")
    assert main(["new", str(path)]) == 2
    assert main(["new", str(path), "--demo"]) == 2
    assert path.read_bytes() == b"mine"
    said = "mine.json: there is such a file already, and it was left as it is; give another name\n"
    assert capsys.readouterr().err == 2 * said


def test_a_demo_that_is_not_there(tmp_path: Path, capsys: Captured) -> None:
    assert main(["new", str(tmp_path / "a.json"), "--demo", "lorry"]) == 2
    assert "--demo: 'lorry' was given, expected one of minivan_one_new_tire, " in capsys.readouterr().err
    assert list(tmp_path.iterdir()) == []


def test_a_folder_that_is_not_there(tmp_path: Path, capsys: Captured) -> None:
    assert main(["new", str(tmp_path / "nowhere" / "a.json")]) == 2
    assert capsys.readouterr().err == "a.json was not saved: there is no folder nowhere; nothing was changed\n"


@pytest.mark.parametrize("name", ["x" * 400 + ".json", "bad\x00.json"])
def test_a_name_that_cannot_be(tmp_path: Path, name: str, capsys: Captured) -> None:
    assert main(["new", str(tmp_path / name)]) == 2
    said = capsys.readouterr().err
    assert said.count("\n") == 1 and said.strip().isprintable()


def test_the_help_names_the_demos(capsys: Captured) -> None:
    assert main(["new", "--help"]) == 0
    assert f"demos: {', '.join(demo_names())}" in capsys.readouterr().out
    assert demo_names()[0] == FIRST_DEMO


def test_json_is_one_object_and_nothing_else(tmp_path: Path, capsys: Captured) -> None:
    path = tmp_path / "mine.json"
    assert main(["new", str(path), "--json"]) == 0
    said = json.loads(capsys.readouterr().out)
    assert said == {"file": str(path), "title": "Mine", "on": open_episode(path).on.isoformat()}
