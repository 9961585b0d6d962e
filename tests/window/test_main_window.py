"""The whole window: title, menus and keys, undo across places, finding, closing, coming back."""

import random
from pathlib import Path

import pytest
from msgspec.structs import replace
from PySide6.QtCore import QMimeData, QPoint, QPointF, Qt, QUrl
from PySide6.QtGui import QAction, QDropEvent, QKeySequence
from PySide6.QtWidgets import QApplication, QLabel, QMenu

from studio.storage.episode_file import save
from studio.window.about import about_detail, about_text
from studio.window.actions import COMMANDS, key_list
from studio.window.drops import dropped
from studio.window.foot import job_words
from studio.window.keys_list import KeysList
from studio.window.places_column import PlaceButton
from studio.window.preferences import Preferences
from studio.window.put import put
from studio.window.routes import place_of
from studio.window.tasks import Progress
from tests.window.helpers import five_tires, focused, press, reading, type_keys, with_reading


def every_action(menu: QMenu) -> list[QAction]:
    found = []
    for action in menu.actions():
        if action.menu() is not None:
            found += every_action(action.menu())
        elif not action.isSeparator():
            found.append(action)
    return found


def holds_everywhere(action: QAction) -> bool:
    return action.shortcutContext() == Qt.ShortcutContext.WindowShortcut


def test_the_places_stand_in_the_column_each_with_its_line(window_of):
    window = window_of(with_reading(five_tires(), 0, reading((2.0,))))
    buttons = window.column.buttons
    assert list(buttons) == ["car", "findings", "rundown", "pictures", "questions", "handoff"]
    assert buttons["car"].state_line == "5 tires, 1 measured"
    assert "replace" in buttons["findings"].state_line
    assert all(button.accessibleName() for button in buttons.values())


def test_keys_and_clicks_open_the_places(window_of, qtbot):
    window = window_of(five_tires())
    for number, key in (("2", "findings"), ("3", "rundown"), ("4", "pictures"), ("1", "car")):
        press(getattr(Qt.Key, f"Key_{number}"), Qt.KeyboardModifier.ControlModifier)
        assert window.current.key == key
        assert window.column.buttons[key].isChecked()
    qtbot.mouseClick(window.column.buttons["findings"], Qt.MouseButton.LeftButton)
    assert window.current.key == "findings"
    window.column.buttons["findings"].setFocus()
    press(Qt.Key.Key_Up)
    assert isinstance(focused(), PlaceButton)
    press(Qt.Key.Key_Return)
    assert window.current.key == "car"


def test_the_title_marks_what_is_not_saved_and_undo_takes_the_mark_away(window_of):
    window = window_of(five_tires())
    assert window.windowTitle() == "Spring check[*] — Tire Episode Studio"
    assert not window.isWindowModified()
    window.document.edit("Change title", replace(window.document.episode, title="Summer & <b>sun</b>"))
    assert window.isWindowModified()
    assert window.windowTitle().startswith("Summer & <b>sun</b>[*]")
    assert window.foot.saved.text() == "unsaved changes"
    window.commands.undo()
    assert not window.isWindowModified()


def test_every_command_has_a_menu_entry_with_a_mnemonic_of_its_own(window_of):
    window = window_of(five_tires())
    in_menus = [action for menu in window.menus.all for action in every_action(menu)]
    for command in COMMANDS:
        assert window.actions_by_name[command.name] in in_menus
    for menu in (*window.menus.all,):
        letters = [text.replace("&&", "").partition("&")[2][:1].lower()
                   for text in (action.text() for action in menu.actions() if action.text())
                   if "&" in text.replace("&&", "")]  # fmt: skip
        entries = [action for action in menu.actions() if action.text()]
        assert len(letters) == len(entries), [action.text() for action in entries]


def test_no_key_is_given_twice_and_the_platforms_own_keys_are_used(window_of):
    window = window_of(five_tires())
    everywhere = [action for menu in window.menus.all for action in every_action(menu) if holds_everywhere(action)]
    for place in window.places.values():
        here = [action for action in place.actions() if not holds_everywhere(action)]
        by_key: dict[str, set[str]] = {}
        for action in (*everywhere, *here):
            for key in action.shortcuts():
                by_key.setdefault(key.toString(), set()).add(action.text())
        assert {key: texts for key, texts in by_key.items() if len(texts) > 1} == {}
    for name, standard in (
        ("save", QKeySequence.StandardKey.Save), ("undo", QKeySequence.StandardKey.Undo),
        ("open", QKeySequence.StandardKey.Open), ("find", QKeySequence.StandardKey.Find),
    ):  # fmt: skip
        assert window.actions_by_name[name].shortcuts() == QKeySequence.keyBindings(standard)


