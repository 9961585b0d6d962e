"""The place Hand-off on real widgets: states as they are, files made off the window's thread, corrections due."""

from pathlib import Path

import pytest
from PySide6.QtCore import Qt
from PySide6.QtGui import QGuiApplication

from studio.model.episode import Episode
from studio.window.handoff_place import HandoffPlace
from tests.handoff.materials import bare
from tests.handoff.test_making import EPISODE, FRONT_LEFT, live, with_reading

QUICK = ("captions", "description", "timeline")


@pytest.fixture
def place_of(qtbot, workshop_of, tmp_path):
    def make(episode: Episode = EPISODE) -> HandoffPlace:
        place = HandoffPlace(workshop_of(episode))
        qtbot.addWidget(place)
        place.folder = tmp_path / "out"
        place.resize(1080, 690)
        with qtbot.waitActive(place):
            place.show()
        place.take_focus()
        qtbot.waitUntil(lambda: settled(place), timeout=60_000)
        return place

    return make


def settled(place: HandoffPlace) -> bool:
    return place.outlook is not None and not place._stale and place._looking is None and place._making is None


def states(place: HandoffPlace) -> dict[str, str | None]:
    return {row.item: row.state for row in place.list.handoff_model.rows}


def made(place: HandoffPlace, qtbot, *items: str) -> None:
    place._make(items, stale_only=False)
    qtbot.waitUntil(lambda: settled(place), timeout=60_000)


def test_what_is_made_becomes_fresh_and_a_reading_makes_it_stale(place_of, qtbot) -> None:
    place = place_of()
    assert set(states(place).values()) == {"not made"}
    made(place, qtbot, *QUICK)
    assert {item: states(place)[item] for item in QUICK} == dict.fromkeys(QUICK, "fresh")
    place.document.edit("Change a reading", with_reading(EPISODE, FRONT_LEFT, 8.0))
    qtbot.waitUntil(lambda: states(place)["captions"] == "stale", timeout=60_000)
    place.list.choose("captions")
    assert "outer groove, place 1: 9/32 in, now 8/32 in" in place.sheet.shown
    assert states(place)["timeline"] == "fresh"
    place.document.undo_stack.undo()
    qtbot.waitUntil(lambda: states(place)["captions"] == "fresh", timeout=60_000)


def test_enter_makes_the_deliverable_at_hand(place_of, qtbot) -> None:
    place = place_of()
    place.list.choose("edit_list")
    qtbot.keyClick(place.list, Qt.Key.Key_Return)
    qtbot.waitUntil(lambda: settled(place) and states(place)["edit_list"] == "fresh", timeout=60_000)
    assert (place.folder / "timeline.edl").exists()
    assert place._message.text() == "1 file written to out."


def test_stop_leaves_no_half_file(place_of, qtbot) -> None:
    place = place_of()
    place.make_all()
    assert place.stop.isVisible() and not place.all.isEnabled()
    place.stop_making()
    qtbot.waitUntil(lambda: settled(place), timeout=60_000)
    assert "Stopped" in place._message.text()
    assert not list(place.folder.rglob("*.part")) and not place.stop.isVisible()


def test_a_folder_that_cannot_be_written_is_told(place_of, qtbot, tmp_path: Path, answers) -> None:
    place = place_of()
    (tmp_path / "file").write_text("x")
    place.folder = tmp_path / "file"
    place._make(("captions",), stale_only=False)
    qtbot.waitUntil(lambda: place._making is None, timeout=60_000)
    assert answers.asked[-1][0] == "The hand-off was not made"


def test_a_published_number_that_changes_calls_for_a_correction(place_of, qtbot) -> None:
    place = place_of()
    place.publish.click()
    assert place.document.undo_stack.undoText() == "Mark as published"
    assert "1 spoken number kept" in place._message.text()
    place.document.edit("Change a reading", with_reading(place.document.episode, FRONT_LEFT, 8.0))
    qtbot.waitUntil(lambda: place.sheet.copy_it.isVisible(), timeout=60_000)
    place.sheet.copy_it.click()
    assert "we said 9/32 in. It is 8/32 in" in QGuiApplication.clipboard().text()


def test_nothing_spoken_has_nothing_to_publish(place_of) -> None:
    place = place_of(live(EPISODE, "No number."))
    place.publish.click()
    assert "no live numbers" in place._message.text() and not place.document.episode.published


def test_a_list_that_is_broken_is_told_and_nothing_is_lost(place_of, qtbot) -> None:
    place = place_of()
    place.folder.mkdir()
    (place.folder / "handoff.json").write_text("{")
    place._look_soon()
    qtbot.waitUntil(lambda: "not a list of the hand-off" in place._message.text(), timeout=60_000)
    assert (place.folder / "handoff.json").read_text() == "{"


def test_text_is_found_and_the_state_line_counts(place_of, qtbot) -> None:
    place = place_of()
    assert place.find_text("otio") and place.list.current_item() == "timeline"
    assert not place.find_text("no such thing")
    assert place.state_line().endswith("not made")


def test_an_empty_episode_teaches(place_of) -> None:
    place = place_of(EPISODE)
    place.document.start(bare(), None)
    assert place._stack.currentIndex() == 1


def test_without_a_folder_everything_is_not_made_and_what_is_said_is_known(qtbot, workshop_of) -> None:
    """A demo's copy has no file yet, so no folder beside it."""
    place = HandoffPlace(workshop_of(EPISODE))
    qtbot.addWidget(place)
    with qtbot.waitActive(place):
        place.show()
    assert place.folder is None
    qtbot.waitUntil(lambda: settled(place), timeout=60_000)
    assert set(states(place).values()) == {"not made"}
    place.mark_published()
    assert place.document.episode.published and "kept as published" in place._message.text()


def test_published_before_anybody_looked_keeps_the_numbers_once_they_are_read(qtbot, workshop_of) -> None:
    place = HandoffPlace(workshop_of(EPISODE))
    qtbot.addWidget(place)
    place.mark_published()
    assert "no live numbers" not in place._message.text()
    qtbot.waitUntil(lambda: bool(place.document.episode.published), timeout=60_000)
    assert "kept as published" in place._message.text()
