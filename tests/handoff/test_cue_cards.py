"""Cards and shot list: nothing is cut off, and no cell of the table is a formula."""

import csv
import io
import re

import pypdf

from studio.handoff.cue_cards import cue_cards, shot_table
from tests.handoff.materials import HOSTILE, demo_material, hostile, material_of


def test_every_word_of_the_script_stands_on_a_card_two_to_a_page() -> None:
    material = demo_material()
    read = pypdf.PdfReader(io.BytesIO(cue_cards(material)))
    text = re.sub(r"\s+", "", "".join(page.extract_text() for page in read.pages))
    for segment in material.schedule.segments:
        for point in segment.points:
            assert all(word in text for word in point.text.split())
        assert all(re.sub(r"\s+", "", note) in text for note in segment.notes)
    assert len(read.pages) >= len(material.schedule.segments) / 2
    assert all(page.mediabox.width > page.mediabox.height for page in read.pages)


def test_large_print_is_large() -> None:
    sizes: list[float] = []
    read = pypdf.PdfReader(io.BytesIO(cue_cards(demo_material())))
    read.pages[0].extract_text(
        visitor_text=lambda text, _cm, _tm, _font, size: sizes.append(size) if text.strip() else None
    )
    assert max(sizes) >= 20


def test_a_long_point_goes_on_over_cards() -> None:
    material = material_of(hostile(), ())
    read = pypdf.PdfReader(io.BytesIO(cue_cards(material)))
    text = "".join(page.extract_text() for page in read.pages)
    assert re.search(r"\(2\s+of", text)
    assert text.count("quotes") >= 3 * 21


def test_the_table_of_shots_holds_no_formula() -> None:
    rows = list(csv.reader(io.StringIO(shot_table(material_of(hostile(), ())))))
    assert rows[0] == ["segment", "title", "shot", "framing", "picture", "prop", "from"]
    assert not [cell for row in rows for cell in row if cell.startswith(("=", "+", "-", "@"))]
    assert "'=1+1" in {row[5] for row in rows}
    assert {row[2] for row in rows} >= {"'@SUM(A1)"}
    assert len(rows) == 1 + 3 * (1 + 1 + 2)
    assert HOSTILE.split("\x07")[0].strip()[:20] in rows[1][1]
