"""A page whose notes are said whole: only what would be cut is said in fewer words, and the search ends."""

import pytest
from msgspec.structs import replace

from studio.graphics.frame import FRAMES
from studio.graphics.layout.notes import Note
from studio.graphics.layout.page import Page, Words, plan
from studio.graphics.layout.uncut import plan_uncut
from studio.graphics.look import shipped_looks

LOOK = shipped_looks()["chalk"]
LONG = "; ".join(["a cause that takes many words to say"] * 6)
NOTES = (Note(name="long", value="Causes", label=LONG), Note(name="short", value="Check", label="the pressure"))


def fewer(note: Note) -> Note:
    return replace(note, label=note.label.rpartition("; ")[0] or note.label)


def page(shape: str, notes: tuple[Note, ...] = NOTES, discs: bool = False) -> Page:
    frame, words = FRAMES[shape], Words(sentence="A sentence")
    return plan_uncut(lambda these: plan(frame, LOOK, words, these, discs=discs), notes, fewer)


@pytest.mark.parametrize("shape", FRAMES)
@pytest.mark.parametrize("discs", [False, True])
def test_a_list_loses_its_last_parts_until_it_fits_and_other_notes_stay(shape, discs):
    its = page(shape, discs=discs)
    said = {note.name: note.label for note, _ in its.placed}
    assert LONG.startswith(said["long"]) and said["long"] != LONG and said["short"] == "the pressure"
    assert not any("…" in text.text for text in its.marks({}) if hasattr(text, "text"))


def test_what_cannot_be_shortened_is_left_as_it_is():
    one = (Note(name="one", value="", label="word " * 60),)
    assert page("wide", one).placed[0][0] == one[0]
