"""Slips of spelling and chat shorthand set right before a comment is read, each span kept findable in the original."""

import re
from bisect import bisect_right
from functools import lru_cache

_RIGHT: dict[str, str] = {
    **dict.fromkeys(("tred", "treed", "tredd", "traed"), "tread"),
    **dict.fromkeys(("tyer", "tier", "tirre", "tyr", "tiire"), "tire"),
    **dict.fromkeys(("tyers", "tiers", "tirs", "tyrs", "tries"), "tires"),
    **dict.fromkeys(("presure", "preasure", "pressue", "preassure", "pressur", "prssure", "pessure"), "pressure"),
    **dict.fromkeys(("guage", "gage", "gague", "gauje"), "gauge"),
    **dict.fromkeys(("sidwall", "sidewal", "sidewalll", "siedwall", "sidewell"), "sidewall"),
    **dict.fromkeys(("sidwalls", "sidewals"), "sidewalls"),
    **dict.fromkeys(("buldge", "bulg", "bullge", "buldging"), "bulge"),
    **dict.fromkeys(("bubbel", "buble", "bubbble", "bubbl"), "bubble"),
    **dict.fromkeys(("punture", "puncher", "punctre", "puncure"), "puncture"),
    **dict.fromkeys(("rotat", "roatate", "rotait", "rotae"), "rotate"),
    **dict.fromkeys(("roatation", "rotaion", "rotaton"), "rotation"),
    **dict.fromkeys(("spair", "sapre", "spar"), "spare"),
    **dict.fromkeys(("directonal", "dirrectional", "directionl", "diretional"), "directional"),
    **dict.fromkeys(("stagered", "staggerd"), "staggered"),
    **dict.fromkeys(("differnt", "diffrent", "diferent"), "different"),
    **dict.fromkeys(("diffrence", "differance", "differnce"), "difference"),
    **dict.fromkeys(("insted", "instaed"), "instead"),
    **dict.fromkeys(("speedomter", "speedometre", "spedometer", "speedomiter"), "speedometer"),
    **dict.fromkeys(("crak", "crakc", "crcak"), "crack"),
    **dict.fromkeys(("craks", "crakcs", "craks"), "cracks"),
    **dict.fromkeys(("craking", "crackin"), "cracking"),
    **dict.fromkeys(("nial", "nale"), "nail"),
    **dict.fromkeys(("scrwe", "srew", "skrew"), "screw"),
    **dict.fromkeys(("legel", "leagal", "leggal"), "legal"),
    **dict.fromkeys(("ilegal", "illigal"), "illegal"),
    **dict.fromkeys(("enuf", "enuff", "enogh", "enought"), "enough"),
    **dict.fromkeys(("milage", "millage"), "mileage"),
    **dict.fromkeys(("replase", "repalce", "replce"), "replace"),
    **dict.fromkeys(("repare", "repiar", "reapir"), "repair"),
    **dict.fromkeys(("milimeter", "milimetre", "millimter"), "millimeter"),
    **dict.fromkeys(("milimeters", "milimetres"), "millimeters"),
    **dict.fromkeys(("temprature", "temperture", "tempreture"), "temperature"),
    **dict.fromkeys(("mesure", "messure", "measurd"), "measure"),
    **dict.fromkeys(("mesured", "messured"), "measured"),
    **dict.fromkeys(("wat", "wut", "wht", "waht", "hwat"), "what"),
    **dict.fromkeys(("shud", "shuld", "shoud", "shld"), "should"),
    **dict.fromkeys(("cud", "coud"), "could"),
    **dict.fromkeys(("wich", "whitch"), "which"),
    **dict.fromkeys(("saftey", "safty"), "safety"),
    **dict.fromkeys(("degress", "degreees", "degres"), "degrees"),
    "wats": "what's",
    "befor": "before",
    "b4": "before",
    "diff'rent": "different",
    "shoulda": "should have",
    "u": "you",
    "ur": "your",
    "gonna": "going to",
    "gotta": "got to",
    "outa": "out of",
    "n": "and",
    "nd": "and",
    "cuz": "because",
    "rn": "now",
    "tmrw": "tomorrow",
    "frnt": "front",
    "reer": "rear",
    "bak": "back",
    "pasenger": "passenger",
    "wheal": "wheel",
}
_WORDS = re.compile(r"(?<![\w'/.-])[A-Za-z][A-Za-z0-9']{0,11}(?![\w'/-])")
_ARE = re.compile(r"(?<=[a-z] )r(?= [a-z0-9])")
_SPOKEN = tuple(
    (re.compile(pattern, re.IGNORECASE), right)
    for pattern, right in (
        (r"\b(?:a|one) (?:whole |full )?(?:mm|millimet(?:er|re))\b(?= (?:every|per|each|for|in)\b)", "1 mm"),
        (r"\b(?:a|one) (?:whole |full )?(?:32nd|thirty[- ]?second)\b(?= (?:every|per|each|for|in)\b)", "1/32"),
        (r"(?<![0-9/.,])([0-9]{1,2})[ -]thirty[- ]?(?:seconds?|secs?)\b", r"\1/32"),
    )
)
_SIGN = re.compile(r"\b(minus|plus) (?=[0-9])", re.IGNORECASE)
_THREAD = re.compile(r"\bthread(?=s? (?:depth|left|wear|is|are|life|remaining)\b)|(?<=of )thread\b", re.IGNORECASE)
_NO_TIRE = re.compile(r"\b(?:top|mid|first|second|low|high|third|each|one|bottom|he|she|it|who)[ -]$", re.IGNORECASE)


