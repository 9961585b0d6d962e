"""The answers to the comment set and to the demos' own questions: all that ``answer --json`` prints, and the screen's.

What was read of a comment is kept as a hash: other tests hold it reading by reading.
"""

import datetime as dt
import json
from collections.abc import Iterator

from studio.headless.answer import as_json
from studio.model.episode import Episode
from studio.model.question import Question
from studio.questions.answer_values import Answer
from studio.questions.answering import answer_reading, viewer_of
from studio.questions.kinds import kinds_of
from studio.questions.reading import read
from studio.questions.told import can_be_shown, finding_of
from studio.reference.tables import load_tables
from tests.golden.lines import Golden, demos, digest, number, one_line
from tests.questions.comment_set import ON, cases


def given() -> Golden:
    """Each answer under its comment's id."""
    found = {f"{case.id}: {one_line(case.text)}": _answered(case.text, ON) for case in cases()}
    for name, episode in demos().items():
        for question in episode.questions:
            found[f"{name} {question.id}"] = _answered(question.text, episode.on, episode)
    return found


def _answered(text: str, on: dt.date, episode: Episode | None = None) -> list[str]:
    reading = read(text)
    viewer, asked = viewer_of(reading, tables=load_tables(), on=on, episode=episode), kinds_of(reading)
    full, short = answer_reading(viewer, "full", "plain", asked), answer_reading(viewer, "short", "plain", asked)
    return [*_facts(full), *_shown(text, short)]


def _facts(found: Answer) -> Iterator[str]:
    its = as_json(found)
    its.pop("also")
    yield f"{its.pop('kind')}, {its.pop('verdict')}, {found.state}; {its.pop('region')} {its.pop('region_from')}"
    yield f"read {digest(json.dumps(its.pop('read')))}, why {digest(json.dumps(its.pop('why')))}"
    yield from (f"{name} {number(value)}" for name, value in its.pop("numbers").items() if value is not None)
    for line in its.pop("reply").split("\n\n"):
        yield f"> {one_line(line)}"
    yield from (f"work {line}" for line in its.pop("working")[2:])
    its.pop("caution"), its.pop("invalid"), its.pop("left_out")  # the reply holds them
    yield f"sources {digest(json.dumps(its.pop('sources')))}; lacks {', '.join(its.pop('missing'))}"
    yield f"findings {', '.join(finding.id for finding in found.findings)}"
    yield from (f"{key} {value}" for key, value in its.items())
    for other in found.also:
        yield from (f"also {line}" for line in _facts(other) if not line.startswith("> "))


def _shown(text: str, short: Answer) -> Iterator[str]:
    """What a picture would say of it."""
    if can_be_shown(short):
        its = finding_of(Question(id="asked", text=text), 0, short)
        yield f"screen {its.sentence}"
        yield f"beside {one_line(its.word('more'))}; {its.word('told')}; {number(its.value)} {its.unit}"
