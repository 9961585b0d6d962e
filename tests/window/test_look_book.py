"""The look in which the window draws: the episode's, a shipped one where that cannot be used, one that is tried on."""

import os
from pathlib import Path

import pytest
from msgspec.structs import replace

from studio.graphics.look import look_named
from studio.window.look_book import LookBook
from tests.graphics.own_look import own_look
from tests.window.helpers import five_tires, plain_document


@pytest.fixture
def book(qapp, tmp_path: Path) -> LookBook:
    document = plain_document(five_tires(look="own.json"))
    document.path = tmp_path / "episode.json"
    made = LookBook(document)
    made.of = document  # type: ignore[attr-defined]
    return made


def test_the_episodes_own_look_is_read_from_beside_it(book, tmp_path):
    own_look(tmp_path)
    assert (book.shown.name, book.fault) == ("Bay Seven", "")


def test_where_it_is_missing_pictures_fall_back_and_the_episode_keeps_its_choice(book, tmp_path):
    assert book.shown.id == "chalk" and "own.json cannot be read" in book.fault
    assert book.of.episode.look == "own.json"
    own_look(tmp_path)
    assert (book.shown.name, book.fault) == ("Bay Seven", "")  # it is looked at again
    (tmp_path / "own.json").write_text("{", "utf-8")
    assert book.shown.id == "chalk" and "own.json is not a look" in book.fault


def test_a_logo_that_is_changed_outside_is_seen(book, tmp_path):
    path = own_look(tmp_path, logo={"file": "logo.svg"})
    before = book.shown.art
    logo = tmp_path / "logo.svg"
    logo.write_bytes(logo.read_bytes().replace(b"#1F4E5F", b"#000000"))
    os.utime(logo, ns=(1, 1))
    assert before is not None and book.shown.art != before
    logo.unlink()
    assert "logo.svg cannot be read" in book.fault and path.exists()


def test_an_episode_without_a_file_says_what_to_do(book):
    book.of.path = None
    assert "save the episode first" in book.fault and book.shown.id == "chalk"


def test_a_look_is_tried_on_and_taken_off(book, qtbot):
    book.of.show(replace(book.of.episode, look="night_bay"))
    with qtbot.waitSignal(book.changed):
        book.try_on(look_named("chalk"))
    assert (book.shown.id, book.chosen.id) == ("chalk", "night_bay")
    book.try_on(None)
    assert book.shown.id == "night_bay"