@lru_cache(maxsize=8)  # one comment is set right when it is read and when it is judged
def set_right(text: str) -> tuple[str, "Places"]:
    """(the text with slips set right, where each of its places stood before)."""
    slips = (match for match in _WORDS.finditer(text) if match[0].lower() in _RIGHT and _fits(match))
    changes = [(match.start(), match.end(), _RIGHT[match[0].lower()]) for match in slips]
    changes += [(match.start(), match.end(), "are") for match in _ARE.finditer(text)]
    if "minus" in text.lower():
        changes += [(m.start(), m.end(), "-" if m[1].lower() == "minus" else "") for m in _SIGN.finditer(text)]
    changes += [(m.start(), m.end(), m.expand(right)) for pattern, right in _SPOKEN for m in pattern.finditer(text)]
    changes += [(match.start(), match.end(), "tread") for match in _THREAD.finditer(text)]
    pieces, at, here, cuts = [], 0, 0, [(0, 0, 0)]
    for start, end, word in sorted(changes):
        if start < at:
            continue
        pieces += [text[at:start], word]
        here += start - at
        cuts += [(here, start, end), (here + len(word), end, end)]
        at, here = end, here + len(word)
    return "".join([*pieces, text[at:]]), Places(tuple(cuts))


def _fits(match: re.Match[str]) -> bool:
    word, before = match[0].lower(), match.string[max(0, match.start() - 8) : match.start()]
    if word in ("n", "nd", "spar", "bak", "u"):
        return match[0].islower() and before[-1:] == " " and not before[-2:-1].isdigit()
    if word in ("tier", "tiers", "tries"):
        return not _NO_TIRE.search(before)
    return True


class Places:
    """Where places of the text set right stood in the original: cuts of (place, its original, original's end)."""

    def __init__(self, cuts: tuple[tuple[int, int, int], ...]) -> None:
        self._at = [cut[0] for cut in cuts]
        self._cuts = cuts

    @property
    def moved(self) -> bool:
        """Whether anything was set right at all."""
        return len(self._cuts) > 1

    def start(self, place: int) -> int:
        """The original of a span's start; within a word set right it is that word's own start."""
        at, was, end = self._cuts[bisect_right(self._at, place) - 1]
        return was if was != end else was + place - at

    def end(self, place: int) -> int:
        """The original of a span's end; within a word set right it is that word's own end."""
        at, was, end = self._cuts[bisect_right(self._at, place - 1) - 1] if place else (0, 0, 0)
        return end if was != end else was + place - at
