"""Sentences that speak of something else than this car's tires: other cars, services, other parts."""

import re
from collections.abc import Sequence

from studio.script.aspects import Dimension
from studio.script.verdict import GENERAL, INDEFINITE, Around

_INSTEAD = re.compile(r"\b(?:instead of|rather than|not)(?: the| a| an)?\s+$", re.IGNORECASE)
_BOUGHT = re.compile(
    r"\b(?:tires?|tyres?|rubber|sets?|pairs?|spare|wheels?|mount\w*|balanc\w*|shav\w*|fitt\w*|used|four|new)\b", re.I)
_SERVICE = re.compile(
    r"\b(?:alignment|coverage|insurance|warranty|dispos\w*|plug\w*|patch\w*|repair\w*|tax(?:es)?|shipping|labor|labour|"
    r"storage|storing|sav(?:e|es|ed|ing)|fine|ticket|fuel|gas|gauge|jack|tools?)\b", re.IGNORECASE)  # fmt: skip
_NO_TIRES = re.compile(
    r"\b(?:wipers?|battery|batteries|engine oil|oil change|brake (?:pads?|fluid)|filters?|spark plugs?|timing belt|"
    r"coolant|air conditioning|headlights?)\b", re.IGNORECASE)  # fmt: skip


def of_others(around: Around, dimensions: Sequence[Dimension]) -> bool:
    """Whether the sentence speaks of other cars, of any tire, or of what costs money besides tires."""
    if _NO_TIRES.search(around.text):
        return True
    if GENERAL.search(around.text) or _INSTEAD.search(around.text, 0, around.at[0]):
        return True
    if "money" in dimensions:
        if _SERVICE.search(around.text):
            return True
        return not (around.context or _BOUGHT.search(around.text) or around.spoken)
    return bool(INDEFINITE.search(around.text))


def of_other_parts(sentence: str) -> bool:
    """Whether a sentence is about wipers, batteries, oil: no table of tires backs its numbers."""
    return bool(_NO_TIRES.search(sentence))
