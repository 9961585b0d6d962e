"""A look while it is made: nothing beside the episode before it is saved, then all of it, whole."""

import json
from pathlib import Path

import pytest
from msgspec.structs import replace
from PIL import Image

from studio.graphics.look import Fonts, LookError, look_named, read_look
from studio.window.look_draft import Draft, read_logo, relative_look
from tests.graphics.own_look import LOGO, own_look


@pytest.fixture
def draft():
    made = Draft()
    made.begin(look_named("night_bay"), None)
    yield made
    made.clear()


@pytest.fixture
def logo(tmp_path: Path) -> Path:
    path = tmp_path / "given.svg"
    path.write_bytes(LOGO)
    return path


def test_it_begins_as_a_copy_of_a_shipped_look_under_another_name(draft):
    assert (draft.values.id, draft.values.name) == ("own", "Night bay, ours")
    assert draft.values.ground == look_named("night_bay").ground
    assert draft.faults() == () and not draft.is_changed and len(draft.remarks()) == 1


def test_a_colour_that_cannot_be_read_keeps_it_from_being_saved(draft, tmp_path):
    draft.change(quiet="#333333")
    assert draft.is_changed
    assert "quiet on ground has contrast 1.39:1" in draft.faults()[0]  # WCAG by hand: (0.0331+.05)/(0.0097+.05)
    with pytest.raises(LookError, match="quiet on ground"):
        draft.save(tmp_path / "own.json")
    assert not (tmp_path / "own.json").exists()


def test_what_is_saved_is_read_again_with_its_logo_and_fonts(draft, tmp_path, logo):
    draft.take_logo(read_logo(logo))
    source = own_look(tmp_path / "given").parent
    draft.take_font(source / "Ours-Regular.ttf", "regular")
    draft.take_font(source / "Ours-Bold.ttf", "bold")
    draft.change(small_print="Ours.", corners=0.2)
    target = tmp_path / "episode" / "Our Look.json"
    target.parent.mkdir()
    draft.save(target)
    names = sorted(path.name for path in target.parent.iterdir())
    assert names == ["Our Look.json", "Our Look_bold.ttf", "Our Look_logo.svg", "Our Look_regular.ttf"]
    look = read_look(target)
    assert look.id == "our_look" and look.small_print == "Ours." and look.art is not None
    assert look.fonts.family == "Ours-Regular" and look.face is not None and not draft.is_changed
    again = Draft()
    again.begin(look, target.parent)
    again.save(target)
    assert sorted(path.name for path in target.parent.iterdir()) == names
    assert read_look(target) == look
    again.clear()


def test_a_logo_of_pixels_is_kept_as_one(draft, tmp_path):
    Image.new("RGB", (30, 20), (200, 30, 20)).save(tmp_path / "given.png")
    draft.take_logo(read_logo(tmp_path / "given.png"))
    assert draft.values.logo.file == "logo.png" and draft.look().art.png


def test_a_wrong_font_leaves_the_letters_as_they_were(draft, tmp_path):
    (tmp_path / "wrong.ttf").write_bytes(b"not a font")
    with pytest.raises(LookError, match="is not a font that can be read"):
        draft.take_font(tmp_path / "wrong.ttf", "regular")
    assert draft.values.fonts == Fonts() and draft.faults() == ()


@pytest.mark.parametrize("content", [b"{}", b'{"title": "An episode"}', b"\xff"])
def test_a_file_that_is_no_look_is_not_written_over(draft, tmp_path, content):
    (tmp_path / "mine.json").write_bytes(content)
    with pytest.raises(LookError, match=r"mine\.json is there already and is no look"):
        draft.save(tmp_path / "mine.json")
    assert (tmp_path / "mine.json").read_bytes() == content


def test_a_look_without_a_name_is_not_saved(draft):
    draft.change(name="  ")
    assert draft.faults() == ("the look has no name",)


def test_a_look_is_named_by_its_path_from_the_episode(tmp_path):
    assert relative_look(tmp_path / "looks" / "own.json", tmp_path) == "looks/own.json"
    assert relative_look(tmp_path.parent / "own.json", tmp_path) is None
    assert relative_look(tmp_path / ("x" * 120 + ".json"), tmp_path) is None


def test_a_hostile_logo_is_refused_by_name_and_not_kept(draft, tmp_path):
    (tmp_path / "bad.svg").write_bytes(LOGO.replace(b"<circle", b"<script/><circle"))
    with pytest.raises(LookError, match=r"bad\.svg: the logo holds a script"):
        read_logo(tmp_path / "bad.svg")
    assert not draft.values.logo.file


def test_equal_drafts_write_equal_files(draft, tmp_path):
    draft.save(tmp_path / "a.json")
    first = (tmp_path / "a.json").read_bytes()
    draft.change(name=draft.values.name, zones=replace(draft.values.zones))
    draft.save(tmp_path / "a.json")
    assert (tmp_path / "a.json").read_bytes() == first and json.loads(first)["id"] == "a"
