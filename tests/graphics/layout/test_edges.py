"""What stands at a page's edges: caution and source always, the channel's own as far as there is room."""

from pathlib import Path

import pytest
from msgspec.structs import replace

from studio.graphics.frame import FRAMES, Frame
from studio.graphics.layout.edges import Words, edges
from studio.graphics.layout.logo_zone import logo_zones
from studio.graphics.layout.text import box
from studio.graphics.look import Logo, Look, Zones, look_named, read_look
from studio.graphics.scene import Scene, Text
from tests.graphics.lint import complaints, logo_box
from tests.graphics.own_look import SMALL_PRINT, own_look

WORDS = Words(
    sentence="Front right is down to 4/32 in (3.2 mm): new tires before the wet season.", verdict="watch",
    caution="Worn tread grips poorly in rain: a crash can follow. Local law sets the limit; ask a qualified tire "
    "professional.", sources="Source: 49 CFR 570.9, (a)",
)  # fmt: skip
CORNERS = ("top_left", "top_right", "bottom_left", "bottom_right")


@pytest.fixture
def own(tmp_path: Path) -> Look:
    return read_look(own_look(tmp_path, logo={"file": "logo.svg"}, small_print=SMALL_PRINT))


def scene_with(look: Look, frame: Frame, words: Words = WORDS) -> Scene:
    marks, top, bottom = edges(frame, look, words)
    assert top < bottom
    for mark in marks:
        if isinstance(mark, Text):
            its = box(mark)
            assert its.bottom <= top + 0.5 or its.top >= bottom - 0.5
    return Scene(picture="edges", frame=frame, background=look.ground, marks=marks)


@pytest.mark.parametrize("captions", [False, True])
@pytest.mark.parametrize("corner", CORNERS)
@pytest.mark.parametrize("shape", FRAMES)
@pytest.mark.parametrize("plate", [False, True])
def test_the_logo_keeps_away_from_all_words(
    own: Look, shape: str, corner: str, captions: bool, plate: bool
) -> None:
    frame = replace(FRAMES[shape], captions=captions)
    scene = scene_with(replace(own, logo=replace(own.logo, corner=corner, plate=plate)), frame)
    assert complaints(scene) == []
    found = logo_box(scene)
    assert found is not None
    assert (found.center[0] < frame.width / 2) == corner.endswith("left")
    assert (found.center[1] < frame.height / 2) == corner.startswith("top")
    if captions:  # the band is bottom 20 %, in tall frames 60 to 85 % from the top (conventions, 1)
        band = (0.6, 0.85) if shape == "tall" else (0.8, 1.0)
        assert found.bottom <= band[0] * frame.height + 0.5 or found.top >= band[1] * frame.height


@pytest.mark.parametrize("shape", FRAMES)
@pytest.mark.parametrize("captions", [False, True])
def test_caution_and_source_stand_whole_whatever_the_channel_adds(own: Look, shape: str, captions: bool) -> None:
    frame = replace(FRAMES[shape], captions=captions)
    for corner in CORNERS:
        look = replace(own, logo=replace(own.logo, corner=corner, height=0.2))
        texts = [mark for mark in edges(frame, look, WORDS)[0] if isinstance(mark, Text)]
        said = {part: " ".join(mark.text for mark in texts if mark.name.startswith(part)) for part in
                ("sentence", "caution", "sources")}  # fmt: skip
        assert said["caution"] == WORDS.caution and said["sources"] == WORDS.sources
        assert said["sentence"].startswith("Front right is down to 4/32 in")


def test_the_channels_line_stands_last_and_quiet(own: Look) -> None:
    marks, _, _ = edges(FRAMES["wide"], own, WORDS)
    texts = [mark for mark in marks if isinstance(mark, Text)]
    assert texts[-1].text == SMALL_PRINT and texts[-1].fill == own.quiet and texts[-1].role == "small"
    assert texts[-2].text == WORDS.sources


def test_where_there_is_little_room_the_channels_own_gives_way(own: Look) -> None:
    """In a square with captions its line goes; the logo stays, as small as need be."""
    long = replace(own, small_print=SMALL_PRINT * 2, logo=replace(own.logo, height=0.2))
    frame = replace(FRAMES["square"], captions=True)
    texts = [mark for mark in edges(frame, long, WORDS)[0] if isinstance(mark, Text)]
    assert not any(mark.name.startswith("small_print") for mark in texts)
    assert logo_box(scene_with(long, frame)) is not None


def test_a_place_can_be_kept_free_for_a_logo_that_the_edit_adds() -> None:
    look = replace(look_named("chalk"), zones=Zones(logo=True), logo=Logo(corner="top_right", height=0.1))
    marks, _, _ = edges(FRAMES["wide"], look, WORDS)
    assert not any(mark.name.startswith("logo") for mark in marks)
    zone = logo_zones(FRAMES["wide"], look)[0].box
    assert zone is not None
    assert not any(zone.meets(box(mark)) for mark in marks if isinstance(mark, Text))


@pytest.mark.parametrize("name", ["chalk", "night_bay"])
def test_without_a_logo_all_of_the_page_is_free(name: str) -> None:
    for frame in FRAMES.values():
        (zone,) = logo_zones(frame, look_named(name))
        assert zone.box is None and zone.head == zone.foot == frame.content
