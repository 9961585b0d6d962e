"""Keep, or buy one, two or four? What each choice does to the match, what it costs, and when the next purchase comes.

Every choice is worked out and none is ranked: which number counts most is the presenter's to say.
"""

from collections.abc import Iterator

from msgspec.structs import replace

from studio.decide import choices_change, choices_words, rotation
from studio.decide.audience import unique_sources
from studio.decide.car_log import car_log
from studio.decide.choices_after import best_after
from studio.decide.choices_cost import cost
from studio.decide.choices_figures import figures
from studio.decide.choices_options import changes
from studio.decide.choices_read import KINDS, Part, Stand, stands
from studio.decide.choices_told import Choice, told
from studio.decide.pace import pace
from studio.decide.place_wear import grounds
from studio.decide.rotation_plan_read import DUAL
from studio.decide.rotation_read import traits
from studio.decide.ruled_out import ruled_out
from studio.decide.subjects import tires
from studio.decide.wording import upper_first
from studio.model.caution import Caution
from studio.model.episode import Episode
from studio.model.finding import Finding, as_steps
from studio.model.places import CORNERS, place_words
from studio.model.source import Source
from studio.reference.tables import Tables

TOPIC = "choices"


def parts(episode: Episode, tables: Tables) -> Iterator[Part]:
    """One part for each choice; one alone where none can be worked out; none until a tire stands at each corner."""
    for its in rotation.parts(episode, tables):
        standing = {tire.subject.name: tire for tire in tires(episode)}
        unread = [place_words(w.subject.name) for w in its.corners if w.tread is None]
        missing = f"a depth reading, {unread[0]}" if unread else ""
        missing = "a region whose rules are known" if its.audience.region not in tables.regions else missing
        missing = DUAL if episode.car.dual_rear_wheels else missing
        keep = Part(
            kind=KINDS[0], audience=its.audience, corners=its.corners, traits=traits(its, tables), missing=missing,
            out=tuple(ruled_out(standing[place], episode, tables) for place in CORNERS),
            drivetrain=its.drivetrain, tolerance=episode.car.tolerance, prices=episode.prices,
            grounds=grounds(episode, tables), pace=pace(episode, car_log(episode, tables), tables),
        )  # fmt: skip
        yield from (replace(keep, kind=kind) for kind in (KINDS[:1] if missing else KINDS))


def conclude(part: Part, tables: Tables) -> Finding:
    """The finding on one choice."""
    its = read_part(part, tables)
    return _unknown(part, its, tables) if isinstance(its, str) else _finding(its, tables)


def read_part(part: Part, tables: Tables) -> Choice | str:
    """The choice worked out; or in words what keeps it from being."""
    every = None if part.missing else stands(part, tables)
    if every is None:
        return part.missing or "a legal minimum for the region"
    used = part.prices.used_tire_depth
    found = changes(part, every, new_mm(every), used.to("mm").value if used else None)
    if not found:
        return "the depth of the used tires" if part.kind == "used_pair" else "the depth when new of the tires"
    after = best_after(part, every, found, tables)
    against = told(part, every, after, tables)
    return Choice(part=part, every=every, after=after, cost=cost(part, after, tables), told=against)


def new_mm(every: tuple[Stand, ...]) -> float | None:
    """The depth when new of what would be bought: that of the tire to go first, else the deepest known on the car."""
    first = max(every, key=lambda stand: stand.urgency)
    known = [stand.new_mm for stand in every if stand.new_mm is not None]
    return first.new_mm or max(known, default=None)


def _unknown(part: Part, missing: str, tables: Tables) -> Finding:
    rule = tables.matching["one_tire"]
    alone = f"{upper_first(choices_words.LABELS[part.kind])}: {missing} is not entered yet."
    sentence = choices_words.unknown(missing) if part.missing else alone
    return Finding(
        id=f"{TOPIC}.{part.kind}", topic=TOPIC, subject=part.kind, verdict="unknown", sentence=sentence,
        missing=(missing,), steps=as_steps((f"Needed: {missing}",)), inputs=tuple(w.subject.path for w in part.corners),
        sources=(rule.source,), warning=tables.cautions["mixing"],
    )  # fmt: skip


def _finding(its: Choice, tables: Tables) -> Finding:
    part, total = its.part, its.cost.bill.total
    return Finding(
        id=f"{TOPIC}.{part.kind}", topic=TOPIC, subject=part.kind, sentence=choices_words.sentence(its),
        verdict=its.verdict, value=total, unit="money" if total is not None else None,
        steps=as_steps(choices_words.working(its, tables)), inputs=_inputs(its), sources=_sources(its, tables),
        warning=_caution(its, tables), would_change=choices_change.texts(its, new_mm(its.every)),
        missing=choices_words.missing(its), figures=figures(its), detail=choices_words.detail(its),
    )  # fmt: skip


def _inputs(its: Choice) -> tuple[str, ...]:
    part, prices = its.part, its.part.prices
    paths = [f"{worn.tread.path}.depths" for worn in part.corners if worn.tread]
    paths += [f"{worn.subject.path}.depth_new" for worn in part.corners if worn.depth_new]
    paths += [out.path for out in part.out if out]
    paths += [f"prices.{name}" for name, value in its.cost.bill.parts if value is not None]
    paths += ["prices.currency"] if its.cost.bill.count else []
    paths += ["prices.used_tire_depth"] if part.kind == "used_pair" and prices.used_tire_depth else []
    paths += ["car.tolerance.limit"] if part.tolerance else []
    paths += ["car.drivetrain"] if part.drivetrain else []
    paths += list(part.grounds.paths) if its.cost.wear else []
    paths += [part.pace.path] if part.pace and part.pace.path and its.cost.next else []
    return (*dict.fromkeys(paths), "region")


def _sources(its: Choice, tables: Tables) -> tuple[Source, ...]:
    law = tables.legal_minimum(its.part.audience.region)
    held = (held.limit.source for match in its.after.matches for held in match.held)
    unlike = (rule.source for match in its.after.matches for rule in match.unlike.rules)
    rules = {"shaved": "shaving", "one": "one_tire"}.get(its.part.kind, "deeper_to_rear")
    out = (stand.out.source for stand in its.every if stand.out)
    return unique_sources(*out, *((law.source,) if law else ()), *unlike, *held, tables.matching[rules].source)


def _caution(its: Choice, tables: Tables) -> Caution:
    """The caution of what is gravest: damage, age, a worn tire, a used one, else unequal tires."""
    staying = {tire.origin for tire in its.after.placed}
    kept = [stand for stand in its.every if stand.name in staying]
    outs = {stand.out.verdict for stand in kept if stand.out}
    if outs:
        return tables.cautions["damage" if "inspect" in outs else "over_age"]
    if any(stand.must_go for stand in kept):
        return tables.cautions["worn_tire"]
    return tables.cautions["over_age" if its.part.kind == "used_pair" else "mixing"]
