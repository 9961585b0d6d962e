"""The words of the topic on another size."""

from collections.abc import Sequence

from studio.decide.carried import Carried, Refusal
from studio.decide.size_swap_car import UN_R39, must_have_read_kmh, rim_range_in, speedometer_rule
from studio.decide.size_swap_read import Change, Part, tenths
from studio.decide.sizes import same_size
from studio.decide.swap_rules import Reason, diameter_reason, gravest
from studio.decide.wording import joined, on_paper, plain, signed, upper_first
from studio.model.finding import Step, summed
from studio.model.quantity import MINUS, Quantity, format_number, length
from studio.reference.tables import Tables
from studio.tires.geometry import measuring_rim_in

_ROUND = 1000.0
_LONGEST = 90
_AS_TALL_PERCENT = 5e-3


def unread(part: Part) -> str:
    """The sentence on a size that cannot be compared."""
    if not part.lines:
        return f"{plain(part.candidate.marking)}: the placard's size is not known, so nothing to hold it against."
    return f"{plain(part.candidate.marking)} is no tire size, or the placard's is none."


def unread_missing(part: Part) -> tuple[str, ...]:
    """What is missing for the comparison."""
    return ("the placard's tire size",) if not part.lines else ("a size that can be read",)


def size_words(its: Change) -> str:
    """``is 0.4 % larger than 225/60R17``."""
    before = f"{its.line.axle + ' ' if _two_sizes(its) else ''}{its.before.marking.size}"
    if same_size(its.after.marking, its.before.marking):
        return "has the placard's size"
    if abs(its.percent) < _AS_TALL_PERCENT:
        return f"is as tall as {before}"
    return f"is {Quantity(abs(its.percent), '%').text()} {'larger' if its.percent > 0 else 'smaller'} than {before}"


def _two_sizes(its: Change) -> bool:
    return any(not same_size(size.marking, its.before.marking) for _, size in its.placard)


def sentence(its: Change, reasons: Sequence[Reason], tables: Tables) -> str:
    """The finding in plain speech, by the gravest reason."""
    same = same_size(its.after.marking, its.before.marking)
    after, verdict = str(its.after.marking) if same else its.after.marking.size, gravest(reasons)
    if verdict == "replace":
        reason = next(reason for reason in reasons if reason.verdict == "replace")
        if reason == diameter_reason(its.before, its.after, tables):
            bound = tables.design["substitute_diameter_percent"].value
            return f"{after} {size_words(its)}, beyond the usual {bound:g} %: choose another."
        return f"{after} will not do: {reason.text}."
    if verdict == "inspect":
        return _confirm(f"{after} {size_words(its)}", reasons)
    if verdict == "watch":
        return f"{after} {size_words(its)}; its lower speed symbol is allowed in winter, with a condition."
    return f"{after} {size_words(its)}, and is not below it in load or speed."


def _confirm(start: str, reasons: Sequence[Reason]) -> str:
    """As many things to confirm as a title takes, in the order of the reasons."""
    asked = list(dict.fromkeys(reason.confirm for reason in reasons if reason.verdict == "inspect" and reason.confirm))
    for count in range(len(asked), 0, -1):
        shown = asked if count == len(asked) else [*asked[:count], "more"]
        text = f"{start}. Confirm {joined(shown)}."
        if len(text) <= _LONGEST or count == 1:
            return text
    return f"{start}. Have it confirmed."


def working(its: Change, reasons: Sequence[Reason], tables: Tables) -> tuple[str | Step, ...]:
    """The steps from the two markings to every number, then each reason with its verdict."""
    of = f"the placard's {its.line.axle} size" if len(its.part.lines) > 1 else "the placard's size"
    lines: list[str | Step] = [f"{its.after.marking} in place of {its.before.marking}, {of}"]
    lines += [f"On hand: {joined(its.part.candidate.tires)}"] if its.part.candidate.tires else []
    lines += [note for size in (its.before, its.after) for note in (*size.marking.assumed, *size.dimensions.notes)]
    lines += _diameter_lines(its)
    lines += _other_axle_lines(its)
    lines += _speed_lines(its, tables)
    lines += _width_lines(its, tables)
    lines += _load_lines(its)
    return (*lines, *(f"{upper_first(reason.text)}: {reason.verdict}" for reason in reasons))


def _diameter_lines(its: Change) -> list[str | Step]:
    before, after = on_paper(its.before.overall_diameter), on_paper(its.after.overall_diameter)
    rolling = " and ".join(on_paper(size.rolling_circumference) for size in (its.before, its.after))
    return [
        summed("Overall diameter, unrounded", f"{after} / {before} {MINUS} 1 = {signed_percent(its)}"),
        f"Circumference by tape: π times each, {on_paper(its.before.circumference)} and "
        f"{on_paper(its.after.circumference)}; rolling {rolling}",
        f"Half the difference lifts the axle, or lowers it: {on_paper(length(its.rise_mm))}{_ground(its)}",
    ]


