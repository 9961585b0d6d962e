"""A comment read: from text to facts. Nothing is invented; what is less sure says so; time grows with the length."""

import itertools
import re

import msgspec

from studio.model.quantity import Quantity
from studio.questions.bare_numbers import MOST_BARE, bare_numbers
from studio.questions.date_codes import date_codes
from studio.questions.facts import MOST_FACTS_SAID, Fact, Found, Reading
from studio.questions.hints import region_said, system_of
from studio.questions.marks import services, sizes, widths
from studio.questions.measures import measures, rims
from studio.questions.places_said import places_said
from studio.questions.plain_text import plain_text
from studio.questions.roles import with_moments, with_places
from studio.questions.spelling import Places, set_right
from studio.questions.vocabulary import vocabulary
from studio.tires.designation import parse_marking

_DIGIT = re.compile(r"[0-9]")
_OTHER_RIM = re.compile(r"\b(?:on|onto|for|with|to|fit|fits|over)\b[^.;!?]{0,25}$", re.IGNORECASE)


_INCH = r"[ -]?(?:inch(?:es)?|in\.?|\"|'')"
_TIRE_ON_WHEEL = re.compile(
    rf"\b(?P<tire>1[2-9]|2[0-4]){_INCH} (?:tires?|tyres?)(?: (?:be|go|fit|work|mounted|put))? (?:on|onto|over) "
    rf"(?:a |an |my |the )?(?P<wheel>1[2-9]|2[0-4]){_INCH}? ?(?:wheels?|rims?)",
    re.IGNORECASE,
)


def read(comment: str) -> Reading:
    """What a comment says of tires. Spans are of ``comment`` itself."""
    written, out = plain_text(comment)
    text, places = set_right(written)
    found = Found(facts=[], impossible=[])
    bare = []
    if _DIGIT.search(text):
        sizes(text, found)
        date_codes(text, found)
        widths(text, found)
        rims(text, found)
    services(text, found)
    vocabulary(text, found)
    spots = places_said(text, found)
    if _DIGIT.search(text) or len(text) < 2000:
        bare = measures(text, found)
    system = system_of(found.facts, text)
    bare_numbers(text, bare, system, found, spots)
    if len(bare) > MOST_BARE:
        out = " ".join([out, f"Of {len(bare)} numbers without a unit the first {MOST_BARE} were looked at."]).strip()
    facts = _settled(text, found, spots)
    if system is not None:
        facts.append(_word("units", system, "the units written in"))
    if region := region_said(text, facts):
        facts.append(region)
    facts.sort(key=lambda fact: fact.start)
    _contradictions(text, facts, found)
    if len(facts) > MOST_FACTS_SAID:
        out = " ".join([out, f"Only the first {MOST_FACTS_SAID} of {len(facts)} facts are kept."]).strip()
    facts = facts[:MOST_FACTS_SAID]
    return Reading(
        text=written,
        facts=tuple(_as_written(fact, written, places) for fact in facts) if places.moved else tuple(facts),
        impossible=tuple(dict.fromkeys(found.impossible))[:10],
        left_out=out,
    )


def _as_written(fact: Fact, written: str, places: Places) -> Fact:
    """The fact with its span in the comment as it was written."""
    if fact.start == fact.end:
        return fact
    start, end = places.start(fact.start), places.end(fact.end)
    return msgspec.structs.replace(fact, start=start, end=end, text=written[start:end])


def _settled(text: str, found: Found, spots: list[Fact]) -> list[Fact]:
    """The facts in order with places and moments, ambiguous temperatures in one unit."""
    facts = sorted(found.facts, key=lambda fact: fact.start)
    facts = [_of_a_new_tire(text, fact, spots) for fact in with_moments(text, with_places(text, facts, spots))]
    facts = _fallen(text, facts)
    if not any(fact.field in ("damage", "repair") for fact in facts):
        facts = [fact for fact in facts if fact.field != "zone"]  # nothing that could sit there
    return [*_temperatures(facts), *(spot for spot in spots if spot.value != "all")]


