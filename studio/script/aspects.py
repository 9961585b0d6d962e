"""What a number in a sentence can be about: the words that tell it, and which numbers of findings it then is.

An aspect names its members as ``topic`` and ``number`` patterns. The words are those that presenters use; custom of
speech, no source.
"""

import re
from fnmatch import fnmatchcase
from functools import lru_cache
from typing import Literal, get_args

import msgspec

Dimension = Literal[
    "len", "pressure", "distance", "load", "speed", "temp", "torque", "share", "age", "money", "turns", "rpm", "rain",
    "flow", "height", "week", "year", "index", "count",
]  # fmt: skip
DIMENSION_OF: dict[str, Dimension] = {
    "depth": "len", "length": "len", "pressure": "pressure", "distance": "distance", "load": "load", "speed": "speed",
    "temperature": "temp", "torque": "torque", "share": "share", "age": "age", "money": "money", "turns": "turns",
    "turning": "rpm", "rain": "rain", "flow": "flow", "altitude": "height", "count": "count",
}  # fmt: skip


class Aspect(msgspec.Struct, frozen=True, kw_only=True):
    """One thing that is measured. ``of_tire`` says that it differs from tire to tire, so a subject is needed."""

    id: str
    dimensions: tuple[Dimension, ...]
    cue: str
    members: tuple[tuple[str, str], ...]
    of_tire: bool = True
    weight: int = 0


def _a(id_: str, dims: str, cue: str, members: str, *, of_tire: bool = True, weight: int = 0) -> Aspect:
    pairs = tuple((topic, name) for topic, name in (member.split(":") for member in members.split()))
    return Aspect(
        id=id_, dimensions=tuple(dims.split()), cue=cue, members=pairs, of_tire=of_tire, weight=weight,  # type: ignore[arg-type]
    )  # fmt: skip


