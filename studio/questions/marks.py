"""Sizes, service descriptions and date codes in a comment, as hurried people write them."""

import re

from studio.questions.facts import Fact, Found, overlaps
from studio.tires.designation import parse_marking
from studio.tires.marking import MarkingError

_SERVICE = r"(?:[ ,]{1,3}\(?(?P<index>1?[0-9]{2}(?:/1?[0-9]{2})?) ?(?P<symbol>[A-HJ-NP-Zh-wy])(?![A-Za-z0-9/]))?"
_MORE = r"(?P<more>(?: {1,2}(?:XL|xl|M\+S|m\+s|3PMSF|Load Range [A-G]|LR ?[A-G]|10 ?ply|[A-G](?=[ ,.;?!)]|$)))*)"
_TAIL = _SERVICE + _MORE
_SIZE = re.compile(
    r"(?<![\w./])(?P<prefix>LT|lt|Lt|ST|st|HL|P|p|T|t)?[ -]?(?P<width>[1-4l][0-9OoIl]{2}) ?(?:[/\\ _.\-]"
    r"|mm/)? ?(?P<aspect>[2-9][0-9Oo]) ?(?:[/\\_.,\-] ?)?(?P<letters>[Zz]?[Rr][Ff]?|[DdB](?=[ -]?1)"
    r"|)[ -]?/?(?P<rim>[0-9OoIl]{2}(?:\.5)?)(?P<suffix>(?: ?(?:LT|lt|C|c|CP))?)(?:'?s\b)?(?![A-Za-z0-9/]|\.[0-9])"
    + _TAIL
)
_WITH_SPEED = re.compile(
    r"(?<![\w./])(?P<prefix>P"
    r"|p)?(?P<width>[1-4][0-9]{2}) ?[/ -] ?(?P<aspect>[2-9][0-9]) ?(?P<letters>[HVShvs][Rr]"
    r"|[HVhv](?=1))(?P<rim>[0-9]{2})(?P<suffix>)(?![A-Za-z0-9])" + _TAIL
)
_FLOTATION = re.compile(
    r"(?<![\w./])(?P<overall>[2-5][0-9](?:[.,][05])?) ?[xX] ?(?P<section>[1-9][0-9]?(?:[.,][0-9]{1,2})?) "
    r"?(?:[Rr]|[xX]|-| [Rr]?)[ -]?(?P<rim>1[0-9]|2[0-9])(?P<suffix>(?: ?(?:LT|lt))?)(?![A-Za-z0-9])" + _TAIL
)
_FULL_PROFILE = re.compile(
    r"(?<![\w./])(?P<width>1[0-9][05]|2[0-3][05]) ?(?P<letters>[Rr]"
    r"|[Ss][Rr])[ -]?(?P<rim>1[0-8])(?P<suffix>(?: ?[Cc])?)(?![A-Za-z0-9/])" + _TAIL
)
_SPLIT = re.compile(  # 225/60 on R17, R17 225/60, 225/60 17 inch
    r"(?<![\w./])(?:[Rr](?P<before>1[0-9]"
    r"|2[0-4])[ ,]{1,3})?(?P<width>[1-4][0-9][05])/(?P<aspect>[2-9][05])(?:[ ,]{1,3}(?:on |with |for |auf |x "
    r"|Zoll )?[Rr]?(?P<after>1[0-9]|2[0-4])(?![0-9/.,]))?(?![0-9/A-Za-z])"
)
_WRONG = re.compile(
    r"(?<![\w./])(?:P|LT|T)?(?P<all>[0-9]{2,4}/[0-9]{1,3} ?(?:Z?R|/"
    r"|-) ?[0-9]{1,3})(?![A-Za-z0-9/.,])"
)
_ALONE = re.compile(
    r"(?<![\w./,+-])(?P<index>[6-9][0-9]|1[0-2][0-9])(?:/(?:[6-9][0-9]"
    r"|1[0-2][0-9]))? ?(?P<symbol>[HTVWYSQRL]|[hvwty])(?![A-Za-z0-9°/'])"
)
_ANOTHER = re.compile(r"[ -][0-9]{1,4}(?![0-9/A-Za-z])")
_LETTER_DIGITS = str.maketrans({"O": "0", "o": "0", "I": "1", "l": "1"})
_BARE_ENDINGS = ("0", "5")


