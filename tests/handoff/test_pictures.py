"""Exporting pictures: whole files, honest list, one failure loses nothing else, stopping leaves nothing behind."""

import datetime as dt
import errno
import json
import math
import os
from hashlib import sha256
from pathlib import Path
from typing import Any

import msgspec
import pytest
from lxml import etree
from PIL import Image
from pypdf import PdfReader

from studio.graphics.frame import FRAMES, Frame
from studio.graphics.look import look_named
from studio.handoff.picture_files import Wanted, WantedError
from studio.handoff.pictures import Progress, export_pictures
from studio.model.episode import Episode
from studio.model.finding import Findings
from studio.storage.errors import StorageError

EPISODE = Episode(title="One tire", channel="Hedge Lane Garage", on=dt.date(2026, 11, 14))
CHALK = look_named("chalk")
pytestmark = pytest.mark.usefixtures("small_catalogue")


def export(folder: Path, **wanted: Any) -> list[Progress]:
    return list(export_pictures(EPISODE, Findings(()), CHALK, Wanted(**wanted), folder))


def listed(folder: Path) -> list[dict[str, Any]]:
    found = json.loads((folder / "pictures.json").read_bytes())
    assert list(found) == ["pictures"]
    entries: list[dict[str, Any]] = found["pictures"]
    return entries


def files(folder: Path) -> list[str]:
    return sorted(str(path.relative_to(folder)) for path in folder.rglob("*") if path.is_file())


def test_all_pictures_are_made_in_the_catalogues_order_and_named_by_it(tmp_path: Path) -> None:
    export(tmp_path, ids=("stepped", "plain"))
    assert files(tmp_path) == ["01_plain_wide.png", "02_stepped_wide.png", "pictures.json"]
    assert [entry["file"] for entry in listed(tmp_path)] == ["01_plain_wide.png", "02_stepped_wide.png"]


def test_one_failure_does_not_lose_the_rest_and_each_is_named(tmp_path: Path) -> None:
    seen = export(tmp_path)
    assert files(tmp_path) == ["01_plain_wide.png", "02_stepped_wide.png", "05_odd_signs_wide.png", "pictures.json"]
    assert [(progress.done, progress.total, progress.picture) for progress in seen] == [
        (1, 5, "plain"), (2, 5, "stepped"), (3, 5, "nothing"), (4, 5, "broken"), (5, 5, "odd_signs"),
    ]  # fmt: skip
    assert [(progress.problem, progress.failed) for progress in seen if progress.problem] == [
        ("nothing: it needs a reading of each tire", False),
        ("broken: it could not be drawn (ZeroDivisionError: division by zero)", True),
    ]


def test_a_sign_that_no_font_has_is_named_and_the_picture_is_made(tmp_path: Path) -> None:
    (only,) = export(tmp_path, ids=("odd_signs",))
    assert only.warning == "odd_signs: no shipped font has \u6f22 (U+6F22); a box is drawn in its place"
    assert only.entry is not None


def test_an_entry_says_all_that_is_promised(tmp_path: Path) -> None:
    export(tmp_path, ids=("plain",), frame=Frame(1280, 720))
    (entry,) = listed(tmp_path)
    content = (tmp_path / "01_plain_1280x720.png").read_bytes()
    assert list(entry) == ["file", "id", "frame", "format", "step", "findings", "sha256", "labels"]
    assert entry["sha256"] == sha256(content).hexdigest()
    assert (entry["id"], entry["frame"], entry["format"], entry["step"]) == ("plain", "1280x720", "png", None)
    assert entry["findings"] == ["tread_left.set"]
    with Image.open(tmp_path / entry["file"]) as picture:
        assert (picture.mode, picture.size) == ("RGBA", (1280, 720))


