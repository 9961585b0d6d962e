"""``answer``: text for people, one exact JSON object for scripts."""

import json
from typing import Any

import pytest

from studio.headless.main import main

Captured = pytest.CaptureFixture[str]
KEYS = ("kind", "read", "missing", "invalid", "verdict", "numbers", "working", "reply", "sources", "caution", "also")


def answered(capsys: Captured, *arguments: str) -> dict[str, Any]:
    assert main(["answer", *arguments, "--json"]) == 0
    found: dict[str, Any] = json.loads(capsys.readouterr().out)
    return found


def test_json_has_every_key(capsys: Captured) -> None:
    found = answered(capsys, "left rear 5/32, also DOT 2319 too old?", "--on", "2026-03-01")
    for each in (found, *found["also"]):
        assert set(KEYS) <= set(each)
    assert {"title", "locator", "standing"} == set(found["sources"][0])
    assert {"field", "value", "unit", "text", "start", "end", "sure", "how", "where"} == set(found["read"][0])


def test_numbers_are_plain_and_unrounded(capsys: Captured) -> None:
    found = answered(capsys, "my tires are at 5/32, ok?")
    assert found["numbers"] == pytest.approx(
        {"depth_32nds": 5.0, "depth_mm": 3.96875, "legal_minimum_mm": 1.5875, "above_legal_mm": 2.38125}
    )
    assert answered(capsys, "how to rotate on rwd?")["numbers"]["patterns"] == ["rearward_cross", "front_to_back"]
    assert answered(capsys, "great video")["kind"] == "none"


def test_text_is_the_reply(capsys: Captured) -> None:
    assert main(["answer", "is 4 mm enough?", "--region", "de", "--length", "short"]) == 0
    said = capsys.readouterr().out
    assert "4.0 mm (5/32 in)" in said and "Germany" in said and "How it is" not in said


@pytest.mark.parametrize(
    "bad", [["x", "--on", "yesterday"], ["x", "--region", "zz"], ["x", "--episode", "none.json"], []]
)
def test_what_cannot_be_taken_is_one_line(bad: list[str], capsys: Captured) -> None:
    assert main(["answer", *bad]) == 2
    assert len(capsys.readouterr().err.splitlines()) == 1
