"""A look's file and what lies beside it: unknown keys, names that lead away, files that change, are refused by name."""

import json
import os
from pathlib import Path
from typing import Any

import msgspec
import pytest
from hypothesis import given
from hypothesis import strategies as st

from studio.graphics.look import LookError, look_for, read_look, shipped_looks
from studio.graphics.look_file import beside, encode_look_file, read_bytes, read_look_file
from studio.graphics.look_parts import LookFile
from tests.graphics.own_look import SMALL_PRINT, own_look, values

FULL: dict[str, Any] = {
    "fonts": {"family": "Bay Serif", "regular": "DejaVuSerif.ttf", "bold": "DejaVuSerif-Bold.ttf"}, "corners": 0.3,
    "logo": {"file": "logo.svg", "corner": "bottom_left", "height": 0.1, "plate": True},
    "small_print": SMALL_PRINT, "zones": {"captions": True, "logo": True},
}  # fmt: skip


def test_everything_that_a_look_can_bring_is_read(tmp_path: Path) -> None:
    look = read_look(own_look(tmp_path, **FULL))
    assert look.face is not None and look.face.family == "Bay Serif"
    assert look.face.semibold == look.face.bold != look.face.regular  # a weight without a file takes the next one
    assert look.art is not None and look.art.ratio == pytest.approx(3)
    assert (look.corners, look.small_print, look.zones.captions) == (0.3, SMALL_PRINT, True)
    assert (look.rounded(100), look.rounded(100, 5)) == (15, 5)


def test_a_look_is_written_as_it_is_read(tmp_path: Path) -> None:
    path = own_look(tmp_path, **FULL)
    look = read_look(path)
    path.write_bytes(encode_look_file(look))
    assert read_look(path) == look
    assert encode_look_file(look) == encode_look_file(read_look_file(path))
    for its in shipped_looks().values():
        assert set(json.loads(encode_look_file(its))) <= {*LookFile.__struct_fields__}


@pytest.mark.parametrize(
    ("more", "said"),
    [
        ({"fonts": {"size": 3}}, r"fonts\.size: there is no such name here; expected one of family"),
        ({"logo": {"corner": "middle"}}, r"logo\.corner: 'middle' was read; expected one of top_left"),
        ({"logo": {"height": 0.5}}, r"logo\.height: expected a number of at most 0\.2"),
        ({"zones": {"captions": "yes"}}, r"zones\.captions: expected true or false, got text"),
        ({"verdicts": {"keep": "#000000", "maybe": "#111111"}}, r"verdicts\.maybe: there is no such name here"),
        ({"corners": 2}, "corners: expected a number of at most 1"),
        ({"small_print": "x" * 91}, "small_print: expected text of at most 90 characters"),
        ({"face": None}, "face: there is no such name here; expected one of id, name"),
        ({"logo": {"file": "../logo.svg"}}, r"logo\.file '\.\./logo\.svg' must lie beside"),
        ({"logo": {"file": "/etc/passwd.svg"}}, "must lie beside"),
        ({"logo": {"file": "C:\\logo.svg"}}, "must lie beside"),
        ({"logo": {"file": "gone.png"}}, r"gone\.png cannot be read"),
        ({"logo": {"file": "own.json"}}, "expected a PNG or an SVG"),
        ({"fonts": {"regular": "gone.ttf"}}, r"gone\.ttf cannot be read"),
        ({"fonts": {"regular": "logo.svg"}}, "expected TTF or OTF"),
        ({"fonts": {"bold": "DejaVuSerif.ttf"}}, r"fonts\.regular is missing"),
        ({"fonts": {"family": "Comic"}}, "is not shipped; there are: Inter, DejaVu Sans"),
    ],
)
def test_what_is_wrong_is_named_with_its_place(tmp_path: Path, more: dict[str, Any], said: str) -> None:
    with pytest.raises(LookError, match=said) as raised:
        read_look(own_look(tmp_path, **more))
    assert "\n" not in str(raised.value) and str(tmp_path) not in str(raised.value)


