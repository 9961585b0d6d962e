"""Findings and Pictures on a demo episode with the real decisions, the real catalogue and the real painters."""

import pytest
from PySide6.QtGui import QGuiApplication

from studio import shipped
from studio.decide.input_words import input_words
from studio.decide.registry import picture_of
from studio.graphics.catalogue import catalogue
from studio.model.paths import value_at
from studio.storage.episode_file import decode
from studio.window.document import Document
from studio.window.findings_place import FindingsPlace, questions
from studio.window.pictures_place import PicturesPlace
from studio.window.place import Workshop

DEMOS = sorted(path.name for path in shipped.demos().glob("*.json"))


def demo(name):
    return decode((shipped.demos() / name).read_bytes())


@pytest.fixture
def workshop(appearance, jobs, answers):
    yield lambda name: Workshop(Document(demo(name)), appearance, jobs, answers)
    QGuiApplication.clipboard().clear()


@pytest.mark.parametrize("name", DEMOS)
def test_every_finding_opens_and_every_input_is_said_in_words(workshop, qtbot, name):
    place = FindingsPlace(workshop(name))
    qtbot.addWidget(place)
    place.show()
    episode, asked = place.document.episode, questions()
    for finding in place.document.findings:
        assert finding.topic in asked
        assert place.list.choose(finding.id)
        shown = [link.target for link in place.sheet.links()]
        assert [path for path in shown if path in finding.inputs][-len(finding.inputs) :] == list(finding.inputs)
        for path in finding.inputs:
            value_at(episode, path)
            words = input_words(episode, path)
            assert words != path and "[" not in words.partition(":")[0]
        assert picture_of(finding) in ("", *catalogue())


@pytest.mark.parametrize("name", DEMOS)
def test_every_picture_of_a_demo_is_shown_and_leads_back_to_its_findings(workshop, qtbot, name):
    place = PicturesPlace(workshop(name))
    qtbot.addWidget(place)
    place.resize(1080, 690)
    with qtbot.waitActive(place):
        place.show()
    entries = place.shelf.shelf_model.entries
    qtbot.waitUntil(lambda: all(entry.drawn for entry in entries), timeout=20_000)
    assert [entry.id for entry in entries] == list(catalogue())
    assert [(entry.id, entry.drawn.missing) for entry in entries if entry.drawn.failed] == []
    known, asked = place.document.findings, {its.id for its in place.document.episode.questions}
    for entry in entries:
        if entry.drawn.scene is not None:
            assert entry.drawn.scene.alternative and entry.drawn.scene.steps
            ids = entry.drawn.scene.findings  # an answer's begins with "answer." and leads to its question
            assert all(known.get(id_) is not None or id_.removeprefix("answer.") in asked for id_ in ids), entry.id
            assert entry.drawn.scene.findings
    place.cache.clear()
