"""Which tires a comment speaks of: ``left rear``, ``both fronts``, ``driver side front``, ``the new one``."""

import re

from studio.questions.facts import Fact, Found, overlaps
from studio.questions.sieve import Sieve

_I = re.IGNORECASE
_FRONT = r"(?:fronts?|frt|vorne?|vorder\w*|avant|delanter[oa]s?|anterior[ei]?)"
_REAR = r"(?:rears?|back|hint(?:en|ere?n?r?)\w*|arri[eè]re|traser[oa]s?|posterior[ei]?)"
_LEFT = r"(?:left|l/?h|driver'?s?(?:[ -]side)?|near ?side|links?e?[rs]?|gauche|izquierd[oa]|sinistr[oa])"
_RIGHT = r"(?:right|r/?h|passenger'?s?(?:[ -]side)?|off ?side|rechts?e?[rs]?|droite?|derech[oa]|destr[oa])"
_GAP = r"(?:[ -]+(?:side|hand|hand side|wheel|on the|at the|on|tire|tyre|corner))?[ -/]+"
_CORNER = re.compile(
    rf"\b(?:(?P<f1>{_FRONT})|(?P<r1>{_REAR})){_GAP}(?:(?P<l1>{_LEFT})|(?P<g1>{_RIGHT}))\b|\b(?:(?P<l2>{_LEFT})"
    rf"|(?P<g2>{_RIGHT})){_GAP}(?:(?P<f2>{_FRONT})|(?P<r2>{_REAR}))\b",
    _I,
)
_SHORT = re.compile(
    r"\b(?P<two>FL|FR|RL|RR|LF|RF|LR|BL|BR)\b|\b(?P<small>fl|fr|rl|rr|lf|rf|lr)\b(?= ?(?:is|at|has"
    r"|:|=|-)? ?[0-9])"
)
_SHORTS = {
    "FL": "front_left",
    "LF": "front_left",
    "FR": "front_right",
    "RF": "front_right",
    "RL": "rear_left",
    "LR": "rear_left",
    "BL": "rear_left",
    "RR": "rear_right",
    "BR": "rear_right",
}
_AXLE = re.compile(
    rf"\b(?P<front>fronts|(?:both |two |the |my |in )?{_FRONT}(?! ?-?wheel ?-?drive| drive| bumper| end\b| of\b"
    rf"| page| camera))|\b(?P<rear>rears|backs|(?:both |two |the |my |in )?(?:rears?|hint\w+|arri[eè]re"
    rf"|traser[oa]s?|posterior[ei])(?! ?-?wheel ?-?drive| drive| end\b| view| bumper)|(?:both |two |the |my "
    rf"|in (?:the )?|out )back(?= ?(?:tires?|tyres?|ones?|wheels?|pair|two|axle|set|is|are|at|have|has|:|[0-9]|,|\."
    rf"|\?|$"
    rf"|and|vs|were|was|left|on\b|in\b)))",
    _I,
)
_SIDE = re.compile(
    r"\b(?:(?:the|my|on the|its|other) )(?P<left>left|driver'?s?(?:[ -]side)?|near ?side)\b(?! over| lane| turn)"
    r"|\b(?:(?:the|my|on the|its|other) )(?P<right>right|passenger'?s?(?:[ -]side)?|off ?side)\b(?! (?:size"
    r"|pressure|tires?\b|tyres?\b|way|thing|answer|amount|one for|number|time|psi|choice))|\b(?P<left2>left|links"
    r"|gauche|izquierda)(?= (?:tire|tyre|one|side|is|was|has|at|reads)\b|: ?[0-9]| [0-9])|\b(?P<right2>right|rechts"
    r"|droite|derecha)(?= (?:tire|tyre|one|side|is|was|has|at|reads)\b|: ?[0-9]| [0-9])",
    _I,
)
_GROUPS = (
    (
        "new_one",
        re.compile(
            r"\b(?:the|a|my|one|1|put on a|brand|this|single)? ?(?:brand[ -])?(?:new|replacement"
            r"|fresh) (?:one|tire|tyre|reifen|rubber)s?\b|\b(?:new|brand new|replacement) (?:is|at"
            r"|has|would be|comes with)\b|\b(?:two|2) new\b|\b(?:ein|zwei) neue[rn]?\b|\b(?:un|deux) neufs?\b"
            r"|\bun[oa] nuev[oa]\b|\bun[oa] nuov[oa]\b|\bone (?:tire|tyre|of them) (?:is|was) (?:brand )?new\b"
            r"|\bthe replaced one|\bthe new\b(?= ?(?:is|at|has|:|[0-9]"
            r"|would|one))",
            _I,
        ),
    ),
    (
        "others",
        re.compile(
            r"\b(?:drei|die anderen|les (?:trois )?autres|los otros|le altre)(?: (?:reifen|alten?|pneus))?\b"
            r"|\b(?:the )?(?:other|remaining) (?:three|two|3|2|tires?|tyres?|ones?)\b|\bothers\b"
            r"|\b(?:the )?rest\b(?! of)|\b(?:on |the )(?:three|3)(?: old(?:er)?)?(?: ones| tires"
            r"| tyres| of them| others?)?\b|\bthe other\b|\b(?:three|3) (?:are|have|tires|tyres|at)\b"
            r"|\b(?:my |the )?(?:old|existing|current|worn) (?:ones?|tires?|tyres?|set)\b"
            r"|\bold\b(?= (?:is|are|at))",
            _I,
        ),
    ),
    (
        "one",
        re.compile(
            r"\b(?:and|but|just|only|with|the) one (?=(?:is|at|has|that|[0-9]))|\bone (?:is|at|has)\b"
            r"|\bthe fourth(?: one)?\b|\bthe last one\b|\bthat one\b",
            _I,
        ),
    ),
    ("spare", re.compile(r"\b(?:the |my )?(?:full[ -]size )?spare\b(?= (?:is|has|at|tire|tyre|one)|:)", _I)),
    (
        "all",
        re.compile(
            r"\ball (?:four|4|around|round|of them)\b|\bevery (?:tire|tyre|corner)\b|\beach (?:tire|tyre"
            r"|corner|one)\b|\ball (?:my |the )?(?:tires|tyres)\b|\ball (?:are|at)\b|\balle vier",
            _I,
        ),
    ),
)
_REMAINS = re.compile(
    r"(?:[0-9]|mm|nds|tread|much|life|miles|km|psi|is|anything|%|what'?s|some|have|any|percent"
    r"|32nd|depth|i|on) ?$",
    _I,
)


