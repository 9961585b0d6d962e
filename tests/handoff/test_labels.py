"""The labels in ``pictures.json`` as a checker outside would use them: nothing but the boxes that stand in the file."""

import json
from itertools import combinations
from typing import Any

import pytest

from studio import shipped
from studio.decide import decide
from studio.graphics.frame import FRAMES
from studio.graphics.look import shipped_looks
from studio.handoff.picture_files import Wanted
from studio.handoff.pictures import export_pictures
from studio.questions.told import with_answer
from studio.reference.tables import load_tables
from studio.storage.episode_file import decode

HAIR = 0.5  # px: the width of the thinnest line that a screen shows
LEANING = 0.35
"""Upright boxes of two letters that lean along an arc may meet at a corner. Of two squares turned by 45 degrees and
side by side, the boxes (sqrt 2 wide) overlap by a square of sqrt 2 - sqrt 2 / 2 a side: a quarter of each box; letters
are no squares, narrow ones beside each other share a little more."""
DEMOS = sorted(shipped.demos().glob("*.json"))
Label = dict[str, Any]


@pytest.fixture(scope="module", params=DEMOS, ids=lambda path: path.stem)
def lists(request: pytest.FixtureRequest, tmp_path_factory: pytest.TempPathFactory) -> list[dict[str, Any]]:
    """Every entry of every list that a demo's export writes, in each frame and each shipped look."""
    episode, tables = decode(request.param.read_bytes()), load_tables()
    findings = with_answer(episode, decide(episode, tables), tables)
    entries: list[dict[str, Any]] = []
    for frame in FRAMES.values():
        for look in shipped_looks().values():
            folder = tmp_path_factory.mktemp("pictures")
            steps = list(export_pictures(episode, findings, look, Wanted(frame=frame, format="svg"), folder))
            assert not [step.problem for step in steps if step.failed]
            listed = json.loads((folder / "pictures.json").read_text(encoding="utf-8"))["pictures"]
            entries += [{**entry, "size": (frame.width, frame.height)} for entry in listed]
    return entries


def _shared(one: Label, other: Label) -> tuple[float, float]:
    """How far two boxes overlap across and down, in px; negative is the gap between them."""
    across = min(one["x"] + one["width"], other["x"] + other["width"]) - max(one["x"], other["x"])
    down = min(one["y"] + one["height"], other["y"] + other["height"]) - max(one["y"], other["y"])
    return across, down


def _of(entry: dict[str, Any]) -> str:
    return f"{entry['file']} ({entry['frame']})"


def test_no_two_texts_of_a_picture_meet(lists: list[dict[str, Any]]) -> None:
    met = [
        f"{_of(entry)}: {one['text']!r} over {other['text']!r}" for entry in lists
        for one, other in combinations(entry["labels"], 2)
        if not (one.get("of") and one.get("of") == other.get("of")) and min(_shared(one, other)) > HAIR
    ]  # fmt: skip
    assert met == []


def test_letters_along_an_arc_share_no_more_than_their_leaning_corners(lists: list[dict[str, Any]]) -> None:
    arcs = [[label for label in entry["labels"] if "of" in label] for entry in lists]
    assert any(arcs), "no picture has lettering along an arc"
    for letters in arcs:
        for (first, one), (second, other) in combinations(enumerate(letters), 2):
            across, down = _shared(one, other)
            if min(across, down) > HAIR and one["of"] == other["of"]:
                smaller = min(one["width"] * one["height"], other["width"] * other["height"])
                assert second == first + 1, (one, other)
                assert across * down / smaller < LEANING, (one, other)


def test_every_text_stands_in_the_frame(lists: list[dict[str, Any]]) -> None:
    for entry in lists:
        width, height = entry["size"]
        for label in entry["labels"]:
            assert min(label["x"], label["y"]) > -HAIR and label["width"] > 0 < label["height"], (_of(entry), label)
            assert label["x"] + label["width"] < width + HAIR, (_of(entry), label)
            assert label["y"] + label["height"] < height + HAIR, (_of(entry), label)


def test_a_tires_marking_can_be_read_from_the_labels_of_its_letters(lists: list[dict[str, Any]]) -> None:
    for entry in (entry for entry in lists if entry["id"] in ("size_code", "date_code")):
        letters = [label for label in entry["labels"] if "of" in label]
        (whole,) = {letter["of"] for letter in letters}
        assert "".join(letter["text"] for letter in letters) == whole.replace(" ", "")
