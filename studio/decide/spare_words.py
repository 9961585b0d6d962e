"""The words of the spare topic."""

from studio.decide.carried import Carried, Refusal
from studio.decide.filled import pressure_doubt
from studio.decide.gauge import fine
from studio.decide.matching_limits import ALL_WHEELS
from studio.decide.spare_read import Beside, Part, Spare, worn_mm
from studio.decide.told import Told
from studio.decide.wording import day_words, on_paper, plain, signed, upper_first
from studio.model.finding import Step, summed
from studio.model.quantity import MINUS, Quantity, UnitName, depth, length
from studio.reference.rows import Rule
from studio.reference.tables import Tables

_ALWAYS = ("distance", "one_at_a_time", "rear_only")
_TURNS = {"rev/mi": "turns a mile", "rev/km": "turns a kilometer"}


def unread(part: Part) -> str:
    """The sentence on a spare whose marking is missing or is none."""
    text = part.marking
    return f"Spare: {plain(text)} is no tire marking." if text.strip() else "Spare has no marking entered yet."


def missing(its: Spare) -> tuple[str, ...]:
    """What keeps the spare from being judged in full."""
    part, found = its.part, []
    found += [] if part.filled else ["the spare's cold pressure"]
    found += [] if its.asked else ["the placard's pressure for the spare"]
    found += [] if its.beside else ["the size of the main tires, from placard or sidewall"]
    found += [] if its.temporary or (part.spare and part.spare.tread) else ["a depth reading of the spare"]
    found += [its.load.missing] if isinstance(its.load, Refusal) else []
    tied = part.drivetrain in ALL_WHEELS
    found += ["the final drive ratio"] if tied and part.final_drive is None and its.beside else []
    return tuple(found)


def sentence(its: Spare, told: tuple[Told, ...]) -> str:
    """The finding in plain speech: the gravest judgement that has a sentence, else how it turns and how fast it may."""
    if spoken := next((it for it in told if it.sentence), None):
        return spoken.sentence
    worst = its.worst
    if worst is None:
        return f"Spare is {its.size.marking.size}; the size of the main tires is not known."
    if abs(worst.change_percent) < 5e-4:
        return f"Spare is {its.size.marking.size} and turns as the others do."
    turning = f"its wheel turns {_share(abs(worst.turning_percent))} {'more' if worst.turning_percent > 0 else 'less'}"
    size = "smaller" if worst.change_percent < 0 else "larger"
    start = f"Spare is {_share(abs(worst.change_percent))} {size}: {turning}."
    return f"{start} {its.part.audience.own(its.at.speed)} at most, most handbooks say." if its.limit else start


def _share(percent: float) -> str:
    return Quantity(percent, "%").text()


def working(its: Spare, told: tuple[Told, ...], tables: Tables) -> tuple[str | Step, ...]:
    """The steps from the diameters to the driveline, from the pressure to the load, and each limit with whose it is."""
    spare_mm = its.worst.spare_mm if its.worst else its.size.overall_diameter.value
    diameter = _diameter(its.size.overall_diameter.value, worn_mm(its.part.spare), spare_mm)
    lines: list[str | Step] = [f"Spare, {its.size.marking.size}: {diameter}"]
    lines += [line for beside in its.beside for line in _beside_lines(beside)]
    if its.worst is not None:
        lines += _turn_lines(its, its.worst)
    lines += _fill_lines(its, tables)
    lines += [f"{upper_first(it.text)}: {it.verdict}" for it in told]
    return (*lines, *(f"{upper_first(rule.wording)} ({_whose(rule)})" for rule in rules(its, tables)))


def _whose(rule: Rule) -> str:
    standing = rule.source.standing
    return standing if standing == "common practice" else f"{rule.source.title}, {rule.source.locator}, {standing}"


def _beside_lines(beside: Beside) -> list[str | Step]:
    """A mate's diameter, worn as far as is known, and the spare's against it."""
    mate = _diameter(beside.size.overall_diameter.value, worn_mm(beside.mate.worn), beside.mate_mm)
    change = Quantity(beside.change_percent, "%")
    ratio = f"{on_paper(length(beside.spare_mm))} / {on_paper(length(beside.mate_mm))} {MINUS} 1"
    return [
        f"{upper_first(beside.mate.words)}, {beside.size.marking.size}: {mate}",
        summed("Diameter of the spare against it", f"{ratio} = {change.text()}", "compared"),
    ]


def _diameter(new_mm: float, gone_mm: float, now_mm: float) -> str:
    if gone_mm == 0:
        return f"{on_paper(length(new_mm))} as new (its wear is none or not known)"
    gone = on_paper(depth(gone_mm, "mm"))
    return f"{on_paper(length(new_mm))} new {MINUS} 2 × {gone} of wear = {on_paper(length(now_mm))}"