def test_an_episode_names_a_shipped_look_or_a_file_beside_it(tmp_path: Path) -> None:
    own_look(tmp_path / "looks")
    assert look_for("night_bay", None).id == "night_bay"
    assert look_for("looks/own.json", tmp_path).name == "Bay Seven"
    with pytest.raises(LookError, match="save the episode first"):
        look_for("looks/own.json", None)
    with pytest.raises(LookError, match=r"gone\.json cannot be read"):
        look_for("gone.json", tmp_path)
    with pytest.raises(LookError, match="must lie beside"):
        look_for("../own.json", tmp_path / "looks")


@pytest.mark.skipif(os.name == "nt", reason="links need rights of their own there")
def test_a_link_that_leads_out_of_the_folder_is_refused(tmp_path: Path) -> None:
    inside, outside = tmp_path / "inside", tmp_path / "outside"
    own_look(inside)
    own_look(outside)
    (inside / "logo.svg").unlink()
    (inside / "logo.svg").symlink_to(outside / "logo.svg")
    with pytest.raises(LookError, match="leads out of the folder"):
        read_look(own_look_again(inside))


def own_look_again(folder: Path) -> Path:
    path = folder / "own.json"
    path.write_text(json.dumps(values(logo={"file": "logo.svg"})), "utf-8")
    return path


@given(st.text(max_size=60))
def test_no_name_leads_out_of_the_folder(name: str) -> None:
    folder = Path("/somewhere/looks")
    try:
        path = beside(folder, name, "logo.file")
    except LookError as error:
        assert "\n" not in str(error)
    else:
        assert ".." not in path.parts and path.is_relative_to(folder)


@given(st.recursive(st.none() | st.booleans() | st.floats(allow_nan=False) | st.text(max_size=5),
                    lambda inner: st.lists(inner, max_size=3) | st.dictionaries(st.text(max_size=5), inner, max_size=3),
                    max_leaves=8), st.sampled_from(LookFile.__struct_fields__))  # fmt: skip
def test_any_value_in_any_field_is_read_or_refused_in_one_line(tmp_path_factory: Any, value: Any, field: str) -> None:
    path = tmp_path_factory.mktemp("look") / "own.json"
    path.write_bytes(msgspec.json.encode(values() | {field: value}))
    try:
        assert isinstance(read_look_file(path), LookFile)
    except LookError as error:
        assert "own.json is not a look" in str(error) and str(error).isprintable()


@pytest.mark.parametrize(
    ("change", "told"),
    [
        ({"ink": "red"}, "ink: this cannot be; expected a colour #RRGGBB, such as #1A1D21"),
        ({"glitter": 1}, "glitter: there is no such name here; expected one of id, name, ground"),
        ({"fonts": {"bolder": "x.ttf"}}, "fonts.bolder: there is no such name here; expected one of family, regular"),
        ({"verdicts": {}}, "verdicts.keep is missing; expected a colour #RRGGBB, such as #1A1D21"),
        ({"corners": 7}, "corners: expected a number of at most 1"),
        ({"logo": {"corner": "middle"}}, "logo.corner: 'middle' was read; expected one of top_left, top_right"),
        ({"logo": []}, "logo: expected an object, got a list"),
        ({"name": "x" * 61}, "name: expected text of at most 60 characters"),
    ],
)
def test_what_is_wrong_with_a_look_is_told_in_words(tmp_path: Path, change: dict[str, Any], told: str) -> None:
    path = tmp_path / "own.json"
    path.write_text(json.dumps(values() | change), "utf-8")
    with pytest.raises(LookError) as refused:
        read_look_file(path)
    assert str(refused.value).startswith(f"own.json is not a look: {told}")


@pytest.mark.skipif(not hasattr(os, "mkfifo"), reason="this system has no named pipes")
def test_a_pipe_in_place_of_a_logo_is_not_waited_for(tmp_path: Path) -> None:
    os.mkfifo(tmp_path / "logo.png")
    with pytest.raises(LookError, match=r"logo\.png is a folder or a device; expected a file"):
        read_bytes(tmp_path / "logo.png", 1000, "a logo is a small file")


def test_a_file_too_large_is_told_with_its_size(tmp_path: Path) -> None:
    (tmp_path / "logo.png").write_bytes(bytes(1001))
    with pytest.raises(LookError, match=r"logo\.png holds 1001 bytes; a logo is a small file of at most 1000"):
        read_bytes(tmp_path / "logo.png", 1000, "a logo is a small file")
