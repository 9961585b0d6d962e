"""Words of car, tire and damage in a comment: drivetrain, damage and its zone, tread, season, in a few languages."""

import re

from studio.questions.facts import Fact, Found, overlaps
from studio.questions.plain_text import small_letters
from studio.questions.sieve import Sieve

_I = re.IGNORECASE


def _words(*pairs: tuple[str, str, str]) -> tuple[tuple[str, str, re.Pattern[str]], ...]:
    return tuple((field, value, re.compile(pattern)) for field, value, pattern in pairs)


_PLAIN = _words(
    (
        "drivetrain",
        "all",
        r"\bawd\b|\ball[ -]?wheel[ -]?drive|\ball wheel\b|\ballrad\w*|\btraction int[ée]grale"
        r"|\btracci[oó]n (?:total|integral)|\btrazione integrale|\bquatre roues motrices",
    ),
    ("drivetrain", "part_time_four", r"\b4 ?[x] ?4\b|\b4wd\b|\b4 ?wheel[ -]?drive|\bfour[ -]wheel[ -]?drive"),
    (
        "drivetrain",
        "front",
        r"\bfwd\b|\bfront[ -]?wheel[ -]?drive|\bfront[ -]drive\b|\b(?:vorderrad|front)antrieb"
        r"|\btraction avant|\btracci[oó]n delantera|\btrazione anteriore",
    ),
    (
        "drivetrain",
        "rear",
        r"\brwd\b|\brear[ -]?wheel[ -]?drive|\brear[ -]drive\b|\bheckantrieb|\bpropulsion\b"
        r"|\btracci[oó]n trasera|\btrazione posteriore",
    ),
    ("tread", "plain", r"\bnon[ -]?directional|\bnot directional|\bsymm?etric(?:al)?\b"),
    (
        "tread",
        "directional",
        r"\b(?:uni)?directional|\barrows?\b|\blaufrichtung\w*|\brotation arrows?|\barrows? (?:on"
        r"|for) (?:the )?(?:rotation|sidewall)|\bdirectionnels?\b|\bdireccional(?:es)?\b",
    ),
    ("tread", "asymmetric", r"\bas+ym+etr(?:ic|ical|isch\w*|iques?|icos?|ici)\b"),
    ("season", "studded", r"\bstudded\b|\bstuds\b|\bspikes?reifen|\bpneus? clout[ée]s"),
    (
        "season",
        "winter",
        r"\b(?:winter|snow|blizzard) ?(?:tires?|tyres?|rubber|set|treads?)|\bwinterreifen"
        r"|\bwinters\b|\bsnows\b|\bpneus? (?:d'?)?hiver|\bneum[aá]ticos? de invierno"
        r"|\bgomme (?:invernali|da neve)|\bpneumatici invernali",
    ),
    (
        "season",
        "summer",
        r"\bsummer ?(?:tires?|tyres?|rubber|set)|\bsommerreifen|\bsummers\b"
        r"|\bpneus? (?:d'?)?[ée]t[ée]|\bneum[aá]ticos? de verano|\bgomme estive",
    ),
    (
        "season",
        "all_season",
        r"\ball[ -]?(?:season|weather)s?|\b4 ?season|\bganzjahres\w*|\ballwetter\w*"
        r"|\b(?:quatre|4) saisons|\b(?:quattro|4) stagioni",
    ),
    (
        "use",
        "winter",
        r"\bfor (?:the |this |another |next )?(?:winter|snow)\b|\bin (?:the )?(?:snow|winter)\b"
        r"|\bthis winter\b|\bthrough (?:the )?winter|\bwinter(?:y)? (?:driving|weather|roads?"
        r"|conditions)|\bim winter|\ben hiver|\ben invierno|\bin inverno|\bsnow(?:y)? (?:season"
        r"|roads?)|\bone more winter|\banother winter|\bsnow traction|\bwinter legal",
    ),
    (
        "spare",
        "temporary",
        r"\bdo(?:ugh)?nuts?\b|\bspace[ -]?savers?|\btemp(?:orary)?[ -]?(?:use )?(?:spares?"
        r"|tires?|tyres?|wheels?)|\bemergency (?:wheel|spare|t[iy]re)|\bcompact spares?|\bmini[ -]?spares?|\bnotrad"
        r"|\broue galette"
        r"|\bgalette\b|\bruotino|\brueda de galleta|\bbiscuit spare|\bskinny spare",
    ),
    (
        "spare",
        "spare",
        r"\bspares?\b|\bersatzrad|\breserverad|\broue de secours|\brueda de (?:repuesto|recambio)"
        r"|\bruota di scorta",
    ),
    (
        "staggered",
        "staggered",
        r"\bstaggered\b|\bdifferent (?:size|width)s? (?:front|in front|on the front)"
        r"|\bwider (?:rears?|tires? in (?:the )?(?:back|rear))",
    ),
    ("sea_level", "sea level", r"\bsea[ -]level"),
    ("mark", "M+S", r"\bm ?(?:\+|&|and) ?s\b"),
    ("mark", "3PMSF", r"\b3 ?pmsf\b|\b(?:three|3)[ -]peak|\bsnow ?flake (?:symbol|mark|logo)"),
    ("mark", "XL", r"(?<![\w])xl(?![\w])|\bextra load\b"),
    (
        "load_high",
        "overload",
        r"\boverload(?:ed|ing)?|\btoo (?:heavy|much (?:weight|load))|\bover (?:the )?(?:gvwr"
        r"|gawr|payload|max load|weight|load)|\büberladen|\bexceed\w* (?:the )?(?:load|weight"
        r"|payload)|\babove (?:the )?max(?:imum)? load",
    ),
)
_DAMAGE = _words(
    (
        "damage",
        "other",
        r"\bscuff\w*|\b(?:kerb|curb)ed\b|\bhit (?:a |the )?(?:kerb|curb)\b|\brubber (?:is )?(?:hanging|ripped|torn"
        r"|peel\w*)"
        r"|\bflap of (?:rubber|tread)|\bblack ring\b|\begg[- ]shaped|\bout of round\b|\bmisshapen|\bdeformed\b"
        r"|\blopsided|\brubber dust\b|\bcupp(?:ed|ing)\b|\bscallop\w*|\bfeather(?:ed"
        r"|ing)\b"
        r"|\bsaw ?-?(?:tooth\w*|teeth)|\b(?:ran|run|drove|driven|driving) (?:it |on it |them )?(?:at|on"
        r"|with) (?:only )?"
        r"(?:[0-9]|1[0-5]) psi|\bscrap(?:e|ed|es|ing)\b|\bcurb ?rash|\bgrind marks|\bshredded|\bblow ?out"
        r"|\bblew out",
    ),
    (
        "damage",
        "cord",
        r"\bcords?\b|\bshow(?:s|ing|n)? (?:the |some )?(?:metal|steel|wires?|threads?|canvas|belts?|strings?)"
        r"|\bsee (?:\w+ ){0,2}(?:wires?|strings?|steel|threads?|belts?|canvas|fabric|mesh|cloth|nylon|plies|ply)\b"
        r"|\b(?:steel|metal|wires?|belts?"
        r"|threads?|canvas|mesh|fabric|karkasse"
        r"|gewebe)[ ,]{0,2}(?:is |are |starting to |belts? |wires? |cords? |now )?(?:show\w*"
        r"|expos\w*|visible|poking|sticking|coming|peeking|sichtbar)|\bsee (?:the )?(?:wires?|steel"
        r"|metal|cords?|threads?)|\b(?:exposed|visible|bare) (?:wires?|steel|metal|belts?|cords?"
        r"|threads?)|\bdown to the (?:wires?|cords?|steel|belts?|metal|canvas)|\bto the wires?\b",
    ),
    (
        "damage",
        "bulge",
        r"\bbulg\w*|\bbubbl\w*|\bblisters?\b|\begg (?:on|in)|\bgoose ?egg|\bballoon(?:ing|ed)|\blumps?\b"
        r"|\bbump (?:on|in) (?:(?:the|my|its|a) )?(?:side ?wall|side|tire|tyre)"
        r"|\bbump (?:on|in) (?:the |my )?side ?wall|\bsidewall (?:bump|lump)|\blump (?:on|in)"
        r"|\bknot (?:on|in) (?:the|my)|\bbeulen?\b|\bausbeulung|\bhernies?\b|\bbultos?\b"
        r"|\bchich[oó]n|\bbozz[oi]\b|\bbernoccolo|\brigonfiament\w*",
    ),
    (
        "damage",
        "separation",
        r"\b(?:tread|belt|ply) ?separat\w*|\bseparating|\bdelaminat\w*"
        r"|\btread (?:is )?(?:coming off|peeling)|\bpeeling (?:off|away)",
    ),
    ("damage", "flat_spot", r"\bflat[ -]?spot\w*|\bbremsplatten?|\bstandplatten?"),
    (
        "damage",
        "chunking",
        r"\bchunk\w*|\bpieces? (?:of (?:tread|rubber) )?(?:missing|torn|coming)"
        r"|\bmissing (?:tread )?blocks?",
    ),
    (
        "damage",
        "cracks",
        r"\bcrack(?:s|ed|ing|y)?\b|\bdry[ -]?rot\w*|\bweather[ -]?check\w*|\bcrazing|\bperish(?:ed"
        r"|ing)|\briss(?:e|ig)?\b|\bfissur\w*|\bcraquel\w*|\bgriet\w*|\bagrietad\w*|\bcrepe\b"
        r"|\bscrepolat\w*",
    ),
    (
        "damage",
        "cut",
        r"\bgash\w*|\bslash(?:ed|es)?\b|\bslices?d?\b|\bgouge?[ds]?\b|\btear in|\btorn\b|\b(?:a|the"
        r"|this|small|big|deep|long|inch|mm|cm|sidewall|little|nasty) cut\b|\bcuts? (?:in|on"
        r"|through)\b|\bcut (?:the|my|up) (?:side ?wall|tire|tyre)|\bschnitt\b|\bentaille\w*"
        r"|\bcoupures?\b|\bcortes? en|\btagli[oa]?\b|\bnicks?\b",
    ),
    (
        "damage",
        "puncture",
        r"\bnails?\b|\bscrews?\b|\bpunctur\w*|\bstaples?\b|\bholes?\b|\bbolt (?:in|stuck)"
        r"|\b(?:ran|run|drove|rolled|driven) over (?:a|an|some|the) (?:\w+ )?(?:bolt|wire|metal|glass|spike|tack"
        r"|something)\b"
        r"|\bflat tires?\b|\bflat tyres?\b|\b(?:on|got|have|had|get|has|with|repair|plug|patch) a (?:\w+ )?flat\b"
        r"|\b(?:went|gone|goes|is|was|ran|totally|completely) flat\b(?! ?-?spot)|\bplattfu[sß]\w*|\bspike in"
        r"|\bshard|\bnagel\b|\bschraube\b|\bclous?\b|\bvis dans|\bcrev(?:aison|[ée])\w*"
        r"|\bclavos?\b|\btornillo|\bpinchaz\w*|\bpinchad\w*|\bponchad\w*|\bchiod[oi]\b"
        r"|\bforat\w*|\bforatura|\bloch\b|\bbucato|\bpiece of (?:metal|glass|wire)|\bglass in"
        r"|\bdrywall screw|\btack in|\bwire in (?:the|my) t[iy]re",
    ),
)
_ZONES = _words(
    (
        "zone",
        "sidewall",
        r"\bside ?walls?\b|\bseitenwand|\breifenflanke|\bflanke\b|\bflancs?\b|\bflanco\b"
        r"|\bfianco\b|\bside of (?:the|my) t[iy]res?|\bcostado\b|\bspalla laterale",
    ),
    (
        "zone",
        "shoulder",
        r"\bshoulders?\b|\bschulter\b|\b[ée]paule\b|\bhombro\b|\bspalla\b|\b(?:out(?:er|side)"
        r"|in(?:ner|side)|very|near the|close to the|at the|on the|by the|tread) edge\b"
        r"|\bedge of (?:the|my) t(?:read|ire|yre)|\b(?:near|close to|next to"
        r"|by) (?:the )?side ?wall|\bouter(?:most)? (?:groove|rib|tread block|block)|\bouter tread",
    ),
    ("zone", "bead", r"\bbead\b|\bwulst\b"),
    (
        "zone",
        "crown",
        r"\bcrown\b|\b(?:center|centre|middle|main part) of (?:the |my )?(?:tread|tire|tyre)"
        r"|\bin (?:the )?(?:tread(?: area)?|center|centre|middle|laufflaeche|lauffläche)\b"
        r"|\bdead center|\bcenter (?:tread|groove|rib)|\bmain tread|\bon the tread\b|\b(?:tread"
        r"|center|centre|middle) (?:groove|area|part|section)\b|\bin (?:the )?middle"
        r"|\bbande de roulement|\bmitte (?:der|des|vom)\b|\bin der mitte|\blaufflächen?mitte|\bau milieu"
        r"|\ben el centro|\bal centro|\bin (?:a|the) (?:\w+ )?groove|\bin (?:the |my )?(?:\w+ ){1,3}tread\b",
    ),
)
_NOT = re.compile(
    r"\b(?:no|not|without|zero|never|isn'?t|aren'?t|don'?t|doesn'?t|no signs? of|neither|kein\w*|ohne|pas de|sin"
    r"|senza|nor|or|don'?t have any) (?:(?:any|visible|signs? of|obvious|real|the|a|been|got|big"
    r"|small|cuts?|bulges?|nails?|cracks?|damage|have|rotation|direction|,|or|and) ?){0,4}$",
    _I,
)
_DENIABLE = ("drivetrain", "tread", "staggered", "load_high", "sea_level")
_PLUG = re.compile(
    r"\b(?P<patch>patch[ -]?plug|plug[ -]?patch|mushroom)|\b(?P<plug>plug(?:s|ged|ging)?)\b"
    r"|\b(?P<one>patch(?:ed|es|ing)?)\b|\b(?P<foam>sealant|goop?|t[iy]re (?:foam|spray)|dichtmittel)\b",
    _I,
)