def test_f1_lists_every_key_from_the_menus_themselves(window_of):
    window = window_of(five_tires())
    press(Qt.Key.Key_F1)
    listed = window.findChild(KeysList)
    assert listed is not None
    texts = {label.text() for label in listed.findChildren(QLabel)}
    rows = key_list(window.menus.all)
    assert len(rows) > 15
    assert {text for row in rows for text in row} <= texts
    assert ("Tires", "Measure all tires", "Ctrl+M") in rows
    listed.close()


def test_undo_names_the_step_and_says_why_when_there_is_none(window_of):
    window = window_of(five_tires())
    undo = window.actions_by_name["undo"]
    assert (undo.isEnabled(), undo.statusTip()) == (False, "There is nothing to undo")
    window.document.edit("Swap this & that", replace(window.document.episode, title="x"))
    assert (undo.isEnabled(), undo.text()) == (True, "&Undo: Swap this && that")


def test_units_and_region_are_steps_of_undo_and_change_the_foot(window_of):
    window = window_of(five_tires())
    window.actions_by_name["metric_units"].trigger()
    assert window.document.episode.units == "metric"
    assert window.document.undo_stack.undoText() == "Show metric units first"
    window.menus.fill_regions()
    germany = next(action for action in window.menus.regions.actions() if action.data() == "de")
    germany.trigger()
    assert window.document.episode.region == "de"
    assert window.foot.region.text() == "limits: Germany"
    assert Preferences().settings.region == "de"
    window.commands.undo()
    window.commands.undo()
    assert window.document.episode == five_tires()
    assert window.actions_by_name["us_units"].isChecked()


def test_light_and_dark_take_effect_at_once_and_are_kept(window_of):
    window = window_of(five_tires())
    window.actions_by_name["dark"].trigger()
    ground = window.appearance.color("ground")
    assert ground.lightness() < 60
    assert window.palette().window().color() == ground
    assert Preferences().settings.scheme == "dark"
    window.actions_by_name["light"].trigger()
    assert window.palette().window().color().lightness() > 200


def test_text_grows_and_shrinks_by_key_between_its_bounds(window_of):
    window = window_of(five_tires())
    sizes = []
    for _ in range(5):
        window.commands.larger()
        sizes.append(QApplication.font().pixelSize())
    assert sizes == [16, 20, 26, 26, 26]
    for _ in range(5):
        window.commands.smaller()
    assert QApplication.font().pixelSize() == 13


def test_random_edits_and_undos_over_the_whole_window_restore_the_start(window_of):
    """Seeded, so that a failure can be repeated."""
    chance = random.Random(20250601)
    window = window_of(with_reading(five_tires(), 0, reading((8.0, 7.0), (6.0, 5.0))))
    document, place = window.document, window.places["car"]
    start, seen = document.episode, [document.episode]

    def retitle() -> None:
        document.edit("Change title", replace(document.episode, title=f"Title {chance.random():.6f}"))

    def depth() -> None:
        path = f"specimens[0].readings[0].depths[{chance.randrange(2)}][{chance.randrange(2)}]"
        if document.episode.specimens and document.episode.specimens[0].readings:
            document.edit("Change depth", put(document.episode, path, chance.randrange(1, 90) / 10))

    def move() -> None:
        if document.episode.specimens:
            place.show_tire(chance.randrange(len(document.episode.specimens)))
            place.move_tire(chance.choice(["front_left", "spare", "bench", "rear_right"]))

    def remove() -> None:
        if document.episode.specimens:
            place.show_tire(chance.randrange(len(document.episode.specimens)))
            place.remove_tire()

    for _ in range(60):
        chance.choice([retitle, depth, move, remove, place.add_tire, window.commands.undo, window.commands.redo])()
        if document.episode != seen[-1]:
            seen.append(document.episode)
    while document.undo_stack.canUndo():
        window.commands.undo()
    assert document.episode == start
    assert len(seen) > 20


def test_find_goes_through_the_places_and_esc_goes_back(window_of):
    window = window_of(five_tires())
    window.show_place("findings")
    press(Qt.Key.Key_F, Qt.KeyboardModifier.ControlModifier)
    assert focused() is window.find_bar.field
    type_keys("test wagon")
    press(Qt.Key.Key_Return)
    assert window.current.key == "car"
    window.find_bar.field.setFocus()
    window.find_bar.field.selectAll()
    type_keys("zebra")
    press(Qt.Key.Key_Return)
    assert window.find_bar.result.text() == "not found in this episode"
    window.find_bar.field.setFocus()
    press(Qt.Key.Key_Escape)
    assert (window.current.key, window.find_bar.isVisible()) == ("findings", False)


@pytest.mark.parametrize(("answer", "closed"), [("cancel", False), ("discard", True)])
def test_closing_with_unsaved_work_asks(window_of, answers, answer, closed):
    window = window_of(five_tires())
    window.document.edit("Change title", replace(window.document.episode, title="x"))
    answers.queue = [answer]
    assert window.close() is closed
    assert answers.asked[-1][0] == "Unsaved changes"


