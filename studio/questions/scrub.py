"""A comment without anything that tells who wrote it: names, handles, links, mail, phones, plates, VINs are blanked.

Sizes, DOT codes, depths and dates stay. What is doubtful goes: a question can do without a name.
"""

import re

import msgspec

from studio.model.car import LongText
from studio.questions.facts import MOST_READ

GONE = "[…]"
_I = re.IGNORECASE
_WORD = r"[^\W\d_][^\W\d_'’.-]{0,30}"
_NAME = rf"(?:{_WORD})(?:[ -]{_WORD}){{0,2}}"
_CAPITAL = r"[A-ZÀ-ÖØ-Þ][^\W\d_'’-]{1,30}"
_NAMES = rf"{_CAPITAL}(?:[ -](?:{_CAPITAL}|[A-Z]\.?))?"
_NO_LETTER = r"(?<![^\W\d_])"  # a word begins here, also right after a digit, where \b does not see it
_LINK = re.compile(
    r"(?<![^\W\d_])(?<![@.])[^\W_][\w-]{0,62}(?:\.[a-z0-9-]{1,63}){0,3}"
    r"\.(?:com|org|net|io|co|me|tv|info|biz|de|fr|it|es|uk|ca|us|eu|ru|ly|gg|be|app|shop|store|xyz|link|site|online)"
    r"(?-i:(?![a-z_-]))(?:/\S*)?",
    _I,
)
_MAIL = re.compile(
    r"[\w.+-]{1,64}(?: ?(?:@|\(at\)|\[at\]) ?[\w-]{1,63}(?: ?(?:\.|\(dot\)|\[dot\]) ?[a-z]{2,10}){1,3}"
    r"| at [\w-]{1,63} dot [a-z]{2,10})",
    _I,
)
_HANDLE = re.compile(
    rf"(?<![\w/])[@＠][\w.-]{{1,60}}|(?<=[\w/])[@＠][^\W\d][\w.-]{{0,60}}|{_NO_LETTER}u/[\w-]{{2,40}}"
    rf"|{_NO_LETTER}(?:my|our) \w{{2,15}} ?[:=] ?@?[a-z]\w+(?:[._]\w{{2,}})+"
    rf"|{_NO_LETTER}(?:add|follow|find|dm|message|reach|hit) me (?:up )?on (?!(?:the|my|an?|this|your|these) )"
    r"\w{2,15}[ :]+@?[\w.]{3,40}",
    _I,
)
_PHONE = re.compile(
    r"(?:\+|(?<![\w/.,-])00)[0-9]{1,3}[ ().\-/]{0,2}(?:[0-9][ ().\-/]{0,2}){6,12}[0-9]"
    r"|\(?[2-9][0-9]{2}\)?[ .-]{1,2}[2-9][0-9]{2}[ .-][0-9]{4}"
    r"|(?<![0-9/.,-])(?<!dot)0[0-9]{2,5}[ /-]{1,3}[0-9]{3,8}(?:[ -][0-9]{2,5})?(?![0-9/])"
    rf"|(?:{_NO_LETTER}(?:tel|phone|call(?: me)?(?: at| on)?|text me(?: at)?|\w{{2,9}} ?app|cell|mobile|handy"
    r"|number is)[ :.]{0,3})[0-9(][0-9 ().-]{5,18}[0-9]",
    _I,
)
_VIN = re.compile(
    r"(?<![A-Za-z0-9])(?=[A-HJ-NPR-Z0-9]*[0-9])(?=[A-HJ-NPR-Z0-9]*[A-HJ-NPR-Z])[A-HJ-NPR-Z0-9]{17}(?![A-Za-z0-9])", _I
)
_VIN_GLUED = re.compile(r"(?<![A-Z0-9])(?=[A-Z]*[0-9])(?=[0-9]*[A-HJ-NPR-Z])[A-HJ-NPR-Z0-9]{17,40}")
_VIN_SAID = re.compile(rf"{_NO_LETTER}VIN(?: (?:number|no\.?|is|code))*[ :#]*(?=[A-Z]*[0-9])[A-Z0-9]{{6,20}}", _I)
_PLATE_SAID = re.compile(
    rf"{_NO_LETTER}(?:licen[cs]e )?(?:plate|number ?plate|reg(?:istration)?|rego|tag|kennzeichen|immatriculation|targa"
    r"|matr[ií]cula)"
    r"(?: (?:number|no\.?|is|nr\.?"
    r"|#))*[ :#=]{1,3}(?=[A-ZÄÖÜ0-9 -]*[0-9])[A-ZÄÖÜ0-9]{1,4}(?:[ ·-]?[A-Z0-9]{1,4}){1,3}(?![0-9/])",
    _I,
)
_PLATE = re.compile(
    r"(?<![A-ZÄÖÜ/.-])(?:[A-ZÄÖÜ]{1,3}-[A-Z]{1,2}[ -]?[0-9]{1,4}[EH]?|[A-Z]{2}[0-9]{2} ?[A-Z]{3}"
    r"|[A-Z]{2}-[0-9]{3}-[A-Z]{2}|"
    r"[0-9]{4} [BCDFGHJKLMNPRSTVWXYZ]{3}|[A-Z]{3}[ -][0-9]{4}|[0-9][A-Z]{3}[0-9]{3}|[A-Z]{3}[0-9]{3,4})"
    r"(?![A-Z/])(?!(?<=[0-9])[0-9])"
)
_NOT_A_PLATE = re.compile(
    r"(?:DOT|TWI|LTR?|PSI|AWD|FWD|RWD|KPA|MPV|SUV|TIN|UTQG|TPMS|DIN|ISO|FMVSS|ECE|GAWR|OEM|ZR|XL)(?![A-Z])", _I
)
_WROTE = re.compile(
    rf"(?m)^[ \t>]*(?:{_NAME}|[\w.-]{{2,40}}) ?(?:\([^)\n]{{1,30}}\) ?)?(?:wrote|writes|said|says|asked|asks"
    rf"|commented|schrieb|a écrit|escribió|ha scritto)[ ]?:[ ]*",
    _I,
)
_LABEL = re.compile(
    r"(?m)^[ \t>]*(?:from|by|author|user(?:name)?|name|von|de la part de|posted by|commenter)[ ]*:[ ]*[^\n]{1,60}$", _I
)
_HELLO = re.compile(
    rf"(?m)(?P<keep>{_NO_LETTER}(?i:hi|hello|hey|dear|thanks|thank you|thx|cheers|hallo|bonjour|salut|hola|ciao"
    rf"|danke|merci|gracias|grazie|yo|morning|howdy|sup)[ ,]+(?:so much |again |a lot |there |mr\.? |mrs\.? |ms\.? "
    rf"|dr\.? )?)(?P<name>{_NAMES})(?=[ ,.!?:;\n0-9-]|$)",
    0,
)
_I_AM = re.compile(
    rf"(?P<keep>(?:(?i:my name(?: is|'s)|{_NO_LETTER}i am called|{_NO_LETTER}this is|name's"
    rf"|je m'appelle|mi chiamo|me llamo|ich hei(?:ß"
    rf"|ss)e|mein name ist)|{_NO_LETTER}(?:I am|I'm|i'm|Im|ich bin|soy|sono))[ ,]+)(?P<name>{_NAMES})"
    r"(?=[ ,.!?:;\n0-9-]|$)"
)
_SIGNED = re.compile(
    rf"(?P<keep>(?i:{_NO_LETTER}(?:best|regards|best regards|kind regards|cheers|thanks|thank you|thx|ta|sincerely"
    rf"|yours|greetings|mfg|lg|gruß|grüße|liebe grüße|viele grüße|"
    rf"cordialement|saludos|saluti|love"
    rf"))[ ,.!-]*\n?[ \t]*[-–—~]?[ \t]*)(?P<name>{_NAMES})(?=[ \t.!]*(?:\n|$))"
)
_DASHED = re.compile(
    rf"(?:(?<=[\n.!?] )|(?<=[\n.!?])|^)[ \t]*[-–—~]{{1,2}}[ \t]?(?P<name>{_NAMES})(?=[ \t.!]*(?:\n|$)|(?: from| in)\b)",
    re.M,
)
_LAST_LINE = re.compile(rf"\n[ \t]*(?P<name>{_NAMES})[ \t]*$")
_NAMED = re.compile(
    rf"(?P<keep>(?:my name(?: is|'s)|{_NO_LETTER}(?:name's|call me|signed|yours truly))[ ,:]+)"
    r"(?P<name>[^\W\d_][^\W\d_'’-]{1,30})",
    _I,
)
_SMALL = re.compile(
    r"(?P<keep>(?<![^\W\d_])(?:thanks|thx|cheers|regards|thank you)[ ,.!-]{1,3}\n?)(?P<name>[a-z]{3,12})(?=[ \t.!]*$)"
    r"|(?P<keep2>^(?:hi|hello|hey|dear|thanks|yo) )(?P<name2>[a-z]{3,12})(?=[,!])"
)
_COMMON = frozenset(
    "Thanks Thank There All Everyone Everybody Guys Folks Man Sir Mate Bro Buddy Dude Team Again So For The This "
    "That From You Your What Why How Is Are Can Do Does "
    "Should Could Would Will My Mine We They It If And But Or Not No Yes Great Nice Good Love Just Have Has Had Got "
    "Any One Two Quick Question Help Please In On At "
    "Front Rear Left Right Back Tire Tires Tyre Tyres Tread Driver Passenger Spare Winter Summer Snow All-season "
    "Sidewall Shoulder Canada Germany Texas "
    "Wondering Looking Running Driving Going Trying Getting Thinking Asking Worried Confused Curious Sure AWD FWD "
    "RWD DOT PSI SUV MOT UK USA US EU Sorry Ok Okay Now When Where "
    "Which Who Also Pls Plz Lol Car Van Truck Norway Sweden France Italy Spain England Austria Finland Japan "
    "Australia Which Who Also Still Video Regards Best Cheers Greetings Question Appreciate Awesome Much First Me "
    "Need New "
    "Old About With Would Der Die Das Ich Mein Meine Und Je Mes Les Mis Los Ho".split()
)


