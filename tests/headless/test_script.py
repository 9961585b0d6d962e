"""``script`` at the command line: keys, exit codes, empty episodes, hostile rundowns."""

import json
from pathlib import Path
from typing import Any

import pytest

from studio import shipped
from studio.headless.main import main

DEMOS = sorted(shipped.demos().glob("*.json"))
VAN = shipped.demos() / "minivan_one_new_tire.json"
NUMBER_KEYS = ["text", "segment", "state", "expected", "from"]


def changed(folder: Path, rundown: dict[str, Any], **more: Any) -> str:
    episode = json.loads(VAN.read_text(encoding="utf-8")) | {"rundown": rundown} | more
    path = folder / "episode.json"
    path.write_text(json.dumps(episode), encoding="utf-8")
    return str(path)


def segment(id_: str, *texts: str, title: str = "A title") -> dict[str, Any]:
    return {"id": id_, "title": title, "points": [{"text": text} for text in texts]}


def answer(path: str, capsys: pytest.CaptureFixture[str]) -> tuple[int, dict[str, Any]]:
    code = main(["script", path, "--json"])
    said = capsys.readouterr()
    assert said.err == ""
    return code, json.loads(said.out)


@pytest.mark.parametrize("path", DEMOS, ids=lambda path: path.stem)
def test_the_demos_have_nothing_contradicted_and_the_keys_of_the_agreement(path: Path, capsys: Any) -> None:
    code, said = answer(str(path), capsys)
    assert code == 0
    assert {"numbers", "spoken_seconds", "chapters", "statements", "duties", "holes"} <= set(said)
    assert said["spoken_seconds"] > 0 and said["holes"] == []
    for number in said["numbers"]:
        assert list(number)[:5] == NUMBER_KEYS and number["state"] in ("computed", "cited", "unbacked")


def test_what_is_contradicted_gives_exit_code_1_and_what_is_right(tmp_path: Path, capsys: Any) -> None:
    path = changed(tmp_path, {"segments": [segment("a", "Front left has 9/32 in.", "Front right reads 7/32 in.",
                                                   "9/32 inch is 5 mm.")]})  # fmt: skip
    code, said = answer(path, capsys)
    assert code == 1
    assert [(n["text"], n["state"], n["expected"], n["from"], n["why"] == "conversion") for n in said["numbers"]] == [
        ("9/32 in", "computed", "9/32 in", "tread_left.front_left", False),
        ("7/32 in", "contradicted", "4/32 in", "tread_left.front_right", False),
        ("9/32 inch", "computed", "9/32 in", "tread_left.front_left", False),
        ("5 mm", "contradicted", "7.1 mm", "conversion", True),
    ]


def test_a_dismissed_number_does_not_count_and_is_still_listed(tmp_path: Path, capsys: Any) -> None:
    rundown = {"segments": [segment("a", "Front right reads 7/32 in.")],
               "dismissed": [{"segment": "a", "text": "7/32 in", "reason": "that was in May"}]}  # fmt: skip
    code, said = answer(changed(tmp_path, rundown), capsys)
    assert code == 0 and said["numbers"][0]["dismissed"] == "that was in May"


def test_an_episode_without_segments_or_readings_gives_a_valid_answer(tmp_path: Path, capsys: Any) -> None:
    code, said = answer(changed(tmp_path, {}, specimens=[]), capsys)
    assert code == 0 and said["numbers"] == [] and said["spoken_seconds"] == 0 and said["chapters"] == []
    assert "no segments" in said["note"] and said["no_chapters"]
    assert main(["script", changed(tmp_path, {}, specimens=[])]) == 0
    assert "nothing to check yet" in capsys.readouterr().out


def test_chapters_times_and_takes(tmp_path: Path, capsys: Any) -> None:
    """60 words at 120 a minute are 30 s each."""
    sixty = "word " * 60
    takes = [{"on": "2026-11-14", "times": [{"segment": "nobody", "start_s": 0, "end_s": 9}]}]
    rundown = {"segments": [segment(name, sixty, title=name) for name in "abc"], "words_per_minute": 120,
               "target_s": 70, "takes": takes}  # fmt: skip
    _, said = answer(changed(tmp_path, rundown), capsys)
    assert said["spoken_seconds"] == 90
    assert [(c["mark"], c["title"], c["at_seconds"]) for c in said["chapters"]] == [
        ("0:00", "a", 0), ("0:30", "b", 30), ("1:00", "c", 60),
    ]  # fmt: skip
    assert said["timing"]["over_seconds"] == 20 and len(said["timing"]["cuts"]) == 1
    assert "nobody" in said["timing"]["problems"][0]


@pytest.mark.parametrize(
    "text", ["<script>alert(1)</script> 9 mm", "a --> b \x1b[31m", "\U0001f600 9/32 {tread_left.x}"]
)
def test_pasted_things_do_no_harm(text: str, tmp_path: Path, capsys: Any) -> None:
    path = changed(tmp_path, {"segments": [segment("a", text, title=text[:90])]})
    answer(path, capsys)
    main(["script", path])
    assert "\x1b" not in capsys.readouterr().out


def test_help_shows_an_example(capsys: Any) -> None:
    assert main(["script", "--help"]) == 0
    assert "demo_projects/" in capsys.readouterr().out
