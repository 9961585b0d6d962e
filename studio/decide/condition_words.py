"""The words of the condition topic."""

from studio.decide.condition_read import TO_THE_CORD, Condition, Item
from studio.decide.repair import Check, State, crown_shares, section_width_mm
from studio.decide.wording import day_words, on_paper, plain, upper_first
from studio.model.finding import Step, summed
from studio.model.quantity import Quantity, length
from studio.reference.tables import Tables

LONGEST_NOTE = 160
_STATES: dict[State, str] = {
    "met": "rule kept", "broken": "rule broken", "unsure": "not for us to call", "open": "not known",
}  # fmt: skip
_MISSING = {
    "crown_only": "where the hole is, from the tread's center line",
    "hole_most": "how wide the hole is",
    "not_run_flat": "whether it was driven flat",
}  # fmt: skip


def size_words(its: Condition, item: Item) -> str:
    """``0.20 in (5 mm)``; empty where no size was recorded."""
    size = size_of(item)
    return its.part.audience.both(size) if size else ""


def size_of(item: Item) -> Quantity | None:
    """The recorded size as a length, as it was entered."""
    size = item.seen.damage.size
    return length(size.value, size.unit) if size else None


def sentence(its: Condition) -> str:
    """The finding in plain speech."""
    title, item = its.part.subject.title, its.deciding
    if item.kind.kind == "puncture":
        return _puncture(its, item)
    if item.verdict == "replace":
        return f"{title} shows {item.words}. Do not drive on it: replace it."
    return f"{title} shows {item.words}, seen on {day_words(item.seen.on)}. Have it looked at."


def _undated(its: Condition) -> str:
    """The sentence for whoever sees the damage now; empty where no day stands in it anyway."""
    item = its.deciding
    dated = item.kind.kind != "puncture" and item.verdict != "replace"
    return f"{its.part.subject.title} shows {item.words}. Have it looked at." if dated else ""


def _puncture(its: Condition, item: Item) -> str:
    title, size = its.part.subject.title, size_words(its, item)
    if item.broken:
        why = item.broken[0].why
        wide = size and item.broken[0].id == "hole_most"
        return f"{title} is not repairable: {f'{why}, {size}' if wide else why}. Replace it."
    if item.seen.damage.zone == "unknown" or not size:
        return f"{title} is punctured: where and how wide decides about a repair. Have it looked at."
    return f"{title} is punctured {item.seen.place}, {size}: perhaps repairable. Have it looked at."


def working(its: Condition, tables: Tables) -> tuple[str | Step, ...]:
    """What was seen, what it means, what must not be done, who must look; for a hole each rule of repair."""
    ordered = (its.deciding, *(item for item in its.items if item is not its.deciding))
    return tuple(line for item in ordered for line in _lines(its, item, tables))


def _lines(its: Condition, item: Item, tables: Tables) -> list[str | Step]:
    size, note = size_words(its, item), plain(item.seen.damage.note, LONGEST_NOTE)
    seen = f"Seen on {day_words(item.seen.on)}: {item.words}{f', {size}' if size else ''}"
    return [
        Step(f"{seen}; noted: “{note}”" if note else seen, "seen"),
        f"What it means: {item.kind.meaning}",
        *(f"Rules a tire out, by {row.source.title}: {row.wording}" for row in item.rules),
        *_cut_lines(its, item),
        *(_check_line(check, its, tables) for check in item.checks),
        *(_repair_lines(its, tables) if item.checks else []),
        f"What not to do: {item.kind.avoid}",
        f"Who must look: {item.kind.look}",
    ]  # fmt: skip


def _check_line(check: Check, its: Condition, tables: Tables) -> str | Step:
    rule = tables.repair[check.id]
    line = f"{upper_first(check.why)}: {_STATES[check.state]} ({rule.wording}; {check.source.standing})"
    half = its.crown_half
    if check.id != "crown_only" or half is None:
        return line
    width = section_width_mm(its.marking) or 0.0
    share = crown_shares(tables).share(width)
    sum_ = f"{share:g} × {on_paper(length(width))} / 2 = {on_paper(half)}"
    return summed(f"{line}. Crown", f"{sum_} to either side of the center line")


def _repair_lines(its: Condition, tables: Tables) -> list[str]:
    """How a repair is done and what it leaves, where one is possible; what is left to ask for where none is."""
    region = its.part.audience.region
    rules = tables.rules_in(tables.repair, region) if region in tables.regions else tuple(tables.repair.values())
    if its.deciding.broken:
        wanted: tuple[str, ...] = ("major_repair",) if its.deciding.broken[0].id == "crown_only" else ()
    else:
        wanted = ("off_rim", "plug_temporary", "speed_after", "boots_fail")
    chosen = [next((rule for rule in rules if rule.id.startswith(name)), None) for name in wanted]
    return [f"{upper_first(rule.wording)} ({rule.source.title})" for rule in chosen if rule]


def _cut_lines(its: Condition, item: Item) -> list[str]:
    size = size_of(item)
    if item.kind.kind != "cut" or its.longest_cut is None or size is None:
        return []
    most = its.longest_cut
    over = size.to("mm").value > most.value
    how = "longer" if over else "not longer"
    return [
        f"Its length {on_paper(size.to('mm'))} is {how} than {on_paper(most)}; where it reaches the cord as well, "
        f"{'the law rules the tire out' if over else 'it still has to be looked at'}"
    ]


def missing(its: Condition) -> tuple[str, ...]:
    """What was not recorded and would decide."""
    item = its.deciding
    found = [] if item.broken else [_MISSING[c.id] for c in item.checks if c.state == "open" and c.id in _MISSING]
    if any(check.why == "its tread was not read" for check in item.checks) and not item.broken:
        found.append("a depth reading")
    if item.checks and not item.broken:
        found.append("whether it was repaired since, from inside")
    if item.kind.kind in TO_THE_CORD:
        found.append("whether cord shows when its edges are parted")
    return tuple(found)


def detail(its: Condition) -> tuple[tuple[str, str], ...]:
    """Words that pictures put beside the figures."""
    item = its.deciding
    pairs = {
        "damage": item.words, "damage_bare": item.words.removeprefix("a "),
        "kind": item.kind.kind, "zone": item.seen.damage.zone,
        "seen_on": day_words(item.seen.on), "meaning": item.kind.meaning, "avoid": item.kind.avoid,
        "brief_meaning": item.broken[0].why if item.broken else item.kind.brief_meaning,
        "first_avoid": item.kind.avoid.partition(";")[0],
        "look": item.kind.look, "undated": _undated(its), "why": item.broken[0].why if item.broken else "",
        "repairable": "" if not item.checks else "no" if item.broken else "perhaps",
        "also": "; ".join(other.words for other in its.items if other is not item),
    }  # fmt: skip
    return tuple((name, text) for name, text in pairs.items() if text)
