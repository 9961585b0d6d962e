"""Answers about sizes: another size, the spare against the main tires, what a marking says."""

import re

from studio.model.car import PlacardTire
from studio.model.caution import Caution
from studio.model.circumstances import Circumstances
from studio.model.finding import Finding, as_steps
from studio.model.quantity import Quantity, format_number
from studio.questions.answer_values import Missing, Part, Viewer
from studio.questions.facts import Fact
from studio.questions.small_episode import car_of, conclude, episode_of
from studio.tires.designation import parse_marking, spell_out

_I = re.IGNORECASE
_OLD_BETWEEN = re.compile(
    r"\b(?:than|alternative (?:to|for)|substitute for|replacement for|upgrade (?:from|over|for)|compared (?:to"
    r"|with)|takes?|needs?|requires?|uses|equipped with|fitted with|supposed to (?:have|be|run)|meant for"
    r"|designed for|where|log ?book|hand ?book|owner'?s? manual|paper(?:s|work)|registration|certificate|label"
    r"|fahrzeugschein"
    r"|carte grise|should (?:be|have|take)|correct (?:size|one)|right size"
    r"|listed|spec\w*|recommend\w*|normally|usual(?:ly)?|regular(?:ly)?|als|que|was|were|used to (?:be|have|run)"
    r"|previously|before (?:it|that)|instead of|in place of|rather than"
    r"|in lieu of|replac\w+(?: (?:my|the|for|of))?|statt|anstatt|au lieu d\w*"
    r"|en (?:vez|lugar) de|al posto d\w+|invece d\w+|over (?:the |my )?(?:stock|oem|factory)|(?:stock|oem|original"
    r"|factory|placard|sticker|door)(?: size)?(?: is| are| says?| was| calls? for)?|came with|comes with|calls? for"
    r"|(?:i|it|we|you|car|truck|van|suv|which|door|manual|wagon|(?:my|our) \w+|she|he|also)(?: \w+)? (?:have|has|had)"
    r"|, have|currently|running|on now|on a car (?:with|that)|where (?:the )?\w+ (?:is|are|says?|has)"
    r"|mine (?:is|are)|for my)\b",
    _I,
)
_OLD_BEFORE = re.compile(
    r"\b(?:from|have|has|had|running|currently|stock|oem|original(?:ly)?|factory|came with"
    r"|comes with|placard|sticker|replace|replacing|swap|swapping|change|changing|going from"
    r"|ersetzen|my|mine|is|are|calls for|instead of|statt|au lieu de)(?: \w+){0,3}[ :]*$",
    _I,
)
_NEW_BEFORE = re.compile(
    r"\b(?:put(?:ting)?|fit(?:ted|ting|s)?|us(?:e|ing)|run|mount(?:ed|ing)?|wants?|get(?:ting)?|buy(?:ing)?|bought"
    r"|go with|go to|to|with|found|deal on|try(?:ing)?|install(?:ed)?|sold|gave|quoted|offered|ordered|thinking"
    r"|considering"
    r"|cheap|set of"
    r"|upgrade to|switch to|into|order|squeeze|montieren|fahren|monter|mettre|montar|poner"
    r"|montare|mettere)(?: \w+){0,2} ?$",
    _I,
)
_NO_SWAP: dict[str, None] = dict.fromkeys(("overall_diameter_change_percent", "true_speed_at_60", "load_index_change"))
_ASK_OLD = Missing(
    field="size", ask="Which size does the placard in the door name? The other size is held against that one."
)
_ASK_NEW = Missing(
    field="size_wished", ask="Which size would you put on? Please write it as on the sidewall, such as 225/60R17 99H."
)
_ASK_SERVICE = Missing(
    field="service",
    ask="What are load index and speed symbol of both (such as 99H, behind the size)? Neither may be lower.",
)


