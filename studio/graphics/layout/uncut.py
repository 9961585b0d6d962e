"""A page whose notes are said whole: a note that would be cut is said in fewer words."""

from collections.abc import Callable

from studio.graphics.layout.notes import Note, badge_radius, rows
from studio.graphics.layout.page import Page

Notes = tuple[Note, ...]


def plan_uncut(planned: Callable[[Notes], Page], notes: Notes, shorter: Callable[[Note], Note]) -> Page:
    """The page planned for ``notes``; those cut on it go through ``shorter`` until none is, or none changes."""
    while True:
        page = planned(notes)
        indent = 2 * badge_radius(page.frame) + page.frame.grid if page.discs else 0.0
        cut = {note.name for note, box in page.placed if _is_cut(note, page, box.width - indent)}
        fewer = tuple(shorter(note) if note.name in cut else note for note in notes)
        if fewer == notes:
            return page
        notes = fewer


def _is_cut(note: Note, page: Page, widest: float) -> bool:
    return any(text.endswith("…") for row in rows(note, page.frame, widest) for text, *_ in row.parts)
