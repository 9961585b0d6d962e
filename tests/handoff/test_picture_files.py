"""Names of files, order, labels."""

import datetime as dt
import json
import math

import numpy as np
import pytest

from studio.graphics import catalogue as catalogue_
from studio.graphics.frame import Box, Frame
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


def test_lettering_along_an_arc_has_a_label_for_each_letter() -> None:
    """The angles follow from the chord: a quarter of a turn on a radius of 90 px and a letter's middle at each side."""
    found = labels(scene(along("OXO 5", angle=90.0, spacing=1.2)))
    assert [label.text for label in found] == ["O", "X", "O", "5"]  # a blank is nothing to be seen
    assert {label.of for label in found} == {"OXO 5"}
    assert all(math.dist((label.x + label.width / 2, label.y + label.height / 2), (240, 135)) == pytest.approx(
        90 + 10, abs=2.5) for label in found)  # half of the capitals' 20 px outward from the baseline  # fmt: skip
    assert all(12 < side < 30 for label in found for side in (label.width, label.height))
    ys = [label.y for label in found]
    assert ys == sorted(ys) and ys[0] < 135 < ys[-1]  # on the right, clockwise is downward


def test_a_sign_inside_the_arc_stands_clear_of_every_letter() -> None:
    badge = line("1", at=(240.0, 145.0), anchor="middle")
    *letters, one = labels(scene(along("225/45R17 91V 2 PLIES", cap_height=24.0), badge))
    assert (one.text, one.of) == ("1", "") and len(letters) == 18
    its, *boxes = (Box(label.x, label.y, label.width, label.height) for label in (one, *letters))
    assert not any(letter.meets(its) for letter in boxes)


def test_an_accent_of_its_own_belongs_to_its_letter() -> None:
    found = labels(scene(along("e\u0323X")))
    assert [label.text for label in found] == ["e\u0323", "X"]
    assert found[0].height > labels(scene(along("eX")))[0].height


def test_lettering_with_its_shade_is_one_text() -> None:
    shade, letters = along("225", center=(242.0, 137.0), name="shade"), along("225")
    both = labels(scene(shade, letters))
    assert both == labels(scene(letters)) and len(both) == 3
    assert len(labels(scene(letters, along("225", angle=180.0)))) == 6


def test_every_text_has_a_label() -> None:
    found = labels(everything())
    assert list(dict.fromkeys(label.of or label.text for label in found)) == [
        "225/45R17", "2 PLIES", "Depth 5/32 in", "4.0 mm ⌀ & <1>", "plain words",
    ]  # fmt: skip
    assert "".join(label.text for label in found if label.of) == "225/45R172PLIES"
    assert all(label.width > 0 < label.height and 0 <= label.x <= 480 and 0 <= label.y <= 270 for label in found)
