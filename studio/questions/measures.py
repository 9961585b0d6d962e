"""Numbers with units in a comment: depths, pressures, temperatures, distances, speeds, loads, each with its role."""

import re

from studio.model.quantity import Quantity, UnitName, depth, length
from studio.model.running_text import RunningNumber, numbers_in
from studio.questions.facts import Fact, Found, overlaps
from studio.questions.plain_text import without_hedges

_I = re.IGNORECASE
_DEEPEST_IN = 0.8
_RIM = re.compile(
    r"(?<![0-9/.,xX$])(?P<rim>1[2-9]|2[0-4])(?: ?(?:\"|''|-?in(?:ch(?:es)?)?|zoll|pouces?|pulgadas"
    r"|pollici))?[ -]?(?:(?:alloy|alloys|steel|steelie|factory|stock|oem|original|winter) )?(?:rims?|wheels?"
    r"|felgen?|jantes?|cerchi)\b|(?:\b(?:on|with|to|for|my|have|running|fit|mount\w*)) (?:my |the |a |an "
    r"|stock )?(?P<plural>1[3-9]|2[0-4])'?s\b|(?:rims?|wheels?) (?:is|are|size|say"
    r"|says)(?: is)? (?:R)?(?P<said>1[3-9]|2[0-4])\b",
    _I,
)
_DAMAGED = (
    r"(?:hole|nail|screw|cut|gash|crack|tear|puncture|bulge|bubble|bolt|gouge|slash|slice|clou|nagel|schnitt|loch|riss)"
)
_BEFORE_DAMAGE = re.compile(rf"^[ -]?(?:wide|long|deep|big|size|in diameter|diameter)? ?(?:\w+ ){{0,2}}{_DAMAGED}", _I)
_AFTER_DAMAGE = re.compile(
    rf"{_DAMAGED}s?,? (?:(?:that|which) )?(?:(?:is|are|was|of|about|around|approx\w*|maybe|roughly|measures) ?|~ ?)+$",
    _I,
)
_SIZE_WORD = re.compile(r"^ ?(?:long|wide|across(?! (?:all|the|every|my|both|each))|in diameter|diameter"
    r"|in length)\b", _I)
