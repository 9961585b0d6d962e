"""One judgement among several on the same subject: the gravest speaks for it."""

from collections.abc import Iterable

import msgspec

from studio.model.finding import SEVERITY, Verdict


class Told(msgspec.Struct, frozen=True, kw_only=True):
    """What it is about, the verdict that it alone would give, its sentence (or none), and its line of working.

    ``brief`` says it in a few words for a picture; empty where nothing shows it.
    """

    about: str
    verdict: Verdict
    sentence: str
    text: str
    close: bool = False
    brief: str = ""


def gravest_first(told: Iterable[Told]) -> tuple[Told, ...]:
    """The judgements by gravity; of equal ones, those that came first stay first."""
    return tuple(sorted(told, key=lambda its: -SEVERITY.index(its.verdict)))
