"""Every picture in a look of the channel's own: its letters, its logo, its line, its zones; checked as it is drawn."""

from functools import lru_cache
from io import BytesIO
from pathlib import Path
from tempfile import mkdtemp

import pytest
from pypdf import PdfReader

from studio import shipped
from studio.graphics.catalogue import CannotShow, catalogue, scene_of
from studio.graphics.frame import FRAMES
from studio.graphics.layout.text import is_own
from studio.graphics.look import Look, look_named, read_look
from studio.graphics.paint.pdf import pdf
from studio.graphics.paint.svg import font_files, font_name, svg
from studio.graphics.scene import ArcText, Scene, Text
from studio.model.episode import Episode
from studio.model.finding import Findings
from studio.storage.episode_file import decode
from tests.graphics.extremes import findings_of
from tests.graphics.lint import complaints, logo_box
from tests.graphics.own_look import SMALL_PRINT, own_look

SERIF = {"family": "Bay Serif", "regular": "DejaVuSerif.ttf", "bold": "DejaVuSerif-Bold.ttf"}
LOOKS = {
    "logo above": {"logo": {"file": "logo.svg"}, "small_print": SMALL_PRINT, "corners": 0.3},
    "logo below": {"logo": {"file": "logo.png", "corner": "bottom_right", "plate": True}},
    "letters": {"fonts": {"family": "Ours", "regular": "Ours-Regular.ttf", "bold": "Ours-Bold.ttf"}},
    "serif": {"fonts": SERIF},
}


@lru_cache
def case() -> tuple[Episode, Findings]:
    episode = decode((shipped.demos() / "minivan_one_new_tire.json").read_bytes())
    return episode, findings_of(episode)


@lru_cache
def look(name: str) -> Look:
    return read_look(own_look(Path(mkdtemp()), **LOOKS[name]))


def drawn(picture: str, shape: str, its: Look) -> Scene:
    try:
        return scene_of(*case(), picture, FRAMES[shape], its)
    except CannotShow as reason:
        pytest.skip(str(reason))


@pytest.mark.parametrize(("name", "shape"), [("logo above", "tall"), ("logo above", "square"), ("logo below", "wide")])
@pytest.mark.parametrize("picture", catalogue())
def test_the_logo_stands_on_every_picture_and_nothing_is_wrong(picture: str, name: str, shape: str) -> None:
    scene = drawn(picture, shape, look(name))
    assert logo_box(scene) is not None
    assert complaints(scene) == []


@pytest.mark.parametrize("picture", catalogue())
def test_every_text_is_set_in_the_channels_letters(picture: str) -> None:
    scene = drawn(picture, "wide", look("letters"))
    assert {mark.face for mark in scene.marks if isinstance(mark, Text | ArcText)} == {look("letters").face}


@pytest.mark.parametrize("picture", ["size_code", "rotation", "axle_match"])
def test_letters_a_fifth_wider_than_the_shipped_ones_find_room(picture: str) -> None:
    for shape in FRAMES:
        assert complaints(drawn(picture, shape, look("serif"))) == []


def test_after_a_picture_in_its_own_letters_the_next_is_set_in_the_shipped_ones() -> None:
    for its, face in ((look("serif"), look("serif").face), (look_named("chalk"), None)):
        scene = drawn("size_code", "wide", its)
        assert {mark.face for mark in scene.marks if isinstance(mark, Text | ArcText)} == {face}


def test_files_for_the_edit_carry_the_channels_letters() -> None:
    scene = drawn("size_code", "wide", look("serif"))
    own = {font_name(file) for file in font_files(scene) if is_own(file)}
    assert own == {"channel_DejaVuSerif.ttf", "channel_DejaVuSerif_Bold.ttf"}
    document = svg(scene)
    assert "font-family:'Channel Bay Serif'" in document and "fonts/channel_DejaVuSerif.ttf" in document
    page = PdfReader(BytesIO(pdf((scene,)))).pages[0]
    fonts = {str(font.get_object()["/BaseFont"]) for font in page["/Resources"]["/Font"].values()}  # type: ignore[index]
    assert any("DejaVuSerif" in font for font in fonts)
    assert scene.texts[0].text.split()[0] in page.extract_text()


def test_a_logo_over_film_stays_as_it_is() -> None:
    from studio.graphics.backdrop import on_background

    scene = drawn("size_code", "wide", look("logo below"))
    over = on_background(scene, look("logo below"), None)
    assert [mark for mark in over.marks if mark.name.startswith("logo/image")] == [scene.named("logo/image")]
