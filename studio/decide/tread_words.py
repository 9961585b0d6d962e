"""The words of the tread topic: the sentence, the working, the details that pictures quote."""

from studio.decide.damage import Seen
from studio.decide.tread_read import Read
from studio.decide.wording import counted, day_words, on_paper, paper_number, upper_first
from studio.model.finding import Step, summed
from studio.model.quantity import MINUS

NO_NEW_DEPTH = "the depth when new, for the share of tread left"


def damaged(title: str, damage: tuple[Seen, ...]) -> str:
    """The sentence on a condemned tire."""
    return f"{title} shows {damage[0].words}. Do not drive on it, whatever its tread."


def sentence(its: Read) -> str:
    """The finding in plain speech, short enough for a picture's title."""
    title, audience, verdict = its.part.subject.title, its.part.audience, its.judged.verdict
    here = audience.both(its.depth)
    if its.part.damage:
        return damaged(title, its.part.damage)
    if verdict == "replace" and its.judged.under is not None:
        under = its.judged.under
        now, least = audience.own(its.depth), audience.own(under.depth)
        if its.judged.close:
            return f"{title} reads {now}: too close to {under.words} of {least} to call, so counts as under it."
        return f"{title} no longer counts as a winter tire at {now}: {under.words} is {least}."
    if verdict == "replace":
        end = ". Too close to call with this gauge: counts as worn out."
        return f"{title} is done: {here}{end if its.judged.close else f', under the legal {audience.own(its.legal)}.'}"
    if its.objection is not None:
        legal = {"inspect": "reads", "watch": "is legal at"}.get(verdict, "has tread at")
        return f"{title} {legal} {here}, but {its.objection.words}."
    if verdict == "inspect":
        return f"{title} reads {here}. Too close to call with this gauge: have it checked."
    if its.judged.under is not None:
        under = its.judged.under
        if its.judged.unsure:
            near = f"too close to {under.words} of {audience.own(under.depth)} to call"
            return f"{title} is legal at {audience.own(its.depth)}; {near}."
        return f"{title} is legal at {here} but under {under.words} of {audience.own(under.depth)}."
    if its.temporary:
        return f"{title} has {here} left; a temporary spare is for short trips only."
    return f"{title} has tread enough: {here}, {audience.own(its.above)} above the legal minimum."


def working(its: Read) -> tuple[str | Step, ...]:
    """The steps from the readings to the verdict, to be followed on paper."""
    audience, tread = its.part.audience, its.tread
    lowest = tread.depth(tread.lowest.value)
    means = ", ".join(f"{tread.groove_name(groove)} {audience.own(mean)}" for groove, mean in tread.groove_means())
    lines: list[str | Step] = [
        *(seen.dated for seen in its.part.damage),
        *(f"Also seen, to be looked at by a tire professional: {what}" for what in its.part.also_seen),
        *(f"By the topic {it.topic}, whatever its tread: it {it.words}" for it in its.objections),
        Step(
            f"Lowest of {counted(len(tread.spots), 'reading')} on {day_words(tread.reading.on)}: "
            f"{tread.spot_words(tread.lowest)}, {audience.both(lowest)}", "lowest",
        ),
        f"{upper_first(its.marks.legal.label)}: {audience.both(its.legal)} for {its.marks.legal.condition}",
        summed("Above it", f"{on_paper(its.depth)} {MINUS} {on_paper(its.legal)} = {on_paper(its.above)}"),
        its.doubt.working(audience),
        *_verdict_lines(its),
        f"Mean of each groove, outer side first: {means}",
    ]
    return (*lines, *_share_lines(its))


def _verdict_lines(its: Read) -> list[str]:
    audience, doubt_mm = its.part.audience, its.doubt.half_width.to("mm").value
    if its.judged.close:
        return ["The gauge's doubt reaches across the legal minimum, so no reading with it can settle the matter"]
    return [
        f"{upper_first(mark.label)} ({'law' if mark.law else 'advice, not law'}): "
        f"{audience.both(mark.depth)}; the tire is {'under' if mark.stands_above(its.depth_mm) else 'not under'} it"
        f"{', too close to call with this gauge' if mark.near(its.depth_mm, doubt_mm) else ''}"
        for mark in its.marks.others
    ]


def _share_lines(its: Read) -> list[str]:
    if its.depth_new is None:
        return []
    now, new, limit = (paper_number(quantity) for quantity in (its.depth, its.depth_new, its.legal))
    lines = [
        f"Share of the full depth: {now} / {new} = {its.full_depth_share.text()}",
        f"Usable tread left: ({now} {MINUS} {limit}) / ({new} {MINUS} {limit}) = {its.usable_left.text()}",
    ]
    return [*lines, *filter(None, [remark(its)])]


def remark(its: Read) -> str:
    """What is odd about the readings, though it can be; empty where nothing is."""
    if its.depth_new is None or its.depth.value <= its.depth_new.value:
        return ""
    return "It reads deeper than its depth when new: check both numbers"


def detail(its: Read) -> tuple[tuple[str, str], ...]:
    """Words that pictures put beside the figures."""
    pairs = [
        ("lowest_at", its.tread.spot_words(its.tread.lowest)),
        ("lowest_groove", f"groove_{its.tread.lowest.groove + 1}"),
        ("read_on", day_words(its.tread.reading.on)),
        ("legal_whose", its.marks.legal.label),
        ("legal_region", its.marks.legal.whose),
        ("legal_condition", its.marks.legal.condition),
        *((f"{mark.name}_condition", mark.condition) for mark in its.marks.others),
        ("damage", ", ".join(seen.words for seen in its.part.damage)),
        ("also_seen", "; ".join(its.part.also_seen)),
        ("objection", its.objection.words if its.objection else ""),
        ("remark", remark(its)),
    ]
    return tuple((name, text) for name, text in pairs if text)