_FROM = re.compile(
    r"^ ?(?:\w+ )?(?:from|away from|to|inside|off) (?:the |my )?(?:side ?wall|edge|shoulder|rim|bead"
    r"|outer edge)",
    _I,
)
_LIMIT_BEFORE = re.compile(
    r"\b(?:how (?:far|long|many miles|many km|much longer)|left|time|go|going) (?:to|until|till|before) ?$|"
    r"\b(?:max(?:imum)?(?: of| is)?|spec (?:is|says)(?: max)?|no more than|up to|legal(?: (?:limit|minimum|depth))?"
    r"|limit|minimum|min|mindestens|penny(?: test)?|wear bars?|until|till"
    r"|til|before|reach(?:es|ing)?|hits?|get to|goes? (?:down )?to|replace(?:d|ment)?(?: them| it| tires)?(?: at"
    r"| when)?|below|under|bald at|at least|required|requires?|has to be|have to be|must be|law says"
    r"|inspection(?: limit)?|to fail|fails? at|change (?:them )?at)(?: (?:is|of|at|the|legal|limit|depth|in|it|they"
    r"|reach|hit|get|to|be|are|for|here|says|tread|minimum))* ?[(]?$",
    _I,
)
_LIMIT_AFTER = re.compile(
    r"^ ?(?:is the |as the |legal )?(?:legal |minimum |min )?(?:limit|minimum|rule|law"
    r"|requirement|threshold|cutoff|cut-off)\b",
    _I,
)
_APART_AFTER = re.compile(
    r"^(?: ?(?:nds|tread|depth|in|of an inch|of))* ?(?:difference|apart|diff|variance"
    r"|variation|gap|spread|change|less|more|lower|higher|deeper|shallower|between|of each other)\b",
    _I,
)
_APART_BEFORE = re.compile(
    r"\b(?:within|differ\w* (?:by|of|is|in|between)?|diff (?:of|is)?|apart by|off by"
    r"|gap (?:of|is)|vary by|variance of|tolerance (?:of|is)?|allow\w*"
    r"|match\w* (?:to )?within|more than|less than)(?: (?:is|was|of|about|only|up to|a|the"
    r"|to|by))* ?$",
    _I,
)
_NEW_AFTER = re.compile(
    r"^ ?(?:[(]?)(?:when|as|brand|from|at) ?new\b|^ ?(?:new|originally|from factory"
    r"|when i (?:got|bought)|to (?:start|begin)|out of the box|neu\b|neuves?\b|nuov[oie]"
    r"|neufs?\b|nuev[oa]s?)(?! ?(?:one|tire|tyre|set|ones|tires|tyres|rear|front|is\b|are\b|at\b|has\b|would\b|[0-9]))",
    _I,
)
_NEW_BEFORE = re.compile(
    r"\b(?:when new|new (?:it |they )?(?:was|were|is|are|depth|at|had|tread)|brand new (?:at|is|was|were"
    r"|they were)?|start(?:ed|s|ing)?(?: out| off| life)?(?: at| with| from| as)?|originally|began (?:at|with)"
    r"|c[ao]me (?:new )?with|came at|came|new from|out of|initial(?:ly)?(?: depth)?|spec(?:'d|ced)? (?:at|is)"
    r"|factory(?: depth)?|bought (?:them )?(?:new )?(?:at|with)|put on (?:new )?at|installed (?:new )?at"
    r"|neu(?: waren| mit)?|new(?: ones?)?|were new(?: at| with)?)(?: (?:of|at|is|was|were|they|it|with|about|around|the"
    r"|tread|depth|:|tires?|tyres?|approx))*[ :=(~]*$",
    _I,
)
_WAS_BEFORE = re.compile(
    r"\b(?:was|were|had|used to be|went from|gone from|going from|from|down from|last (?:year"
    r"|month|time|check|spring|fall|winter|summer|season)(?: \w+){0,2}|previously|before"
    r"|(?:months?|years?|weeks?) ago(?: \w+){0,2}|it used to)(?: (?:at|to|about|around|it|they"
    r"|were|was|is))*[ :]*$",
    _I,
)
_WORN_BEFORE = re.compile(
    r"\b(?:per|each|every|does|a single)(?: \w+)? ?$|"
    r"\b(?:lost|los(?:e|es|ing)|worn(?: off| away)?|wore(?: off)?|used(?: up)?|wears?"
    r"|wear(?:ing)?(?: rate)?(?: of| is)?|wear of)(?: (?:about|only|just|around|by|already))* ?$",
    _I,
)
_WORN_AFTER = re.compile(
    r"^ ?(?:of (?:tread )?wear|worn (?:off|away)|gone|wear)\b"
    r"|^ ?(?:of (?:tread|wear|an inch) |of an inch |tread |off )?(?:every|per|each|for every|for each|/|alle"
    r"|tous les|cada|ogni)"
    r" ?(?:~ ?)?(?:[0-9][0-9.,]* ?(?:k\b|thousand|mi|km|kilo)|mi(?:le)?s?\b|km\b|k\b|thousand|year|month|jahr|mois"
    r"|mes\b|an\b)",
    _I,
)
_WATER = re.compile(r"^ ?(?:deep |of )?(?:standing )?(?:water|puddle|rain)|^ of (?:\w+ )?water", _I)
_WATER_BEFORE = re.compile(r"\b(?:water|puddles?|eau|wasser|agua)(?: (?:is|was|of|about|at|film|depth|deep"
    r"|on the road))* ?$", _I)
_AROUND_AFTER = re.compile(
    r"^ ?(?:of |in |larger |smaller |bigger |more |less |difference )*(?:rolling )?(?:circumference|umfang|circonf)", _I
)
_AROUND_BEFORE = re.compile(
    r"(?:circumference|umfang|circonf\w*)(?: (?:by|of|is|difference|differs|limit"
    r"|within))* ?$",
    _I,
)