_DOWN_TO = re.compile(r"^ ?(?:(?:down )?to|->|bis|auf) ?$", re.IGNORECASE)


def _fallen(text: str, facts: list[Fact]) -> list[Fact]:
    """``10/32 to 8/32 in 12k``: the deeper one first and a distance beside, so the first is the earlier depth."""
    if not any(fact.field == "distance" for fact in facts):
        return facts
    depths = [fact for fact in facts if fact.field == "depth" and not fact.where]
    before = {
        id(one)
        for one, other in itertools.pairwise(depths)
        if _DOWN_TO.match(text[one.end : other.start]) and one.quantity.to("mm").value > other.quantity.to("mm").value
    }
    return [msgspec.structs.replace(f, field="depth_before") if id(f) in before else f for f in facts]


_WITH = re.compile(r"\b(?:with|by|one at|two at|get|buy|buying)(?: (?:a|one|an|two|new))* $", re.IGNORECASE)


def _of_a_new_tire(text: str, fact: Fact, spots: list[Fact]) -> Fact:
    """``two new at 11/32``, ``replace one with 11/32 new``: how deep a new tire is today, not how deep these were."""
    if fact.field != "depth_new":
        return fact
    named = any("new_one" in fact.where and spot.where == ("new_one",) and _COUNTED.match(spot.text) for spot in spots)
    wished = "start" not in text[max(0, fact.start - 25) : fact.start].lower() and _WITH.search(
        text[max(0, fact.start - 25) : fact.start]
    )
    return msgspec.structs.replace(fact, field="depth", where=("new_one",)) if named or wished else fact


_COUNTED = re.compile(
    r"(?:the|a|my|one|two|1|2|ein|zwei|un|deux|una?|single) |\b(?:new|replacement|fresh) (?:one"
    r"|tire|tyre)",
    re.IGNORECASE,
)


def _temperatures(facts: list[Fact]) -> list[Fact]:
    """Degrees whose unit is not said follow those whose unit is, else the system of the other units."""
    said = [fact for fact in facts if fact.field == "temperature" and fact.sure > 0.9]
    system = system_of([fact for fact in facts if fact.field != "temperature"], "")
    unit = said[0].quantity.unit if said else "degC" if system == "metric" else "degF" if system == "us" else None
    return [_in_degrees(fact, unit) if fact.field == "temperature" and fact.sure < 0.9 else fact for fact in facts]


def _in_degrees(fact: Fact, unit: str | None) -> Fact:
    if unit not in ("degC", "degF"):
        return msgspec.structs.replace(fact, sure=0.4, how="a temperature whose unit is not said")
    degrees = Quantity(fact.quantity.value, "degC" if unit == "degC" else "degF")
    return msgspec.structs.replace(
        fact, value=degrees, sure=0.7, how="a temperature, its unit taken from the other units"
    )


def _word(field: str, value: str, how: str) -> Fact:
    return Fact(start=0, end=0, text="", field=field, value=value, sure=0.8, how=how)


def _contradictions(text: str, facts: list[Fact], found: Found) -> None:
    """A size and a wheel that do not go together."""
    for match in _TIRE_ON_WHEEL.finditer(text):
        if match["tire"] != match["wheel"]:
            found.impossible.append(
                f"a {match['tire']} inch tire on a {match['wheel']} inch wheel: the two must be the same"
            )
    marked = [(fact, parse_marking(fact.word).rim_diameter_in) for fact in facts if fact.field == "size"]
    for rim in (fact for fact in facts if fact.field == "rim"):
        if not marked or any(code == rim.quantity.value for _, code in marked):
            continue
        before = [pair for pair in marked if pair[0].end <= rim.start]
        size, code = before[-1] if before else marked[0]
        if len(marked) == 1 and _OTHER_RIM.search(text[max(0, rim.start - 40) : rim.start]):
            found.impossible.append(
                f"{size.word} on {'an' if rim.quantity.value == 18 else 'a'} {rim.quantity.value:g} inch rim: this "
                f"tire is made for {code:g} inch rims only"
            )