def test_labels_lie_where_the_ink_is(tmp_path: Path) -> None:
    export(tmp_path, ids=("plain", "stepped"), background="clear")
    plain, stepped = listed(tmp_path)
    (label,) = plain["labels"]
    assert (label["text"], list(label)) == ("Depth 5/32 in", ["text", "x", "y", "width", "height"])
    with Image.open(tmp_path / plain["file"]) as picture:
        left, top, right, bottom = picture.getchannel("A").getbbox()  # type: ignore[misc]
    slack = 14  # the halo of a clear picture
    assert label["x"] - slack < left < right < label["x"] + label["width"] + slack
    assert label["y"] - slack < top < bottom < label["y"] + label["height"] + slack
    assert right - left > 0.95 * label["width"]
    letters = stepped["labels"]
    assert "".join(letter["text"] for letter in letters) == "225/45R17"
    assert all(letter["of"] == "225/45R17" for letter in letters)
    assert letters[4]["x"] + letters[4]["width"] / 2 == pytest.approx(960, abs=20)
    with Image.open(tmp_path / stepped["file"]) as picture:
        inked = picture.convert("RGB").point(lambda value: 255 if value > 150 else 0).convert("L")
    for letter in letters:  # the box holds the letter's ink, which reaches to each of its sides
        box = (letter["x"], letter["y"], letter["x"] + letter["width"], letter["y"] + letter["height"])
        left, top = math.floor(box[0]), math.floor(box[1])
        ink = inked.crop((left, top, math.ceil(box[2]), math.ceil(box[3]))).getbbox()
        assert ink is not None
        assert (left + ink[0], top + ink[1], left + ink[2], top + ink[3]) == pytest.approx(box, abs=2)


def test_each_step_is_a_file_with_its_name(tmp_path: Path) -> None:
    seen = export(tmp_path, ids=("plain", "stepped"), steps="all")
    assert [(entry["file"], entry["step"], len(entry["labels"])) for entry in listed(tmp_path)] == [
        ("01_plain_wide_step1.png", "all", 1), ("02_stepped_wide_step1.png", "tire", 0),
        ("02_stepped_wide_step2.png", "marking", 9),
    ]  # fmt: skip
    assert [progress.done for progress in seen] == [1, 1, 2]
    export(whole := tmp_path / "whole", ids=("stepped",))
    assert (whole / "02_stepped_wide.png").read_bytes() == (tmp_path / "02_stepped_wide_step2.png").read_bytes()


@pytest.mark.parametrize("format_", ["png", "svg", "pdf"])
def test_the_same_in_gives_the_same_out(tmp_path: Path, format_: str) -> None:
    for name in ("one", "two"):
        export(tmp_path / name, format=format_, ids=("plain", "stepped", "odd_signs"), steps="all")
    assert files(tmp_path / "one") == files(tmp_path / "two")
    for name in files(tmp_path / "one"):
        assert (tmp_path / "one" / name).read_bytes() == (tmp_path / "two" / name).read_bytes()


def test_nothing_is_overwritten_by_another_frame_background_or_format(tmp_path: Path) -> None:
    ways = [
        {"frame": FRAMES["wide"]}, {"frame": FRAMES["tall"]}, {"background": "clear"}, {"background": "#00B140"},
        {"format": "svg"}, {"format": "svg", "outlined": True}, {"format": "pdf"}, {"steps": "all"},
    ]  # fmt: skip
    names = [listed(tmp_path)[0]["file"] for way in ways if export(tmp_path, ids=("plain",), **way)]
    assert len(set(names)) == len(ways)
    assert set(names) <= set(files(tmp_path))


def test_backgrounds(tmp_path: Path) -> None:
    corners = {}
    for background in ("look", "clear", "#00b140"):
        export(tmp_path, ids=("plain",), background=background)
        with Image.open(tmp_path / listed(tmp_path)[0]["file"]) as picture:
            corners[background] = picture.getpixel((3, 3))
    assert corners == {"look": (0xF5, 0xF2, 0xEB, 255), "clear": (0, 0, 0, 0), "#00b140": (0, 0xB1, 0x40, 255)}


def test_an_svg_has_its_fonts_and_their_licences_beside_it(tmp_path: Path) -> None:
    export(tmp_path, ids=("plain", "odd_signs"), format="svg")
    assert files(tmp_path) == [
        "01_plain_wide.svg", "05_odd_signs_wide.svg", "fonts/Inter-OFL.txt", "fonts/Inter-Regular.ttf", "pictures.json",
    ]  # fmt: skip
    text = (tmp_path / "01_plain_wide.svg").read_text("utf-8")
    assert 'url("fonts/Inter-Regular.ttf")' in text
    assert etree.fromstring(text.encode()).tag.endswith("svg")
    export(outlined := tmp_path / "outlined", ids=("plain",), format="svg", outlined=True)
    assert files(outlined) == ["01_plain_wide_outlined.svg", "pictures.json"]


