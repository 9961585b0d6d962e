"""Size codes as said: in use on this car or in a comparison, or not; another one than that of the tire named."""

import re

from studio.script.ground import Ground, plain_size
from studio.script.said import Said
from studio.script.verdict import Around, Judged, subjects_of

_COMPARED = re.compile(r"\b(?:than|instead of|against|versus|vs\.?|not|from|to|replaces?|like|rather)\b", re.IGNORECASE)


def judge_size(said: Said, around: Around, ground: Ground) -> Judged:
    """A size code: in use on this car or in its comparison, or not; another one than that of the tire named."""
    size = plain_size(said.text)
    subjects, sure = subjects_of(around)
    before = around.text[: around.at[0]]
    sure = sure and not _COMPARED.search(before) and not re.search(r"\d{2}/\d{2}", before)
    if size in ground.sizes:
        mine = {its: subs for its, subs in ground.sizes.items() if subs & subjects}
        if not (sure and around.spoken and mine) or size in mine or len(around.spoken.all) > len(subjects):
            return Judged(state="computed", source="size", expected=size)
        what = sorted(mine)[0]
        return Judged(state="contradicted", expected=what, source="size", why=f"it is marked {what}")
    near = [its for its in ground.sizes if its.removeprefix("P").removeprefix("LT") == size.removeprefix("P")]
    if near:
        return Judged(state="computed", source="size", expected=near[0])
    mine = {its: subs for its, subs in ground.sizes.items() if subs & subjects}
    if sure and around.spoken and mine and re.search(r"\b(?:is|are|says|reads|wears?|marked)\b", around.text):
        what = sorted(mine)[0]
        return Judged(state="contradicted", expected=what, source="size", why=f"it is marked {what}")
    return Judged(state="unbacked", why="no tire of this episode has that size")