def sizes(text: str, found: Found) -> None:
    """Every size with its service description."""
    for pattern, read in (
        (_FLOTATION, _flotation),
        (_WITH_SPEED, _metric),
        (_SIZE, _metric),
        (_FULL_PROFILE, _full_profile),
    ):
        for match in pattern.finditer(text):
            if not overlaps(*match.span(), found.facts):
                read(text, match, found)
    _split_ones(text, found)
    _wrong_ones(text, found)


def _metric(text: str, match: re.Match[str], found: Found) -> None:
    width, aspect, rim = (match[name].translate(_LETTER_DIGITS) for name in ("width", "aspect", "rim"))
    letters = match["letters"].upper()
    written = match[0][: match.end("rim") - match.start()]
    slashed = "/" in written or "\\" in written
    if not letters and not (width[-1] == "5" and aspect[-1] in _BARE_ENDINGS and 12 <= float(rim) <= 24):
        return
    if not letters and not slashed and _ANOTHER.match(text, match.end("suffix")):
        return  # four numbers in a row are no size
    prefix = (match["prefix"] or "").upper()
    if not letters and not slashed and (prefix in ("T", "ST") and match["prefix"].islower()):
        prefix = ""
    joiner = letters or ("D" if prefix == "T" and not slashed else "R")
    size = f"{prefix}{width}/{aspect}{joiner}{rim}{match['suffix'].strip().upper()}"
    sure = 0.97 if letters and slashed else 0.9 if letters or slashed else 0.8
    _add(text, match, size, sure, found)


def _flotation(text: str, match: re.Match[str], found: Found) -> None:
    section = match["section"].replace(",", ".")
    overall = match["overall"].replace(",", ".")
    _add(text, match, f"{overall}x{section}R{match['rim']}{match['suffix'].strip().upper()}", 0.95, found)


def _full_profile(text: str, match: re.Match[str], found: Found) -> None:
    _add(text, match, f"{match['width']}R{match['rim']}{match['suffix'].strip().upper()}", 0.85, found)


def _add(text: str, match: re.Match[str], size: str, sure: float, found: Found) -> None:
    """The size with what follows it; without the rest where the rest does not go with it."""
    service = f" {match['index']}{match['symbol'].upper()}" if match["index"] else ""
    more = " ".join(match["more"].upper().split())
    for rest, end in (
        (f"{service} {more}".rstrip(), match.end()),
        (service, match.end("more")),
        ("", match.end("suffix")),
    ):
        try:
            marking = parse_marking(size + rest)
        except MarkingError as error:
            problem = str(error)
            continue
        start = match.start()
        found.facts.append(
            Fact(
                start=start,
                end=end,
                text=text[start:end],
                field="size",
                value=str(marking),
                sure=sure,
                how="a size" if sure > 0.95 else "a size, spelled in a hurry",
            )
        )
        return
    found.impossible.append(problem)


def _split_ones(text: str, found: Found) -> None:
    """A size whose rim stands apart or is not given: ``225/60 R17``, ``R17 225/60``, ``225/60``."""
    for match in _SPLIT.finditer(text):
        if overlaps(*match.span(), found.facts):
            continue
        rim = match["before"] or match["after"]
        whole = f"{match['width']}/{match['aspect']}" + (f"R{rim}" if rim else "")
        field, sure = ("size", 0.85) if rim else ("size_without_rim", 0.9)
        try:
            value = str(parse_marking(whole)) if rim else whole
        except MarkingError as error:
            found.impossible.append(str(error))
            continue
        found.facts.append(
            Fact(
                start=match.start(),
                end=match.end(),
                text=match[0],
                field=field,
                value=value,
                sure=sure,
                how="a size whose rim stands apart" if rim else "a size without its rim",
            )
        )


def _wrong_ones(text: str, found: Found) -> None:
    """What is written like a size and cannot be one."""
    for match in _WRONG.finditer(text):
        if overlaps(*match.span(), found.facts) or any(match[0] in sentence for sentence in found.impossible):
            continue
        if match["all"].endswith("/32") or match["all"].count("/") > 2:
            continue
        try:
            parse_marking(match[0])
        except MarkingError as error:
            found.impossible.append(str(error))
            found.facts.append(
                Fact(
                    start=match.start(),
                    end=match.end(),
                    text=match[0],
                    field="impossible_size",
                    value=match[0],
                    sure=0.9,
                    how="written like a size, but no tire has it",
                )
            )


