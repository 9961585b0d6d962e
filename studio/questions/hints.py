"""Where a viewer writes from and in which units they think, by places, language, spelling and units."""

import re

from studio.model.quantity import System
from studio.questions.facts import Fact
from studio.questions.sieve import Sieve

_I = re.IGNORECASE
_PLACES: tuple[tuple[str, re.Pattern[str]], ...] = tuple(
    (region, re.compile(rf"(?<![\w])(?:{words})(?![\w])", _I))
    for region, words in (
        ("ca-qc", "quebec|québec|montreal|montréal"),
        ("ca-bc", "british columbia|vancouver|kelowna"),
        ("ca", "canada|canadian|ontario|toronto|alberta|calgary|manitoba|saskatchewan|nova scotia|winnipeg|ottawa"),
        ("us-md", "maryland|baltimore"),
        (
            "us",
            "(?-i:US|USA)|united states|u\\.s\\.(?:a\\.)?|texas|california|florida|new "
            "york|ohio|michigan|minnesota|wisconsin|colorado|illinois|chicago|pennsylvania|georgia|arizona"
            "|oregon|alaska|maine|vermont|montana|utah|nevada|new "
            "jersey|virginia|carolina|tennessee|kentucky|indiana|iowa|kansas|missouri|nebraska|dakota|oklahoma"
            "|idaho|wyoming|massachusetts|connecticut|new hampshire|buffalo|boston|seattle",
        ),
        (
            "uk",
            "uk|u\\.k\\.|united "
            "kingdom|england|scotland|wales|britain|british|london|manchester|glasgow|mot|northern ireland|leeds",
        ),
        (
            "de",
            "germany|german|deutschland|deutsche[rn]?|tüv|tuev|autobahn|berlin|münchen|munich|hamburg|bavaria|bayern",
        ),
        ("at", "austria|österreich|vienna|wien|tirol|tyrol"),
        ("ch", "switzerland|swiss|schweiz|suisse|zürich|zurich|geneva"),
        ("fr", "france|french|paris|lyon|marseille"),
        ("it", "italy|italia|italian|rome|milan|milano|torino"),
        ("se", "sweden|swedish|sverige|stockholm"),
        ("no", "norway|norwegian|norge|oslo"),
        ("fi", "finland|finnish|suomi|helsinki"),
        ("cz", "czechia|czech|prague"),
        ("sk", "slovakia|slovak|bratislava"),
        ("si", "slovenia|ljubljana"),
        ("lv", "latvia|riga"),
        ("hr", "croatia|zagreb"),
        ("ee", "estonia|tallinn"),
        ("is", "iceland|reykjavik"),
        ("lt", "lithuania|vilnius"),
        ("au", "australia|australian|aussie|sydney|melbourne|queensland|nsw|perth|brisbane|rego"),
        ("nz", "new zealand|nz|kiwi|auckland|wof"),
        ("jp", "japan|japanese|tokyo"),
        (
            "eu",
            "europe|european|eu|spain|españa|madrid|netherlands|dutch|holland|belgium|portugal|poland|ireland"
            "|dublin|denmark|greece|romania|hungary",
        ),
    )
)
_TONGUES: tuple[tuple[str, re.Pattern[str]], ...] = tuple(
    (region, re.compile(rf"(?<![\w])(?:{words})(?![\w])", _I))
    for region, words in (
        (
            "de",
            r"reifen|profil(?:tiefe)?|sind|meine?|noch|ist das|winterreifen|sommerreifen|luftdruck|hinten|vorne"
            r"|darf|ich|kann|erlaubt|wie|ist|ein|eine|einen|mit|und|der|das|bei|auf|statt|jetzt|nach|neue?n?|grad|jahre"
            r"|zu alt|reparieren|weiterfahren|wieviel|was|muss|nur",
        ),
        (
            "fr",
            r"pneus?|mes|est-ce|sont|encore|profondeur|pression|arrière|gonfl\w+|c'est|usure|puis-je|dois-je|le|les"
            r"|dans|une|avec|"
            r"pour|après|combien|quel|au lieu|réparable|dangereux|roue|du",
        ),
        (
            "it",
            r"gomm[ae]|pneumatic\w+|battistrada|posso|sono|ancora|pressione|ho|delle|cambiare|devo|il|della|che"
            r"|quanto|con un|o devo|quanti",
        ),
        (
            "eu",
            r"neumáticos?|neumaticos?|llantas?|cubiertas?|presión|presion|puedo|tengo|dibujo|bares|todavía"
            r"|banden?|opony?|el|los|las|una|en|con|que|mi|mis|puede|cuánto|presión|clavo|flanco|reparar|cambiar"
            r"|seguir",
        ),
    )
)
_US_UNITS, _METRIC_UNITS = (
    {"32nds": 2, "psi": 1, "mi": 1, "degF": 2, "lb": 1, "mph": 1, "ft": 1, "in": 1},
    {
        "mm": 2,
        "bar": 2,
        "kPa": 2,
        "km": 2,
        "degC": 2,
        "kg": 1,
        "km/h": 2,
    },
)
_TYRE = re.compile(r"\btyres?\b|\bkerb|\btread ?wear indicators? legal\b", _I)
_TIRE = re.compile(r"\btires?\b|\bcurb", _I)
_MILES = re.compile(r"\bmiles?\b|\bmph\b", _I)
_PENNY = re.compile(r"\bpenny|\bquarter test|\b\w{4,}'s head\b|\bstate inspection|\bcosts? \$", _I)
_PENCE = re.compile(r"\b20 ?p\b|\bquid\b|£", _I)
_SAID, _TONGUE, _HINT, _WEAK = 0.95, 0.7, 0.6, 0.4