_AWAY = re.compile(r"\b(?:from|off|inside|away from|short of) (?:the |my |its )?$", _I)


_PLAIN_SIEVE, _ZONES_SIEVE, _DAMAGE_SIEVE = (
    Sieve([(word[2], word) for word in words]) for words in (_PLAIN, _ZONES, _DAMAGE)
)


def vocabulary(text: str, found: Found) -> None:
    """Every word that says something about car or tires, what is denied left out."""
    small = small_letters(text)
    for field, value, pattern in _PLAIN_SIEVE.of(small):
        for match in pattern.finditer(small):
            if field in _DENIABLE and _NOT.search(small, max(0, match.start() - 30), match.start()):
                continue
            _take(text, match, field, value, 0.95, "a word for it", found)
    for field, value, pattern in _ZONES_SIEVE.of(small):
        for match in pattern.finditer(small):
            if value == "sidewall" and _AWAY.search(small, max(0, match.start() - 20), match.start()):
                continue
            _take(
                text,
                match,
                field,
                value,
                0.9 if value != "shoulder" or "shoulder" in match[0].lower() else 0.75,
                "where it sits",
                found,
            )
    for field, value, pattern in _DAMAGE_SIEVE.of(small):
        for match in pattern.finditer(small):
            if _NOT.search(small, max(0, match.start() - 60), match.start()) or _is_other(small, match):
                continue
            _take(text, match, field, value, 0.92, "a word for damage", found)
    for match in _PLUG.finditer(small):
        _take(text, match, "repair", match.lastgroup or "plug", 0.9, "a way of repair", found)


