"""Numbers without a unit, read only where the words around leave little doubt, and marked as less sure."""

import re

import msgspec

from studio.model.quantity import Quantity, System, UnitName, depth
from studio.model.running_text import RunningNumber
from studio.questions.facts import Fact, Found, overlaps
from studio.questions.measures import depth_role
from studio.questions.plain_text import without_hedges

_I = re.IGNORECASE
MOST_BARE = 200
_TIRES = re.compile(r"\bt[iy]res?\b|\bfronts\b|\brears\b", _I)
_NOUN = re.compile(
    r"^ ?(?:t[iy]res?|wheels?|of them|of the|of my|years?|yrs?|months?|weeks?|days?|hours?|minutes?|seconds?|times"
    r"|people|doors?|door|cyl\w*|ply|lugs?|corners?|season|speed|stars?|videos?|cars?|trucks?|kids|bucks|dollars"
    r"|grand|%|st\b|nd\b|rd\b|th\b|x|wd\b|yo\b|k\b|p\b|old|new t[iy]res?|or so years|points?|out of|reifen|pneus"
    r"|gomme|jahre|ans\b|pm\b|am\b|oclock)",
    _I,
)
_DEPTH_MODE = re.compile(r"\btread|\bdepth|\bprofil|\b32nds?|\bdibujo|\bbattistrada|\bprofondeur|\bgauge|\bmeasur"
    r"|(?<![0-9])(?<![0-9] )\bmm\b", _I)
_AT_DEPTH = re.compile(
    r"\b(?:t[iy]res?|mine|they|they're|these|treads?|fronts?|rears?|i'?m|backs?)\b[^.?!,0-9]{0,15}\b(?:at"
    r"|down to)(?: an?)? $", _I
)
_GOES_ON = re.compile(r"^(?: left\b| now\b| all\b| (?:outer|inner|cent(?:er|re)|middle|inside|outside|front|rear"
    r"|left|right)\b|[,.;!?)]|$| (?:is|are|do|should|can|so|and)\b)", _I)
