"""The reply to post: verdict first, numbers in the viewer's units, working, source with its standing, caution last."""

from studio.model.caution import Caution
from studio.model.finding import Verdict
from studio.questions.answer_values import Length, Part, Tone, Viewer
from studio.questions.facts import LIKELY
from studio.questions.kind_words import QuestionKind

MOST_REPLY = 4_000
_VERDICTS: dict[Verdict, str] = {
    "keep": "Fine as it is, going by your numbers.",
    "watch": "Usable, but watch it.",
    "rotate": "Rotate them.",
    "replace": "Replace it.",
    "inspect": "Have a qualified tire professional look before you rely on it.",
    "unknown": "",
}
_REPLACES: dict[str, str] = {"size_swap": "Choose another size.", "matching": "They should not run together."}
_TELLS: tuple[tuple[QuestionKind, Verdict], ...] = (
    ("age", "replace"),
    ("condition", "inspect"),
    ("condition", "replace"),
    ("repair", "inspect"),
    ("repair", "replace"),
    ("size_swap", "inspect"),
    ("spare", "inspect"),
)
"""Where the answer's own words tell what to do, as they do of a tire with a finding's ``objection``."""
_OWN_WORDS = ("rotation", "size_swap", "spare", "code", "convert")
_NOT_NUMBERS = ("region", "place", "made_year", "zone", "depth_without_unit")
_NOT_OURS = (
    "Thanks for your comment. This is nothing that can be worked out from tire readings; if you have a size, a "
    "tread depth, a date code or a pressure for me, I will gladly compute it."
)


def compose(
    kind: QuestionKind, part: Part, viewer: Viewer, length: Length, tone: Tone, shown_region: bool = True
) -> str:
    """The reply's text, one paragraph a thought."""
    if kind == "none":
        return _NOT_OURS
    blocks = [
        _greeting(tone),
        _joined(*(f"This cannot be: {_sentence(line)}" for line in part.invalid[:3])),
        said(kind, part),
    ]
    if length == "full":
        blocks += [_joined(*part.more), _working(part), _as_read(viewer)]
    blocks.append(_joined(*(it.ask for it in part.missing)))
    if length == "full":
        blocks.append(_sources(part))
    if shown_region:
        blocks.append(region_said(viewer))
    blocks += [viewer.reading.left_out, part.warning.text if part.warning else "", _referral(part.warning)]
    return "\n\n".join(block for block in blocks if block)[:MOST_REPLY]


def said(kind: QuestionKind, part: Part) -> str:
    """The verdict in words, then the answer with its numbers."""
    return _NOT_OURS if kind == "none" else _joined(_verdict_words(kind, part), part.lead)


def _verdict_words(kind: QuestionKind, part: Part) -> str:
    if part.verdict is None or (kind in _OWN_WORDS and part.verdict not in ("replace", "inspect")):
        return ""
    if part.verdict == "replace" and kind in _REPLACES:
        return _REPLACES[kind]
    objected = part.finding is not None and bool(part.finding.word("objection"))
    return "" if objected or (kind, part.verdict) in _TELLS else _VERDICTS[part.verdict]


def _greeting(tone: Tone) -> str:
    return "Thanks for asking, good question." if tone == "warm" else ""


def _working(part: Part) -> str:
    return f"How it is worked out: {'; '.join(step.text.rstrip('.') for step in part.steps[:2])}." if part.steps else ""


def _as_read(viewer: Viewer) -> str:
    """Facts that were not plain, with how they were read."""
    unsure = [
        f"“{fact.text}” as {fact.said}"
        for fact in viewer.reading.facts
        if fact.sure < LIKELY and fact.text and fact.field not in _NOT_NUMBERS
    ]
    return f"I read {', '.join(unsure[:4])}; tell me if that is wrong." if unsure else ""


def _sources(part: Part) -> str:
    if not part.sources:
        return ""
    named = [
        f"{s.title}, {s.locator} ({s.standing})" if s.locator != "none" else f"{s.title} ({s.standing})"
        for s in part.sources[:3]
    ]
    return f"Sources: {'; '.join(dict.fromkeys(named))}."


def region_said(viewer: Viewer) -> str:
    """Whose rules were taken, and why."""
    name = viewer.audience.region_name(viewer.tables)
    return f"Rules taken: {name}, {viewer.region_how}."


def _referral(caution: Caution | None) -> str:
    """Whoever must look at it is named even where the caution itself does not."""
    if caution is not None and caution.refers:
        return ""
    return "The vehicle's manual, local law and a qualified tire professional have the last word."


def _joined(*sentences: str) -> str:
    return " ".join(_sentence(it) for it in sentences if it)


def _sentence(text: str) -> str:
    text = text.strip()
    return text if text.endswith((".", "?", "!")) else f"{text}."
