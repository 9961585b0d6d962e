"""Answers about pressure and temperature, and conversions."""

import datetime as dt
import itertools
import re

from studio.model.car import PlacardTire
from studio.model.caution import Caution
from studio.model.circumstances import Circumstances
from studio.model.finding import Finding, Step, Verdict
from studio.model.quantity import Quantity, UnitName
from studio.model.source import Source
from studio.model.specimen import PressureReading
from studio.questions.answer_values import Missing, Part, Viewer
from studio.questions.facts import Fact
from studio.questions.small_episode import car_of, conclude, episode_of, possible, reading_of, tire

_NONE: dict[str, None] = dict.fromkeys(("expected_psi", "expected_kpa", "expected_bar"))
_ASK_AIR = Missing(field="pressure", ask="What did the gauge read, cold, and what does it read now?")
_ASK_T1 = Missing(
    field="temperature_before",
    ask="How warm was it when the tires were filled? The change follows from the two temperatures.",
)
_ASK_T2 = Missing(
    field="temperature", ask="How cold is it now, or will it be? The change follows from the two temperatures."
)
_UNITS: tuple[tuple[UnitName, str], ...] = (
    ("32nds", r"32nds?|thirty.?seconds?|thirty.?second"),
    ("mm", r"mm|millimet\w+"),
    (
        "psi",
        r"psi|pounds per "
        r"square inch",
    ),
    ("kPa", r"kpa|kilopascals?"),
    ("bar", r"bars?"),
    ("mi", r"miles?|mi"),
    ("km", r"km|kilomet\w+"),
    ("kg", r"kgs?|kilos?|kilograms?"),
    ("lb", r"lbs?|pounds?"),
)
_KEYS: dict[str, str] = {
    "32nds": "32nds",
    "mm": "mm",
    "psi": "psi",
    "kPa": "kpa",
    "bar": "bar",
    "mi": "miles",
    "km": "km",
    "kg": "kg",
    "lb": "lb",
}
_OTHER: dict[str, UnitName] = {
    "32nds": "mm",
    "mm": "32nds",
    "in": "mm",
    "psi": "bar",
    "kPa": "psi",
    "bar": "psi",
    "mi": "km",
    "km": "mi",
    "kg": "lb",
    "lb": "kg",
}

_NIST = Source(title="NIST SP 811", locator="Appendix B", standing="published, restated")


def pressure(viewer: Viewer) -> Part:
    """What the gauge should read at another temperature, and whether a leak or the weather explains what it reads."""
    airs, wrong = possible(
        viewer, viewer.reading.of("pressure", "pressure_before", "placard_pressure"), "pressure_read"
    )
    warmth, too = possible(viewer, viewer.reading.of("temperature"), "temperature")
    wrong = (*wrong, *too)
    caution = viewer.tables.cautions["pressure"]
    if not airs or not warmth or (len(warmth) < 2):
        return _open(viewer, airs, warmth, wrong, caution)
    base, now = _base_and_now(viewer, airs)
    first, second = _warmth(viewer, base, now, warmth)
    if now is None:
        return _elsewhere(viewer, base.quantity, first, second, wrong, caution)
    return _leak_or_weather(viewer, (base.quantity, first), (now.quantity, second), wrong, caution)


def _open(
    viewer: Viewer, airs: tuple[Fact, ...], warmth: tuple[Fact, ...], wrong: tuple[str, ...], caution: Caution
) -> Part:
    rule = viewer.tables.pressure["tpms_us_share"]
    slope = "A tire loses about 1 psi (7 kPa) for each 10 °F (6 °C) colder, more where the pressure is higher."
    degrees = (_ASK_T1, _ASK_T2) if not warmth else (_ASK_T2,) if len(warmth) < 2 else ()
    missing = (*(() if airs else (_ASK_AIR,)), *degrees)
    return Part(
        lead=f"Cold alone takes air pressure down: {slope[0].lower()}{slope[1:]} Whether yours fits that takes both "
        f"temperatures.",
        verdict="unknown",
        numbers=_NONE,
        sources=(rule.source,),
        warning=caution,
        missing=missing,
        invalid=wrong,
    )


def _base_and_now(viewer: Viewer, airs: tuple[Fact, ...]) -> tuple[Fact, Fact | None]:
    """The pressure set before, and the one read now where there is one."""
    before = [fact for fact in airs if fact.field in ("pressure_before", "placard_pressure")]
    now = [fact for fact in airs if fact.field == "pressure"]
    if before and now:
        return before[0], now[0] if now[0].quantity != before[0].quantity else None
    different = [fact for fact in airs if fact.quantity != airs[0].quantity]
    return airs[0], different[0] if different else None