_DEPTH_BEFORE = re.compile(
    r"(?:\b(?:outer|inner|cent(?:er|re)|middle|inside|outside|edges?|was|were|at|is|are|has|have|had|says?|said|shows?|showed|now|new|from|to|measur\w+|reads?|reading|about"
    r"|around|and|vs|only|with|=|:|started(?: at| with)?|originally|other(?:s)?(?: is| are)?"
    r"|rest(?: are)?|the (?:new )?other(?: one)?(?: is)?)(?: an?)?|[,/&:=(+-]) ?$",
    _I,
)
_DEPTH_AFTER = re.compile(
    r"^ ?(?:left\b|remaining|of tread|tread|when new|new\b|deep|on the|on my|front|rear|back"
    r"|in (?:the )?(?:front|rear|back|center|middle))",
    _I,
)
_AIR_MODE = re.compile(
    r"\bpressure|\bpsi\b|\b(?:dropp?|go|los)(?:s|es|ed|ing)? from [2-6][0-9] (?:down )?to [2-6][0-9]\b|\binflat"
    r"|\bpump|\bair(?:ed)?\b|\btpms|\bfill(?:ed)?\b|\bdeflat|druck"
    r"|\b(?:manual|door|sticker|placard|book|card) (?:says?|is|was|calls for|recommends?) (?:[2-5][0-9]"
    r"|[1-3][.,][0-9])\b(?! ?[/0-9])"
    r"|\bset (?:it |them |em |mine |all |the \w+ )?(?:to|at) [2-5][0-9]\b|\b[2-5][0-9] (?:cold|hot)\b|\bbleed"
    r"|\b(?:hot|cold|warm) t[iy]res\b|\bpression|\bpresi[oó]n|\bbars?\b|\bkpa\b"
    r"|\bgonfl|\bplacard|\bdoor (?:jamb"
    r"|sticker)",
    _I,
)
_AIR_BEFORE = re.compile(
    r"\b(?:at|to|from|was|were|is|are|now|says?|said|reads?|reading|shows?|showing|set"
    r"|run(?:ning)?|filled|inflated|pumped|of|vs|and|about|around|only|had|have|them|it"
    r"|recommended|placard|sticker|down to|up to|dropped|pressure|pressures|in summer"
    r"|in winter|put|pump|use|using|go with|keep|cold|hot|warm|normally|usually)[ :=]*(?:at |to |about |around |~ ?"
    r"|is )?$",
    _I,
)
_AIR_AFTER = re.compile(r"^ (?:in (?:the )?)?(?:cold|hot|warm|after|front|rear|all (?:around|round)|everywhere)\b", _I)
_MOVING = re.compile(
    r"\b(?:hydro ?pl\w+|aqua ?pl\w+|driv\w+|going|doing|speed|highway|cruis\w+|fast)\b[^.?!,]{0,15}$", _I
)
_READS = re.compile(r"\b(?:reads?|says?|shows?|gauge|psi|at) $", _I)
_OUTSIDE = re.compile(
    r"^ ?(?:degrees? )?(?:outside|out\b(?! of)|ambient|overnight|below|in the (?:garage|shop|sun"
    r"|morning|shade)|this morning)",
    _I,
)
_GAUGE_BEFORE = re.compile(
    r"\b(?:gauge|psi|pressure|it|reads?|says?|shows?|show(?:s|ed|ing)|dropp\w*(?: from(?: [0-9]+ to)?)?|los\w+"
    r"|from [0-9]+ to)"
    r"(?: (?:only|just|now|is|was|at|to|down))* ?$",
    _I,
)
_COUNTED = re.compile(r"^ (?:at|with|are|have|has|measures?|reads?|of) (?:about |around |~ ?)?[0-9]", _I)
_LISTED = re.compile(r"(?:\band|&) ?$", _I)
_ENDS = re.compile(
    r"^ ?(?:$|[,.;!?)]|on\b|in\b|front|rear|back|left|right|all\b|mm\b|/|and\b|or\b|now\b|when\b|for\b)", _I
)
_WEATHER_BEFORE = re.compile(
    r"\b(?:(?:temp\w*|weather|outside)(?: \w+)? (?:is|was|hit)|(?:temp\w*|weather|outside) "
    r"(?:went|dropped|goes|fell|drops|changed|got))(?: down)?(?: \w+)? (?:from |to )?$",
    _I,
)
_FAR_BEFORE = re.compile(
    r"\b(?:put|did|done|after|in|within|with|at|for|have|has|got|lasted|about|around|only|over|nearly|almost|driven"
    r"|drove|mileage|odometer|reads?|now|and|to|every|under|just)[ :~]*$",
    _I,
)
_FAR_AFTER = re.compile(
    r"^ ?(?:on (?:them|these|the|it|mine|my|this)|out of (?:them|these|it)|so far|since|on the (?:clock|odo\w*)|odo"
    r"|more"
    r"|from new)",
    _I,
)
_LIFE_MODE = re.compile(
    r"\bmile|\bkm\b|\bodo|\bmileage|\blast|\blife|\bwear|\bworn|\blonger|\btread|\bdepth|\brotat", _I
)


def bare_numbers(text: str, bare: list[RunningNumber], system: System | None, found: Found, spots: list[Fact]) -> None:
    """Read what can be read of the numbers without unit. ``spots`` are the mentions of tires."""
    depths = [fact for fact in found.facts if fact.field in ("depth", "depth_new", "depth_before", "limit")][:MOST_BARE]
    airs = [fact for fact in found.facts if fact.field == "pressure"][:MOST_BARE]
    about = _About.of(text, depths, airs)
    for number in bare[:MOST_BARE]:
        if overlaps(number.start, number.end, [*found.facts, *spots]) or _names_something(text, number):
            continue
        weather = about.air and (_is_temperature(text, number) or _is_said_of_weather(text, number, found))
        if weather or (about.air and _is_second_temperature(text, number, airs, found)):
            _temperature(number, system, found)
        elif about.depth and _is_depth(text, number, depths, spots, about.tread):
            _depth(text, number, depths, system, found)
        elif about.air and _is_air(text, number, airs):
            _air(number, airs, found)
        elif _is_far(text, number, about.life):
            _far(text, number, system, found)


class _About(msgspec.Struct, frozen=True, kw_only=True):
    """What the whole comment speaks of: without that no bare number is read."""

    depth: bool
    tread: bool
    air: bool
    life: bool

    @classmethod
    def of(cls, text: str, depths: list[Fact], airs: list[Fact]) -> "_About":
        tread = _DEPTH_MODE.search(text) is not None
        named = tread or _TIRES.search(text) is not None
        air = bool(airs) or _AIR_MODE.search(text) is not None
        return cls(depth=bool(depths) or named, tread=tread, air=air, life=_LIFE_MODE.search(text) is not None)


def _names_something(text: str, number: RunningNumber) -> bool:
    before = text[max(0, number.start - 2) : number.start]
    return bool(_NOUN.match(text, number.end) or _NOUN.match(text[number.end : number.end + 30])) or before.endswith(
        ("#", "$", "€", "@")
    )


