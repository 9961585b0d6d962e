"""Unit words as people write them in running text, in English and the words of its neighbours."""

from studio.model.quantity import UnitName
from studio.model.running_tokens import Token, adjoin

_WORDS: dict[UnitName, str] = {
    "mm": "mm mms millimeter millimeters millimetre millimetres milimeter milimeters milimetre milimetres millimètre "
          "millimètres milímetro milímetros milimetro milimetros millimetro millimetri millimetern",
    "in": "inch inches inchs zoll pouce pouces pulgada pulgadas pollici pollice",
    "psi": "psi psis",
    "kPa": "kpa kilopascal kilopascals",
    "bar": "bar bars bares",
    "km": "km kms kilometer kilometers kilometre kilometres kilometern kilomètre kilomètres kilómetro kilómetros "
          "kilometros chilometri klicks",
    "mi": "mi mile miles mls meilen millas miglia",
    "kg": "kg kgs kilo kilos kilogram kilograms kilogramm",
    "lb": "lb lbs pound pounds pfund",
    "km/h": "kmh kph kmph",
    "mph": "mph",
    "degC": "celsius centigrade",
    "degF": "fahrenheit farenheit",
    "%": "percent pct prozent percento percents",
    "years": "year years yr yrs yo jahre jahr ans anni años",
    "N m": "nm",
    "m": "meter meters metre metres",
    "ft": "ft feet foot",
    "rpm": "rpm",
    "money": "dollar dollars bucks euro euros eur usd",
}  # fmt: skip
UNIT_OF: dict[str, UnitName] = {word: unit for unit, words in _WORDS.items() for word in words.split()}
_TURNING: dict[str, UnitName] = {
    "minute": "rpm", "mile": "rev/mi", "kilometer": "rev/km", "kilometre": "rev/km",
}  # fmt: skip
_PHRASES: tuple[tuple[str, UnitName], ...] = (
    ("pounds per square inch", "psi"), ("pound per square inch", "psi"), ("lbs per square inch", "psi"),
    ("pounds of pressure", "psi"), ("lbs of pressure", "psi"), ("pounds of air", "psi"), ("lbs of air", "psi"),
    ("miles per hour", "mph"), ("miles an hour", "mph"), ("kilometers per hour", "km/h"),
    ("kilometres per hour", "km/h"), ("kilometers an hour", "km/h"), ("kilometres an hour", "km/h"),
    ("km / h", "km/h"), ("km per hour", "km/h"), ("km an hour", "km/h"), ("mi / h", "mph"), ("per cent", "%"),
    ("pour cent", "%"), ("por ciento", "%"), ("per cento", "%"), ("newton meters", "N m"), ("newton metres", "N m"),
    ("newton meter", "N m"), ("newton metre", "N m"), ("n m", "N m"), ("n · m", "N m"), ("foot pounds", "lbf ft"),
    ("ft lb", "lbf ft"), ("ft lbs", "lbf ft"), ("ft - lb", "lbf ft"), ("ft - lbs", "lbf ft"), ("lb ft", "lbf ft"),
    ("lb - ft", "lbf ft"), ("lbs ft", "lbf ft"), ("lbf ft", "lbf ft"), ("foot - pounds", "lbf ft"),
    ("pound feet", "lbf ft"), ("pound - feet", "lbf ft"), ("pounds - feet", "lbf ft"),
    ("pounds feet", "lbf ft"), ("degrees celsius", "degC"), ("degree celsius", "degC"),
    ("degrees centigrade", "degC"), ("degrees fahrenheit", "degF"), ("degree fahrenheit", "degF"),
    ("degrees farenheit", "degF"), ("degrees c", "degC"), ("degrees f", "degF"), ("degree c", "degC"),
    ("degree f", "degF"), ("deg c", "degC"), ("deg f", "degF"), ("° c", "degC"), ("° f", "degF"), ("º c", "degC"),
    ("º f", "degF"), ("grad celsius", "degC"), ("inches an hour", "in/h"), ("inches per hour", "in/h"),
    ("millimeters an hour", "mm/h"), ("millimetres an hour", "mm/h"), ("mm / h", "mm/h"),
    *((f"{word} {per} {what}", unit) for word in ("turns", "revolutions", "revs", "rotations", "times")
      for per in ("per", "a", "each") for what, unit in _TURNING.items()),
    ("thirty - seconds", "32nds"), ("thirty - second", "32nds"), ("thirty seconds of", "32nds"), ("years old", "years"),
)  # fmt: skip
_BY_FIRST: dict[str, list[tuple[tuple[str, ...], UnitName]]] = {}
for _phrase, _unit in sorted(_PHRASES, key=lambda pair: -len(pair[0])):
    _BY_FIRST.setdefault(_phrase.split()[0], []).append((tuple(_phrase.split()), _unit))
