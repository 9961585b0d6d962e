"""What can be put into a talking point: live numbers that fit what is being typed, each with its present text."""

import re
from collections.abc import Iterator, Sequence

import msgspec

from studio.model.finding import Finding, Findings
from studio.model.quantity import System
from studio.script.live import FORMS, Form, Reference, in_form
from studio.script.numbers import OWN, Number, numbers_of

MOST = 40
_WORD = re.compile(r"[^\W_]+")


class Offer(msgspec.Struct, frozen=True, kw_only=True):
    """One live number that can be inserted: ``insert`` is put into the text, ``text`` is what it shows today."""

    insert: str
    text: str
    label: str
    finding: str
    number: str
    form: Form


def offers(findings: Findings, typed: str, units: System = "us", most: int = MOST) -> list[Offer]:
    """The live numbers that fit ``typed``, such as ``{tread_left.fr``, ``front right margin`` or ``depth both``.

    Every word typed must begin a word of the finding's id, its number's name or its label; a form's name asks for
    that form. A finding's own value comes before its figures, otherwise they stand in the findings' order.
    """
    words = [word.lower() for word in _WORD.findall(typed[:200].replace("_", " "))]
    form = next((form for form in FORMS if words and form == words[-1]), FORMS[0])
    wanted = words[:-1] if words and words[-1] == form else words
    fitting = [number for number in _all(findings) if _fits(number, wanted)]
    fitting.sort(key=lambda number: OWN.index(number.name) if number.name in OWN else len(OWN))
    return [_offer(number, form, units) for number in fitting[:most]]


def forms_of(finding: Finding, number: str, units: System) -> list[Offer]:
    """One number in all four forms, for choosing between them. Empty where the finding has no such number."""
    found = numbers_of(finding).get(number)
    return [_offer(found, form, units) for form in FORMS] if found else []


def _all(findings: Findings) -> Iterator[Number]:
    for finding in findings:
        if finding.verdict != "unknown":
            yield from numbers_of(finding).values()


def _fits(number: Number, wanted: Sequence[str]) -> bool:
    held = f"{number.finding} {number.name} {number.label}".replace(".", " ").replace("_", " ").lower()
    names = _WORD.findall(held)
    return all(any(name.startswith(word) for name in names) for word in wanted)


def _offer(number: Number, form: Form, units: System) -> Offer:
    insert = Reference(finding=number.finding, number=number.name, form=form).written()
    return Offer(
        insert=insert, text=in_form(number, form, units)[0], label=number.label, finding=number.finding,
        number=number.name, form=form,
    )  # fmt: skip
