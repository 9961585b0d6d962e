"""Comments looked at on several cores: the same as one by one, in order; a stop ends it at once."""

import multiprocessing

import pytest

from studio.questions import on_cores as cores
from studio.questions.on_cores import on_cores, one_by_one
from studio.questions.seen import cleaned
from tests.questions.comment_set import cases

TEXTS = [case.text for case in cases()][:200]


@pytest.fixture(autouse=True)
def _worth_it(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(cores, "_WORTH_IT", 1)
    monkeypatch.setattr(cores.os, "cpu_count", lambda: 2)


def flat(looking: object) -> list[object]:
    return [its for lot in looking for its in lot]  # type: ignore[attr-defined]


def test_several_cores_see_what_one_sees_in_the_same_order() -> None:
    assert flat(on_cores(cleaned, TEXTS)) == flat(one_by_one(cleaned, TEXTS))
    assert multiprocessing.active_children() == []


def test_processes_that_die_lose_nothing() -> None:
    found: list[object] = []
    for lot in on_cores(cleaned, TEXTS):
        found += lot
        for process in multiprocessing.active_children():
            process.kill()
    assert found == flat(one_by_one(cleaned, TEXTS))


def test_a_stop_ends_every_process() -> None:
    looking = on_cores(cleaned, TEXTS * 50)
    next(looking)
    assert len(multiprocessing.active_children()) == 2
    looking.close()  # type: ignore[attr-defined]
    assert multiprocessing.active_children() == []