def rims(text: str, found: Found) -> None:
    """Wheel sizes: ``18 inch rims``, ``on 18s``."""
    for match in _RIM.finditer(text):
        name = str(match.lastgroup)
        start, end = match.span(name) if name != "rim" else match.span()
        if not overlaps(*match.span(name), found.facts):
            found.facts.append(
                Fact(
                    start=start,
                    end=end,
                    text=text[start:end],
                    field="rim",
                    value=length(float(match[name]), "in"),
                    sure=0.9,
                    how="a wheel's size",
                )
            )


def measures(text: str, found: Found) -> list[RunningNumber]:
    """Facts of all numbers with units; the bare numbers are returned."""
    masked = _masked(text, found.facts)
    bare = []
    for number in numbers_in(masked):
        if number.unit is None or _put_in(masked, number):
            bare.append(number)
        elif number.unit in ("mm", "32nds", "in"):
            _length(text, number, found)
        elif (simple := _SIMPLE.get(number.unit)) is not None:
            _simple(text, number, simple, found)
    return bare


_PUT = re.compile(r"\b(?:put|pump(?:ed)?|fill(?:ed)?|had|have|got|run|ran|running) $", _I)


def _put_in(text: str, number: RunningNumber) -> bool:
    """``I put 50 in``: air, no inches."""
    if number.unit != "in" or not 15 <= number.value <= 90 or not number.text.lower().endswith(" in"):
        return False
    return _PUT.search(without_hedges(text[max(0, number.start - 25) : number.start])) is not None


def _masked(text: str, facts: list[Fact]) -> str:
    pieces, at = [], 0
    for fact in sorted((f for f in facts if f.field in _CLAIMED), key=lambda fact: fact.start):
        if fact.start >= at:
            pieces += [text[at : fact.start], "§" * (fact.end - fact.start)]
            at = fact.end
    return "".join([*pieces, text[at:]])


_CLAIMED = ("size", "size_without_rim", "impossible_size", "service", "date_code", "made_year", "rim", "drivetrain")
_SIMPLE = {
    "psi": "pressure",
    "bar": "pressure",
    "kPa": "pressure",
    "km": "distance",
    "mi": "distance",
    "kg": "load",
    "lb": "load",
    "km/h": "speed",
    "mph": "speed",
    "degC": "temperature",
    "degF": "temperature",
    "%": "share",
    "m": "altitude",
    "ft": "altitude",
    "years": "age_years",
}


_LEAST_ALTITUDE = 150.0


def _simple(text: str, number: RunningNumber, field: str, found: Found) -> None:
    assert number.unit is not None
    if field == "altitude" and number.value < _LEAST_ALTITUDE:
        return  # a distance walked, no height to drive at
    sure = (
        0.6 if number.other_unit in ("degC", "lb") or (number.otherwise is not None and number.unit == "bar") else 0.93
    )
    if number.other_unit == "lb" and _CARRY.search(text):
        number, field = _in_unit(number, "lb"), "load"
    elif number.other_unit == "lb":
        sure = 0.85
    values = [number.value] if number.until is None else [number.value, number.until]
    for value in values:
        value = _grouped(value, number)
        assert number.unit is not None
        found.facts.append(
            Fact(
                start=number.start,
                end=number.end,
                text=number.text,
                field=field,
                value=Quantity(value, number.unit),
                sure=sure,
                how="a number in words" if number.in_words else "a number with its unit",
            )
        )


_CARRY = re.compile(r"\b(?:carry|carries|weigh|weight|load|payload|gvwr|gawr|haul|tow)", _I)


def _in_unit(number: RunningNumber, unit: UnitName) -> RunningNumber:
    return RunningNumber(
        start=number.start, end=number.end, text=number.text, value=number.value, unit=unit, step=number.step
    )


def _grouped(value: float, number: RunningNumber) -> float:
    """``41.200 km`` is 41200 km: nobody gives meters of a distance."""
    return number.otherwise if number.unit in ("km", "mi") and number.otherwise and value < 1000 else value


