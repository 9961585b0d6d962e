"""The contact sheet: every picture once, in its place, with its name and verdict; what is missing is said."""

import datetime as dt
from io import BytesIO
from itertools import combinations
from pathlib import Path

import pytest
from PIL import Image
from pypdf import PdfReader

from studio import shipped
from studio.decide import decide
from studio.graphics.color import rgba
from studio.graphics.frame import FRAMES, Box
from studio.graphics.layout.text import box
from studio.graphics.look import look_named
from studio.graphics.paint.raster import image
from studio.graphics.paint.sheet import PAGE_WIDTH_PT, sheet_pdf, sheet_png
from studio.handoff.contact_sheet import Item, SheetError, items, sheet, write_sheet
from studio.model.episode import Episode
from studio.model.finding import Findings
from studio.model.rundown import PictureCue, Rundown, Segment
from studio.questions.told import with_answer
from studio.reference.tables import load_tables
from studio.storage.episode_file import decode
from tests.graphics.lint import complaints

CHALK = look_named("chalk")
EPISODE = Episode(title="One <new> tire & four", on=dt.date(2026, 11, 14))


@pytest.fixture
def small(small_catalogue: tuple[str, ...]) -> tuple[Item, ...]:
    return tuple(items(EPISODE, Findings(()), CHALK, FRAMES["wide"]))


def test_every_picture_is_there_or_says_what_is_missing(small: tuple[Item, ...]) -> None:
    assert [(item.number, bool(item.scene), item.failed) for item in small] == [
        (1, True, False), (2, True, False), (3, False, False), (4, False, True), (5, True, False),
    ]  # fmt: skip
    made = sheet(EPISODE, small, CHALK, FRAMES["wide"])
    said = " ".join(mark.text for mark in made.page.texts)
    assert "It needs a reading of each tire" in said and "It could not be drawn (ZeroDivisionError)" in said
    assert "3 of 5 pictures" in said and "One <new> tire & four" in said and len(made.cells) == 3


@pytest.mark.parametrize("frame", FRAMES.values(), ids=FRAMES)
@pytest.mark.parametrize("look", ["chalk", "night_bay"])
def test_no_picture_and_no_words_lie_over_others(small_catalogue: tuple[str, ...], frame: object, look: str) -> None:
    its = look_named(look)
    shown = tuple(items(EPISODE, Findings(()), its, frame)) * 4  # type: ignore[arg-type]
    made = sheet(EPISODE, tuple(Item(number=n, name=item.name * 4, scene=item.scene, missing=item.missing,
                                     verdict="replace") for n, item in enumerate(shown)), its, frame)  # type: ignore[arg-type]  # fmt: skip
    page = Box(0, 0, made.page.frame.width, made.page.frame.height)
    words = [box(mark) for mark in made.page.texts]
    for one, other in combinations([cell.box for cell in made.cells], 2):
        assert not one.meets(other, gap=10)
    for cell in made.cells:
        assert page.holds(cell.box) and not any(cell.box.meets(its, gap=-1) for its in words)
        assert cell.box.width / cell.box.height == pytest.approx(cell.scene.frame.width / cell.scene.frame.height)
    wrong = [line for line in complaints(made.page) if "lies over" in line or "contrast" in line]
    assert wrong == []


def test_pictures_stand_as_the_rundown_calls_for_them(small_catalogue: tuple[str, ...]) -> None:
    cues = (PictureCue(picture="odd_signs"), PictureCue(picture="plain"))
    episode = Episode(title="t", on=dt.date(2026, 1, 1),
                      rundown=Rundown(segments=(Segment(id="one", title="One", pictures=cues),)))  # fmt: skip
    found = [item.scene.picture for item in items(episode, Findings(()), CHALK, FRAMES["wide"]) if item.scene]
    assert found == ["odd_signs", "plain", "stepped"]


def test_a_sign_on_the_sheet_is_the_pictures_own() -> None:
    episode = decode((shipped.demos() / "minivan_one_new_tire.json").read_bytes())
    findings = with_answer(episode, decide(episode, load_tables()), load_tables())
    for item in items(episode, findings, CHALK, FRAMES["wide"]):
        assert item.scene is not None
        bears = any(mark.name.startswith("verdict/") for mark in item.scene.marks)
        assert bears == (item.verdict is not None)
        said = [f.verdict for f in findings if f.sentence == item.scene.title and f.id in item.scene.findings]
        assert not bears or not said or item.verdict == said[0]
        fills = {mark.fill for mark in item.scene.marks if mark.name.startswith("verdict/") and hasattr(mark, "fill")}
        assert CHALK.fill_of(item.verdict) is None or CHALK.fill_of(item.verdict) in fills


def test_the_png_shows_each_picture_in_its_box(small: tuple[Item, ...]) -> None:
    made = sheet(EPISODE, small, CHALK, FRAMES["wide"])
    content = sheet_png(made)
    assert content == sheet_png(made)
    with Image.open(BytesIO(content)) as opened:
        pixels = opened.convert("RGB")
    assert pixels.size == (made.page.frame.width, made.page.frame.height)
    assert pixels.getpixel((5, 5)) == rgba(CHALK.plate)[:3]
    ring = made.cells[1]
    alone = image(ring.scene)
    scale = ring.box.width / ring.scene.frame.width
    for x, y in ((960, 220), (960, 540), (100, 100), (640, 540)):  # the ring, its hole, the ground, the ring again
        at = (round(ring.box.left + x * scale), round(ring.box.top + y * scale))
        assert pixels.getpixel(at) == alone.pixelColor(x, y).getRgb()[:3]


def test_the_pdf_is_one_page_with_words_that_can_be_found(small: tuple[Item, ...]) -> None:
    made = sheet(EPISODE, small, CHALK, FRAMES["wide"])
    content = sheet_pdf(made, "Channel")
    assert content == sheet_pdf(made, "Channel")
    reader = PdfReader(BytesIO(content))
    assert len(reader.pages) == 1 and float(reader.pages[0].mediabox.width) == pytest.approx(PAGE_WIDTH_PT, abs=0.01)
    text = reader.pages[0].extract_text()
    assert "A small picture" in text and "Depth 5/32 in" in text
    assert reader.metadata is not None and reader.metadata.title == "Contact sheet: One <new> tire & four"


def test_it_is_written_as_its_name_ends(small: tuple[Item, ...], tmp_path: Path) -> None:
    made = sheet(EPISODE, small, CHALK, FRAMES["wide"])
    write_sheet(made, tmp_path / "a.PDF")
    write_sheet(made, tmp_path / "a.png")
    assert (tmp_path / "a.PDF").read_bytes()[:5] == b"%PDF-" and (tmp_path / "a.png").read_bytes()[:4] == b"\x89PNG"
    with pytest.raises(SheetError, match=r"sheet\.jpg is neither PNG nor PDF"):
        write_sheet(made, tmp_path / "sheet.jpg")
    assert sorted(path.name for path in tmp_path.iterdir()) == ["a.PDF", "a.png"]