def _turn_lines(its: Spare, worst: Beside) -> list[str]:
    audience, words = its.part.audience, worst.mate.words
    turns, spare_turns = worst.turns(audience)
    rpm, spare_rpm = worst.rpm(its.at.kmh)
    count = Quantity(spare_turns.value - turns.value, turns.unit)
    lines = [
        f"Turning beside {words}: {on_paper(length(worst.mate_mm))} / {on_paper(length(worst.spare_mm))} {MINUS} 1 = "
        f"{signed(worst.turning_percent)} %, both taken to flatten alike",
        f"{on_paper(turns)} and {on_paper(spare_turns)}: {signed(count.value, 1)} {_TURNS[turns.unit]}",
        f"{its.at.working(audience)}: {rpm:.1f} and {spare_rpm:.1f} rpm, {signed(spare_rpm - rpm, 1)} rpm",
    ]
    if its.case_rpm is not None:
        lines.append(f"That axle as a whole is off by half of it from its own tires: {its.case_rpm:.1f} rpm")
    if its.shaft_rpm is not None and its.case_rpm is not None:
        drive = f"{its.part.final_drive:g}"
        lines.append(f"At the shaft, before the final drive: {its.case_rpm:.1f} × {drive} = {its.shaft_rpm:.1f} rpm")
    return lines


def _fill_lines(its: Spare, tables: Tables) -> list[str]:
    filled, lines = its.part.filled, []
    if filled is not None:
        doubt = on_paper(pressure_doubt(tables).half_width)
        lines.append(f"Spare read cold on {day_words(filled.on)}: {its.part.audience.both(filled.pressure)}, ±{doubt}")
    if its.asked_source is not None and its.asked is not None:
        lines.append(f"Assumed: filled to {its.part.audience.both(its.asked)}, as such spares are")
    if isinstance(its.load, Carried):
        lines += its.load.working()
    return [*lines, *([upper_first(its.load.why)] if isinstance(its.load, Refusal) else [])]


def rules(its: Spare, tables: Tables) -> tuple[Rule, ...]:
    """The limits of a temporary spare and whose they are, then what the driveline does with unequal wheels."""
    part = its.part
    found: list[Rule] = []
    if its.temporary:
        region = part.audience.region
        own = tables.rules_in(tables.spare, region) if region in tables.regions else ()
        found += [tables.spare[name] for name in ("speed_usual", "speed_highest_seen", "warning", *_ALWAYS)]
        found += [rule for rule in own if rule.region == region]
        found += [tables.spare["all_wheel_drive"]] if part.drivetrain in ALL_WHEELS else []
    if its.worst is not None:
        found += [tables.driveline[name] for name in ("open_differential", "locked_axle")]
    return tuple(found)


def would_change(its: Spare, told: tuple[Told, ...]) -> tuple[str, ...]:
    """The pressure to add, the tread that would match, and what another spare would do."""
    lines, filled, worst = [], its.part.filled, its.worst
    if filled is not None and its.asked is not None and filled.kpa < its.asked.to("kPa").value:
        more = Quantity(its.asked.to("kPa").value - filled.kpa, "kPa")
        end = ", and carry what it should" if any(it.about == "load" and it.verdict == "inspect" for it in told) else ""
        lines.append(f"With {its.part.audience.both(more)} more it would hold what is asked of it{end}.")
    if worst is not None and not its.temporary and its.alike and abs(worst.change_percent) >= 5e-4:
        apart = depth(abs(worst.mate_mm - worst.spare_mm) / 2, "mm")
        less = "less" if worst.spare_mm > worst.mate_mm else "more"
        lines.append(f"With {fine(apart, its.part.audience)} {less} tread it would turn as {worst.mate.words} does.")
    if worst is not None and its.temporary:
        full = f"A full-size spare marked {worst.size.marking.size}, worn alike,"
        lines.append(f"{full} would turn as {worst.mate.words} does.")
    return tuple(lines)


def detail(its: Spare) -> tuple[tuple[str, str], ...]:
    """Words that pictures put beside the figures."""
    worst = its.worst
    unit: UnitName = "rev/mi" if its.part.audience.units == "us" else "rev/km"
    pairs = {
        "kind": "temporary" if its.temporary else "full size", "marking": str(its.size.marking),
        "beside": worst.mate.words if worst else "", "beside_marking": str(worst.size.marking) if worst else "",
        "size": its.size.marking.size, "beside_size": worst.size.marking.size if worst else "",
        "speed_whose": "most handbooks; read the sidewall and the handbook" if its.limit else "",
        "turns_unit": _TURNS[unit],
    }  # fmt: skip
    return tuple((name, text) for name, text in pairs.items() if text)
