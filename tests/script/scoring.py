"""Sets of sentences with the state that each of their numbers must get, and how well the check does on them.

A number counts as right only if it is named with exactly the expected state. Precision is the share of the named
numbers that are right, recall the share of the expected ones. Alarms are the numbers named unbacked or contradicted.
"""

from collections.abc import Iterator
from dataclasses import dataclass, field
from functools import lru_cache
from pathlib import Path

from studio import shipped
from studio.decide import decide
from studio.headless.opening import open_episode
from studio.reference.tables import load_tables
from studio.script.check_text import check_numbers
from studio.script.ground import Ground, prepare

DATA = Path(__file__).parent / "data"
ALARMS = ("unbacked", "contradicted", "contradicted~")


@dataclass(frozen=True)
class Sentence:
    episode: str
    about: frozenset[str]
    text: str
    expected: tuple[tuple[str, str], ...]


@dataclass
class Score:
    right: int = 0
    named: int = 0
    expected: int = 0
    alarms_right: int = 0
    alarms_named: int = 0
    alarms_expected: int = 0
    sentences: int = 0
    misses: list[str] = field(default_factory=list)

    @property
    def precision(self) -> float:
        return self.right / self.named

    @property
    def recall(self) -> float:
        return self.right / self.expected

    @property
    def alarm_precision(self) -> float:
        return self.alarms_right / self.alarms_named

    @property
    def alarm_recall(self) -> float:
        return self.alarms_right / self.alarms_expected

    def line(self, name: str) -> str:
        return (
            f"{name}: {self.sentences} sentences, {self.expected} numbers: precision {self.precision:.3f}, recall "
            f"{self.recall:.3f}; alarms: precision {self.alarm_precision:.3f}, recall {self.alarm_recall:.3f}"
        )


def sentences(file: str) -> Iterator[Sentence]:
    """The sentences of a set, in its order."""
    episode, about = "", frozenset[str]()
    for line in (DATA / file).read_text(encoding="utf-8").splitlines():
        if line.startswith("="):
            episode, about = line[1:].strip(), frozenset()
        elif line.startswith("@"):
            about = frozenset(line[1:].split())
        elif "=>" in line and not line.startswith("#"):
            text, _, behind = line.partition("=>")
            pairs = (its.strip().rpartition(":") for its in behind.split(", ") if its.strip())
            yield Sentence(episode, about, text.strip(), tuple((fragment, state) for fragment, _, state in pairs))


@lru_cache
def ground_of(episode: str) -> Ground:
    """What is known of a demo."""
    its, tables = open_episode(shipped.demos() / f"{episode}.json"), load_tables()
    return prepare(decide(its, tables), tables, its.units, its)


def named_in(sentence: Sentence) -> list[tuple[str, str]]:
    """The numbers that the check names, with their states; ``~`` marks a wrong conversion."""
    marks = check_numbers(sentence.text, ground_of(sentence.episode), sentence.about)
    return [(mark.text, mark.state + ("~" if mark.conversion else "")) for mark in marks]


def score(wanted: list[Sentence]) -> Score:
    """How well the check does on ``wanted``."""
    its = Score(sentences=len(wanted))
    for sentence in wanted:
        rest = named_in(sentence)
        its.named += len(rest)
        its.alarms_named += sum(state in ALARMS for _, state in rest)
        for fragment, state in sentence.expected:
            its.expected += 1
            its.alarms_expected += state in ALARMS
            hit = next((n for n in rest if fragment in n[0] or n[0] in fragment), None)
            if hit is not None:
                rest.remove(hit)
                its.right += hit[1] == state
                its.alarms_right += hit[1] in ALARMS and state in ALARMS
            if hit is None or hit[1] != state:
                its.misses.append(f"{sentence.text} [{fragment}] {state}, not {hit}")
        its.misses += [f"{sentence.text} named {extra}" for extra in rest]
    return its
