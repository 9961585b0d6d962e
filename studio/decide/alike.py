"""Whether tires that should be alike are alike in what the sidewall and the tread show."""

import msgspec

from studio.decide.markings import read
from studio.decide.matching_tires import Worn
from studio.decide.sizes import same_size
from studio.decide.wording import joined
from studio.model.finding import Verdict
from studio.reference.rows import MatchingRule
from studio.reference.tables import Tables

GRAVE = ("size", "construction", "season", "tread pattern")
"""Unlike in these, tires of one axle must be looked at; unlike in load index or speed symbol, they are one to watch."""


class Unlike(msgspec.Struct, frozen=True, kw_only=True):
    """In what the tires differ (nothing: they are alike), and the rules that ask for alike ones."""

    fields: tuple[str, ...]
    rules: tuple[MatchingRule, ...]

    @property
    def verdict(self) -> Verdict:
        """The verdict on the differences alone."""
        if not self.fields:
            return "keep"
        return "inspect" if set(self.fields) & set(GRAVE) else "watch"

    @property
    def words(self) -> str:
        """``size and season``."""
        return joined(self.fields)

    @property
    def brief(self) -> str:
        """The same, short enough for a sentence: ``size, season and more``."""
        return self.words if len(self.fields) <= 2 else joined([*self.fields[:2], "more"])


def unlike(tires: tuple[Worn, ...], region: str, tables: Tables) -> Unlike:
    """Compare what is known of the tires; a marking that cannot be read differs from none."""
    markings = [marking for tire in tires if (marking := read(tire.marking))]
    seen: dict[str, set[object]] = {
        "construction": {(m.construction, m.run_flat) for m in markings},
        "season": {tire.season for tire in tires},
        "tread pattern": {tire.pattern for tire in tires},
        "load index": {m.load_index for m in markings if m.load_index is not None},
        "speed symbol": {m.speed_symbol for m in markings if m.speed_symbol is not None},
    }
    size = ["size"] if any(not same_size(markings[0], marking) for marking in markings[1:]) else []
    fields = (*size, *(name for name, values in seen.items() if len(values) > 1))
    known = region in tables.regions
    rules = tuple(row for row in tables.matching_rules(region) if row.measure == "same") if known and fields else ()
    return Unlike(fields=fields, rules=rules)
