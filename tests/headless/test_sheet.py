"""``sheet`` at the command line."""

import json
from pathlib import Path

import pytest

from studio import shipped
from studio.headless.main import main
from tests.handoff.small_catalogue import IDS, small_catalogue

__all__ = ["small_catalogue"]
DEMO = str(shipped.demos() / "minivan_one_new_tire.json")
pytestmark = pytest.mark.usefixtures("small_catalogue")


def test_a_sheet_is_written_and_what_is_missing_is_named(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    target = tmp_path / "sheet.png"
    assert main(["sheet", DEMO, "--to", str(target), "--frame", "square"]) == 1  # one of them cannot be drawn
    said = capsys.readouterr()
    assert said.out == f"3 of {len(IDS)} pictures: {target}\n"
    assert said.err.splitlines() == [
        "A small picture: it needs a reading of each tire",
        "A small picture: it could not be drawn (ZeroDivisionError)",
    ]
    assert target.read_bytes()[:4] == b"\x89PNG"


@pytest.mark.parametrize(
    ("arguments", "said"),
    [
        (("--to", "sheet.gif"), "--to: sheet.gif is neither PNG nor PDF"),
        (("--to", "sheet.png", "--frame", "round"), "--frame: 'round' is not a frame"),
    ],
)
def test_what_cannot_be_had_is_one_line(
    arguments: tuple[str, ...], said: str, tmp_path: Path, monkeypatch: pytest.MonkeyPatch,
    capsys: pytest.CaptureFixture[str],
) -> None:  # fmt: skip
    monkeypatch.chdir(tmp_path)
    assert main(["sheet", DEMO, *arguments]) == 2
    err = capsys.readouterr().err
    assert err.startswith(said) and err.count("\n") == 1
    assert list(tmp_path.iterdir()) == []


def test_json_is_one_object_and_nothing_else(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    target = tmp_path / "sheet.pdf"
    assert main(["sheet", DEMO, "--to", str(target), "--json"]) == 1
    said = json.loads(capsys.readouterr().out)
    assert (said["file"], said["shown"], said["pictures"]) == (str(target), 3, len(IDS))
    assert said["missing"][0] == {"name": "A small picture", "missing": "it needs a reading of each tire"}
