"""What the user does with the segments: each edit is one step of undo, and shows what it changed."""

from typing import TYPE_CHECKING

from PySide6.QtCore import QObject

from studio.model.episode import Episode
from studio.model.rundown import Segment
from studio.script.template_texts import TEMPLATES
from studio.script.templates import plan
from studio.window.rundown_edit import (
    duplicate_segment,
    insert_segments,
    move_segment,
    new_segment,
    remove_segment,
)
from studio.window.rundown_list import WHOLE
from studio.window.rundown_say import say

if TYPE_CHECKING:
    from studio.window.rundown_place import RundownPlace


class RundownCommands(QObject):
    """Carries out what the rundown's menu, keys and buttons ask for."""

    def __init__(self, place: "RundownPlace") -> None:
        super().__init__(place)
        self._place, self._document = place, place.document

    @property
    def _number(self) -> int:
        return self._place.list.current_number()

    @property
    def _segments(self) -> tuple[Segment, ...]:
        return self._document.episode.rundown.segments

    @property
    def _at_hand(self) -> bool:
        return 0 <= self._number < len(self._segments)

    def add_segment(self) -> None:
        """Add an empty segment after the one at hand, ready to be named."""
        self._place.offer_templates(False)
        episode = self._document.episode
        at = self._number + 1 if self._number != WHOLE else len(self._segments)
        self._edit("Add a segment", insert_segments(episode, at, (new_segment(episode.rundown),)), at)
        self._place.sheet.rename()

    def begin_with(self, template: str) -> None:
        """Add the segments of a template at the end."""
        self._place.offer_templates(False)
        episode = self._document.episode
        chosen = next((its for its in TEMPLATES if its.id == template), None)
        if chosen is None:
            return
        at, taken = len(self._segments), [segment.id for segment in episode.rundown.segments]
        made = plan(chosen, self._document.findings, taken).segments
        if made:
            self._edit(f"Begin with {chosen.name}", insert_segments(episode, at, made), at)
            self._place.list.setFocus()

    def choose_template(self) -> None:
        """Offer the templates, though there are segments already."""
        self._place.offer_templates(True)
        self._place.start.take_focus()

    def leave_templates(self) -> None:
        """Back to the segments."""
        self._place.offer_templates(False)
        self._place.list.setFocus()

    def rename(self) -> None:
        """Be ready to type another title."""
        if self._at_hand:
            self._place.sheet.rename()

    def duplicate(self) -> None:
        """The segment at hand once more after it."""
        if self._at_hand:
            at = self._number
            self._edit("Duplicate a segment", duplicate_segment(self._document.episode, at), at + 1)

    def delete(self) -> None:
        """Take the segment at hand out."""
        if self._at_hand:
            at = self._number
            count = len(self._segments)
            self._edit("Delete a segment", remove_segment(self._document.episode, at), min(at, count - 2))

    def move_up(self) -> None:
        """The segment at hand one place earlier."""
        self.move(self._number, self._number - 1)

    def move_down(self) -> None:
        """The segment at hand one place later."""
        self.move(self._number, self._number + 1)

    def say_finding(self, id_: str) -> None:
        """Take a finding in as a talking point at the end of the segment at hand."""
        finding = self._document.findings.get(id_)
        if finding is None:
            return
        after, segment, point = say(self._document.episode, finding, self._number)
        self._edit("Say a finding", after, segment)
        self._place.sheet.go_to_point(point)

    def open_prompt(self) -> None:
        """Open the prompting view at the segment at hand."""
        place = self._place
        place.whole.prompt.list_screens()
        review = place.reviewer.review if place.reviewer.is_current else None
        timing = review.timing if review is not None else None
        if not place.desk.open(place.whole.prompt.choice(), self._number, timing):
            place.say("There is nothing to prompt yet: write a talking point first")

    def put_number_in(self) -> None:
        """Ask for a live number at the cursor."""
        if self._at_hand:
            self._place.sheet.asking.ask()

    def next_form(self) -> None:
        """The number at the cursor in its next form."""
        self._place.sheet.asking.turn_form(1)

    def form_before(self) -> None:
        """The number at the cursor in the form before."""
        self._place.sheet.asking.turn_form(-1)

    def move(self, number: int, to: int) -> None:
        """A segment to another place."""
        count = len(self._segments)
        if 0 <= to < count and 0 <= number < count and to != number:
            self._edit("Move a segment", move_segment(self._document.episode, number, to), to)

    def drop(self, number: int, gap: int) -> None:
        """A segment was dropped before the one at ``gap``."""
        self.move(number, gap - (gap > number))

    def _edit(self, text: str, after: Episode, segment: int) -> None:
        self._document.edit(text, after)
        self._place.show_edited(segment)