def _length(text: str, number: RunningNumber, found: Found) -> None:
    before, after = without_hedges(text[max(0, number.start - 60) : number.start]), text[number.end : number.end + 45]
    field = _length_field(number, before, after)
    unit = number.unit
    assert unit is not None
    if number.until is not None and field in ("depth_before", "difference"):
        field = "depth"  # "from 3 to 4 mm": a range, no earlier depth
    values = [(number.value, ())] if number.until is None else [(number.value, ("low",)), (number.until, ("high",))]
    falling = number.until is not None and number.until < number.value
    if falling and field in ("depth", "depth_before") and (_WAS_BEFORE.search(before) or _TOOK.match(after)):
        _two_times(number, found)
        return
    for value, where in values:
        quantity = length(value, unit) if field in ("damage_size", "diameter", "length") else depth(value, unit)
        found.facts.append(
            Fact(
                start=number.start,
                end=number.end,
                text=number.text,
                field=field,
                value=quantity,
                where=where,
                sure=0.95 if not number.in_words else 0.9,
                how=_how(number, field),
            )
        )


def _two_times(number: RunningNumber, found: Found) -> None:
    """``went from 8 to 5 mm``: first before, then now."""
    assert number.unit is not None and number.until is not None
    for value, field in ((number.value, "depth_before"), (number.until, "depth")):
        found.facts.append(
            Fact(
                start=number.start,
                end=number.end,
                text=number.text,
                field=field,
                value=depth(value, number.unit),
                sure=0.9,
                how="from one depth to another",
            )
        )


def _how(number: RunningNumber, field: str) -> str:
    kind = {
        "depth": "a depth",
        "depth_new": "the depth when new",
        "depth_before": "an earlier depth",
        "limit": "a limit",
        "difference": "a difference of depth",
    }.get(field, field.replace("_", " "))
    return f"{kind}, in words" if number.in_words else f"{kind}, one end of a range" if number.until else kind


def _length_field(number: RunningNumber, before: str, after: str) -> str:
    if number.unit == "in" and number.value > _DEEPEST_IN:
        if _FROM.match(after):
            return "damage_place"
        damaged = _BEFORE_DAMAGE.match(after) or _AFTER_DAMAGE.search(before)
        return "damage_size" if damaged else "diameter" if number.value >= 20 else "length"
    if _WATER.match(after) or _WATER_BEFORE.search(before):
        return "water"
    if _FROM.match(after):
        return "damage_place"
    if _BEFORE_DAMAGE.match(after) or _AFTER_DAMAGE.search(before) or _SIZE_WORD.match(after):
        return "damage_size"
    if _AROUND_AFTER.match(after) or _AROUND_BEFORE.search(before):
        return "circumference"
    if number.unit == "mm" and number.value > 25:
        return "length"
    return depth_role(before, after)


_WHEN = re.compile(r"\b(?:when|when (?:is|at|will (?:i|it|they) (?:be|hit|reach)(?: at)?)) $", _I)
_END = re.compile(r"^ ?(?:$|[?!.])", _I)
_TOOK = re.compile(r"^ ?(?:in|after|over|within|nach|en|dans|dopo) (?:~ ?|about |only |just )?(?:[0-9]|a |one )", _I)
_SHARE_OF = re.compile(r"(?:%|percent|half)[^.?!]{0,40}\b(?:on|of|for|from|out of) (?:a |an |my )?$", _I)
_OF_A_TIRE = re.compile(r"^ ?(?:nds? )?(?:t[iy]res?|tread|new|starting|original|profil)\b", _I)


def depth_role(before: str, after: str) -> str:
    """Of which moment or kind a depth is: now, before, when new, a limit, a difference."""
    if _WORN_BEFORE.search(before) or _WORN_AFTER.match(after):
        return "worn"
    if _LIMIT_AFTER.match(after) or _LIMIT_BEFORE.search(before) or (_WHEN.search(before) and _END.match(after)):
        return "limit"
    if _APART_AFTER.match(after) or _APART_BEFORE.search(before):
        return "difference"
    if _NEW_AFTER.match(after) or _NEW_BEFORE.search(before):
        return "depth_new"
    if _SHARE_OF.search(before) and _OF_A_TIRE.match(after):
        return "depth_new"
    return "depth_before" if _WAS_BEFORE.search(before) else "depth"
