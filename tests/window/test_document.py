"""The document: one way in, one signal, undo by one command."""

import datetime as dt
from dataclasses import dataclass, field
from pathlib import Path

import pytest
from hypothesis import given
from hypothesis import strategies as st
from msgspec.structs import replace

from studio import shipped
from studio.decide import decide
from studio.model.episode import Episode
from studio.model.finding import Finding, Findings
from studio.model.problem import Problem
from studio.model.rundown import Rundown, Segment
from studio.reference.tables import load_tables
from studio.storage.episode_file import decode
from studio.window.document import NOT_DECIDED_FROM, Document
from tests.window.helpers import DAY, no_findings, plain_document


@dataclass
class Heard:
    paths: list[str] = field(default_factory=list)
    changes: int = 0

    def path(self, path: str) -> None:
        self.paths.append(path)

    def change(self) -> None:
        self.changes += 1


def titled(document: Document, title: str, merge: str = "") -> None:
    document.edit("Change title", replace(document.episode, title=title), merge)


def test_an_edit_is_told_and_undone_by_name(qapp, empty_episode):
    document, heard = plain_document(empty_episode), Heard()
    document.changed.connect(heard.change)
    titled(document, "Spring check")
    assert (heard.changes, document.undo_stack.undoText()) == (1, "Change title")
    document.undo_stack.undo()
    assert document.episode == empty_episode
    assert heard.changes == 2


def test_an_edit_that_changes_nothing_is_no_step(qapp, empty_episode):
    document = plain_document(empty_episode)
    titled(document, empty_episode.title)
    assert document.undo_stack.count() == 0


def test_typing_with_one_merge_key_is_one_step_and_another_key_another(qapp, empty_episode):
    document = plain_document(empty_episode)
    for text in ("S", "Sp", "Spring"):
        titled(document, text, merge="title 1")
    titled(document, "Summer", merge="title 2")
    assert document.undo_stack.count() == 2
    document.undo_stack.undo()
    assert document.episode.title == "Spring"


def test_typing_back_to_the_start_leaves_no_step(qapp, empty_episode):
    document = plain_document(empty_episode)
    titled(document, "X", merge="title")
    titled(document, empty_episode.title, merge="title")
    assert document.undo_stack.count() == 0
    assert document.is_clean


def test_undo_reaches_at_least_200_steps_back(qapp, empty_episode):
    document = plain_document(empty_episode)
    for number in range(250):
        titled(document, f"Title {number}")
    for _ in range(250):
        document.undo_stack.undo()
    assert document.episode == empty_episode


def test_undoing_to_the_saved_state_is_clean(qapp, empty_episode, tmp_path):
    document = plain_document(empty_episode)
    titled(document, "Spring check")
    assert not document.is_clean
    document.saved_as(tmp_path / "spring.json")
    titled(document, "Summer check")
    document.undo_stack.undo()
    assert document.is_clean


def test_a_recovered_episode_is_not_clean_even_after_undo(qapp, empty_episode):
    document = plain_document(empty_episode)
    document.start(replace(empty_episode, title="Rescued"), None, clean=False)
    assert not document.is_clean
    titled(document, "More")
    document.undo_stack.undo()
    assert not document.is_clean


def test_undo_and_redo_tell_the_path_of_what_they_changed(qapp, empty_episode):
    document, heard = plain_document(empty_episode), Heard()
    document.undone.connect(heard.path)
    document.edit("Name the car", replace(document.episode, car=replace(document.episode.car, name="Wagon")))
    assert heard.paths == []
    document.undo_stack.undo()
    document.undo_stack.redo()
    assert heard.paths == ["car.name", "car.name"]


def test_findings_are_computed_once_for_an_episode(qapp, empty_episode):
    calls: list[Episode] = []

    def decide(episode: Episode, _tables: object) -> Findings:
        calls.append(episode)
        return Findings((Finding(id="x.y", topic="x", subject="y", sentence=episode.region),))

    document = Document(empty_episode, tables=object(), decide=decide)
    assert document.findings.all[0].sentence == document.findings.all[0].sentence == "us"
    document.edit("Change region", replace(document.episode, region="de"))
    assert document.findings.all[0].sentence == "de"
    assert len(calls) == 2


def test_a_decision_that_fails_is_told_once_for_an_episode(qapp, empty_episode):
    def decide(_episode: Episode, _tables: object) -> Findings:
        raise ZeroDivisionError("a fault in a decision")

    document = Document(empty_episode, tables=object(), decide=decide)
    with pytest.raises(ZeroDivisionError):
        _ = document.findings
    assert len(document.findings) == 0
    document.edit("Change region", replace(document.episode, region="de"))
    with pytest.raises(ZeroDivisionError):
        _ = document.findings


def test_only_new_problems_speak_against_an_edit(qapp, empty_episode):
    def check(episode: Episode, _tables: object) -> tuple[Problem, ...]:
        return tuple(Problem("title", f"{word} cannot be") for word in episode.title.split() if word.islower())

    document = Document(replace(empty_episode, title="old"), tables=object(), decide=no_findings, check=check)
    assert document.objections(replace(empty_episode, title="old New")) == ()
    assert [str(p) for p in document.objections(replace(empty_episode, title="old worse"))] == [
        "title: worse cannot be"
    ]


@pytest.mark.usefixtures("qapp")
@given(st.lists(st.one_of(st.sampled_from(["undo", "redo"]), st.text("abc", min_size=1, max_size=3)), max_size=40))
def test_any_sequence_of_edits_and_undos_agrees_with_a_list_of_states(steps):
    start = Episode(title="start", on=DAY)
    document = plain_document(start)
    states, here = [start.title], 0
    for step in steps:
        if step == "undo":
            document.undo_stack.undo()
            here = max(0, here - 1)
        elif step == "redo":
            document.undo_stack.redo()
            here = min(len(states) - 1, here + 1)
        else:
            titled(document, step)
            if step != states[here]:
                states[here + 1 :] = [step]
                here += 1
        assert document.episode.title == states[here]


@pytest.mark.parametrize("path", sorted(shipped.demos().glob("*.json")), ids=lambda path: path.stem)
def test_no_finding_is_worked_out_from_script_questions_look_or_names(path: Path) -> None:
    episode, tables = decode(path.read_bytes()), load_tables()
    empty = Episode(title="", on=episode.on)
    bare = replace(episode, **{field: getattr(empty, field) for field in NOT_DECIDED_FROM})
    assert decide(bare, tables) == decide(episode, tables)


def test_an_edit_of_the_script_decides_nothing_anew_and_one_of_a_reading_does() -> None:
    decided: list[Episode] = []

    def note(episode: Episode, _: object) -> Findings:
        decided.append(episode)
        return Findings(())

    document = Document(Episode(title="x", on=DAY), tables=object(), decide=note)
    document.findings  # noqa: B018
    spoken = Rundown(segments=(Segment(id="a", title="A"),))
    document.edit("Write", replace(document.episode, rundown=spoken))
    document.findings  # noqa: B018
    assert len(decided) == 1
    document.edit("Change the day", replace(document.episode, on=DAY + dt.timedelta(days=1)))
    document.findings  # noqa: B018
    assert len(decided) == 2
