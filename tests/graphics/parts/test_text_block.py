"""A block of lines: wrapped to its width, as high as it says, short lines side by side where they fit."""

from studio.graphics.layout.text import box
from studio.graphics.look import shipped_looks
from studio.graphics.parts.text_block import Line, block, set_block

LOOK = shipped_looks()["chalk"]
LINES = (
    Line(part="value", text="4/32 in", cap=36, role="callout", weight="semibold"),
    Line(part="other", text="3.2 mm", cap=30, role="small", color="quiet", follows=True),
    Line(part="said", text="the top of the head is covered", cap=30, role="small", most=3),
)  # fmt: skip


def test_all_texts_lie_in_the_blocks_size():
    for widest in (300.0, 420.0, 900.0):
        its = block(LINES, widest)
        for text in set_block(its, (100.0, 200.0), LOOK, "b", 2):
            where = box(text)
            assert where.left >= 100 and where.right <= 100 + widest + 0.5 and where.right <= 100 + its.width + 0.5
            assert where.top >= 200 and where.bottom <= 200 + its.height + 0.5 and text.step == 2


def test_the_other_unit_stands_on_the_same_line_only_where_it_fits():
    wide = {t.name: t for t in set_block(block(LINES, 400.0), (0, 0), LOOK, "b")}
    slim = {t.name: t for t in set_block(block(LINES, 200.0), (0, 0), LOOK, "b")}
    assert wide["b/other"].at[1] == wide["b/value"].at[1] and slim["b/other"].at[1] > slim["b/value"].at[1]


def test_a_block_says_whether_it_is_whole_and_names_are_its_own():
    assert block(LINES, 400.0).whole and not block(LINES, 90.0).whole
    names = [t.name for t in set_block(block(LINES, 250.0), (0, 0), LOOK, "b")]
    assert len(set(names)) == len(names) and {"b/said", "b/said1"} <= set(names)


def test_an_empty_line_takes_no_room():
    empty = Line(part="x", text="", cap=30, role="small")
    assert block((*LINES, empty), 400.0).height == block(LINES, 400.0).height
