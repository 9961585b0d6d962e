"""The prompting view on a real widget: keys and clicker, mirror, black, pictures, the take it leaves."""

import pytest
from PySide6.QtCore import Qt
from PySide6.QtGui import QColor, QGuiApplication, QImage
from PySide6.QtTest import QTest
from PySide6.QtWidgets import QApplication

from studio.graphics.look import shipped_looks
from studio.model.rundown import Rundown
from studio.window.place import Workshop
from studio.window.prompt_page import PromptPage, PromptState
from studio.window.prompt_panel import PromptChoice, PromptPanel
from studio.window.prompt_run import PromptRun
from studio.window.prompt_view import PromptView
from tests.window.rundown_samples import demo, long_script, three
from tests.window.test_prompt_run import TWO

CHOICE = PromptChoice(0, False)


@pytest.fixture
def view(qtbot):
    made = PromptView(PromptRun(TWO), shipped_looks()["night_bay"], PromptState(150.0, 14.0, {}, {}))
    qtbot.addWidget(made)
    made.show_on(QGuiApplication.primaryScreen(), mirrored=False)
    QApplication.processEvents()
    return made


@pytest.fixture
def place(window_of):
    window = window_of(three())
    window.show_place("rundown")
    return window.places["rundown"]


def test_it_fills_the_screen_that_was_chosen(view):
    assert view.isFullScreen() and view.screen() is QGuiApplication.primaryScreen()
    assert view.size() == QGuiApplication.primaryScreen().size()


@pytest.mark.parametrize("key", [Qt.Key.Key_PageDown, Qt.Key.Key_Right, Qt.Key.Key_Down])
def test_a_clicker_goes_on_and_back(view, key):
    QTest.keyClick(view, key)
    assert view.run.at == 1 and "a" in view.accessibleDescription()
    QTest.keyClick(view, Qt.Key.Key_PageUp)
    assert view.run.at == 0
    QTest.keyClick(view, key)
    QTest.keyClick(view, key)
    QTest.keyClick(view, Qt.Key.Key_Home)
    assert view.run.at == 0


def test_space_runs_and_holds_and_it_moves_by_itself(view, qtbot):
    QTest.keyClick(view, Qt.Key.Key_Space)
    qtbot.waitUntil(lambda: view.run.share > 0, timeout=5000)
    QTest.keyClick(view, Qt.Key.Key_F5)
    held = view.run.clock_s
    qtbot.wait(60)
    assert view.run.clock_s == held and not view.run.running


def test_speed_size_hand_and_mirror_have_keys(view):
    for key, _times in ((Qt.Key.Key_Plus, 2), (Qt.Key.Key_Minus, 1)):
        for _ in range(_times):
            QTest.keyClick(view, key)
    assert view.run.speed == 1.1
    QTest.keyClick(view, Qt.Key.Key_BracketRight)
    assert view.page.letters == 28
    QTest.keyClick(view, Qt.Key.Key_H)
    QTest.keyClick(view, Qt.Key.Key_M)
    assert view.run.by_hand and view.mirrored


def test_b_blackens_and_shows_again(view):
    QTest.keyClick(view, Qt.Key.Key_B)
    black = view.grab().toImage()
    assert all(black.pixelColor(x, 100) == QColor("black") for x in range(0, black.width(), 20))
    QTest.keyClick(view, Qt.Key.Key_B)
    assert view.grab().toImage() != black


def test_mirrored_is_the_same_picture_seen_in_a_glass(view):
    straight = view.grab().toImage().convertToFormat(QImage.Format.Format_RGB32)
    QTest.keyClick(view, Qt.Key.Key_M)
    mirrored = view.grab().toImage().convertToFormat(QImage.Format.Format_RGB32)
    back = mirrored.flipped(Qt.Orientation.Horizontal)
    assert differing(straight, mirrored) > 5 * differing(straight, back)