_SIEVE = Sieve(
    [(_CORNER, "corner"), (_SHORT, "short"), (_AXLE, "axle"), (_SIDE, "side"), *((its, name) for name, its in _GROUPS)]
)


def places_said(text: str, found: Found) -> list[Fact]:
    """The mentions of tires in their order; they are no facts by themselves."""
    mentions: list[Fact] = []
    able = set(_SIEVE.of(text))
    for match in _CORNER.finditer(text) if "corner" in able else ():
        front = match["f1"] or match["f2"]
        left = match["l1"] or match["l2"]
        if (
            match["l2"]
            and match["l2"].lower() == "left"
            and _REMAINS.search(text, max(0, match.start() - 8), match.start())
        ):
            continue
        _add(mentions, found, match, (f"{'front' if front else 'rear'}_{'left' if left else 'right'}",))
    for match in _SHORT.finditer(text) if "short" in able else ():
        word = (match["two"] or match["small"]).upper()
        _add(mentions, found, match, (_SHORTS[word],))
    for match in _AXLE.finditer(text) if "axle" in able else ():
        axle = "front" if match["front"] else "rear"
        _add(mentions, found, match, (f"{axle}_left", f"{axle}_right"))
    for match in _SIDE.finditer(text) if "side" in able else ():
        side = "left" if match["left"] or match["left2"] else "right"
        remains = match["left2"] and _REMAINS.search(text, max(0, match.start() - 8), match.start())
        if not remains:
            _add(mentions, found, match, (side,))
    for name, pattern in _GROUPS:
        for match in pattern.finditer(text) if name in able else ():
            if name == "new_one" and _WISH.search(
                text, max(0, match.start() - 20), match.start() + (match[0][:1] == " ")
            ):
                continue
            _add(mentions, found, match, (name,))
    return sorted(mentions, key=lambda mention: mention.start)


_WISH = re.compile(
    r"\b(?:need|needs|buy|buying|get|getting|got to get|order|want|for|some|any|price of|afford"
    r"|shopping for|time for) $",
    _I,
)


def _add(mentions: list[Fact], found: Found, match: re.Match[str], where: tuple[str, ...]) -> None:
    start, end = match.span()
    while start < end and match.string[start] == " ":
        start += 1
    if start == end or overlaps(start, end, mentions) or overlaps(start, end, found.facts):
        return
    mentions.append(
        Fact(
            start=start,
            end=end,
            text=match.string[start:end],
            field="place",
            value=" ".join(where),
            sure=0.9,
            how="a word for the place",
            where=where,
        )
    )
