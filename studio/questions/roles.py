"""Which number belongs to which tire and moment: depths to places, temperatures to pressures, distances to depths."""

import re

import msgspec

from studio.questions.facts import Fact
from studio.questions.plain_text import without_hedges

_I = re.IGNORECASE
_STRONG = re.compile(r"[.;!?\n](?![0-9])")
_YEARLY = re.compile(
    r"^ ?(?:/|per|a|each|every|an?|im|pro|par|all'|al|por) ?(?:year|yr|annum|jahr|an\b|anno|año)|^ ?(?:yearly|annually"
    r"|p\.?a\.?\b)",
    _I,
)
_MONTHLY = re.compile(
    r"^ ?(?:/|per|a|each|every|an?|im|pro|par|al|por) ?(?:month|week|day|monat|woche|tag|mois|semaine|jour|mes|semana)"
    r"|^ ?(?:monthly|weekly|daily)\b",
    _I,
)
_YEARLY_BEFORE = re.compile(r"(?:per year|yearly|annual\w*|a year)(?: \w+){0,3} ?$", _I)
_WARRANTY = re.compile(r"^ ?(?:mile )?(?:warranty|tread ?wear|tire\b|tires\b|tyres?\b|rated|guarantee)", _I)
_WARRANTY_BEFORE = re.compile(
    r"(?:warranty|rated|guarante\w+|advertised|supposed to last|should last"
    r"|claim\w*)(?: (?:of|for|at|is|to|they|last))* ?$",
    _I,
)
_EVERY = re.compile(r"\b(?:every|each|rotate (?:at|them at)|interval (?:of|is)) ?$", _I)
_ODOMETER = re.compile(
    r"\b(?:odo(?:meter)?|clock|mileage|car (?:has|is at|at)|truck (?:has|is at)|van (?:has"
    r"|is at))(?: (?:is|of|reads?|at|now|says|shows|was))* ?$",
    _I,
)
_ODOMETER_AFTER = re.compile(r"^ ?(?:on the (?:odo\w*|clock|dash|car)|odometer)", _I)
_AT = re.compile(r"\b(?:at|@|now|when)[ :]*$", _I)
_TRIP = re.compile(
    r"\b(?:drive|driving|go|another|trip of|trip is|home is|for|travel|commute)(?: (?:it|about|like"
    r"|another|on it|up to|the|only|for|home))* ?$",
    _I,
)
_ON_THEM = re.compile(
    r"^ ?(?:on (?:them|these|it|the|this|my|mine|tire)|since|so far|later|ago|driven|old|of use"
    r"|in\b|from new|and (?:i|they|now))",
    _I,
)
_MORE_AFTER = re.compile(r"^ ?(?:trip|away|home|drive\b|to (?:the|a) (?:shop|garage)|more\b|round)", _I)
_NOW = re.compile(
    r"\b(?:now|today|this morning|currently|reads?|reading|shows?|showing|showed|dropped(?: down)? to"
    r"|down to|lost|went (?:down )?to|goes? to|fell to|jetzt|maintenant|ahora|adesso|only|is at"
    r"|are at)(?: \w+){0,2} ?$",
    _I,
)
_THEN = re.compile(
    r"\b(?:set|filled?|inflated|pumped|was|were|had|started|from|put|aired|yesterday|last (?:week"
    r"|month|night|summer|fall)|in (?:the )?(?:summer|garage|shop|fall|september|august"
    r"|july))(?: \w+){0,3} ?$",
    _I,
)
_PLACARD = re.compile(
    r"(?:placard|sticker|door(?: ?jamb)?|recommended|recommends?|spec\w*|supposed to be|should be"
    r"|manual|handbook|factory|oem|book)(?: \w+){0,3}[ :]*$",
    _I,
)
_PLACARD_AFTER = re.compile(
    r"^ ?(?:recommended|placard|on the (?:door|placard|sticker)|is (?:what|the) "
    r"|per (?:the )?(?:door|placard)|door (?:sticker|jamb))",
    _I,
)
_CHANGE_AT_MOST = 18.0  # psi: nobody drives on less, so what was lost is meant (custom of speech, no source)
_CHANGED = re.compile(
    r"\b(?:lost|los(?:e|es|ing)|drop(?:s|ped|ping)?|down|fell|gain(?:s|ed)?|went up|went down|rose|off by|low by"
    r"|differ\w*)"
    r"(?: (?:by|of|about|around|like|air|pressure|another|only|maybe|up to))* ?$",
    _I,
)
_MAX = re.compile(
    r"(?:max(?:imum)?(?: pressure)?|sidewall(?: max)?|tire says|tyre says"
    r"|sidewall says)(?: \w+){0,2}[ :]*$",
    _I,
)
_MAX_AFTER = re.compile(r"^ ?(?:max\b|maximum|max press)", _I)


