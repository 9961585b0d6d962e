"""The words of the rotation topic."""

from studio.decide.rotation_read import WORDS, Rotation, briefly, choices, permitted, reasons
from studio.decide.wording import joined, on_paper, upper_first
from studio.model.places import place_words
from studio.model.quantity import MINUS, Quantity
from studio.reference.tables import Tables
from studio.tires.rotation import PATTERNS

_TRAITS = {
    "directional": "a rolling direction", "asymmetric_directional": "left and right versions", "studded": "studs",
    "staggered": "different sizes front and rear", "different_wheels": "wheels of different widths",
}  # fmt: skip
_SPARES = ("no_spare", "temporary_spare", "other_spare")


def sentence(its: Rotation) -> str:
    """The finding in plain speech."""
    part, both = its.part, its.part.audience.both
    if part.held:
        return f"Don't rotate yet: {part.held[0].reason}"
    if not its.next:
        return "These tires stay where they are: no pattern suits them without remounting."
    if part.drivetrain is None:
        return "Which rotation is right depends on the drivetrain, which is not entered yet."
    pattern = WORDS[its.next]
    if its.far_apart and its.apart is not None and not its.overdue:
        return f"Rotate now by {pattern}: front and rear are {both(its.apart)} apart."
    if its.due.left is None or its.due.since is None:
        return f"Next would be {pattern}; when is not known without odometer readings."
    if its.overdue:
        return f"Rotate now by {pattern}: {both(_whole(its.due.since))} since {part.since_event}."
    return f"No rotation for another {both(_whole(its.due.left))}; then {pattern}."


def _whole(quantity: Quantity) -> Quantity:
    return Quantity(max(0.0, quantity.value), quantity.unit)


def working(its: Rotation) -> tuple[str, ...]:
    """The steps to the pattern and to the time."""
    part = its.part
    lines = [f"Bars a rotation: {it.reason}" for it in part.held]
    lines.append(f"Permitted, best first: {joined([WORDS[id_] for id_ in permitted(its.choices)]) or 'none'}")
    lines += [f"Out, {WORDS[id_]}: {why}" for id_, why in reasons(part, its.choices).items()]
    lines += [f"Next: {place_words(here)} to {place_words(there)}" for here, there in moves(its)]
    if part.now and part.since and its.due.since and its.due.left:
        now, since = (m.odometer.to(its.due.interval.unit) for m in (part.now, part.since))
        lines.append(f"Since {part.since_words}: {on_paper(now)} {MINUS} {on_paper(since)} = {on_paper(its.due.since)}")
        left = Quantity(abs(its.due.left.value), its.due.left.unit)
        lines.append(
            f"{upper_first(its.due.label)} {on_paper(its.due.interval)}: {on_paper(left)} "
            f"{'left' if its.due.left.value > 0 else 'over'}"
        )
        if not part.rotated:
            lines.append("The car's odometer counts: what it ran on other tires in between is in it")
    if its.apart is not None:
        both = part.audience.both
        lines.append(f"Front mean against rear mean: {both(its.apart)}; sooner from {both(its.apart_from)} on")
    return tuple(lines)


def moves(its: Rotation) -> tuple[tuple[str, str], ...]:
    """Where each wheel goes next: (from, to)."""
    return tuple(PATTERNS[its.next].moves.items()) if its.next else ()


def missing(its: Rotation) -> tuple[str, ...]:
    """What keeps the answer open."""
    drive = () if its.part.drivetrain else ("the drivetrain",)
    far = () if its.due.since else ("the odometer at the last rotation and today",)
    return (*drive, *far)


def would_change(its: Rotation, tables: Tables) -> tuple[str, ...]:
    """Which trait or distance would give another answer, found by asking again without it."""
    lines = []
    if its.verdict == "keep" and its.due.left is not None and its.next:
        lines.append(f"After another {its.part.audience.both(_whole(its.due.left))} it would be due.")
    for trait in its.traits:
        then = permitted(choices(its.part, tuple(t for t in its.traits if t != trait), tables))
        if then and then[0] != its.next:
            given = "With a matching full-size spare" if trait in _SPARES else f"Without {_TRAITS.get(trait, trait)}"
            lines.append(f"{given}, {WORDS[then[0]]} would be first choice.")
    return tuple(lines)


def detail(its: Rotation) -> tuple[tuple[str, str], ...]:
    """The permitted patterns, the next move place by place, and why each other pattern is out."""
    pairs = [("permitted", ",".join(permitted(its.choices))), ("next", its.next), ("traits", ",".join(its.traits))]
    pairs += [(f"move.{here}", there) for here, there in moves(its)]
    pairs += [(f"out.{id_}", why) for id_, why in reasons(its.part, its.choices).items()]
    pairs += [(f"brief.{id_}", why) for id_, why in briefly(its.part, its.choices).items()]
    pairs += [(f"words.{id_}", words) for id_, words in WORDS.items()]
    brief = "last rotation" if its.part.rotated else "first readings"
    pairs += [("since", its.part.since_words), ("since_brief", brief if its.part.since_event else "")]
    return tuple((name, text) for name, text in pairs if text)