def _around(text: str, number: RunningNumber) -> tuple[str, str]:
    return without_hedges(text[max(0, number.start - 45) : number.start]), text[number.end : number.end + 40]


def _is_depth(text: str, number: RunningNumber, depths: list[Fact], spots: list[Fact], tread: bool) -> bool:
    before, after = _around(text, number)
    if number.value <= 4 and _SO_MANY.match(after):
        return False
    if _COUNTED.match(after) or (_LISTED.search(before) and not _ENDS.match(after)):
        return False
    if before.endswith(("(", "[", "{")) or after.startswith((")", "]", "}")):
        return False
    if not 0.4 <= number.value <= 20 or number.step < 0.1 or (number.in_words and not depths):
        return False
    beside = any(
        0 <= number.start - spot.end <= 8 and text[spot.end : number.start].strip(" :=-").lower() in _LINKS
        for spot in spots
    )
    followed = any(0 <= spot.start - number.end <= 8 and "," not in text[number.end : spot.start] for spot in spots)
    if _AT_DEPTH.search(before) and _GOES_ON.match(after) and 1 <= number.value <= 12 and not _AIR_MODE.search(text):
        return True
    near = any(abs(number.start - fact.end) < 45 or abs(fact.start - number.end) < 45 for fact in depths)
    if near and (_DEPTH_BEFORE.search(before) or beside) and not _AIR_MODE.search(before[-15:]):
        return True
    if _said_unit(text) and _DEPTH_BEFORE.search(before) and _GOES_ON.match(after) and not _AIR_MODE.search(text):
        return True
    if not tread or _AIR_MODE.search(after[:12]):
        return False
    return (
        beside or (followed and number.value < 20) or bool(_DEPTH_BEFORE.search(before) and _DEPTH_AFTER.match(after))
    )


_SO_MANY = re.compile(r"^ (?:brand[ -])?(?:new|old|fresh|worn|good|bad|other|others|winter|summer|matching|used)\b", _I)
_LINKS = (
    "",
    "is",
    "are",
    "at",
    "has",
    "is at",
    "are at",
    "at a",
    "is a",
    "are a",
    "at an",
    "are at a",
    "is at a",
    "down to",
    "are down to",
    "is down to",
    "have",
    "got",
    "show",
    "shows",
    "read",
    "was",
    "were",
    "measure",
    "measures",
    "reads",
    "tires",
    "tire",
    "tyre",
    "tyres",
    "tires are",
    "tyres are",
    "tire is",
    "one is",
    "ones are",
    "about",
    "tires at",
    "ones",
    "is about",
)


def _depth(text: str, number: RunningNumber, depths: list[Fact], system: System | None, found: Found) -> None:
    before, after = text[max(0, number.start - 60) : number.start], text[number.end : number.end + 45]
    role = depth_role(before, after)
    nearest = min(depths, key=lambda fact: abs(fact.start - number.start), default=None)
    unit = nearest.quantity.unit if nearest else _said_unit(text) or _OF_SYSTEM.get(system or "")
    if unit is None:
        found.facts.append(
            Fact(
                start=number.start,
                end=number.end,
                text=number.text,
                field="depth_without_unit",
                value=number.text,
                sure=0.5,
                how="a depth whose unit is not said",
            )
        )
        return
    found.facts.append(
        Fact(
            start=number.start,
            end=number.end,
            text=number.text,
            field=role,
            value=depth(number.value, unit),
            sure=0.7 if nearest else 0.55,
            how="a depth, its unit taken from the one beside it"
            if nearest
            else "a depth, its unit taken from the other units",
        )
    )


_OF_SYSTEM: dict[str, UnitName] = {"us": "32nds", "metric": "mm"}
_IN_32NDS = re.compile(r"\b32nds?\b|thirty[- ]?seconds?\b|/32", _I)
_IN_MM = re.compile(r"\bmm\b|\bmillim", _I)


def _said_unit(text: str) -> UnitName | None:
    """The unit that the comment names apart from its numbers: ``all in 32nds``."""
    return "32nds" if _IN_32NDS.search(text) else "mm" if _IN_MM.search(text) else None


def _is_air(text: str, number: RunningNumber, airs: list[Fact]) -> bool:
    before, after = _around(text, number)
    if number.in_words or not (_AIR_BEFORE.search(before) or _AIR_AFTER.match(after)):
        return False
    if _MOVING.search(before) and not _READS.search(before):
        return False
    return _air_unit(number, airs) is not None