def with_places(text: str, facts: list[Fact], spots: list[Fact]) -> list[Fact]:
    """The facts, each depth told of which tires it is, where the comment says so."""
    events = sorted(
        [*(f for f in facts if f.field in ("depth", "depth_new", "depth_before", "depth_without_unit")), *spots],
        key=lambda event: event.start,
    )
    owner: dict[int, tuple[str, ...]] = {}
    before_first = _says_place_first(text, events)
    for index, event in enumerate(events):
        if event.field == "place":
            continue
        near = _neighbours(text, events, index)
        own = index > 0 and events[index - 1].field == "place"
        order = near if before_first and (own or near[1] is None) else near[::-1]
        chosen = next((spot for spot in order if spot is not None), None)
        if chosen is not None:
            owner[id(event)] = chosen.where
    return [
        msgspec.structs.replace(fact, where=(*owner[id(fact)], *fact.where)) if id(fact) in owner else fact
        for fact in facts
    ]


def _says_place_first(text: str, events: list[Fact]) -> bool:
    """Whether the places come before their depths: ``fronts 5/32, rears 7/32``, not ``5/32 front, 7/32 rear``."""
    before = after = 0
    for index, event in enumerate(events):
        if event.field != "place":
            earlier, later = _neighbours(text, events, index)
            before += event.start - earlier.end if earlier else _FAR
            after += later.start - event.end if later else _FAR
    return before <= after


_FAR = 60


def _neighbours(text: str, events: list[Fact], index: int) -> tuple[Fact | None, Fact | None]:
    """The place named before the depth and the one after it, in its sentence, no other depth in between."""
    fact = events[index]
    before = after = None
    at = index - 1
    while (
        at >= 0
        and events[at].field != "place"
        and fact.start - events[at].end < 25
        and not _has_stop(text, events[at].end, fact.start)
    ):
        at -= 1  # two depths of one place: "left rear 5/32, was 8/32"
    if (
        at >= 0
        and events[at].field == "place"
        and fact.start - events[at].end < 60
        and not _has_stop(text, events[at].end, fact.start)
    ):
        before = _joined(text, events, at)
    if index + 1 < len(events) and events[index + 1].field == "place":
        spot = events[index + 1]
        close = spot.start - fact.end < 30 and not _has_stop(text, fact.end, spot.start)
        owned = (
            index + 2 < len(events)
            and events[index + 2].field != "place"
            and _verb_between(text, spot, events[index + 2])
        )
        if close and not owned:
            after = spot
    return before, after


def _joined(text: str, events: list[Fact], at: int) -> Fact:
    """``front left and front right are 5/32``: both."""
    spot = events[at]
    if (
        at
        and events[at - 1].field == "place"
        and text[events[at - 1].end : spot.start].strip().lower() in ("and", "&", "/", "+")
    ):
        earlier = events[at - 1]
        return msgspec.structs.replace(spot, where=tuple(dict.fromkeys((*earlier.where, *spot.where))))
    return spot


def _verb_between(text: str, spot: Fact, fact: Fact) -> bool:
    """Whether the place is followed by its own depth: ``the rear is 7/32``."""
    return text[spot.end : fact.start].strip(" :=-").lower() in _VERBS


_VERBS = frozenset(
    ("is", "are", "at", "has", "have", "was", "were", "is at", "are at", "tires are", "one is", "ones are", "tire is")
)


def _has_stop(text: str, start: int, end: int) -> bool:
    return bool(_STRONG.search(text, start, end))


def with_moments(text: str, facts: list[Fact]) -> list[Fact]:
    """The facts, pressures and distances told in which role they stand."""
    return [_told(text, fact) for fact in facts]


def _told(text: str, fact: Fact) -> Fact:
    before, after = without_hedges(text[max(0, fact.start - 50) : fact.start]), text[fact.end : fact.end + 30]
    field = fact.field
    if field == "distance":
        field = _distance_role(before, after)
    elif field == "pressure":
        small = fact.quantity.to("psi").value <= _CHANGE_AT_MOST
        field = "pressure_change" if small and _CHANGED.search(before) else _pressure_role(before, after)
    return fact if field == fact.field else msgspec.structs.replace(fact, field=field)


def _distance_role(before: str, after: str) -> str:
    if _MONTHLY.match(after):
        return "monthly_distance"
    if _YEARLY.match(after) or _YEARLY_BEFORE.search(before):
        return "yearly_distance"
    if _WARRANTY.match(after) or _WARRANTY_BEFORE.search(before):
        return "warranty_distance"
    if _EVERY.search(before):
        return "rotation_interval"
    if _ODOMETER.search(before) or _ODOMETER_AFTER.match(after):
        return "odometer"
    if _MORE_AFTER.match(after) or (_TRIP.search(before) and not _ON_THEM.match(after)):
        return "trip"
    return "odometer" if _AT.search(before) and not _ON_THEM.match(after) else "distance"


def _pressure_role(before: str, after: str) -> str:
    if _MAX.search(before) or _MAX_AFTER.match(after):
        return "sidewall_pressure"
    if _PLACARD.search(before) or _PLACARD_AFTER.match(after):
        return "placard_pressure"
    if _NOW.search(before):
        return "pressure"
    return "pressure_before" if _THEN.search(before) else "pressure"