_PLACES_SIEVE, _TONGUES_SIEVE = (
    Sieve([(pattern, (region, pattern)) for region, pattern in words]) for words in (_PLACES, _TONGUES)
)


def region_said(text: str, facts: list[Fact]) -> Fact | None:
    """The region that the text points to; None where nothing does."""
    for region, pattern in _PLACES_SIEVE.of(text):
        if match := pattern.search(text):
            return _fact(match, region, _SAID, "a place named")
    if tongue := _tongue(text):
        return tongue
    return _by_units(text, facts)


def _tongue(text: str) -> Fact | None:
    """The language of which most words are known; two at least."""
    best: tuple[int, str, re.Match[str]] | None = None
    for region, pattern in _TONGUES_SIEVE.of(text):
        matches = list(pattern.finditer(text))
        distinct = len({match[0].lower() for match in matches})
        if distinct >= 2 and (best is None or distinct > best[0]):
            best = distinct, region, matches[0]
    return _fact(best[2], best[1], _TONGUE, "the language") if best else None


def _by_units(text: str, facts: list[Fact]) -> Fact | None:
    if match := _PENCE.search(text):
        return _fact(match, "uk", _HINT, "the money")
    tyre, us, metric = _TYRE.search(text), _us(facts), _metric(facts)
    if tyre:
        british = us > metric or (metric == 0 and _MILES.search(text))
        return _fact(tyre, "uk" if british else "eu", _HINT if british or metric else _WEAK, "spelling and units")
    if metric > us + (1 if _TIRE.search(text) and not metric else 0):
        unit = next(fact for fact in facts if _unit(fact) in _METRIC_UNITS)
        return _made(unit, "eu", _WEAK, "metric units")
    if us and us >= metric:
        unit = next(fact for fact in facts if _unit(fact) in _US_UNITS)
        return _made(unit, "us", _HINT, "US units")
    match = _PENNY.search(text)
    return _fact(match, "us", _HINT, "a US coin or custom") if match else None


def system_of(facts: list[Fact], text: str) -> System | None:
    """The system of units that the viewer writes in; None where they wrote none."""
    us, metric = _us(facts), _metric(facts)
    if us == metric == 0:
        return None
    return "metric" if metric > us else "us"


def _unit(fact: Fact) -> str:
    return "" if isinstance(fact.value, str) or fact.field == "rim" else fact.value.unit


def _us(facts: list[Fact]) -> int:
    return sum({_unit(fact): _US_UNITS.get(_unit(fact), 0) for fact in facts}.values())


def _metric(facts: list[Fact]) -> int:
    return sum({_unit(fact): _METRIC_UNITS.get(_unit(fact), 0) for fact in facts}.values())


def _fact(match: re.Match[str], region: str, sure: float, how: str) -> Fact:
    return Fact(start=match.start(), end=match.end(), text=match[0], field="region", value=region, sure=sure, how=how)


def _made(fact: Fact, region: str, sure: float, how: str) -> Fact:
    return Fact(start=fact.start, end=fact.end, text=fact.text, field="region", value=region, sure=sure, how=how)