def _other_axle_lines(its: Change) -> list[str]:
    """On a car with two sizes, the change against the other one too."""
    after = its.after.overall_diameter.value
    others = [(axle, size) for axle, size in its.placard if axle != its.line.axle]
    return [
        f"Against the {axle} size {size.marking.size}: {signed(100 * (after / size.overall_diameter.value - 1))} %"
        for axle, size in others
        if not same_size(size.marking, its.before.marking)
    ]


def signed_percent(its: Change) -> str:
    """The change of diameter with its sign, to two decimals."""
    return f"{signed(its.percent)} %"


def _ground(its: Change) -> str:
    clearance = its.part.clearance
    if clearance is None:
        return ""
    after = Quantity(clearance.to("mm").value + its.rise_mm, "mm", "length")
    return f"; ground clearance {on_paper(clearance.to('mm'))} becomes {on_paper(after)}"


def _speed_lines(its: Change, tables: Tables) -> list[str]:
    audience, ratio = its.part.audience, f"{its.ratio:.5f}"
    shown, true = tenths(its.at.speed, audience), tenths(its.true_speed, audience)
    unit = "mi" if audience.units == "us" else "km"
    lines = [
        f"{its.at.working(audience)} shown by a speedometer that was exact: {shown} × {ratio} = {true} in truth",
        f"Odometer: of {_ROUND:g} {unit} shown {format_number(_ROUND * its.ratio, 1)} {unit} are rolled",
        f"Engine turns at one speed: 1 / {ratio} {MINUS} 1 = {signed(100 * (1 / its.ratio - 1))} %",
    ]
    rule = speedometer_rule(its, tables)
    if rule is None:
        return [*lines, "No rule on speedometers is in the tables for this region"]
    lines.append(f"{upper_first(rule.wording)} ({rule.source.standing})")
    if rule.source.title == UN_R39 and its.ratio > 1:
        needed = tenths(Quantity(must_have_read_kmh(its, its.at.kmh), "km/h"), audience)
        lines.append(f"So as not to read low now it must have read {shown} × {ratio} = {needed}")
    return lines


def _width_lines(its: Change, tables: Tables) -> list[str]:
    low, high = rim_range_in(its, tables)
    standing = tables.design["rim_share_least"].source.standing
    share = " to ".join(f"{tables.design[f'rim_share_{end}'].value:g}" for end in ("least", "most"))
    width, row = its.after.dimensions.section_width_mm, tables.rim_ratio_for(its.after.dimensions.aspect_percent)
    lines = [f"Rims by rule of thumb, {share} of the section width: {format_number(low, 1)} to "
             f"{format_number(high, 1)} in ({standing}); the tire maker's list decides"]  # fmt: skip
    if row is not None:
        rim = measuring_rim_in(width, row.ratio, tables.design["rim_width_step_in"].value)
        lines.append(f"Its measuring rim: {row.ratio:g} × {on_paper(length(width))}, to the half inch, {rim:g} in "
                     f"({row.source.standing})")  # fmt: skip
    where = "on the car's own rim" if its.on_rim else "nominal, each on its measuring rim"
    before, after = on_paper(length(its.width_before_mm)), on_paper(length(its.width_after_mm))
    wider = on_paper(length(its.wider_mm))
    return [*lines, f"Section width {where}: {after} {MINUS} {before} = {wider}, half of it on each side"]


def _load_lines(its: Change) -> list[str]:
    """What each carries at the placard pressure, step by step."""
    if its.line.pressure is None:
        return ["No placard pressure is entered, so the indices alone are compared"]
    lines: list[str] = []
    for load in (its.load_before, its.load_after):
        lines += load.working() if isinstance(load, Carried) else [upper_first(load.why)] if load else []
    return lines


def missing(its: Change) -> tuple[str, ...]:
    """What the comparison lacks."""
    found = []
    for size, whose in ((its.after, "the new size"), (its.before, "the placard's size")):
        found += [] if size.load else [f"the load index of {whose}"]
        found += [] if size.speed else [f"the speed symbol of {whose}"]
    found += [] if its.line.pressure else ["the placard pressure"]
    if isinstance(its.load_after, Refusal) and its.after.load:
        found.append(its.load_after.missing)
    wider = its.same_rim and its.wider_mm != 0
    found += ["the width of the car's rims"] if wider and its.line.rim_width is None else []
    return tuple(dict.fromkeys(found))


def detail(its: Change, reasons: Sequence[Reason]) -> tuple[tuple[str, str], ...]:
    """Words that pictures put beside the figures."""
    pairs = {
        "before": str(its.before.marking), "after": str(its.after.marking), "axle": its.line.axle,
        "before_size": its.before.marking.size, "after_size": its.after.marking.size,
        "tires": joined(its.part.candidate.tires), "change": signed_percent(its),
        "width": "on the car's rim" if its.on_rim else "nominal",
        "confirm": joined(list(dict.fromkeys(r.confirm for r in reasons if r.confirm))),
        "speed": "assumed" if its.at.assumed else "given",
        "speed_shown": tenths(its.at.speed, its.part.audience), "true_speed": tenths(its.true_speed, its.part.audience),
    }  # fmt: skip
    return tuple((name, text) for name, text in pairs.items() if text)