_AFTER_HOLE = re.compile(
    r" ?(?:in my (?:wallet|pocket|heart|budget)|set\b|thing|video|channel|tutorial|bunch|saw)"
    r"|-?saw",
    _I,
)


def _is_other(text: str, match: re.Match[str]) -> bool:
    """``pothole``, ``price cut``, ``crack me up`` and the like are no damage."""
    word, before, after = (
        match[0].lower(),
        text[max(0, match.start() - 12) : match.start()],
        text[match.end() : match.end() + 12],
    )
    if word.startswith("hole") and (_AFTER_HOLE.match(after) or re.search(r"(?:pot|whole|lug|bolt)[ -]?$", before, _I)):
        return True
    if word in ("screw", "nail") and re.match(r" (?:it|this|that|you|'em|them|up|over|the)\b|ed", after, _I):
        return True
    if word.startswith("crack") and re.match(r"s? (?:me|up|down|open)\b|ing (?:up|video|job)|s me", after, _I):
        return True
    if word in ("cut", "slice") and re.search(r"(?:price|short|hair|budget|rate)[ -]?$", before, _I):
        return True
    return word.startswith("flat t") and bool(re.search(r"run[ -]?$", before, _I))


def _take(text: str, match: re.Match[str], field: str, value: str, sure: float, how: str, found: Found) -> None:
    others = [fact for fact in found.facts if {fact.field, field} != {"damage", "zone"}]  # "bump on the sidewall": both
    if not overlaps(match.start(), match.end(), others):
        found.facts.append(
            Fact(
                start=match.start(),
                end=match.end(),
                text=text[match.start() : match.end()],
                field=field,
                value=value,
                sure=sure,
                how=how,
            )
        )