def size_swap(viewer: Viewer) -> Part:
    """Another size: diameter, speedometer and load against the size that the car has."""
    sizes = viewer.reading.of("size")
    caution = viewer.tables.cautions["size_change"]
    own = viewer.episode.car.placard.front.marking if viewer.episode else ""
    old, new = _old_and_new(viewer, sizes, own)
    wrong = viewer.reading.impossible
    if not old or not new:
        never = bool(wrong and (sizes or viewer.reading.first("rim")))
        missing = () if never else (*(() if old else (_ASK_OLD,)), *(() if new else (_ASK_NEW,)))
        lead = "It cannot be mounted on that wheel" if never else "Another size is held against the one on the placard."
        return Part(
            lead=lead,
            verdict="replace" if never else "unknown",
            numbers=_NO_SWAP,
            warning=caution,
            missing=missing,
        )
    car = car_of(viewer, front=PlacardTire(marking=old))
    episode = episode_of(viewer, (), car, Circumstances(sizes_wished=(new,)))
    finding = next(it for it in conclude(episode, "size_swap", viewer) if it.word("after"))
    change, at_60 = finding.figure("diameter_change"), finding.figure("true_at_60")
    load = finding.figure("load_index_change")
    numbers = {
        "overall_diameter_change_percent": change.value if change else None,
        "true_speed_at_60": at_60.value if at_60 else None,
        "load_index_change": round(load.value) if load else None,
    }
    more = (f"At a shown 60 the true speed is {format_number(at_60.value, 1)}.",) if at_60 else ()
    return Part(
        lead=finding.sentence,
        finding=finding,
        verdict=finding.verdict,
        numbers=numbers,
        steps=finding.steps[:2],
        sources=finding.sources[:2],
        warning=caution,
        missing=() if load else (_ASK_SERVICE,),
        more=more,
        findings=(finding,),
    )


def _old_and_new(viewer: Viewer, sizes: tuple[Fact, ...], own: str) -> tuple[str, str]:
    distinct = list({fact.word: fact for fact in sizes}.values())
    if len(distinct) >= 2:
        first, second = distinct[:2]
        return (
            (second.word, first.word)
            if _second_is_old(viewer.reading.text, first, second)
            else (first.word, second.word)
        )
    if not distinct:
        return own, ""
    if own:
        return own, distinct[0].word
    only = distinct[0]
    has = _OLD_BEFORE.search(viewer.reading.text[max(0, only.start - 40) : only.start])
    return (only.word, "") if has else ("", only.word)


_FIRST_IS_OLD = re.compile(
    r"\b(?:(?:car|van|truck|suv|wagon|it|she|which) (?:has|takes|needs|requires|uses|runs|came)|oem|stock|original\w*"
    r"|factory|placard|sticker|came with|comes with|currently|going from|from|had|i have"
    r"|i've got)"
    r"(?: (?:size|is|was|are|says?|tires?|tyres?|on|run|running|got|with|it|have|has))*[ :]*$",
    _I,
)
_ON_IT_AFTER = re.compile(
    r"^(?:'?s)? ?\(?(?:(?:is|was|are|were|as|being|on) )?(?:the |my )?(?:stock|oem|original\w*|factory|standard|placard"
    r"|on (?:it|the car|there|my car) (?:now|originally|from)|(?:it |that |which |they )?(?:came|comes) (?:with|on)"
    r"|currently"
    r"|size (?:it|that) came)\b",
    _I,
)
_CHANGED_FOR = re.compile(r"[\w' ]*\b(?:replac|swapp|chang|switch|exchang|trad|substitut)ed (?:out )?(?:with|to|by"
    r"|for|into)\b(?: (?:a|an|the|set of))*\W*$", _I)
_OTHERS_WISH = re.compile(
    r"\b(?:shop|dealer|garage|mechanic|friend|guy|store|seller|they|he|she|fitter|place)(?: only| now"
    r"| also)? (?:recommend|suggest"
    r"|offer|quot|put|fit|sold|sell|want|has|have|had|gave|installed|mounted)\w*(?: (?:me|a|the|on|to|us|set|of|fit"
    r"|put|in|stock|for))*\W*$",
    _I,
)
_DOCUMENT = re.compile(
    r"\b(?:sticker|placard|door|log ?book|manual|hand ?book|registration|papers?|oem|original\w*|factory|stock"
    r"|approved)"
    r"\b[^.?!;]{0,30}$",
    _I,
)
_LATTER = re.compile(r"^[^?!]{0,8}[.?!,;]? ?(?:currently|now|at the moment|stock is|i have"
    r"|i run)\b[^.?!]{0,20}\blatter\b", _I)
_WANTED_BETWEEN = re.compile(
    r"\b(?:want|wanna|would like|going to|thinking|can i|could i|put|fit|bought|found|get)\b", _I
)


