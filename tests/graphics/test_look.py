"""Look files: read, checked, refused with the pair or the field."""

import json
from pathlib import Path
from typing import Any

import pytest

from studio import shipped
from studio.graphics.color import contrast
from studio.graphics.look import MOST_BYTES, LookError, look_named, read_background, read_look, shipped_looks


def changed(folder: Path, **values: Any) -> Path:
    look = json.loads((shipped.resources() / "looks" / "chalk.json").read_text("utf-8")) | values
    path = folder / "mine.json"
    path.write_text(json.dumps({key: value for key, value in look.items() if value is not ...}), "utf-8")
    return path


@pytest.mark.parametrize(("name", "ink", "measure"), [("chalk", 15.1, 7.0), ("night_bay", 16.0, 8.4)])
def test_the_shipped_looks_have_the_contrasts_of_the_art_direction(name: str, ink: float, measure: float) -> None:
    look = look_named(name)
    assert contrast(look.ink, look.ground) == pytest.approx(ink, abs=0.06)
    assert contrast(look.measure, look.ground) == pytest.approx(measure, abs=0.06)
    assert list(shipped_looks()) == ["chalk", "night_bay"]


def test_a_look_of_ones_own_is_read(tmp_path: Path) -> None:
    look = read_look(changed(tmp_path, id="mine", name="Mine", measure="#003C66"))
    assert (look.id, look.measure) == ("mine", "#003C66")
    assert look.fill_of("keep") == look.verdicts.keep
    assert look.fill_of("inspect") is look.fill_of("unknown") is look.fill_of(None) is None


@pytest.mark.parametrize(
    ("values", "said"),
    [
        ({"ink": "#C0C0C0"}, "ink on ground has contrast"),
        ({"quiet": "#8A8A8A"}, "quiet on ground has contrast"),
        ({"plate": "#404040"}, "on plate has contrast"),
        ({"letter": "#505050"}, "letter on rubber has contrast"),
        ({"rubber_edge": "#F0F0F0"}, "rubber_edge on ground has contrast"),
        ({"ink": "black"}, "ink"),
        ({"ink": "#1A1D21\n"}, "ink"),
        ({"verdicts": {"keep": "#CDEBDF"}}, "watch"),
        ({"shout": "#FF0000"}, "shout"),
        ({"ground": ...}, "ground"),
        ({"id": "../../etc"}, "id"),
    ],
)
def test_what_cannot_be_read_on_screen_or_is_no_look_is_refused(tmp_path: Path, values: Any, said: str) -> None:
    with pytest.raises(LookError, match=said) as raised:
        read_look(changed(tmp_path, **values))
    assert "\n" not in str(raised.value)


@pytest.mark.parametrize("content", [b"", b"[]", b"{", b"\xff\xfe", b'{"id": "x"}', b" " * (MOST_BYTES + 1)])
def test_a_file_that_is_no_look_is_refused(tmp_path: Path, content: bytes) -> None:
    (tmp_path / "look.json").write_bytes(content)
    with pytest.raises(LookError, match=r"look\.json"):
        read_look(tmp_path / "look.json")


def test_a_file_that_is_not_there_and_a_name_that_is_none(tmp_path: Path) -> None:
    with pytest.raises(LookError, match=r"gone\.json cannot be read"):
        read_look(tmp_path / "gone.json")
    with pytest.raises(LookError, match="there are: chalk, night_bay"):
        look_named("neon")


def test_backgrounds() -> None:
    chalk = look_named("chalk")
    assert read_background("look", chalk) == chalk.ground
    assert read_background("clear", chalk) is None
    assert read_background("#00b140", chalk) == "#00B140"
    for wrong in ("", "green", "#00B14", "Look"):
        with pytest.raises(ValueError, match="expected look, clear or #RRGGBB"):
            read_background(wrong, chalk)