class Scrubbed(msgspec.Struct, frozen=True, kw_only=True):
    """A comment that may be kept, and what was taken out of it, in kinds and counts."""

    text: LongText
    removed: tuple[tuple[str, int], ...] = ()


def scrub(text: str) -> Scrubbed:
    """``text`` without names, handles, links, mail addresses, phones, plates and VINs: plain text of bounded length."""
    cleaned = _plain(text[: 2 * MOST_READ])
    removed: dict[str, int] = {}
    for kind, pattern, signs in _TAKEN_OUT:
        if not any(sign in cleaned for sign in signs):
            continue  # no such thing without one of these: most comments are passed over at once
        found = 1
        while found:  # what is taken out can leave the beginning of another behind, as of a very long run of digits
            cleaned, found = pattern.subn(GONE + (" " if kind == "name" else ""), cleaned)
            removed[kind] = removed.get(kind, 0) + found
    removed.setdefault("name", 0)
    cleaned, removed["plate"] = _without_plates(cleaned, removed.get("plate", 0))
    for pattern in (_I_AM, _NAMED, _SIGNED, _HELLO, _DASHED, _LAST_LINE, _SMALL):
        cleaned, count = _without_names(cleaned, pattern)
        removed["name"] += count
    if len(text) > MOST_READ:
        removed["characters beyond the first 10,000"] = len(text) - MOST_READ
    counted = tuple((kind, count) for kind, count in removed.items() if count)
    return Scrubbed(text=_tidy(cleaned)[:MOST_READ].rstrip(), removed=counted)