def _second_is_old(text: str, first: Fact, second: Fact) -> bool:
    """Which of two sizes the car has: by the words between them, else by those before the first."""
    between, before = text[first.end : second.start], text[max(0, first.start - 40) : first.start]
    if _LATTER.match(text[second.end :]):
        return True
    if _ON_IT_AFTER.match(text[second.end :]) and not _FIRST_IS_OLD.search(before):
        return True
    if _ON_IT_AFTER.match(between):
        return False
    if _CHANGED_FOR.match(between):
        return False  # "was replaced with", "swapped for"
    if re.match(r"\W*(?:with|to|->|=>|for|by|vs\.?|versus|auf|par|con|por|into)\W*$", between, _I):
        return False
    if _DOCUMENT.search(between) and not _DOCUMENT.search(before):
        return True  # what a paper of the car names outranks what happens to be on it
    if _FIRST_IS_OLD.search(before):
        return False
    if _OTHERS_WISH.search(between):
        return False
    old = [match.end() for match in _OLD_BETWEEN.finditer(between)]
    if old:
        wanted = [match.end() for match in _WANTED_BETWEEN.finditer(between)]
        return not wanted or wanted[-1] < old[-1]
    return bool(_NEW_BEFORE.search(before)) and not _OLD_BEFORE.search(before)


def spare(viewer: Viewer) -> Part:
    """The spare against the main tires."""
    sizes = [fact.word for fact in viewer.reading.of("size")]
    temporary = next((size for size in sizes if size.startswith("T")), "")
    mains = [size for size in sizes if size != temporary]
    own = viewer.episode.car.placard if viewer.episode else None
    spare_size = temporary or _spare_by_words(viewer, mains) or (own.spare.marking if own else "")
    main = next((size for size in mains if size != spare_size), "") or (own.front.marking if own else "")
    usual = viewer.tables.spare
    caution = viewer.tables.cautions["temporary_spare"]
    rules = as_steps([f"{usual['speed_usual'].wording}, {usual['distance'].wording}"])
    if not spare_size:
        lead = (
            f"A temporary spare only gets you to a repair: {usual['speed_usual'].wording}; {usual['distance'].wording}."
        )
        return Part(
            lead=lead,
            verdict="unknown",
            numbers={"overall_diameter_change_percent": None},
            warning=caution,
            sources=(usual["speed_usual"].source, usual["distance"].source),
            more=_all_wheel(viewer),
            missing=_spare_missing(spare_size, main),
        )
    car = car_of(
        viewer, front=PlacardTire(marking=main), rear=PlacardTire(marking=main), spare=PlacardTire(marking=spare_size)
    )
    finding = conclude(episode_of(viewer, (), car), "spare", viewer)[0]
    change = finding.figure("diameter_change")
    return Part(
        lead=finding.sentence,
        finding=finding,
        verdict=finding.verdict,
        numbers={"overall_diameter_change_percent": change.value if change else None},
        steps=(*finding.of_kind("compared")[:1], *rules),
        sources=finding.sources[:3],
        warning=caution,
        missing=_spare_missing(spare_size, main),
        more=_all_wheel(viewer),
        findings=(finding,),
    )


def _spare_by_words(viewer: Viewer, mains: list[str]) -> str:
    """Which of two sizes is the spare's: the one nearest to the word."""
    word = viewer.reading.first("spare")
    sizes = [fact for fact in viewer.reading.of("size") if fact.word in mains]
    if word is None or len({fact.word for fact in sizes}) < 2:
        return ""
    return min(sizes, key=lambda fact: min(abs(fact.start - word.end), abs(word.start - fact.end))).word


def _spare_missing(spare_size: str, main: str) -> tuple[Missing, ...]:
    return (
        *(
            ()
            if spare_size
            else (
                Missing(
                    field="spare_size",
                    ask="What is written on the spare, such as T145/80D17? Its diameter follows from it.",
                ),
            )
        ),
        *(
            ()
            if main
            else (Missing(field="size", ask="What size are the main tires? The spare is held against them."),)
        ),
    )


def _all_wheel(viewer: Viewer) -> tuple[str, ...]:
    words = viewer.reading.words("drivetrain")
    if not words or words[0] not in ("all", "part_time_four"):
        return ()
    rule = viewer.tables.spare["all_wheel_drive"]
    return (f"{rule.wording[:1].upper()}{rule.wording[1:]} ({rule.source.standing}).",)


