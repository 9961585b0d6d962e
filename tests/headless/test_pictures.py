"""``pictures`` at the command line: files, JSON, one line and exit code 2 for what it cannot take."""

import json
from pathlib import Path

import pytest

from studio import shipped
from studio.headless.main import main
from tests.graphics.own_look import own_look
from tests.handoff.small_catalogue import IDS, small_catalogue

__all__ = ["small_catalogue"]
DEMO = str(shipped.demos() / "minivan_one_new_tire.json")
pytestmark = pytest.mark.usefixtures("small_catalogue")


def run(*arguments: str) -> int:
    return main(["pictures", *arguments])


def test_the_catalogue_is_listed(capsys: pytest.CaptureFixture[str]) -> None:
    assert run("--list") == 0
    lines = capsys.readouterr().out.splitlines()
    assert [line.split()[0] for line in lines] == list(IDS)
    assert run("--list", "--json") == 0
    listed = json.loads(capsys.readouterr().out)["pictures"]
    assert [entry["id"] for entry in listed] == list(IDS)
    assert listed[1] == {"id": "stepped", "name": "A picture in steps", "takes": 0}


def test_files_are_written_and_said(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    assert run(DEMO, "--to", str(tmp_path / "out"), "--only", "stepped, plain", "--frame", "tall") == 0
    said = capsys.readouterr()
    assert said.out.splitlines() == [
        f"1 of 2: {tmp_path / 'out' / '01_plain_tall.png'}", f"2 of 2: {tmp_path / 'out' / '02_stepped_tall.png'}",
    ]  # fmt: skip
    assert said.err == ""
    assert (tmp_path / "out" / "02_stepped_tall.png").is_file()


def test_json_is_the_list_of_files_and_nothing_else(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    how = ("--format", "svg", "--background", "#00b140", "--steps", "all", "--json")
    assert run(DEMO, "--to", str(tmp_path), "--only", "stepped", *how) == 0
    said = capsys.readouterr()
    assert json.loads(said.out) == json.loads((tmp_path / "pictures.json").read_bytes())
    assert [entry["step"] for entry in json.loads(said.out)["pictures"]] == ["tire", "marking"]
    assert said.err == ""


def test_what_fails_is_named_and_the_rest_is_made(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    assert run(DEMO, "--to", str(tmp_path), "--json") == 1
    said = capsys.readouterr()
    assert [line.partition(":")[0] for line in said.err.splitlines()] == ["nothing", "broken", "odd_signs"]
    assert [entry["id"] for entry in json.loads(said.out)["pictures"]] == ["plain", "stepped", "odd_signs"]


@pytest.mark.parametrize(("only", "code"), [("plain,nothing", 0), ("plain,broken", 1), ("nothing", 2), ("broken", 2)])
def test_exit_codes(tmp_path: Path, capsys: pytest.CaptureFixture[str], only: str, code: int) -> None:
    assert run(DEMO, "--to", str(tmp_path), "--only", only) == code
    assert len(capsys.readouterr().err.splitlines()) == (only != "plain")


@pytest.mark.parametrize(
    ("arguments", "said"),
    [
        (("--only", "wheel"), "'wheel' is not a picture; there are: plain, stepped"),
        (("--only", ","), "expected ids such as"),
        (("--frame", "huge"), "expected wide, tall, square or WIDTHxHEIGHT"),
        (("--frame", "10x10"), "sides of 320 to 7680 px"),
        (("--background", "blue"), "expected look, clear or #RRGGBB"),
        (("--background", "#00B14"), "expected look, clear or #RRGGBB"),
        (("--format", "clip", "--movie", "gif"), "gif"),
        (("--format", "clip", "--rate", "29.97"), "29.97"),
        (("--format", "clip", "--movie", "mp4", "--background", "clear"), "mp4 has no transparency"),
        (("--format", "clip", "--movie", "webm", "--frame", "641x360"), "webm needs even sides"),
        (("--format", "gif"), "gif"),
        (("--steps", "some"), "some"),
        (("--to",), "--to"),
    ],
)
def test_wrong_wishes_are_one_line_and_leave_nothing(
    tmp_path: Path, capsys: pytest.CaptureFixture[str], arguments: tuple[str, ...], said: str
) -> None:
    assert run(DEMO, "--to", str(tmp_path / "out"), *arguments) == 2
    written = capsys.readouterr()
    assert written.out == ""
    assert said in written.err and len(written.err.splitlines()) == 1
    assert not (tmp_path / "out").exists()


def test_an_episode_and_a_folder_are_expected(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    for arguments in ((), (DEMO,), ("--to", str(tmp_path))):
        assert run(*arguments) == 2
        assert "pictures my_episode.json --to pictures" in capsys.readouterr().err
    assert run(str(tmp_path / "gone.json"), "--to", str(tmp_path)) == 2
    assert len(capsys.readouterr().err.splitlines()) == 1


def test_a_folder_that_cannot_be_written_is_one_line(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    (tmp_path / "file").write_text("", "utf-8")
    assert run(DEMO, "--to", str(tmp_path / "file")) == 2
    assert len(capsys.readouterr().err.splitlines()) == 1


def test_a_look_that_is_not_there_is_one_line(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    episode = json.loads(Path(DEMO).read_text("utf-8")) | {"look": "neon"}
    (tmp_path / "episode.json").write_text(json.dumps(episode), "utf-8")
    assert run(str(tmp_path / "episode.json"), "--to", str(tmp_path / "out")) == 2
    assert capsys.readouterr().err == "look: 'neon' is not a look; there are: chalk, night_bay\n"


def test_help_shows_an_example_and_says_what_step_is(capsys: pytest.CaptureFixture[str]) -> None:
    assert run("--help") == 0
    said = capsys.readouterr().out
    assert "python -m studio pictures demo_projects/minivan_one_new_tire.json --to pictures" in said
    assert '"step" is the name of the step' in said


def test_a_clip_is_written_and_listed_with_its_length(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    how = ("--format", "clip", "--movie", "png", "--rate", "25", "--frame", "320x320", "--background", "clear")
    assert run(DEMO, "--to", str(tmp_path), "--only", "stepped", *how) == 0
    assert capsys.readouterr().out == f"1 of 1: {tmp_path / '02_stepped_320x320_clear_png_25'}\n"
    (entry,) = json.loads((tmp_path / "pictures.json").read_bytes())["pictures"]
    assert (entry["movie"], entry["rate"], entry["step"]) == ("png", "25", None)
    assert entry["frames"] == len(list((tmp_path / entry["file"]).iterdir())) == round(entry["duration_s"] * 25)


def test_a_still_has_no_length(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    assert run(DEMO, "--to", str(tmp_path), "--only", "plain", "--json") == 0
    (entry,) = json.loads(capsys.readouterr().out)["pictures"]
    assert list(entry) == ["file", "id", "frame", "format", "step", "findings", "sha256", "labels"]


def test_a_look_of_the_channels_own_lies_beside_the_episode(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    own_look(tmp_path / "looks", logo={"file": "logo.svg"}, ground="#FFF8E8")
    episode = json.loads(Path(DEMO).read_text("utf-8")) | {"look": "looks/own.json"}
    (tmp_path / "episode.json").write_text(json.dumps(episode), "utf-8")
    made = ("--to", str(tmp_path / "out"), "--only", "plain", "--format", "svg", "--outlined")
    assert run(str(tmp_path / "episode.json"), *made) == 0
    (file,) = (tmp_path / "out").glob("*.svg")
    assert "#FFF8E8" in file.read_text("utf-8")  # its ground
    (tmp_path / "looks" / "own.json").unlink()
    capsys.readouterr()
    assert run(str(tmp_path / "episode.json"), *made) == 2
    assert capsys.readouterr().err.startswith("look: own.json cannot be read")
