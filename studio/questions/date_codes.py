"""Date codes in a comment: ``DOT 2319``, ``week 23 of 2019``, ``date code 318``, ``KW 23/2019``."""

import re

from studio.questions.facts import Fact, Found, overlaps

_DOT = re.compile(
    r"\bDOT(?: ?(?:code|number|date|nummer|stamp|is|says|reads|shows|of|on (?:it|them|mine) is|ends? (?:in|with)|:"
    r"|#|=|-|,|\.\.\.|…"
    r"|\()){0,4} ?(?P<tin>(?:[A-Z0-9]{2,4} (?=[A-Z0-9])){0,3}?[A-Z0-9]{0,9}?)(?P<digits>[0-5][0-9] ?[/.-]? "
    r"?[0-9]{1,2})(?![0-9A-Za-z/]|[.,][0-9])",
    re.IGNORECASE,
)
_CODE = re.compile(
    r"\b(?:date[ -]?codes?|date stamp|build date|manufactur\w* (?:date|code)|production (?:date|code)|born[ -]on"
    r"|stamped?|code(?: is| says| on)?|last (?:four|4|three|3)(?: digits| numbers)?|digits|numbers? (?:is|are)"
    r"|end(?:s|ing)? (?:in|with)|dated|datée?s?|datum|made|produced|hergestellt|fecha)(?: (?:is|are|was|of|says"
    r"|reads|on (?:it|them|mine|the tires?|the tyres?)(?: is| says)?|the|in|as|it|code"
    r"|number)){0,3}[ :=#(\"']{1,3}(?P<digits>[0-5][0-9][0-9]{1,2})(?![0-9A-Za-z/]|[.,][0-9]| ?(?:mi|km|psi|lb|kg"
    r"|mm|%))",
    re.IGNORECASE,
)
_WEEK = re.compile(
    r"\b(?:(?:week|wk|woche|kw|semaine|semana|settimana)\.? ?#?(?P<week>[0-9]{1,2})|(?P<nth>[0-9]{1,2})(?:st|nd|rd"
    r"|th) week)(?:(?:,| of| in| from| de| del| von|/|-| year)? ?){1,3}(?P<year>20[0-4][0-9]|19[89][0-9]"
    r"|'?[0-4][0-9])(?![0-9])",
    re.IGNORECASE,
)
_YEAR_FIRST = re.compile(r"\b(?P<year>20[0-4][0-9]),? (?:week|wk|kw) ?(?P<week>[0-9]{1,2})\b", re.IGNORECASE)
_SAYS = re.compile(
    r"\b(?:spare|tires?|tyres?|sidewalls?|they|it|one|mine|ones|set)(?: all)? (?:says?|reads?|shows?|marked|stamped"
    r"|dated|has|have|with)"
    r"(?: (?:a|the|date|code|number|on it))* (?P<digits>[0-5][0-9][0-2][0-9])(?![0-9A-Za-z/]|[.,][0-9]| ?(?:mi|km"
    r"|psi|lb|kg|mm|%))",
    re.IGNORECASE,
)
_CODE_NAMED = re.compile(r"\bdate codes?\b|\bDOT\b|\bdate stamp", re.IGNORECASE)
_MINE = re.compile(
    r"\b(?:mine|it|they|this one|this) (?:is|are|says?"
    r"|reads?) (?P<digits>[0-5][0-9][0-9]{1,2})(?![0-9A-Za-z/]|[.,][0-9]| ?(?:mi|km|psi|lb|kg|mm|%"
    r"|years?))",
    re.IGNORECASE,
)
_AGE_WORDS = re.compile(
    r"\b(?:dot|old|age|aged|date|made|expire\w*|too old|manufactur\w*|stamp\w*|alt|vieux"
    r"|week|year|viejos?|vecchi\w*|sidewall|seitenwand)\b",
    re.IGNORECASE,
)
_BARE = re.compile(
    r"(?<![0-9A-Za-z.,/$€£+-])(?P<digits>[0-5][0-9][0-2][0-9])(?![0-9A-Za-z/]|[.,][0-9]| ?(?:mi|km"
    r"|psi|lb|kg|mm|%|\$))"
)
_MADE = re.compile(
    r"\b(?:made|manufactured|built|produced|from|since|dated|of|bought(?: new)?|baujahr|de|von|aus)(?: in| on"
    r"| around| about|:)? (?P<year>20[0-4][0-9]|199[0-9])\b|\b(?P<other>20[0-4][0-9]|199[0-9]) (?:tires|tyres"
    r"|reifen|pneus|rubber|made|build)",
    re.IGNORECASE,
)