def test_a_pdf_names_the_channel(tmp_path: Path) -> None:
    export(tmp_path, ids=("plain",), format="pdf")
    reader = PdfReader(tmp_path / "01_plain_wide.pdf")
    assert reader.metadata is not None and reader.metadata.author == "Hedge Lane Garage"
    assert "Depth 5/32 in" in reader.pages[0].extract_text()


@pytest.mark.parametrize("format_", ["png", "svg", "pdf"])
@pytest.mark.parametrize("after", [0, 1, 2])
def test_stopping_leaves_whole_files_and_a_list_of_them(tmp_path: Path, format_: str, after: int) -> None:
    wanted = Wanted(format=format_, steps="all")  # type: ignore[arg-type]
    running = export_pictures(EPISODE, Findings(()), CHALK, wanted, tmp_path)
    seen = [next(running) for _ in range(after)]
    running.close()  # type: ignore[attr-defined]
    made = [progress.entry.file for progress in seen if progress.entry]
    beside = {name for name in files(tmp_path) if not name.startswith("fonts/")}
    assert beside == {*made, *(["pictures.json"] if made else [])}
    assert [entry["file"] for entry in (listed(tmp_path) if made else [])] == made
    assert not [name for name in files(tmp_path) if name.endswith(".part")]


def test_a_full_disk_is_one_line_and_leaves_no_part(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    written, flush = [], os.fsync

    def full_after_one(handle: int) -> None:
        written.append(handle)
        if len(written) > 2:  # the first file and its folder
            raise OSError(errno.ENOSPC, "No space left on device")
        flush(handle)

    monkeypatch.setattr(os, "fsync", full_after_one)
    with pytest.raises(StorageError, match=r"02_stepped_wide\.png was not saved: the disk is full") as raised:
        export(tmp_path)
    assert "\n" not in str(raised.value)
    assert files(tmp_path) == ["01_plain_wide.png"]


def test_a_folder_that_cannot_be_is_one_line(tmp_path: Path) -> None:
    (tmp_path / "file").write_text("")
    with pytest.raises(StorageError, match="no pictures were written to") as raised:
        export(tmp_path / "file" / "below")
    assert "\n" not in str(raised.value)
    with pytest.raises(StorageError):
        export(tmp_path / "file")


def test_a_file_that_may_not_be_replaced_loses_only_itself(tmp_path: Path) -> None:
    (tmp_path / "01_plain_wide.png").mkdir()
    seen = export(tmp_path, ids=("plain", "stepped"))
    assert [bool(progress.problem) for progress in seen] == [True, False]
    assert seen[0].failed and "01_plain_wide.png" in seen[0].problem
    assert [entry["file"] for entry in listed(tmp_path)] == ["02_stepped_wide.png"]


@pytest.mark.parametrize(
    ("wanted", "said"),
    [
        ({"ids": ("plain", "wheel_of_luck")}, "'wheel_of_luck' is not a picture; there are: plain, stepped"),
        ({"format": "clip", "rate": "29.97"}, "'29.97' is not a frame rate"),
        ({"format": "clip", "movie": "gif"}, "'gif' is not a kind of movie"),
        ({"format": "gif"}, "'gif' is not a format"),
        ({"background": "blue"}, "'blue' is not a background: expected look, clear or #RRGGBB"),
        ({"steps": "some"}, "expected all or last"),
    ],
)
def test_what_cannot_be_had_is_refused_before_anything_is_written(tmp_path: Path, wanted: Any, said: str) -> None:
    with pytest.raises(ValueError, match=said):
        export_pictures(EPISODE, Findings(()), CHALK, Wanted(**wanted), tmp_path / "new")
    assert not (tmp_path / "new").exists()


def test_the_errors_are_of_one_kind() -> None:
    assert issubclass(WantedError, ValueError)
    assert msgspec.structs.asdict(Wanted()) == {
        "ids": (), "frame": FRAMES["wide"], "format": "png", "background": "look", "steps": "last", "outlined": False,
        "movie": "qtrle", "rate": "", "order": (),
    }  # fmt: skip
