"""What speaks against a choice: a tire that may not stay on, or tires that would not match."""

from collections.abc import Iterator

import msgspec

from studio.decide import matching_words
from studio.decide.choices_after import After, match_verdict
from studio.decide.choices_cost import Cost
from studio.decide.choices_read import Part, Stand
from studio.decide.matching_limits import Held
from studio.decide.matching_read import Match
from studio.decide.tire_marks import marks_of
from studio.decide.told import Told, gravest_first
from studio.decide.tread_limits import Mark, judge
from studio.decide.wording import upper_first
from studio.model.finding import SEVERITY, Verdict
from studio.model.quantity import depth
from studio.reference.tables import Tables

_GROUPS = {"front_axle": "front pair", "rear_axle": "rear pair", "set": "set"}


class Choice(msgspec.Struct, frozen=True, kw_only=True):
    """One choice, worked out. ``told`` is what speaks against it, the gravest first."""

    part: Part
    every: tuple[Stand, ...]
    after: After
    cost: Cost
    told: tuple[Told, ...]

    @property
    def state(self) -> Verdict:
        """The verdict on the car's tires as they would be after the choice."""
        return max((it.verdict for it in self.told), default="keep", key=SEVERITY.index)

    @property
    def ruled_out(self) -> bool:
        """Whether law, maker, damage or age speak against it, or the tires should be looked at first."""
        return SEVERITY.index(self.state) >= SEVERITY.index("inspect")

    @property
    def verdict(self) -> Verdict | None:
        """The state of the tires as they are; what only might be done has none, and is unknown without its price."""
        if self.part.kind == "keep":
            return self.state
        return "unknown" if self.cost.bill.missing and not self.ruled_out else None


def told(part: Part, every: tuple[Stand, ...], after: After, tables: Tables) -> tuple[Told, ...]:
    """What speaks against a choice, the gravest first."""
    staying = {tire.origin for tire in after.placed}
    kept = [stand for stand in every if stand.name in staying]
    found = [it for stand in kept for it in _tire(part, stand)]
    found += [it for match in after.matches for it in _match(match)]
    return gravest_first((*found, *_bought(part, after, tables)))


def _tire(part: Part, stand: Stand) -> Iterator[Told]:
    """What speaks against leaving one tire on."""
    words, own = stand.worn.subject.words, part.audience.own
    if stand.out is not None:
        yield Told(about=stand.name, verdict=stand.out.verdict, sentence=f"{words} {stand.out.words}",
                   text=f"{upper_first(words)} {stand.out.words}", brief=f"{words} {stand.out.words}")  # fmt: skip
    tread = stand.worn.tread
    if tread is None or stand.judged.verdict == "keep":
        return
    here, under = own(tread.depth(tread.lowest.value)), stand.judged.under
    says = {
        "replace": f"at {here} is at or under the legal minimum",
        "inspect": f"at {here} is too close to the legal minimum to call",
        "watch": f"at {here} does not clear {under.words} of {own(under.depth)}" if under else "",
    }[stand.judged.verdict]
    legal = own(depth(stand.limit_mm, "mm"))
    brief = {
        "replace": f"{words} {here}, legal minimum {legal}",
        "inspect": f"{words} {here}, near legal {legal}",
        "watch": f"{words} {here}, {_bare(under)} {own(under.depth)}" if under else "",
    }[stand.judged.verdict]
    yield Told(about=stand.name, verdict=stand.judged.verdict, sentence=f"{words} {says}", brief=brief,
               text=f"{upper_first(words)} {says}", close=stand.judged.close)  # fmt: skip


def _bare(mark: Mark) -> str:
    return mark.words.removeprefix("the ")


def _bought(part: Part, after: After, tables: Tables) -> Iterator[Told]:
    """What speaks against the tread of what would be bought or shaved."""
    change = after.change
    fresh = next((tire for tire in after.placed if not tire.origin or tire.origin == _shaved(after)), None)
    marks = marks_of(fresh.worn.marking, fresh.worn.season, part.audience.region, tables) if fresh else None
    if fresh is None or marks is None:
        return
    its = judge(fresh.lowest_mm, 0.0, marks)
    if its.verdict == "keep":
        return
    name = f"{change.bought} tread" if change.bought else "the shaved tread"
    here = part.audience.own(depth(fresh.lowest_mm, "mm"))
    says = f"{name} of {here} is at or under the legal minimum"
    if its.under is not None:
        says = f"{name} of {here} does not clear {its.under.words} of {part.audience.own(its.under.depth)}"
    mark = its.under or marks.legal
    brief = f"{name} {here}, {_bare(mark) if its.under else 'legal minimum'} {part.audience.own(mark.depth)}"
    yield Told(about="bought", verdict=its.verdict, sentence=says, text=upper_first(says), brief=brief)


def _shaved(after: After) -> str:
    return after.change.shaved.name if after.change.shaved else ""


def _match(match: Match) -> Iterator[Told]:
    """What speaks against how an axle or the set would match."""
    verdict, group = match_verdict(match), _GROUPS[match.part.name]
    if verdict == "keep":
        return
    if match.unlike.fields and SEVERITY.index(match.unlike.verdict) >= SEVERITY.index(verdict):
        says = f"{group} unlike in {match.unlike.brief}"
        yield Told(about=match.part.name, verdict=verdict, sentence=says, text=upper_first(says), brief=says)
        return
    held = match.binding
    assert held is not None, "a verdict without unlike tires comes from a limit"
    form = dict(matching_words.detail(match))["tolerance_form"]
    apart, limit = match.part.audience.own(held.actual_quantity), match.part.audience.own(held.limit.limit)
    says = f"{group} {apart} {form} apart"
    end = f"over {held.limit.whose} {limit}" if held.over else f"too near {held.limit.whose} {limit} to call"
    if held.limit.level in ("note", "act"):
        end = f"{limit} is where shops {'take note' if verdict == 'watch' else 'act'}"
    yield Told(about=match.part.name, verdict=verdict, sentence=f"{says}, {end}", text=upper_first(f"{says}, {end}"),
               close=held.close, brief=f"{group} {apart} apart, {_brief_end(held, limit)}")  # fmt: skip


def _brief_end(held: Held, limit: str) -> str:
    """Whose limit an axle or the set is held against, in a few words."""
    if held.limit.level in ("note", "act"):
        return f"shops {'take note' if held.limit.level == 'note' else 'act'} at {limit}"
    whose = held.limit.whose.removeprefix("the ")
    return f"{whose} {limit}" if held.over else f"near {whose} {limit}"