def _air_unit(number: RunningNumber, airs: list[Fact]) -> UnitName | None:
    """The unit in which the number can be a tire's pressure: the one beside it, else the only plausible one."""
    likely: UnitName | None = None
    if 15 <= number.value <= 90:
        likely = "psi"
    elif 1.4 <= number.value <= 4.5 and number.step < 1:
        likely = "bar"
    elif 140 <= number.value <= 450:
        likely = "kPa"
    if airs and likely is not None and all(fact.quantity.unit != likely for fact in airs):
        return None
    return likely


def _air(number: RunningNumber, airs: list[Fact], found: Found) -> None:
    unit = _air_unit(number, airs)
    assert unit is not None
    for value in (number.value, *((number.until,) if number.until is not None else ())):
        found.facts.append(
            Fact(
                start=number.start,
                end=number.end,
                text=number.text,
                field="pressure",
                value=Quantity(value, unit),
                sure=0.7 if airs else 0.65,
                how="a pressure, its unit by its size",
            )
        )


def _is_temperature(text: str, number: RunningNumber) -> bool:
    before, after = _around(text, number)
    if not -60 <= number.value <= 120 or number.step < 0.5:
        return False
    if number.value < 0 or text[max(0, number.start - 1) : number.start + 1].lstrip().startswith("+"):
        return True
    if _WEATHER_BEFORE.search(before):
        return True
    return bool(_OUTSIDE.match(after)) and not _GAUGE_BEFORE.search(before)


def _is_second_temperature(text: str, number: RunningNumber, airs: list[Fact], found: Found) -> bool:
    """A bare number behind ``at`` or ``to`` beside a temperature, where it cannot be the pressure's own unit."""
    if not airs or not -60 <= number.value <= 120 or not _AT_OR_TO.search(_around(text, number)[0]):
        return False
    return any(fact.field == "temperature" for fact in found.facts) and _air_unit(number, airs) is None


def _is_said_of_weather(text: str, number: RunningNumber, found: Found) -> bool:
    """``it was 80 then and 40 now`` behind two pressures, and what is joined to a temperature."""
    if not -60 <= number.value <= 120:
        return False
    degrees = [fact for fact in found.facts if fact.field == "temperature" and fact.end <= number.start]
    if degrees and _JOINED.match(text[max(fact.end for fact in degrees) : number.start]):
        return True
    told = [fact for fact in found.facts if fact.field == "pressure" and fact.end <= number.start]
    return len(told) >= 2 and bool(_IT_WAS.search(text[max(0, number.start - 12) : number.start]))


_IT_WAS = re.compile(r"\bit(?:'s|s| is| was) $", _I)
_JOINED = re.compile(r"^ ?(?:then |now |back then |degrees )*(?:and|but|to|,|vs)(?: (?:now|it'?s|only|is))* ?$", _I)
_AT_OR_TO = re.compile(r"\b(?:at|to|when it'?s|bei|auf|à|a) $", _I)


def _temperature(number: RunningNumber, system: System | None, found: Found) -> None:
    for value in (number.value, *((number.until,) if number.until is not None else ())):
        found.facts.append(
            Fact(
                start=number.start,
                end=number.end,
                text=number.text,
                field="temperature",
                value=Quantity(value, "degC" if system == "metric" else "degF"),
                sure=0.5,
                how="a temperature, its unit taken from the other units",
            )
        )


_TARGET = re.compile(
    r"\b(?:make it(?: to)?|until|till|reach|get to|last(?: to| until)?|up to|before|rated(?: for)?"
    r"|warranty|promised)(?: \w+)? $",
    _I,
)


def _is_far(text: str, number: RunningNumber, life: bool) -> bool:
    before, after = _around(text, number)
    if _TARGET.search(before):
        return False
    if not 1000 <= number.value <= 300_000 or (number.text.isdigit() and 1985 <= number.value <= 2040):
        return False
    return (life or number.text.lower().endswith("k")) and bool(_FAR_BEFORE.search(before) or _FAR_AFTER.match(after))


_FAR_UNIT: dict[str, UnitName] = {"us": "mi", "metric": "km"}


def _far(text: str, number: RunningNumber, system: System | None, found: Found) -> None:
    beside = next((fact.quantity.unit for fact in found.facts if fact.field == "distance"), None)
    unit = beside or _FAR_UNIT.get(system or "")
    if unit is not None:
        found.facts.append(
            Fact(
                start=number.start,
                end=number.end,
                text=number.text,
                field="distance",
                value=Quantity(number.value, unit),
                sure=0.85 if beside else 0.6,
                how="a distance, its unit taken from the other units",
            )
        )
