"""The grooves of a tread by their place: what is said of the inner edge is not held against a groove in the middle."""

import re
from collections.abc import Sequence

from studio.script.ground import Ground
from studio.script.known import Known
from studio.script.verdict import Around

_PLACES = {
    "inner": re.compile(r"\b(?:inner|inside)\b", re.IGNORECASE),
    "outer": re.compile(r"\b(?:outer|outside)\b", re.IGNORECASE),
    "center": re.compile(r"\b(?:cent(?:er|re)|middle)\b", re.IGNORECASE),
}
_LOWEST = re.compile(r"\b(?:down to|lowest|least|thinnest|shallowest|worst|comes to)\b", re.IGNORECASE)
_ALIKE = 0.3  # mm that one groove may differ along its way round (custom of measuring by hand, no source)
_GROOVES = ("groove_", "level_")


def at_its_place(members: Sequence[Known], around: Around, ground: Ground) -> list[Known]:
    """Those of ``members`` that can be meant: grooves near the level at the one place named, all where none is."""
    named = [place for place, words in _PLACES.items() if words.search(around.text)]
    lowest = bool(_LOWEST.search(around.text))
    if len(named) != 1 and not lowest:
        return list(members)
    return [its for its in members if not its.name.startswith((*_GROOVES, *_PLACES)) or _there(its, named, ground)]


def _there(known: Known, named: Sequence[str], ground: Ground) -> bool:
    if len(named) != 1:
        return False
    levels = [
        its for its in ground.by_aspect.get("groove", ()) if its.name == named[0] and its.subjects == known.subjects
    ]
    mine = known.in_unit("mm")
    return not levels or any(abs((its.in_unit("mm") or 0.0) - (mine or 0.0)) <= _ALIKE for its in levels)
