"""What can be done about a remark of the number check: go to it, set it aside, make its number live."""

from typing import TYPE_CHECKING

from PySide6.QtCore import QObject

from studio.window.rundown_edit import set_aside, take_up_again
from studio.window.rundown_list import WHOLE
from studio.window.rundown_live import live_for
from studio.window.rundown_remarks import RemarkRow

if TYPE_CHECKING:
    from studio.window.rundown_place import RundownPlace


class RemarkDesk(QObject):
    """Wired to what stands at the right of the rundown."""

    def __init__(self, place: "RundownPlace") -> None:
        super().__init__(place)
        self._place, self._document = place, place.document
        place.backing.jump.connect(self.jump)
        place.backing.aside.connect(self.set_aside)
        place.backing.live.connect(self.make_live)

    def jump(self, row: RemarkRow | None) -> None:
        """Show it in the text, or where what is owed is entered."""
        if row is None:
            return
        ids = [segment.id for segment in self._document.episode.rundown.segments]
        self._place.list.choose(ids.index(row.remark.segment) if row.remark.segment in ids else WHOLE)
        point = getattr(row.remark, "point", None)
        if row.kind == "duty":
            self._to_what_is_owed(row)
        elif point is not None and point >= -1:
            self._place.sheet.go_to_point(point, getattr(row.remark, "start", 0), getattr(row.remark, "end", 0))
        else:
            self._place.list.choose(WHOLE)
            self._place.whole.lead_to("rundown.paid_ties")

    def _to_what_is_owed(self, row: RemarkRow) -> None:
        if str(getattr(row.remark, "kind", "")).startswith("tie"):
            self._place.list.choose(WHOLE)
            self._place.whole.lead_to("rundown.paid_ties")
        else:
            self._place.sheet.parts.lead_to_work()

    def set_aside(self, row: RemarkRow, reason: str) -> None:
        """Let it stand for this reason; without one, let it count again."""
        episode, segment, text = self._document.episode, row.remark.segment, row.remark_text
        if reason:
            self._document.edit("Set a mark aside", set_aside(episode, segment, text, reason))
        else:
            self._document.edit("Take a mark up again", take_up_again(episode, segment, text))

    def make_live(self, row: RemarkRow | None) -> None:
        """Put the live number in the place of the typed one."""
        finding = self._document.findings.get(row.finding) if row is not None else None
        if row is None or finding is None or not (source := live_for(row, finding)):
            return
        self.jump(row)
        point = getattr(row.remark, "point", -1)
        if point >= 0:
            self._place.sheet.editor.put_in(source)
