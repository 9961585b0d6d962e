"""The page: sentence, drawing, notes and small print keep to the safe area and out of each other's way."""

import msgspec
import pytest

from studio.graphics.frame import FRAMES, Frame
from studio.graphics.layout.notes import Note, deciding_note, note_of
from studio.graphics.layout.page import Page, Words, plan
from studio.graphics.look import shipped_looks
from studio.graphics.scene import Scene, Shape, Text
from studio.model.quantity import depth, length
from tests.graphics.lint import complaints

LOOK = shipped_looks()["chalk"]
SHAPES = {**FRAMES, "captions": Frame(1920, 1080, captions=True), "slim": Frame(640, 1100), "4k": Frame(3840, 2160)}
WORDS = Words(
    sentence="Front right is legal at 4/32 in (3.2 mm), but under the wet-road advice of 4/32 in.", verdict="watch",
    caution="Worn tread grips poorly in rain: a crash can follow. Local law sets the limit; ask a tire professional.",
    sources="Source: 49 CFR 570.9, (a)",
)  # fmt: skip


def notes(count: int) -> list[Note]:
    plain = [note_of(f"n{order}", length(200.0 + order), f"label {order}", "us", order) for order in range(count)]
    return [msgspec.structs.replace(note, brief=f"brief {order}") for order, note in enumerate(plain)]


def scene(page: Page, anchors=None) -> Scene:
    marks = page.marks(anchors if anchors is not None else spread(page))
    return Scene(picture="p", frame=page.frame, background=LOOK.ground, marks=marks)


def spread(page: Page) -> dict[str, tuple[float, float]]:
    """Anchors inside the drawing, from its top right to its bottom left."""
    count, area = max(1, len(page.placed)), page.drawing.inset(6 * page.frame.grid)
    return {note.name: (area.right - area.width * i / count, area.top + area.height * i / count)
            for i, (note, _) in enumerate(page.placed)}  # fmt: skip


def overlaps(its: Scene) -> list[str]:
    return [line for line in complaints(its) if "steps" not in line]


@pytest.mark.parametrize("shape", SHAPES)
@pytest.mark.parametrize("count", [0, 1, 3, 6, 9])
@pytest.mark.parametrize("discs", [False, True])
def test_nothing_meets_and_nothing_leaves_the_safe_area(shape, count, discs):
    page = plan(SHAPES[shape], LOOK, WORDS, notes(count), discs=discs)
    assert overlaps(scene(page)) == []


@pytest.mark.parametrize("shape", SHAPES)
def test_the_drawing_lies_free_of_all_texts(shape):
    page = plan(SHAPES[shape], LOOK, WORDS, notes(4))
    plain = scene(page, {})
    filled = msgspec.structs.replace(plain, marks=(*plain.marks, *_filler(page)))
    assert [line for line in complaints(filled) if "lies over" in line] == []
    assert page.frame.content.holds(page.drawing)
    assert page.drawing.width > 0.5 * page.frame.width and page.drawing.height > 0.15 * page.frame.height


def _filler(page: Page) -> tuple[Text, ...]:
    """Text in the four corners of the drawing."""
    cap, box = page.frame.cap_height("small"), page.drawing
    spots = [(x, y) for y in (box.top + cap, box.bottom - cap / 2) for x in (box.left, box.right)]
    return tuple(
        Text(name=f"corner{i}", text="x", at=at, cap_height=cap, fill=LOOK.ink, ground=LOOK.ground, role="small",
             anchor="end" if i % 2 else "start")
        for i, at in enumerate(spots)
    )  # fmt: skip


def test_wide_pages_join_by_leaders_others_by_numbered_discs():
    wide, tall = (plan(FRAMES[shape], LOOK, WORDS, notes(3)) for shape in ("wide", "tall"))
    assert any(mark.name == "n0/leader" for mark in scene(wide).marks)
    names = {mark.name for mark in scene(tall).marks}
    assert {"n0/badge", "n0/key"} <= names and "n0/leader" not in names
    joined = plan(FRAMES["wide"], LOOK, WORDS, notes(3), discs=True)
    assert "n0/leader" not in {mark.name for mark in scene(joined).marks}