ASPECTS: tuple[Aspect, ...] = (
    # lengths
    _a("legal", "len", r"legal|\blaw\b|lawful|statut|minimum|inspect(?:ion|ors?)\b|illegal|"
       r"\bstates?\b (?:ask|set|require|limit)|"
       r"\blimit (?:in|is|here|of)\b", "tread_left:limit tread_left:legal_minimum tread_left:winter_minimum "
       "life:legal_minimum life:winter_minimum", of_tire=False, weight=1),
    _a("over_legal", "len", r"\b(?:above|over|to spare|more than|left (?:before|until|down)|"
       r"away from|to go|clear of|in hand)\b"
       r"(?=.*\b(?:legal|law|limit|minimum)\b)|(?<=legal)\b.*\bto go\b"
       r"|\b(?:legal|clears?.*|pass(?:es|ed)?.*) by\b", "tread_left:margin tread_left:above_legal",
       weight=2),
    _a("advice", "len", r"advi[sc]e|recommend|wet[- ]road|wet roads?\b|for rain|in the rain|in the wet|"
       r"for winter|for snow|"
       r"(?:winter|summer) t[iy]res? (?:want|need|should|ask|call)|for (?:winter|summer) t[iy]res",
       "tread_left:*_advice life:*_advice", of_tire=False),
    _a("bars", "len", r"wear[- ]?(?:bars?|indicators?)|\bbars\b|indicators?", "tread_left:wear_bar gauges:*",
       of_tire=False),
    _a("new", "len", r"(?:when|was|were|as|since)[ -]new\b|new, (?:it|they|these|this|the)\b|fresh|"
                     r"from new|new depth|left the (?:factory|mold|"
       r"mould)|(?<!we )start(?:ed|s)? (?:out|life|with|at)|"
       r"\bw(?:ent|as put|ere put) on (?:with|at)|came with|once had|originally|at first|new tread|new one has|"
       r"starting depth", "tread_left:depth_new size:tread_depth_new",
       weight=2),
    _a("past", "len", r"\bhad\b|\bwas\b|\bwere\b|last (?:year|spring|summer|fall|autumn|winter|time|month)|\bago\b|"
       r"earlier|in (?:january|february|march|april|may|june|july|august|september|october|november|december)|"
       r"first reading|used to|at first|back then|before (?:that|then)", "life:depth_[0-9]* life:fit_at_*"),
    _a("mean", "len", r"\bmean\b|averag", "tread_left:mean matching:depth_*", weight=1),
    _a("groove", "len", r"groove|inner|inside|outer|outside|shoulder|\bedges?\b|center|centre|middle|rib",
       "tread_left:groove_* wear_pattern:level_* wear_pattern:inner wear_pattern:outer wear_pattern:center "
       "wear_pattern:value wear_pattern:difference tread_left:depth tread_left:value"),
    _a("uneven", "len", r"uneven|evenly|low(?:er)?\b|of note|across the tread|heel|feather|cup", "wear_pattern:*"),
    _a("depth", "len", r"tread|deep|depth|thirty-second|left\b|gauge|reads?\b|measure|lowest|groove|remain|has\b|"
                       r"have\b|down to|rubber|profile",
       "tread_left:value tread_left:depth life:depth wet:tread condition:depth repair_zone:depth gauges:depth"),
    _a("apart", "len", r"apart|separat|differ|unequal|mismatch|deeper than|shallower|lower than|higher than|worn "
                       r"more|wore|gap|"
       r"less than the|more than the|further worn|between (?:them|the two|the)|larger than|smaller than|taller than|"
       r"too (?:much|far|big)|off\b|disagree|spread",
       "matching:value matching:difference matching:difference_lowest matching:tape_difference "
       "matching:circumference_difference matching:axles_apart matching:margin rotation:axles_apart wear_pattern:value "
       "choices:apart_* choices:match_* spare:diameter_difference spare:rolling_difference "
       "size_swap:diameter_difference size_swap:rolling_difference "
       "size_swap:circumference_difference", weight=2),
    _a("around", "len", r"circumference|\baround\b|\bround\b|roll(?:s|ing)\b|tape",
       "matching:value matching:tape_difference matching:circumference_difference matching:margin "
       "size:circumference size:rolling_circumference "
       "matching:rolling_circumference_* slip:rolling_circumference_* wear_effects:circumference_* "
       "spare:rolling_* size_swap:rolling_*"),
    _a("tolerance", "len", r"toleran|allow|permit|manual|maker|limit|at most|no more than|within|\bstay|exceed|"
       r"may (?:be|differ)|shops?\b|handbook|act\b|take note|accept",
       "matching:limit matching:tolerance_* choices:limit_* rotation:apart_from "
       "matching:margin", of_tire=False, weight=1),
    _a("wear", "len", r"per (?:thousand|1,?000)|every (?:thousand|1,?000)|in (?:a thousand|1,?000)|a thousand|wear "
                      r"rate|wears? (?:off|down|away)", "life:wear_* rotation_plan:wear_*", weight=1),
    _a("hole", "len", r"hole|punctur|nail|screw|bulge|\bcut\b|crack|"
       r"gash|\bacross\b(?! the)", "condition:size condition:value "
       "condition:hole_most repair_zone:hole_most", of_tire=False, weight=1),
    _a("zone", "len", r"crown|center line|centre line|centerline|repair|middle of the tread|patch|plug",
       "repair_zone:* condition:crown_* condition:hole_most condition:section_width", weight=1),
    _a("water", "len", r"water|puddle|film|rain|texture|standing", "wet:water wet:film* wet:texture wet:tread"),
    _a("size", "len", r"\bwide\b|width|section|\btall\b|height|high\b|diameter|"
       r"sidewall|\brims?\b|wheels?\b|\bacross\b(?! the)|"
       r"stands?\b|bigger|smaller|narrow", "size:* size_swap:* spare:diameter_* spare:rim_* matching:diameter_* "
       "condition:section_width repair_zone:section_width given:rim_width_* gauges:coin_*"),
    _a("gauge", "len", r"gauge|plus or minus|±|accura|good to|\bstep|resolution|give or take|by hand|trust|doubt|"
       r"uncertain", "gauges:* tread_left:uncertainty matching:uncertainty matching:doubt", of_tire=False),
    _a("coin", "len", r"\bcoins?\b|\bcents?\b|penn(?:y|ies)|\bquarter\b|\beuros?\b|\bhead\b|memorial|dollar",
       "gauges:*", of_tire=False, weight=1),
    _a("car", "len", r"wheelbase|track\b|clearance|ground", "given:wheelbase given:front_track given:rear_track "
       "given:ground_clearance size_swap:ground_clearance* size_swap:rise", of_tire=False, weight=2),
    # pressures
    _a("placard", "pressure", r"placard|sticker|door|should|ask|recommend|specif|\bwants?\b|called for|cold pressure|"
       r"needs?\b|supposed|(?:meant|ought|is) to (?:have|hold|be)|owed|prescribe|label|belongs?|goes in|door jamb",
       "placard:*pressure placard:value pressure:placard* pressure:limit spare:pressure_asked given:placard_*",
       of_tire=False, weight=1),
    _a("set", "pressure", r"\bset\b|fill|inflat|pump|\bput in\b|put .* in\b|top (?:up|off)",
       "pressure:set_* placard:*pressure placard:value pressure:placard* spare:pressure_asked",
       of_tire=False, weight=1),
    _a("short", "pressure", r"short|under\b|below|missing|too (?:low|little)|down\b|less\b|low\b|over\b|above|more\b",
       "pressure:above pressure:margin pressure:more pressure:told spare:told pressure:lost pressure:weather",
       weight=1),
    _a("lost", "pressure", r"lost|lose|leak|drop|fell|fall|weather|the cold|air gone",
       "pressure:lost pressure:weather pressure:told pressure:drop*", weight=1),
    _a("lamp", "pressure", r"\blamp|warning|light(?:s|ed)?\b|monitor|sensor|dash", "pressure:lamp", of_tire=False,
       weight=2),
    _a("street", "pressure", r"out (?:there|on)|street|on the road|in the cold|morning|frost|at −|degrees",
       "pressure:street pressure:expected pressure:value pressure:set_* pressure:read"),
    _a("before", "pressure", r"before|was\b|had\b|were\b|last", "pressure:before pressure:expected pressure:read"),
    _a("reference", "pressure", r"reference|defined at|rated at|load table|least pressure|enough for",
       "ratings:reference_pressure ratings:pressure_for_rating size_swap:pressure_for_as_much"),
    _a("read", "pressure", r"hold|reads?\b|measure|gauge|has\b|have\b|had\b|shows|\bis at|found|got\b|only",
       "pressure:read pressure:value pressure:street spare:pressure ratings:pressure_* wet:pressure"),
    # temperatures
    _a("temperature", "temp", r"cold|warm|frost|\bset\b|shop|checked|measured|when we|"
       r"garage|fill|morning|outside|driv|street|"
       r"air temperature|out there",
       "pressure:*temperature given:*temperature", of_tire=False),
    # ages
    _a("age_advice", "age", r"advi[sc]e|inspect|replace|at the latest|older than|beyond|from .* on|plan|retire|past",
       "age:advice_* age:limit", of_tire=False),
    _a("age", "age", r"\bold\b|\bage\b|aged|made|years? (?:of|in|on)|young|born|birthday|\bago\b|"
       r"built|manufactured|produced|left the factory", "age:value age:age"),
    _a("lasts", "age", r"left|last|go\b|until|remaining|next (?:purchase|set)|good for|more years",
       "life:years_* choices:next_years"),
    # distances
    _a("life", "distance", r"left|last\b|lasts\b|go\b|until|remain|good for|more\b|before (?:it|they|the)|reach|legal|"
       r"another|to the limit|to come|life|expect|further", "life:value life:left_legal_minimum "
       "life:left_winter_minimum life:told choices:next rotation_plan:*out* rotation_plan:told rotation:left",
       weight=1),
    _a("life_least", "distance", r"at least|no less than|more than|worst|safely|certain|sure",
       "life:*_low choices:next_low"),
    _a("life_most", "distance", r"at most|up to|at best|perhaps|no more than", "life:*_high"),
    _a("life_advice", "distance", r"advi[sc]e|wet|rain|winter|snow|summer", "life:left_*_advice", weight=1),
    _a("since", "distance", r"since|ago\b|last rotat|overdue|driven|behind us|past\b|over\b|too long",
       "rotation:value rotation:since rotation:left rotation:margin", of_tire=False, weight=1),
    _a("interval", "distance", r"\bevery\b|interval|each\b|rotat|manual|handbook",
       "rotation:interval rotation:limit given:rotation_interval", of_tire=False, weight=1),
    _a("gain", "distance", r"gain|put(?:s|ting)? off|later|save|extra|win", "rotation_plan:gain* rotation_plan:value "
       "rotation_plan:told", of_tire=False, weight=1),
    _a("yearly", "distance", r"a year|per year|yearly|annual|each year|every year", "given:yearly_distance life:yearly",
       of_tire=False, weight=2),
    _a("odometer", "distance", r"odometer|on the clock|mileage|showed|counter", "life:odometer_* given:odometer*",
       of_tire=False, weight=1),
    _a("rolled", "distance", r"rolled|so far|first reading|run\b|driven|since", "life:rolled* life:driven"),
    _a("spare_distance", "distance", r"spare|temporary", "cite:*", of_tire=False),
    # loads, torque
    _a("rating", "load", r"rat(?:ed|ing)|axle|may weigh|allowed|limit|weak", "ratings:limit ratings:axle_rating "
       "given:*axle_rating spare:axle_share", weight=1),
    _a("carry", "load", r"carr(?:y|ies)|hold|bear|load|capacity|good for|share|each|index|means|stands for|overload",
       "ratings:* size:load* size_swap:load_* spare:load spare:axle_share"),
    _a("torque", "torque", r".", "given:wheel_nut_torque", of_tire=False),
    # speeds
    _a("floats", "speed", r"float|hydroplan|aquaplan|skate|swim|water|puddle|rain|lift",
       "wet:value wet:floating_19* wet:told", weight=1),
    _a("symbol", "speed", r"symbol|rated|rating|letter|fit for|built for|speed (?:limit|class)|[A-Z] (?:means|stands)",
       "size:speed"),
    _a("spare_speed", "speed", r"spare|temporary",
       "spare:speed_limit spare:speed", of_tire=False),
    _a("shown", "speed", r"speedometer|shown|show|needle|true|really|real|indicat|dial",
       "wear_effects:*speed* size_swap:*speed* size_swap:must_have_read", of_tire=False),
    _a("travel", "speed", r"\bat\b|turn|drive|driving|road", "slip:speed wet:speed given:speed spare:speed "
       "wear_effects:speed_shown size_swap:speed_shown", of_tire=False),
    # shares
    _a("left_share", "share", r"left|remain|of (?:its|the|their) (?:usable )?(?:tread|depth|rubber|life)|still",
       "tread_left:usable_left tread_left:full_depth_share", weight=1),
    _a("used_share", "share", r"gone|worn|used|lost|spent|missing|wear", "tread_left:used_* "
       "pressure:lost_share pressure:weather_share wear_effects:change*", weight=1),
    _a("smaller", "share", r"small|larg|bigg|tall|short|diff|apart|narrow|roll|circumference|off\b|turn",
       "spare:value spare:diameter_* spare:turning_more size_swap:diameter_* size_swap:fit_*_change size_swap:value "
       "matching:circumference_percent matching:tolerance_percent matching:value matching:limit wear_effects:value "
       "wear_effects:change* slip:circumference_percent size:diameter_change", weight=1),
    _a("other_size", "share", r"(?:winter|other|second|bigger|smaller|larger|narrower|wider|optional|new) size|"
       r"sizes? (?:is|are|would|differ|comes?)", "size_swap:value size_swap:diameter_*", of_tire=False, weight=2),
    _a("aspect", "share", r"aspect|ratio|height|high|width|sidewall|number", "size:aspect_ratio"),
    _a("weather_share", "share", r"weather|leak|drop|air", "pressure:weather_share pressure:lost_share"),
    _a("slope", "share", r"slope|road", "wet:slope", of_tire=False),
    # money
    _a("price", "money", r"(?:new|used|single|per|a|each) (?:tire|tyre|one)s?\b|apiece|each\b|mount|balanc|shav",
       "given:price_*", of_tire=False, weight=1),
    _a("outlay", "money", r".", "choices:outlay choices:value"),
    _a("per_distance", "money", r"per\b|every|thousand|1,?000|a mile|a kilomet", "choices:cost_*", of_tire=False,
       weight=1),
    # turning, rain, water, codes
    _a("turns", "turns", r".", "size:revs_* matching:turns_* slip:turns_* spare:turns_* wear_effects:turns_*",
       of_tire=False),
    _a("rpm", "rpm", r".", "slip:* spare:*", of_tire=False),
    _a("rain", "rain", r".", "wet:rain", of_tire=False),
    _a("flow", "flow", r".", "wet:*", of_tire=False),
    _a("bend", "height", r"bend|curve|radius", "slip:bend_radius", of_tire=False),
    _a("uphill", "height", r"altitude|height|pass|plateau|high|up\b|sea level", "given:*altitude wet:drainage",
       of_tire=False),
    _a("week", "week", r".", "age:made_week"),
    _a("year", "year", r".", "age:made_year"),
    _a("index", "index", r".", "size:load_index"),
)  # fmt: skip
DEFAULT: dict[Dimension, str] = {
    "len": "depth", "pressure": "read", "distance": "life", "load": "carry", "speed": "floats", "share": "left_share",
    "age": "age", "money": "outlay", "torque": "torque", "week": "week", "year": "year",
    "index": "index", "turns": "turns", "rpm": "rpm", "rain": "rain", "flow": "flow",
}  # fmt: skip
BY_ID = {aspect.id: aspect for aspect in ASPECTS}
OF_DIMENSION = {its: [a.id for a in ASPECTS if its in a.dimensions] for its in get_args(Dimension)}
CUES = {aspect.id: re.compile(rf"(?<!\w)(?:{aspect.cue})", re.IGNORECASE | re.DOTALL) for aspect in ASPECTS}


@lru_cache(maxsize=4096)
def aspects_of(topic: str, number: str) -> tuple[str, ...]:
    """The aspects of which the number ``number`` of a finding of ``topic`` is a member."""
    return tuple(
        aspect.id
        for aspect in ASPECTS
        if any(topic == its and fnmatchcase(number, pattern) for its, pattern in aspect.members)
    )
