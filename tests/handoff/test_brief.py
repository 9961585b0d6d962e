"""The brief, read back by other PDF libraries: text, outline, links, fonts, vector pictures, the same bytes."""

import io
import re
from functools import cache

import pikepdf
import pypdf
import pytest

from studio.decide.input_words import source_words
from studio.handoff.brief import brief
from studio.handoff.cue_cards import cue_cards, shot_list
from studio.handoff.material import Material
from tests.handoff.materials import bare, demo_material, hostile, material_of


@cache
def material() -> Material:
    return demo_material()


@cache
def content() -> bytes:
    return brief(material())


@cache
def document() -> pypdf.PdfReader:
    return pypdf.PdfReader(io.BytesIO(content()))


@cache
def told() -> str:
    return squeezed("".join(page.extract_text() for page in document().pages))


def squeezed(text: str) -> str:
    return re.sub(r"\s+", "", text)


def outline(entries: list) -> list[str]:
    return [title for each in entries for title in (outline(each) if isinstance(each, list) else [each.title])]


def test_every_finding_stands_in_it_with_its_working_sources_and_caution() -> None:
    for finding in material().findings:
        assert squeezed(finding.sentence) in told(), finding.id
        assert all(squeezed(line) in told() for line in finding.working), finding.id
        assert all(squeezed(source_words(source)) in told() for source in finding.sources), finding.id
        assert squeezed(finding.caution) in told()


def test_the_rundown_stands_in_it_with_cautions_and_readings() -> None:
    for segment in material().schedule.segments:
        assert squeezed(segment.title) in told()
        assert all(squeezed(point.text) in told() for point in segment.points)
        assert all(squeezed(note) in told() for note in segment.notes)
    assert squeezed("235/60R18 103H") in told() and "2924" in told()


def test_title_author_language_and_page_numbers() -> None:
    assert document().metadata is not None
    assert document().metadata.title == material().episode.title
    assert document().metadata.author == material().episode.channel
    assert document().trailer["/Root"]["/Lang"] == "en"
    for number, page in enumerate(document().pages, start=1):
        last = page.extract_text().split()
        assert str(number) in last


def test_the_outline_leads_to_every_section_segment_and_finding() -> None:
    titles = outline(document().outline)
    for section in ("The car", "The tires", "Rundown", "Findings", "Cautions", "Sources by standing"):
        assert section in titles
    assert sum(any(finding.sentence in title for title in titles) for finding in material().findings) == len(
        material().findings
    )
    assert [t for t in titles if t[0].isdigit()] == [
        f"{n}. {segment.title}" for n, segment in enumerate(material().schedule.segments, start=1)
    ]


def test_verdicts_on_the_cover_lead_to_their_findings() -> None:
    links = [each.get_object() for each in document().pages[0]["/Annots"]]
    texts = {page.indirect_reference.idnum: squeezed(page.extract_text()) for page in document().pages}
    cover = texts[document().pages[0].indirect_reference.idnum]
    led = [texts[link["/Dest"][0].idnum] for link in links]
    named = [finding for finding in material().findings if squeezed(finding.sentence) in cover and finding.verdict]
    assert len(set(map(id, named))) >= 3
    for text in led:
        assert any(squeezed(finding.sentence) in text for finding in named)


@pytest.mark.parametrize("make", [brief, cue_cards, shot_list])
def test_all_fonts_are_embedded_and_pictures_are_vectors(make) -> None:
    with pikepdf.open(io.BytesIO(make(material()))) as pdf:
        fonts = {}
        for page in pdf.pages:
            resources = page.get("/Resources", {})
            assert not [name for name, its in resources.get("/XObject", {}).items() if its.get("/Subtype") == "/Image"]
            for name, font in resources.get("/Font", {}).items():
                fonts[name] = font
        assert fonts
        for font in fonts.values():
            assert "/FontFile2" in font["/FontDescriptor"]


def test_equal_material_gives_equal_bytes() -> None:
    assert brief(demo_material()) == content()


@pytest.mark.parametrize("make", [brief, cue_cards, shot_list])
def test_an_empty_episode_gives_a_document_that_says_so(make) -> None:
    read = pypdf.PdfReader(io.BytesIO(make(material_of(bare(), ()))))
    text = " ".join(page.extract_text() for page in read.pages)
    assert re.search(r"[Nn]o(thing| readings| segments| shots| tire)", text)


@pytest.mark.parametrize("make", [brief, cue_cards, shot_list])
def test_hostile_texts_are_printed_as_text(make) -> None:
    read = pypdf.PdfReader(io.BytesIO(make(material_of(hostile(), ("depth_by_wheel",)))))
    text = squeezed("".join(page.extract_text() for page in read.pages))
    assert "<b>bold</b>" in text and "$5" in text and "{x}" in text and "-->" in text
