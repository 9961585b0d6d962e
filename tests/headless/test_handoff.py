"""``handoff`` at the command line: files, list, states, one line for what it cannot take."""

import json
from pathlib import Path

import pytest

from studio import shipped
from studio.headless.main import main
from studio.storage.episode_file import encode
from tests.handoff.test_making import FRONT_LEFT, with_reading
from tests.handoff.test_published import published

MINIVAN = str(shipped.demos() / "minivan_one_new_tire.json")
QUICK = "captions,chapters,description,timeline,edit_list,shot_list"


def test_the_named_deliverables_are_made_and_listed(capsys: pytest.CaptureFixture[str], tmp_path: Path) -> None:
    assert main(["handoff", MINIVAN, "--to", str(tmp_path), "--only", QUICK, "--json"]) == 0
    said = json.loads(capsys.readouterr().out)
    files = said["files"]
    assert said["corrections"] == []
    fresh = {each["file"] for each in files if each["state"] == "fresh"}
    assert fresh >= {
        "captions.srt",
        "captions.vtt",
        "description.txt",
        "timeline.otio",
        "timeline.edl",
        "shot_list.csv",
    }
    assert fresh == {str(path.relative_to(tmp_path)) for path in tmp_path.iterdir()} - {"handoff.json"}
    assert json.loads((tmp_path / "handoff.json").read_bytes())["files"] == files


def test_the_states_are_told_without_writing(capsys: pytest.CaptureFixture[str], tmp_path: Path) -> None:
    assert main(["handoff", MINIVAN, "--to", str(tmp_path / "none"), "--state"]) == 1
    lines = capsys.readouterr().out.splitlines()
    assert lines[0].startswith("not made  brief.pdf")
    assert not (tmp_path / "none").exists()
    assert main(["handoff", MINIVAN, "--to", str(tmp_path), "--only", "captions"]) == 0
    assert "2 of 2:" in capsys.readouterr().out
    assert main(["handoff", MINIVAN, "--to", str(tmp_path), "--only", "captions", "--state"]) == 0
    assert capsys.readouterr().out.startswith("fresh     captions.srt")


def test_nothing_stale_makes_nothing(capsys: pytest.CaptureFixture[str], tmp_path: Path) -> None:
    assert main(["handoff", MINIVAN, "--to", str(tmp_path), "--only", "captions"]) == 0
    capsys.readouterr()
    assert main(["handoff", MINIVAN, "--to", str(tmp_path), "--only", "captions", "--stale"]) == 0
    assert capsys.readouterr().out == ""


@pytest.mark.parametrize(
    ("arguments", "line"),
    [
        (["--only", "briefs"], "--only: 'briefs' is not a deliverable; there are: brief, pictures"),
        (["--only", ","], "--only: ',' names no deliverable"),
    ],
)
def test_what_it_cannot_take_is_one_line(
    capsys: pytest.CaptureFixture[str], tmp_path: Path, arguments: list[str], line: str
) -> None:
    assert main(["handoff", MINIVAN, "--to", str(tmp_path), *arguments]) == 2
    said = capsys.readouterr().err
    assert said.startswith(line) and said.count("\n") == 1


def test_a_folder_that_is_a_file_is_one_line(capsys: pytest.CaptureFixture[str], tmp_path: Path) -> None:
    (tmp_path / "file").write_text("x")
    assert main(["handoff", MINIVAN, "--to", str(tmp_path / "file"), "--only", "captions"]) == 2
    assert capsys.readouterr().err.count("\n") == 1


def test_a_published_number_that_has_changed_gives_its_correction(
    capsys: pytest.CaptureFixture[str], tmp_path: Path
) -> None:
    path = tmp_path / "episode.json"
    path.write_bytes(encode(with_reading(published(), FRONT_LEFT, 8.0)))
    arguments = ["handoff", str(path), "--to", str(tmp_path / "out"), "--only", "captions"]
    assert main(arguments) == 0
    said = capsys.readouterr().out
    assert "Correction due:" in said and "we said 9/32 in. It is 8/32 in (6.4 mm)." in said
    assert main([*arguments, "--state", "--json"]) == 0
    due = json.loads(capsys.readouterr().out)["corrections"]
    assert [its["said"] for its in due] == ["9/32 in", "7/32 in (5.6 mm)"]