def differing(one, other):
    """The share of pixels (of a grid) whose lightness is clearly another; edges of letters may differ a little."""
    spots = [(x, y) for x in range(0, one.width(), 3) for y in range(0, one.height(), 3)]
    other_at = (abs(one.pixelColor(x, y).lightness() - other.pixelColor(x, y).lightness()) > 90 for x, y in spots)
    return sum(other_at) / len(spots)


def test_the_line_holds_as_many_letters_as_wanted():
    page = PromptPage(shipped_looks()["night_bay"])
    assert page.font_px(1260.0) == round(1260 / (30 * 0.56))
    page.letters = 60
    assert page.font_px(1260.0) == round(1260 / (60 * 0.56))


def test_the_pictures_come_as_they_are_drawn(place, qtbot, answers):
    place.list.choose(2)
    assert place.desk.open(CHOICE, 2)
    view = place.desk.view
    qtbot.waitUntil(lambda: "depth_by_wheel" in view.state.images, timeout=30_000)
    assert view.run.part.segment == "closing"
    QTest.keyClick(view, Qt.Key.Key_Escape)
    assert place.desk.view is None and answers.asked == [], "nothing was said, so nothing is asked"


@pytest.mark.parametrize(("answer", "recorded"), [("rehearsal", False), ("recorded", True)])
def test_a_rehearsal_is_kept_as_one_step(place, answers, answer, recorded):
    answers.queue = [answer]
    assert place.desk.open(CHOICE, 0)
    run = place.desk.view.run
    run.turn()
    run.tick(10_000.0)
    place.desk.view.close()
    takes = place.document.episode.rundown.takes
    assert [(take.recorded, [t.segment for t in take.times]) for take in takes] == [
        (recorded, ["opening", "wrong", "closing"])
    ]
    assert place.document.undo_stack.count() == 1
    place.document.undo_stack.undo()
    assert place.document.episode.rundown.takes == ()


def test_a_take_that_is_not_wanted_leaves_the_episode_as_it_was(place, answers):
    answers.queue = ["no"]
    place.desk.open(CHOICE, 0)
    place.desk.view.run.turn()
    place.desk.view.run.tick(10_000.0)
    place.desk.view.close()
    assert place.document.episode == three()


def test_nothing_to_say_opens_nothing(place):
    episode = demo()
    place.document.start(type(episode)(title="New", on=episode.on, rundown=Rundown()), None)
    assert not place.desk.open(CHOICE, 0)
    place.commands.open_prompt()
    assert place.desk.view is None


def test_the_key_opens_it_at_the_segment_at_hand(place):
    place.list.choose(1)
    place.list.setFocus()
    QTest.keyClick(place.list, Qt.Key.Key_P, Qt.KeyboardModifier.ControlModifier | Qt.KeyboardModifier.ShiftModifier)
    assert place.desk.view is not None and place.desk.view.run.part.segment == "wrong"
    place.desk.view.close()


def test_the_panel_lists_the_screens_that_are_there(qtbot):
    panel = PromptPanel()
    qtbot.addWidget(panel)
    assert panel.screens.count() == len(QGuiApplication.screens())
    assert panel.choice() == PromptChoice(len(QGuiApplication.screens()) - 1, False)
    panel.mirrored.click()
    assert panel.choice().mirrored


def test_a_long_script_is_painted_at_any_place(qtbot, workshop_of):
    workshop: Workshop = workshop_of(long_script(4_000, 4))
    document = workshop.document
    from studio.script.timing import time_script
    from studio.window.prompt_script import prompt_parts

    timing = time_script(document.episode.rundown, document.findings, "us")
    run = PromptRun(prompt_parts(document.episode, document.findings, timing))
    view = PromptView(run, shipped_looks()["night_bay"], PromptState(150.0, 100.0, {}, {}))
    qtbot.addWidget(view)
    view.resize(1280, 720)
    view.show()
    for _ in range(3):
        run.step(60)
        assert not view.grab().isNull()