def widths(text: str, found: Found) -> None:
    """A width that stands for a size: ``a 205 tire where a 215 was``, ``245s``."""
    for match in _WIDTH.finditer(text):
        if not overlaps(*match.span(), found.facts):
            found.facts.append(
                Fact(
                    start=match.start(),
                    end=match.end(),
                    text=match[0],
                    field="size_without_rim",
                    value=match["width"] or match["other"],
                    sure=0.7,
                    how="a width that stands for a size",
                )
            )


_WIDTH = re.compile(
    r"(?<![\w./$])(?P<width>1[4-9]5|2[0-9]5|3[0-5]5)(?:'?s\b| (?=(?:wide )?(?:section )?t[iy]res?\b|wides?\b|width))"
    r"|\b(?:a|an|the|to|from|for) (?P<other>1[4-9]5|2[0-9]5|3[0-5]5)(?= (?:was|is|instead|fits?|where)\b)",
    re.IGNORECASE,
)


def services(text: str, found: Found) -> None:
    """A service description by itself: ``98T``, ``load index 104``."""
    for match in _ALONE.finditer(text):
        if overlaps(*match.span(), found.facts):
            continue
        small = match["symbol"].islower()
        if small and not _RATED.search(text):
            continue
        value = f"{match['index']}{match['symbol'].upper()}"
        found.facts.append(
            Fact(
                start=match.start(),
                end=match.end(),
                text=match[0],
                field="service",
                value=value,
                sure=0.7 if small else 0.9,
                how="load index and speed symbol",
            )
        )
    for match in _DUAL.finditer(text) if _RATED.search(text) or _NUMBERS.search(text) else ():
        if not overlaps(*match.span(), found.facts):
            found.facts.append(
                Fact(
                    start=match.start(),
                    end=match.end(),
                    text=match[0],
                    field="service",
                    value=match[0],
                    sure=0.8,
                    how="a load index, single and dual",
                )
            )
    for match in _INDEX_FIRST.finditer(text):
        if not overlaps(match.start("index"), match.end(), found.facts):
            found.facts.append(
                Fact(
                    start=match.start("index"),
                    end=match.end("index"),
                    text=match["index"],
                    field="service",
                    value=match["index"],
                    sure=0.9,
                    how="a load index",
                )
            )
    for match in _INDEX.finditer(text):
        if not overlaps(match.start("index"), match.end(), found.facts):
            found.facts.append(
                Fact(
                    start=match.start("index"),
                    end=match.end("index"),
                    text=match["index"],
                    field="service",
                    value=match["index"],
                    sure=0.9,
                    how="a load index",
                )
            )
    for match in _SYMBOL.finditer(text):
        name = str(match.lastgroup)
        letter, start = match[name], match.start(name)
        if not overlaps(start, start + 1, found.facts):
            found.facts.append(
                Fact(
                    start=start,
                    end=start + 1,
                    text=letter,
                    field="service",
                    value=letter.upper(),
                    sure=0.85,
                    how="a speed symbol",
                )
            )


_RATED = re.compile(r"\b(?:rat(?:ed|ing)|index|speed|load|code|mean|symbol|sidewall|marking)", re.IGNORECASE)
_DUAL = re.compile(r"(?<![\w./])(?:[6-9][0-9]|1[0-2][0-9])/(?:[6-9][0-9]|1[0-2][0-9])(?![\w/.])")
_NUMBERS = re.compile(r"\bnumbers?\b|\brefer", re.IGNORECASE)
_INDEX_FIRST = re.compile(r"(?<![0-9.,/])(?P<index>1?[0-9]{2}) load (?:index|rating)\b", re.IGNORECASE)
_INDEX = re.compile(
    r"(?i:\bload (?:index|rating|number)|(?<=max )load (?:for|of|at|with)|(?<=maximum )load (?:for|of|at|with)|\bLI"
    r"|indice de charge|Lastindex|Tragfähigkeitsindex)(?: of"
    r"| is|:)? ?(?P<index>1?[0-9]{2})(?![0-9.,/]|[ -]?(?:lb|kg|psi))"
)
_SYMBOL = re.compile(
    r"\b(?:[Ll]etter ['\"]?(?P<letter>[HTVWYSQRUPNM])\b|[Ss]peed (?:rating|symbol|index|code|letter)(?: of| is"
    r"|:)? ['\"]?(?P<after>[A-HJ-NP-WYa-hj-np-wy])\b(?!')|(?P<before>[HTVWYSQR])[ -](?:[Ss]peed[ -])?[Rr]at(?:ed|ing))"
)