@pytest.mark.parametrize(("answer", "closed"), [("stay", False), ("stop", True)])
def test_closing_while_busy_asks_once_and_joins_the_work(window_of, answers, qtbot, answer, closed):
    window = window_of(five_tires())

    def endless():
        import time

        while True:
            time.sleep(0.01)
            yield Progress(1, 3, "size_code")

    window.jobs.run("Export", endless)
    qtbot.waitUntil(lambda: window.foot.job.text() == "Export: 1 of 3, size_code")
    assert window.foot.stop.isVisible()
    answers.queue = [answer]
    assert window.close() is closed
    assert [title for title, _ in answers.asked] == ["Work in progress"]
    assert window.jobs.busy is not closed
    if not closed:
        window.foot.stop.click()
        qtbot.waitUntil(lambda: not window.jobs.busy, timeout=500)


def test_the_rest_of_long_work_is_told():
    assert job_words("Export", Progress(1, 4, "a"), 5.0) == "Export: 1 of 4, a"
    assert job_words("Export", Progress(1, 4), 30.0) == "Export: 1 of 4, about 90 s left"
    assert job_words("Read", 0.5, 20.0) == "Read, about 20 s left"
    assert job_words("Read", None, 20.0) == "Read"


def test_a_window_comes_back_where_it_was_and_never_beyond_the_screens(window_of, answers):
    window = window_of(five_tires(), (960, 650))
    window.show_place("findings")
    window.close()
    again = window_of(five_tires())
    again.come_back()
    assert (again.width(), again.height()) == (960, 650)
    assert again.current.key == "findings"
    again.move(QPoint(30_000, 30_000))
    again.close()
    lost = window_of(five_tires())
    lost.come_back()
    assert QApplication.primaryScreen().availableGeometry().intersects(lost.frameGeometry())


def test_a_target_in_a_place_is_gone_to(window_of):
    window = window_of(with_reading(five_tires(), 0, reading((2.0,))))
    window.places["car"].sheet.why.click()
    assert window.current.key == "findings"


@pytest.mark.parametrize(
    ("path", "key"),
    [("specimens[0].marking", "car"), ("car.name", "car"), ("title", "car"), ("pictures[0].title", "pictures"),
     ("look", "pictures"), ("units", ""), ("region", ""), ("", "")],
)  # fmt: skip
def test_an_undone_change_is_shown_where_it_belongs(path, key):
    assert place_of(path, five_tires())[0] == key


def drop(window, *paths: Path) -> None:
    data = QMimeData()
    data.setUrls([QUrl.fromLocalFile(str(path)) for path in paths])
    event = QDropEvent(
        QPointF(50, 50), Qt.DropAction.MoveAction | Qt.DropAction.CopyAction, data, Qt.MouseButton.LeftButton,
        Qt.KeyboardModifier.NoModifier,
    )  # fmt: skip
    window.dropEvent(event)
    assert event.dropAction() == Qt.DropAction.CopyAction


def test_what_is_dropped_lands_where_it_makes_sense_and_is_never_moved(window_of, tmp_path):
    window = window_of(five_tires())
    path = tmp_path / "episode" / "other.json"
    path.parent.mkdir()
    save(path, replace(five_tires(), title="Other"))
    drop(window, path.parent)
    assert window.document.episode.title == "Other"
    photo, text = tmp_path / "episode" / "a.jpg", tmp_path / "notes.txt"
    photo.write_bytes(b"x")
    text.write_text("x")
    drop(window, photo)
    assert window.document.episode.specimens[0].photos == ("a.jpg",)
    drop(window, text)
    why = "notes.txt is no episode (.json), photo (.jpg, .png, .webp) or table of comments (.csv)"
    assert window.foot.message.whole == why
    assert path.exists() and photo.exists() and text.exists()
    assert dropped([]).why.startswith("This is no episode")


def test_recent_episodes_are_listed_and_those_gone_say_so(window_of, tmp_path):
    window = window_of(five_tires())
    for name in ("one.json", "two.json"):
        save(tmp_path / name, five_tires())
        window.keeper.open(tmp_path / name)
    (tmp_path / "one.json").unlink()
    window.menus.fill_recent()
    texts = [action.text() for action in window.menus.recent.actions() if action.text()]
    assert texts == ["two.json", "one.json (no longer there: take it off the list)", "&Forget these", "&Keep this list"]
    window.menus.recent.actions()[-1].trigger()
    assert not Preferences().settings.keep_recent
    window.menus.fill_recent()
    assert [action.text() for action in window.menus.recent.actions()] == ["None yet", "&Keep this list"]


def test_about_names_version_parts_and_fonts(answers, window_of):
    window = window_of(five_tires())
    window.actions_by_name["about"].trigger()
    assert answers.asked[-1] == ("About", about_text())
    assert "It informs; it does not certify." in about_text()
    for part in ("PySide6-Essentials", "matplotlib", "Inter: SIL Open Font License 1.1", "Qt 6."):
        assert part in about_detail()
