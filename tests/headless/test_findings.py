"""``findings`` at the command line: keys, region and day, text, one line for what it cannot take."""

import json

import msgspec
import pytest

from studio import shipped
from studio.headless.main import main
from studio.model.episode import Episode
from studio.model.paths import value_at

DEMOS = sorted(shipped.demos().glob("*.json"))
MINIVAN = str(shipped.demos() / "minivan_one_new_tire.json")
ESTATE = str(shipped.demos() / "estate_before_winter.json")
KEYS = [
    "id", "topic", "subject", "sentence", "verdict", "value", "unit", "limit", "margin", "uncertainty", "working",
    "inputs", "sources", "caution", "advises", "held_by", "would_change", "missing",
]  # fmt: skip
VERDICTS = {"keep", "watch", "rotate", "replace", "inspect", "unknown", None}
STANDINGS = {"published", "published, restated", "computed", "common practice", "from memory"}


@pytest.fixture
def findings(capsys):
    def run(*arguments):
        assert main(["findings", *arguments, "--json"]) == 0
        said = capsys.readouterr()
        assert said.err == ""
        return {finding["id"]: finding for finding in json.loads(said.out)["findings"]}

    return run


@pytest.mark.parametrize("path", DEMOS, ids=lambda path: path.stem)
def test_every_finding_of_a_demo_has_the_keys_of_the_agreement_and_is_complete(findings, path):
    episode = msgspec.json.decode(path.read_bytes(), type=Episode)
    found = findings(str(path))
    assert {finding["topic"] for finding in found.values()} >= {
        "tread_left", "size", "matching", "rotation", "age", "life",
    }  # fmt: skip
    for id_, finding in found.items():
        assert list(finding) == KEYS and id_ == f"{finding['topic']}.{finding['subject']}"
        assert finding["verdict"] in VERDICTS and finding["sentence"] and finding["caution"]
        assert finding["sources"] and {source["standing"] for source in finding["sources"]} <= STANDINGS
        assert all(set(source) == {"title", "locator", "standing"} for source in finding["sources"])
        for input_ in finding["inputs"]:
            assert value_at(episode, input_) is not None
        assert len(finding["sentence"]) <= 111
        if finding["verdict"] == "unknown":
            assert finding["missing"]
        if finding["limit"] is not None and finding["value"] is not None:
            assert abs(finding["margin"]) == pytest.approx(abs(finding["value"] - finding["limit"]))


def test_the_minivan_shows_what_its_story_asks(findings):
    """One new tire among three worn ones, a manual that allows half an inch of circumference, a small spare."""
    found = findings(MINIVAN)
    assert found["matching.front_axle"]["verdict"] == "replace" and found["matching.rear_axle"]["verdict"] == "keep"
    assert (found["matching.set"]["unit"], found["matching.set"]["limit"]) == ("in", 0.5)
    assert "over_manual.set" in found["rotation.car"]["held_by"] and found["rotation.car"]["advises"] == []
    assert found["age.barn_find"]["verdict"] == "replace"


def test_another_day_and_another_region_take_the_place_of_the_episodes_own(findings):
    here, there = findings(ESTATE), findings(ESTATE, "--region", "us")
    assert (here["tread_left.front_left"]["unit"], there["tread_left.front_left"]["unit"]) == ("mm", "32nds")
    earlier = findings(ESTATE, "--on", "2024-12-01")
    assert earlier["tread_left.front_left"]["value"] > here["tread_left.front_left"]["value"]
    assert earlier["age.front_left"]["value"] < here["age.front_left"]["value"]


def test_some_findings_only(findings):
    assert list(findings(MINIVAN, "--only", "matching.set, age.spare")) == ["matching.set", "age.spare"]
    assert {f["topic"] for f in findings(MINIVAN, "--only", "size").values()} == {"size"}


def test_the_text_puts_questions_verdicts_and_each_caution_once(capsys):
    assert main(["findings", MINIVAN]) == 0
    lines = capsys.readouterr().out.splitlines()
    assert "Can it stay on?" in lines and "Do they match?" in lines
    assert "  replace  Front tires are 0.93 in of circumference apart, over the manual's 0.50 in." in lines
    cautions = [line for line in lines if line.startswith("! ")]
    assert cautions and len(cautions) == len(set(cautions))


def test_the_text_in_full_shows_working_inputs_and_sources(capsys):
    assert main(["findings", MINIVAN, "--only", "tread_left.front_right"]) == 0
    out = capsys.readouterr().out
    assert "working  Lowest of 12 readings on 7 Nov 2026" in out
    assert "from     specimens[1].readings[4].depths[" in out
    assert "sources  49 CFR 570.9, (a) (published)" in out and "trade practice, no source (common practice)" in out


@pytest.mark.parametrize(
    ("arguments", "words"),
    [
        (["nowhere.json"], "nowhere.json"),
        ([MINIVAN, "--region", "zz"], "region"),
        ([MINIVAN, "--on", "soon"], "date"),
        ([MINIVAN, "--only", ","], "names no finding, expected ids or topics such as matching.set,age"),
        ([MINIVAN, "--only", "nothing"], "expected a finding such as matching.set or a topic"),
    ],
)  # fmt: skip
def test_what_it_cannot_take_is_one_line_and_exit_code_2(capsys, arguments, words):
    assert main(["findings", *arguments]) == 2
    said = capsys.readouterr()
    assert said.out == "" and said.err.count("\n") == 1 and words in said.err


def test_an_impossible_value_is_refused_with_its_path(tmp_path, capsys):
    episode = json.loads((shipped.demos() / "minivan_one_new_tire.json").read_bytes())
    episode["specimens"][0]["readings"][0]["depths"][0][1] = 45
    target = tmp_path / "deep.json"
    target.write_text(json.dumps(episode), encoding="utf-8")
    assert main(["findings", str(target)]) == 2
    said = capsys.readouterr().err
    assert "specimens[0].readings[0].depths[0][1]" in said and "45/32 in was read" in said


def test_help_has_an_example(capsys):
    assert main(["findings", "--help"]) == 0
    assert "python -m studio findings demo_projects/minivan_one_new_tire.json" in capsys.readouterr().out