_LINK_FIRST = re.compile(r"(?:https?|ftp)://\S+|\bwww\.\S+|www\.[\w-]+\.\S+", _I)
_UNSEEN = re.compile(r"[^\n\x20-\x7e\xa0-\U0010ffff]|[\u200b-\u200f\u2028-\u202e\u2060-\u2064\ufeff\ud800-\udfff]")


_DIGITS = tuple("0123456789")
_TAKEN_OUT: tuple[tuple[str, re.Pattern[str], tuple[str, ...]], ...] = (
    ("link", _LINK_FIRST, ("/", ".")),
    ("mail", _MAIL, ("@", "t)", "T)", "t]", "T]", "dot", "DOT", "Dot")),
    ("link", _LINK, (".",)),
    ("handle", _HANDLE, ("@", "＠", "/", ":", "=", "me", "ME", "Me")),
    ("VIN", _VIN_SAID, _DIGITS),
    ("VIN", _VIN, _DIGITS),
    ("VIN", _VIN_GLUED, _DIGITS),
    ("phone", _PHONE, _DIGITS),
    ("plate", _PLATE_SAID, _DIGITS),
    ("name", _WROTE, (":",)),
    ("name", _LABEL, (":",)),
)
"""What is taken out, in this order: its kind, its pattern, and signs of which it holds one."""


def _plain(text: str) -> str:
    return _UNSEEN.sub(" ", text.replace("\r\n", "\n").replace("\r", "\n"))


def _tidy(text: str) -> str:
    return "\n".join(" ".join(line.split()) for line in text.split("\n")).strip()


def _without_plates(text: str, count: int) -> tuple[str, int]:
    """Plates by their look; tire codes and abbreviations look alike and stay."""
    taken = 0

    def replaced(match: re.Match[str]) -> str:
        nonlocal taken
        before = text[max(0, match.start() - 20) : match.start()]
        if _NOT_A_PLATE.match(match[0]) or re.search(r"DOT[ :A-Z0-9]*$", before):
            return match[0]
        taken += 1
        return GONE

    return _PLATE.sub(replaced, text), count + taken


def _without_names(text: str, pattern: re.Pattern[str]) -> tuple[str, int]:
    taken = 0

    def replaced(match: re.Match[str]) -> str:
        nonlocal taken
        group = "name" if match["name"] else "name2"
        first, *more = match[group].split()
        if first.strip(".-") in _COMMON or {first.strip(".-").capitalize(), first.upper()} & _COMMON:
            return match[0]
        taken += 1
        kept = " ".join(["", *more]) if more and more[0].strip(".") in _COMMON else ""
        start, end = match.start(group) - match.start(), match.end(group) - match.start()
        return match[0][:start] + GONE + kept + match[0][end:]

    return pattern.sub(replaced, text), taken