_ON_THEM = re.compile(
    r"(?<![0-9A-Za-z.,/$€£+-])(?P<digits>[0-5][0-9][0-2][0-9])(?= (?:stamped )?on (?:them|it|all|both|my|mine|one"
    r"|the (?:side|rear|front|spare|back|tire"
    r"|tyre)))",
    re.IGNORECASE,
)
_TIRES_OF = re.compile(
    r"\b(?:tires?|tyres?|spares?|fronts|rears) (?P<digits>[0-5][0-9](?:0[0-9]|1[0-9]|2[0-9]))(?![0-9A-Za-z/]|[.,][0-9]"
    r"| ?(?:mi|km|psi|lb|kg|mm|%|\$|bucks))",
    re.IGNORECASE,
)
_CODE_NEAR = re.compile(
    r"\bcode\b[^.?!0-9]{0,25}[ :=](?P<digits>[0-5][0-9](?:0[0-9]|1[0-9]|2[0-9]))(?![0-9A-Za-z/]|[.,][0-9]"
    r"| ?(?:mi|km|psi|lb|kg|mm|%))",
    re.IGNORECASE,
)
_THREE = re.compile(
    r"\b(?:three|3) (?:digits?|numbers?)[,:( ]+(?P<digits>[0-5][0-9][0-9])(?![0-9A-Za-z/]|[.,][0-9])", re.IGNORECASE
)
_NO_WEEK = re.compile(
    r"\b(?:date[ -]?codes?|date stamp|dot(?: codes?)?)(?: (?:is|are|says?|reads?|shows?|ends? (?:in|with)|of|on (?:it"
    r"|them|mine))){0,2}[ :=#(\"']{1,3}(?P<digits>(?:5[4-9]|[6-9][0-9])[0-9]{2})(?![0-9A-Za-z/]|[.,][0-9]| ?(?:mi|km"
    r"|psi|lb|kg|mm|%))",
    re.IGNORECASE,
)
_ELSEWISE = (_ON_THEM, _CODE_NEAR, _TIRES_OF, _THREE)
_FURTHER = re.compile(r"(?:\b(?:says?|reads?|is|are|and|or|vs|others?|one|rears?|fronts?|spare)"
    r"|[,/&:]) ?$", re.IGNORECASE)


def date_codes(text: str, found: Found) -> None:
    """Every date code, as the digits of the sidewall."""
    for match in _NO_WEEK.finditer(text):  # four digits with no such week are no code of three
        _take(text, match, found, 0.9, "named a date code")
    lowered = text.lower()
    if "dot" in lowered:
        for match in _DOT.finditer(text):
            _take(text, match, found, 0.95, "behind DOT")
    for match in _WEEK.finditer(text):
        _week(text, match, match["week"] or match["nth"], found)
    for match in _YEAR_FIRST.finditer(text):
        _week(text, match, match["week"], found)
    for match in _CODE.finditer(text):
        _take(text, match, found, 0.9, "named a date code")
    if _CODE_NAMED.search(text):
        for match in _MINE.finditer(text):
            _take(text, match, found, 0.85, "named a date code")
    for match in _SAYS.finditer(text):
        if 1 <= int(match["digits"][:2]) <= 53 and not match["digits"].startswith(("19", "20")):
            _take(text, match, found, 0.85, "four digits that a tire shows")
    known = any(fact.field == "date_code" for fact in found.facts)
    if known or _AGE_WORDS.search(text):
        for match in _BARE.finditer(text):
            if known and not _FURTHER.search(text, max(0, match.start() - 12), match.start()):
                continue
            if 1 <= int(match["digits"][:2]) <= 53 and not match["digits"].startswith(("19", "20")):
                _take(text, match, found, 0.7, "four digits that can be week and year")
    for match in (match for pattern in _ELSEWISE for match in pattern.finditer(text)):
        if 1 <= int(match["digits"][:2]) <= 53:
            _take(text, match, found, 0.8, "digits that stand on a tire")
    for match in _MADE.finditer(text):
        name = "year" if match["year"] else "other"
        if not overlaps(*match.span(name), found.facts):
            start, end = match.span(name)
            found.facts.append(
                Fact(
                    start=start,
                    end=end,
                    text=match[name],
                    field="made_year",
                    value=match[name],
                    sure=0.6,
                    how="a year, without its week",
                )
            )


def _take(text: str, match: re.Match[str], found: Found, sure: float, how: str) -> None:
    start, end = match.span("digits")
    digits = "".join(c for c in match["digits"] if c.isdigit())
    if overlaps(start, end, found.facts) or len(digits) < 3:
        return
    if len(digits) == 4 and digits.startswith(("19", "20")) and how != "behind DOT" and int(digits[2:]) > 53:
        return
    found.facts.append(
        Fact(start=start, end=end, text=text[start:end], field="date_code", value=digits, sure=sure, how=how)
    )


def _week(text: str, match: re.Match[str], week: str, found: Found) -> None:
    start, end = match.span()
    if overlaps(start, end, found.facts):
        return
    year = match["year"].strip("'")
    digits = f"{int(week):02d}{year[-2:]}" if len(year) == 2 or year.startswith("20") else f"{int(week):02d}{year[-1]}"
    found.facts.append(
        Fact(
            start=start, end=end, text=text[start:end], field="date_code", value=digits, sure=0.95, how="week and year"
        )
    )