def test_leaders_end_at_their_anchors():
    page = plan(FRAMES["wide"], LOOK, WORDS, notes(4))
    anchors = spread(page)
    for mark in scene(page).marks:
        if isinstance(mark, Shape) and mark.name.endswith("/leader"):
            assert mark.outline[-1][1:] == anchors[mark.name.split("/")[0]]


def test_notes_keep_their_order_when_asked():
    page = plan(FRAMES["wide"], LOOK, WORDS, notes(3))
    bottom_up = {f"n{order}": (500.0, 800.0 - 150 * order) for order in range(3)}
    heights = {}
    for in_order in (True, False):
        first = {m.name: m.at[1] for m in page.marks(bottom_up, in_order=in_order) if isinstance(m, Text)}
        heights[in_order] = [first[f"n{order}/line0a"] for order in range(3)]
    assert heights[True] == sorted(heights[True]) and heights[False] == sorted(heights[False], reverse=True)


@pytest.mark.parametrize("shape", ["wide", "square", "captions"])
def test_the_least_important_note_goes_first_and_shortening_comes_before_that(shape):
    many = notes(9)
    ranked = [msgspec.structs.replace(note, priority=order) for order, note in enumerate(many)]
    page = plan(SHAPES[shape], LOOK, WORDS, ranked)
    kept = [note for note, _ in page.placed]
    assert [note.name for note in kept] == [f"n{order}" for order in range(len(kept))], "by priority, from the end"
    assert len(kept) < 9 and all(note.on_one_line for note in kept)
    few = plan(SHAPES["wide"], LOOK, WORDS, ranked[:2])
    assert not any(note.on_one_line for note, _ in few.placed)


def test_the_caution_is_whole():
    for frame in FRAMES.values():
        its = scene(plan(frame, LOOK, WORDS, notes(3)))
        said = " ".join(text.text for text in its.texts if text.name.startswith("caution"))
        assert said == WORDS.caution


def test_a_sentence_does_not_end_in_a_lonely_word():
    words = Words(sentence="Front right is 235/60R18, the size that the placard asks for.")
    lines = [t.text for t in scene(plan(FRAMES["wide"], LOOK, words, [])).texts if t.name.startswith("sentence")]
    assert len(lines) == 2 and len(lines[1].split()) > 1
    assert " ".join(lines) == words.sentence


def test_the_deciding_note_is_never_left_out():
    deciding = deciding_note("d", depth(4, "32nds"), "lowest reading", "us")
    for frame in SHAPES.values():
        page = plan(frame, LOOK, WORDS, [*notes(8), deciding])
        assert "d" in {note.name for note, _ in page.placed}


@pytest.mark.parametrize("frame", [FRAMES["tall"], SHAPES["slim"]])
def test_notes_fill_the_hole_beside_a_high_one(frame):
    high = msgspec.structs.replace(
        deciding_note("d", depth(4, "32nds"), "lowest reading of all the grooves of this tire", "us"), brief=""
    )
    page = plan(frame, LOOK, WORDS, [high, *notes(2)])
    boxes = {note.name: box for note, box in page.placed}
    assert boxes["n0"].left == boxes["n1"].left > boxes["d"].left
    assert boxes["n0"].bottom < boxes["n1"].top < boxes["d"].bottom


@pytest.mark.parametrize("discs", [False, True])
def test_the_column_beside_a_drawing_holds_the_number_that_decides(discs):
    long = Note(name="d", value="116,600", unit="km", label="left", deciding=True, priority=0)
    page = plan(FRAMES["square"], LOOK, WORDS, [long], share=0.7, discs=discs, beside=True)
    its = [mark for mark in page.marks({"d": (200.0, 500.0)}) if isinstance(mark, Text) and "line" in mark.name]
    assert complaints(Scene(picture="p", frame=FRAMES["square"], background=LOOK.ground, marks=tuple(its))) == []
    assert page.drawing.width < 0.7 * FRAMES["square"].content.width