_BESIDE = 20
_JOINED = re.compile(
    r"^,? ?(?:outside |out |degrees |in the garage |weather )*(?:i (?:set|filled|pumped|put)|set"
    r"|filled|with|they (?:were|are)|it (?:was|is)|tires? (?:at|were)|:|=|gives|reads"
    r"|and)?(?: (?:it|them|to|at|the tires?))* $",
    re.IGNORECASE,
)
_FROM_TO = re.compile(
    r"^\W*(?:degrees? )?(?:to|and|down to|up to|dropped to|drops to|fell to|then|->|bis|auf|und|à|et|hasta|y|a|e)\W*$",
    re.IGNORECASE,
)


def _warmth(viewer: Viewer, base: Fact, now: Fact | None, warmth: tuple[Fact, ...]) -> tuple[Quantity, Quantity]:
    """(temperature at the base, the other): the pairs that stand closest together in the text."""

    def apart(fact: Fact, degrees: Fact) -> int:
        return degrees.start - fact.end if degrees.start >= fact.end else int(1.5 * (fact.start - degrees.end))

    text = viewer.reading.text
    if now is not None and (timed := _by_words(text, warmth)):
        return timed
    for one, other in itertools.pairwise(warmth):
        if _FROM_TO.match(text[one.end : other.start]):
            return one.quantity, other.quantity
    if now is None:
        direct = [
            degrees
            for degrees in warmth
            if 0 <= degrees.start - base.end <= _BESIDE or _JOINED.match(text[degrees.end : base.start])
        ]
        first = direct[0] if direct else warmth[0]
        second = next((degrees for degrees in warmth if degrees is not first), first)
        return first.quantity, second.quantity
    pairs = [(one, other) for one in warmth[:4] for other in warmth[:4] if one is not other]
    first, second = min(pairs, key=lambda pair: apart(base, pair[0]) + apart(now, pair[1]))
    return first.quantity, second.quantity


_THEN = re.compile(
    r"\b(?:fill(?:ed|ing)?|set|pump(?:ed)?|inflat\w+|put|aired|garage|inside|indoors|shop|was|were|yesterday|when i"
    r"|last"
    r"|summer|originally|started|gefüllt|gonfl\w+)\b",
    re.IGNORECASE,
)
_NOW = re.compile(
    r"\b(?:now|this morning|today|tonight|tomorrow|outside|outdoors|overnight|currently|dropp\w+ to|down to|will be"
    r"|it's|its"
    r"|street|winter|jetzt|draußen|maintenant|dehors|ahora|adesso)\b",
    re.IGNORECASE,
)
_CLAUSE = re.compile(r"[,;.!?](?![0-9])|\b(?:and|but|then|when|while)\b", re.IGNORECASE)


def _by_words(text: str, warmth: tuple[Fact, ...]) -> tuple[Quantity, Quantity] | None:
    """(temperature at filling, the other) of two, where the words of their clauses say which is which."""
    if len(warmth) != 2:
        return None
    moments = [_moment(text, fact) for fact in warmth]
    if moments in (["then", "now"], ["then", ""], ["", "now"]):
        return warmth[0].quantity, warmth[1].quantity
    if moments in (["now", "then"], ["", "then"], ["now", ""]):
        return warmth[1].quantity, warmth[0].quantity
    return None


def _moment(text: str, fact: Fact) -> str:
    """``then`` or ``now`` by the words in the fact's own clause; nothing where both or neither stand in it."""
    before = _CLAUSE.split(text[max(0, fact.start - 40) : fact.start])[-1]
    clause = before + " " + _CLAUSE.split(text[fact.end : fact.end + 30])[0]
    then, now = _THEN.search(clause) is not None, _NOW.search(clause) is not None
    return "" if then == now else "then" if then else "now"


def _around(viewer: Viewer, driving: Quantity) -> Circumstances:
    """The temperature to drive in, and the two heights where the comment names both."""
    heights = [
        (fact.start, Quantity(0.0, "m") if fact.field == "sea_level" else fact.quantity)
        for fact in viewer.reading.of("altitude", "sea_level")
    ]
    if len(heights) < 2:
        return Circumstances(driving_temperature=driving)
    return Circumstances(driving_temperature=driving, filling_altitude=heights[0][1], driving_altitude=heights[1][1])


def _elsewhere(
    viewer: Viewer, base: Quantity, first: Quantity, second: Quantity, wrong: tuple[str, ...], caution: Caution
) -> Part:
    """The same air at another temperature."""
    specimen = tire(viewer, place="front_left", air=PressureReading(pressure=base, temperature=first))
    finding = conclude(episode_of(viewer, (specimen,), None, _around(viewer, second)), "pressure", viewer)[0]
    expected = finding.figure("street")
    if expected is None:
        return Part(
            lead="Both temperatures are the same: the pressure stays as it is.",
            numbers=_numbers(base),
            warning=caution,
            invalid=wrong,
        )
    lead = (
        f"{viewer.both(base)} at {viewer.both(first)} becomes {viewer.both(expected)} at {viewer.both(second)}, "
        f"with no air lost. Set the placard's pressure cold, in the cold it is driven in."
    )
    return Part(
        lead=lead,
        verdict=None,
        numbers=_numbers(expected),
        steps=_gas_lines(finding),
        sources=finding.sources[:3],
        warning=caution,
        invalid=wrong,
        findings=(finding,),
    )