_DEGREES = ("°", "º", "degrees", "degree", "deg", "degs", "grad", "grados", "gradi", "degrés")
_AFTER_IN = frozenset(  # "4 in deep" is inches, "4 in the front" is not
    "deep wide of left tall and or vs versus rim rims wheel wheels tread thick long remaining over under more less "
    "tires tyres".split()
)
_AIR_AT_MOST = 120.0  # pounds: up to here people mean pressure, above it a load (custom of speech, no source)
Unit = tuple[UnitName | None, UnitName | None, int]


def unit_at(tokens: list[Token], at: int, value: float) -> Unit:
    """The unit that begins at token ``at``, what else the same word can mean, and the token after it."""
    if at >= len(tokens) or tokens[at].kind == "name":
        return None, None, at
    word = tokens[at].text
    for phrase, unit in _BY_FIRST.get(word, ()):
        if tuple(token.text for token in tokens[at : at + len(phrase)]) == phrase:
            return unit, None, _past_inch(tokens, at + len(phrase)) if unit == "32nds" else at + len(phrase)
    if word == "32" and at + 1 < len(tokens):
        return _thirty_seconds(tokens, at)
    if word in _DEGREES:
        return "degF", "degC", at + 1
    return _single(tokens, at, value)


def _single(tokens: list[Token], at: int, value: float) -> Unit:
    word = tokens[at].text
    if word == "%":
        return "%", None, at + 1
    if word in ('"', "”", "″"):
        return "in", None, at + 1
    if word in ("pound", "pounds", "lb", "lbs", "#"):
        air = abs(value) <= _AIR_AT_MOST
        return ("psi", "lb", at + 1) if air and word != "#" else ("lb", "psi", at + 1)
    if word == "in":
        return ("in", None, at + 1) if _is_inch(tokens, at) else (None, None, at)
    if word in ("c", "f"):
        adjoined = at and adjoin(tokens[at - 1], tokens[at])
        free = at + 1 >= len(tokens) or tokens[at + 1].kind == "sign" or not adjoin(tokens[at], tokens[at + 1])
        shown = bool(adjoined) or free
        return ("degC" if word == "c" else "degF", None, at + 1) if shown else (None, None, at)
    if word == "m":
        return "m", None, at + 1
    return UNIT_OF.get(word), None, at + (word in UNIT_OF)


def _is_inch(tokens: list[Token], at: int) -> bool:
    after = tokens[at + 1] if at + 1 < len(tokens) else None
    return after is None or after.kind == "sign" or after.text in _AFTER_IN


def _thirty_seconds(tokens: list[Token], at: int) -> Unit:
    after = tokens[at + 1]
    if adjoin(tokens[at], after) and after.text in ("nds", "nd", "ths", "th", "s", "rds", "nths", "sec", "seconds"):
        return "32nds", None, _past_inch(tokens, at + 2)
    return None, None, at


def _past_inch(tokens: list[Token], at: int) -> int:
    """The token after ``of an inch``, ``inch`` or ``in``, where that follows."""
    words = [token.text for token in tokens[at : at + 3]]
    if words[:1] == ["of"] and words[1:3] in (["an", "inch"], ["a", "inch"], ["one", "inch"]):
        return at + 3
    if words[:3] == ["an", "inch"]:
        return at + 2
    if words[:2] in (["of", "inch"], ["of", "inches"]):
        return at + 2
    if words[:1] and (words[0] in ("inch", "inches", '"', "”", "″") or (words[0] == "in" and _is_inch(tokens, at))):
        return at + 1
    return at