def code(viewer: Viewer) -> Part:
    """What a marking says, field by field."""
    sizes = viewer.reading.of("size")
    caution = viewer.tables.cautions["overload" if viewer.reading.first("load_high") else "estimate"]
    wrong = viewer.reading.impossible
    if sizes:
        return _spelled(viewer, sizes[0].word, caution)
    service = viewer.reading.first("service")
    if service is not None:
        return _service(viewer, service.word, caution)
    mark = viewer.reading.first("mark")
    if mark is not None:
        return _mark(viewer, mark.word, caution)
    lead = f"That cannot be a size: {wrong[0]}." if wrong else "Which marking do you mean?"
    ask = Missing(
        field="size", ask="Could you write out the whole marking as it stands on the sidewall, such as 225/60R17 99H?"
    )
    return Part(
        lead=lead, verdict="unknown", numbers={"load_kg": None, "speed_kmh": None}, warning=caution, missing=(ask,)
    )


def _spelled(viewer: Viewer, marking: str, caution: Caution) -> Part:
    tables, read = viewer.tables, parse_marking(marking)
    fields = spell_out(read, load_kg=tables.load_kg, speed_kmh=tables.speed_kmh)
    load = tables.load_index.get(read.load_index) if read.load_index is not None else None
    speed = tables.speed_symbol.get(read.speed_symbol) if read.speed_symbol else None
    separate = viewer.reading.first("service")
    missing = (
        ()
        if load or separate
        else (Missing(field="service", ask="What stands behind the size (such as 99H)? That is load and speed."),)
    )
    lead = f"{marking}: " + "; ".join(f"{field.text} is the {field.label}, {field.meaning}" for field in fields) + "."
    rows = [row.source for row in (load, speed) if row]
    finding = _size_finding(viewer, marking)
    return Part(
        lead=lead,
        numbers={"load_kg": load.load_kg if load else None, "speed_kmh": speed.speed_kmh if speed else None},
        steps=finding.of_kind("sum")[:2],
        sources=(*rows, *finding.sources[:1]),
        warning=caution,
        missing=missing,
        findings=(finding,),
    )


def _size_finding(viewer: Viewer, marking: str) -> Finding:
    from studio.questions.small_episode import tire

    return conclude(episode_of(viewer, (tire(viewer, marking=marking),)), "size", viewer)[0]


def _service(viewer: Viewer, text: str, caution: Caution) -> Part:
    tables = viewer.tables
    digits = "".join(c for c in text.split("/")[0] if c.isdigit())
    symbol = text[len(text.rstrip("ABCDEFGHIJKLMNOPQRSTUVWXYZ")) :]
    load = tables.load_index.get(int(digits)) if digits else None
    speed = tables.speed_symbol.get(symbol) if symbol else None
    words = [
        *(
            [
                f"load index {digits} is {viewer.both(Quantity(load.load_kg, 'kg'))} for one tire at its reference "
                f"pressure"
            ]
            if load
            else []
        ),
        *(
            [f"speed symbol {symbol} is up to {viewer.both(Quantity(speed.speed_kmh, 'km/h'))}, in the laboratory"]
            if speed
            else []
        ),
    ]
    lead = f"{text}: {'; '.join(words)}." if words else f"{text} is in no table of load indices or speed symbols."
    return Part(
        lead=lead,
        numbers={"load_kg": load.load_kg if load else None, "speed_kmh": speed.speed_kmh if speed else None},
        warning=caution,
        sources=tuple(row.source for row in (load, speed) if row),
        steps=as_steps(["Read from the tables of load indices and speed symbols"]),
    )


def _mark(viewer: Viewer, mark: str, caution: Caution) -> Part:
    """What a mark behind the size says."""
    tables = viewer.tables
    field = spell_out(parse_marking(f"225/60R17 {mark}"), load_kg=tables.load_kg, speed_kmh=tables.speed_kmh)[-1]
    said = tables.myths["mud_and_snow" if mark in ("M+S", "3PMSF") else "xl_capacity"]
    return Part(
        lead=f"{mark} is the {field.label}: {field.meaning}",
        numbers={"load_kg": None, "speed_kmh": None},
        steps=as_steps([f"{said.correct[:1].upper()}{said.correct[1:]}"]),
        sources=(said.source,),
        warning=caution,
    )