def _leak_or_weather(
    viewer: Viewer,
    base: tuple[Quantity, Quantity],
    now: tuple[Quantity, Quantity],
    wrong: tuple[str, ...],
    caution: Caution,
) -> Part:
    earlier = reading_of(
        viewer.on - dt.timedelta(days=1), "front_left", None, air=PressureReading(pressure=base[0], temperature=base[1])
    )
    specimen = tire(
        viewer,
        place="front_left",
        air=PressureReading(pressure=now[0], temperature=now[1]),
        earlier=(earlier,) if earlier else (),
    )
    finding = conclude(episode_of(viewer, (specimen,), car_of(viewer, **_placard(viewer))), "pressure", viewer)[0]
    expected, doubt = finding.figure("expected"), finding.figure("drop_doubt")
    assert expected is not None
    cause = finding.word("cause_words") or "weather and loss cannot be told apart"
    spread = f" ± {doubt.text()}" if doubt else ""
    lead = (
        f"By weather alone it would read {viewer.both(expected)}{spread} at {viewer.both(now[1])}; you read "
        f"{viewer.both(now[0])}: {cause}."
    )
    verdict: Verdict = "inspect" if finding.word("cause") == "leak" else "watch"
    return Part(
        lead=lead,
        verdict=verdict,
        numbers=_numbers(expected),
        steps=_gas_lines(finding),
        sources=finding.sources[:4],
        warning=caution,
        invalid=wrong,
        findings=(finding,),
    )


def _placard(viewer: Viewer) -> dict[str, PlacardTire]:
    said = viewer.reading.first("placard_pressure")
    return {"front": PlacardTire(pressure=said.quantity)} if said else {}


def _gas_lines(finding: Finding) -> tuple[Step, ...]:
    return finding.of_kind("gas")[:1]


def _numbers(expected: Quantity) -> dict[str, float]:
    return {
        "expected_psi": expected.to("psi").value,
        "expected_kpa": expected.to("kPa").value,
        "expected_bar": expected.to("bar").value,
    }


def convert(viewer: Viewer) -> Part:
    """One unit in another."""
    facts = viewer.reading.of(
        "depth",
        "depth_new",
        "depth_before",
        "limit",
        "difference",
        "pressure",
        "pressure_before",
        "placard_pressure",
        "sidewall_pressure",
        "distance",
        "odometer",
        "trip",
        "load",
        "length",
        "warranty_distance",
        "yearly_distance",
        "rotation_interval",
        "damage_size",
        "circumference",
    )
    caution = viewer.tables.cautions["estimate"]
    for fact in facts:
        unit = _asked_unit(viewer.reading.text, fact)
        if unit is None:
            continue
        result = fact.quantity.to(unit)
        lead = f"{fact.quantity.text()} is {result.text()}."
        factor = f"{fact.quantity.text()} = {result.value:.6g} {_KEYS[unit]} by the exact definitions of the units"
        return Part(
            lead=lead,
            numbers={_KEYS[unit]: result.value},
            steps=(Step(factor, "sum", factor),),
            warning=caution,
            sources=(_NIST,),
        )
    ask = Missing(field="unit", ask="Which number, and into which unit? Then it is exact.")
    return Part(
        lead="That conversion needs a number and the unit wanted.", verdict="unknown", warning=caution, missing=(ask,)
    )


def _asked_unit(text: str, fact: Fact) -> UnitName | None:
    """The unit asked for: named apart from the number itself and of the same kind; else the usual other one."""
    return named_unit(text, fact, beside_numbers=True) or _OTHER.get(fact.quantity.unit)


def named_unit(text: str, fact: Fact, beside_numbers: bool = False) -> UnitName | None:
    """A unit of the same kind that the text names apart from the fact; not one that stands behind another number."""
    rest = text[: fact.start] + " " * (fact.end - fact.start) + text[fact.end :]
    alike = (
        {"mm", "32nds"}
        if fact.quantity.measures in ("depth", "length")
        else {unit for unit, _ in _UNITS if Quantity(1.0, unit).measures == fact.quantity.measures}
    )
    for unit, pattern in _UNITS:
        if (
            unit in alike
            and unit != fact.quantity.unit
            and (found := re.search(rf"(?<![\w])(?:{pattern})(?![\w])", rest, re.IGNORECASE))
            and (beside_numbers or not _BEHIND_NUMBER.search(rest[: found.start()]))
        ):
            return unit
    return None


_BEHIND_NUMBER = re.compile(r"[0-9/] ?$|\b(?:per|a|every|mehrere|few|many more|thousand|k) ?$|\d ?k ?$", re.IGNORECASE)
