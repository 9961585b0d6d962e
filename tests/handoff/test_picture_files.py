"""Names of files, order, labels."""

import datetime as dt
import json

import numpy as np
import pytest

from studio.graphics import catalogue as catalogue_
from studio.graphics.frame import Frame
from studio.handoff.picture_files import Wanted, encode_list, entry_of, file_name, frame_name, labels, rundown_order
from studio.model.episode import Episode
from studio.model.rundown import PictureCue, Rundown, Segment
from tests.graphics.paint.samples import along, everything, line, scene

pytestmark = pytest.mark.usefixtures("small_catalogue")


@pytest.mark.parametrize(
    ("frame", "name"),
    [(Frame(1920, 1080), "wide"), (Frame(1920, 1080, captions=True), "wide"), (Frame(1080, 1920), "tall"),
     (Frame(1080, 1080), "square"), (Frame(3840, 2160), "3840x2160")],
)  # fmt: skip
def test_a_frame_is_named_or_measured(frame: Frame, name: str) -> None:
    assert frame_name(frame) == name


def test_names_sort_as_steps_follow_even_beyond_ten() -> None:
    names = [file_name("plain", Wanted(), step, 12) for step in range(12)]
    assert names == sorted(names) and names[0] == "01_plain_wide_step01.png" and names[-1].endswith("step12.png")


def test_names_sort_as_the_catalogue_even_beyond_a_hundred(monkeypatch: pytest.MonkeyPatch) -> None:
    ids = tuple(f"picture{chr(97 + index % 26)}{index}" for index in range(120))
    monkeypatch.setattr("studio.handoff.picture_files.catalogue", lambda: dict.fromkeys(ids))
    names = [file_name(id_, Wanted(), None, 1) for id_ in ids]
    assert names == sorted(names) and len(set(names)) == 120


def test_wanted_pictures_come_once_each_in_the_catalogues_order() -> None:
    assert Wanted(ids=("stepped", "plain", "stepped")).in_order() == ("plain", "stepped")
    assert Wanted().in_order() == tuple(catalogue_.catalogue())


def test_files_are_numbered_as_the_rundown_calls_for_them(monkeypatch: pytest.MonkeyPatch) -> None:
    """Cues of a segment come by the point with which they go; a picture counts where it comes first."""
    ids = ("a", "b", "c", "d")
    monkeypatch.setattr("studio.handoff.picture_files.catalogue", lambda: dict.fromkeys(ids))
    cues = (PictureCue(picture="d", with_point=2), PictureCue(picture="c"))
    again = (PictureCue(picture="c"), PictureCue(picture="gone"))
    segments = (Segment(id="one", title="One", pictures=cues), Segment(id="two", title="Two", pictures=again))
    order = rundown_order(Episode(title="t", on=dt.date(2026, 1, 1), rundown=Rundown(segments=segments)))
    assert order == ("c", "d", "gone")
    wanted = Wanted(order=order)
    assert wanted.in_order() == ("c", "d", "a", "b")
    names = [file_name(id_, wanted, None, 1) for id_ in wanted.in_order()]
    assert names == ["01_c_wide.png", "02_d_wide.png", "03_a_wide.png", "04_b_wide.png"]
    assert Wanted(order=order, ids=("a", "d")).in_order() == ("d", "a")


def test_a_chart_may_place_its_texts_by_numpys_floats() -> None:
    made = scene(line("12", at=(np.float64(40), np.float64(150))))
    entry = entry_of(made, Wanted(), "a.png", None, "")
    assert json.loads(encode_list([entry]))["pictures"][0]["labels"][0]["x"] == 40.0


def test_lettering_with_its_shade_is_one_label() -> None:
    shade, letters = along("225", center=(242.0, 137.0), name="shade"), along("225")
    (only,) = labels(scene(shade, letters))
    assert only == labels(scene(letters))[0]
    assert len(labels(scene(letters, along("225", angle=180.0)))) == 2


def test_every_text_has_a_label() -> None:
    found = labels(everything())
    assert [label.text for label in found] == [
        "225/45R17", "2 PLIES", "Depth 5/32 in", "4.0 mm ⌀ & <1>", "plain words",
    ]  # fmt: skip
    assert all(label.width > 0 < label.height and 0 <= label.x <= 480 and 0 <= label.y <= 270 for label in found)
