"""Other words, the same answers: with every phrase of the decisions in other letters nothing changes but letters.

Each letter of a finding's texts becomes another one, the same everywhere (numbers, signs, capitals and what the
presenter wrote between quotes stay). Then a reply, a mark of the number check, or what a picture is made of may differ
by letters alone: with every letter blotted out, the two are equal.
"""

import re
from collections.abc import Callable
from functools import partial
from random import Random
from string import ascii_lowercase
from typing import Any

import msgspec
import pytest
from msgspec.structs import replace

from studio.decide import TOPICS, decide
from studio.decide.topic import Topic
from studio.graphics.catalogue import CannotShow, catalogue, request_for
from studio.model.episode import Episode
from studio.model.finding import Finding, Findings
from studio.model.question import Question
from studio.questions import small_episode
from studio.questions.answer_values import Answer
from studio.questions.told import can_be_shown, finding_of, with_answer
from studio.reference.tables import Tables, load_tables
from studio.script.check_text import Mark, check_numbers
from studio.script.ground import prepare
from studio.script.template_texts import TEMPLATES
from studio.script.templates import plan
from tests.golden.lines import demos
from tests.questions.comment_set import answered, cases
from tests.script.scoring import DATA, sentences

SEEDS = (1, 2)
EVERY = 8  # of the comments one in eight: each takes a reading of its own
QUOTED = re.compile(r"(“[^”]*”)")
Words = Callable[[str], str]


def other_letters(seed: int) -> Words:
    """A way of writing in other letters."""
    letters = list(ascii_lowercase)
    Random(seed).shuffle(letters)
    table = str.maketrans(ascii_lowercase + ascii_lowercase.upper(), "".join(letters) + "".join(letters).upper())
    return lambda text: "".join(
        part if QUOTED.fullmatch(part) else part.translate(table) for part in QUOTED.split(text)
    )


def reworded(finding: Finding, words: Words) -> Finding:
    """The finding with all that it says to people in other words, and nothing else changed."""
    return replace(
        finding, sentence=words(finding.sentence), limit_label=words(finding.limit_label),
        steps=tuple(replace(step, text=words(step.text), sum=words(step.sum)) for step in finding.steps),
        warning=replace(finding.warning, text=words(finding.warning.text)) if finding.warning else None,
        would_change=tuple(map(words, finding.would_change)), missing=tuple(map(words, finding.missing)),
        figures=tuple(replace(its, label=words(its.label), brief=words(its.brief)) for its in finding.figures),
    )  # fmt: skip


def blotted(value: Any) -> Any:
    """Plain values with every letter blotted out, small and capital alike."""
    if isinstance(value, str):
        return re.sub(r"[A-Za-z]", "x", value)
    if isinstance(value, dict):
        return {key: blotted(its) for key, its in value.items()}
    if isinstance(value, list | tuple | set | frozenset):
        return [blotted(its) for its in (sorted(value) if isinstance(value, set | frozenset) else value)]
    return blotted(msgspec.structs.asdict(value)) if isinstance(value, msgspec.Struct) else value


def decided(episode: Episode, words: Words) -> Findings:
    found = decide(episode, load_tables())
    return replace(found, all=tuple(reworded(its, words) for its in found))


@pytest.fixture(params=SEEDS)
def words(request: pytest.FixtureRequest, monkeypatch: pytest.MonkeyPatch) -> Words:
    """Other words, which the small episodes of comments get too."""
    other = other_letters(request.param)

    def said(topic: Topic, episode: Episode, tables: Tables) -> tuple[Finding, ...]:
        return tuple(reworded(its, other) for its in topic.decide(episode, tables))

    reworded_topics = tuple(replace(topic, decide=partial(said, topic)) for topic in TOPICS)
    monkeypatch.setattr(small_episode, "TOPICS", reworded_topics)
    return other


def on_screen(text: str, found: Answer) -> Any:
    return finding_of(Question(id="asked", text=text), 0, found) if can_be_shown(found) else None


def test_replies_change_by_letters_alone(words: Words, monkeypatch: pytest.MonkeyPatch) -> None:
    asked = cases()[::EVERY]
    reworded_answers = [answered(case) for case in asked]
    monkeypatch.undo()
    assert sum(other.reply != answered(case).reply for case, other in zip(asked, reworded_answers, strict=True)) > 50
    for case, other in zip(asked, reworded_answers, strict=True):
        found = answered(case)
        assert (other.kind, other.verdict, other.numbers) == (found.kind, found.verdict, found.numbers), case.id
        assert [step.kind for step in other.steps] == [step.kind for step in found.steps], case.id
        assert blotted(other) == blotted(found), case.id
        assert blotted(on_screen(case.text, other)) == blotted(on_screen(case.text, found)), case.id


@pytest.mark.parametrize("name", demos())
def test_the_number_check_changes_by_letters_alone(name: str, words: Words) -> None:
    episode, tables = demos()[name], load_tables()

    def marks(findings: Findings) -> list[Mark]:
        ground = prepare(findings, tables, episode.units, episode)
        every = (its for path in sorted(DATA.glob("sentences*.txt")) for its in sentences(path.name))
        return [mark for its in every if its.episode == name for mark in check_numbers(its.text, ground, its.about)]

    before, after = marks(decide(episode, tables)), marks(decided(episode, words))
    same = [[(mark.text, mark.start, mark.state, mark.source) for mark in found] for found in (before, after)]
    assert same[0] == same[1]
    assert blotted(after) == blotted(before)


@pytest.mark.parametrize("name", demos())
def test_templates_are_filled_with_the_same(name: str, words: Words) -> None:
    episode, tables = demos()[name], load_tables()
    before, after = ([plan(its, found) for its in TEMPLATES]
                     for found in (decide(episode, tables), decided(episode, words)))  # fmt: skip
    assert [its.segments for its in after] == [its.segments for its in before]


@pytest.mark.parametrize("name", demos())
def test_pictures_show_the_same(name: str, words: Words, monkeypatch: pytest.MonkeyPatch) -> None:
    episode, tables = demos()[name], load_tables()

    def shown(findings: Findings) -> dict[str, Any]:
        found: dict[str, Any] = {}
        for id_, picture in catalogue().items():
            try:
                found[id_] = blotted(picture.data(episode, findings, request_for(episode, id_)))
            except CannotShow:
                found[id_] = None
        return found

    after = shown(with_answer(episode, decided(episode, words), tables))
    monkeypatch.undo()
    assert sum(its is not None for its in after.values()) >= 15
    assert after == shown(with_answer(episode, decide(episode, tables), tables))
