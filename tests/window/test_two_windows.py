"""Several windows on one file: none destroys what another has not saved, and nothing older comes back as newer."""

import datetime as dt
import os
import threading
from pathlib import Path

import pytest
from msgspec.structs import replace
from PySide6.QtCore import QEvent, Qt, QTimer
from PySide6.QtWidgets import QApplication, QMessageBox

from studio.model.episode import Episode
from studio.storage.autosave import kept_copies, recoverable, recoverable_untitled, rescue_paths, write_rescue
from studio.storage.episode_file import decode, load, save
from studio.storage.lock import EpisodeLock, lock_path
from studio.storage.previous import previous_path
from studio.window.dialogs import WindowDialogs
from studio.window.document import Document
from studio.window.main_window import MainWindow
from studio.window.preferences import Preferences
from tests.window.helpers import DAY, five_tires

EMPTY = Episode(title="Untitled", on=DAY)


@pytest.fixture
def saved(tmp_path) -> Path:
    path = tmp_path / "spring.json"
    save(path, five_tires())
    return path


@pytest.fixture
def held(saved):
    """The file with a living window's lock on it and its unsaved work kept."""
    with EpisodeLock.take(saved):
        write_rescue(saved, titled("Theirs, unsaved"))
        yield saved


@pytest.fixture
def window(qtbot, qapp, appearance, answers):
    """The real window; its other places and the drawing, which nobody looks at here, are left unmade."""
    made = MainWindow(Document(EMPTY), appearance, Preferences(), answers)
    made.show()
    yield made
    made.autosave.stop()
    assert made.jobs.close()
    made.keeper.close()
    made.hide()
    made.deleteLater()
    qapp.sendPostedEvents(None, QEvent.Type.DeferredDelete)


def titled(title: str) -> Episode:
    return replace(five_tires(), title=title)


def rename(document: Document, title: str) -> None:
    document.edit("Change title", replace(document.episode, title=title))


def unsaved(path: Path) -> str | None:
    found = recoverable(path)
    return found.episode.title if found else None


def test_a_window_that_only_reads_and_closes_leaves_the_others_copy(window, answers, held):
    answers.queue = ["read"]
    assert window.keeper.open(held)
    assert window.close()
    assert unsaved(held) == "Theirs, unsaved"


def test_what_is_changed_while_reading_is_kept_as_work_of_its_own(window, answers, held, qtbot):
    answers.queue = ["read"]
    window.keeper.open(held)
    rename(window.document, "Mine, while reading")
    window.autosave.keep()
    qtbot.waitUntil(lambda: rescue_paths(None)[1].exists() and not window.autosave.is_writing)
    assert decode(rescue_paths(None)[1].read_bytes()).title == "Mine, while reading"
    assert unsaved(held) == "Theirs, unsaved"
    answers.queue = ["discard"]
    assert window.close()
    assert unsaved(held) == "Theirs, unsaved"
    assert not rescue_paths(None)[1].exists()


def test_saving_what_was_read_under_another_name_leaves_the_others_copy(window, answers, held):
    answers.queue = ["read"]
    window.keeper.open(held)
    rename(window.document, "Mine")
    answers.queue = [held.with_name("mine.json")]
    assert window.keeper.save()
    assert unsaved(held) == "Theirs, unsaved"
    assert decode(held.with_name("mine.json").read_bytes()).title == "Mine"


def test_work_without_a_name_is_locked_while_its_window_lives(window, qtbot):
    rename(window.document, "No name yet")
    window.autosave.keep()
    mine = rescue_paths(None)[1]
    qtbot.waitUntil(lambda: mine.exists() and not window.autosave.is_writing)
    assert lock_path(mine).exists()
    window.autosave.stop()
    assert not lock_path(mine).exists()


def test_a_living_windows_unnamed_work_is_not_offered(window, answers, home):
    folder = home / "data" / "rescue"
    folder.mkdir(parents=True)
    theirs = folder / "untitled-4711-aa.rescue.json"
    save(theirs, titled("Theirs"))
    with EpisodeLock.take(theirs):
        window.offer_unsaved()
        assert answers.asked == []
        assert theirs.exists()
    answers.queue = ["later"]
    window.offer_unsaved()
    assert answers.asked[-1][0] == "Unsaved work was found"
    assert [rescue.path for rescue in recoverable_untitled()] == [theirs]


def test_a_copy_is_written_while_long_work_fills_the_pool(window, saved, qtbot):
    window.keeper.open(saved)
    go_on = threading.Event()

    def long_job():
        while not go_on.wait(0.02):
            yield 0.0

    try:
        for _ in range(3):
            window.jobs.run("Long work", long_job)
        rename(window.document, "Unsaved")
        window.autosave.keep()
        qtbot.waitUntil(lambda: unsaved(saved) == "Unsaved", timeout=5000)
        assert window.jobs.busy
    finally:
        go_on.set()
        qtbot.waitUntil(lambda: not window.jobs.busy)


def test_after_a_crash_right_after_a_save_the_older_state_is_not_offered(window, answers, saved):
    older = write_rescue(saved, titled("Older"))
    os.utime(older, ns=(1, saved.stat().st_mtime_ns - 1))
    assert window.keeper.open(saved)
    assert answers.asked == []
    assert window.document.episode.title == "Spring check"
    (aside,) = [kept for kept in kept_copies(saved) if kept.kind == "put_aside"]
    assert load(aside.path, lambda _episode: ()).title == "Older"  # not offered, and not thrown away


def test_esc_decides_later_and_the_work_is_offered_again(window, answers, saved, qtbot):
    write_rescue(saved, titled("Unsaved"))
    answers.queue = ["later"]
    window.keeper.open(saved)
    assert window.document.episode.title == "Spring check"
    rename(window.document, "Other work")  # its copy must not take the place of the one that waits
    window.autosave.keep()
    qtbot.waitUntil(lambda: rescue_paths(saved)[0].exists() and not window.autosave.is_writing)
    assert window.keeper.save()
    answers.queue = ["restore"]
    window.keeper.open(saved)
    assert (window.document.episode.title, window.document.is_clean) == ("Unsaved", False)
    assert window.keeper.save()
    assert recoverable(saved) is None
    assert [kept.kind for kept in kept_copies(saved)] == ["previous"]


def answered_by_keys(qtbot, *keys: Qt.Key) -> list[str]:
    """Answer the next question box by keys; the texts of its buttons."""
    texts: list[str] = []

    def answer() -> None:
        box = QApplication.activeModalWidget()
        assert isinstance(box, QMessageBox)
        texts.extend(button.text() for button in box.buttons())
        for key in keys:
            qtbot.keyClick(box, key)

    QTimer.singleShot(50, answer)
    return texts


@pytest.fixture
def asking(window):
    """The same window with the real question boxes."""
    dialogs = WindowDialogs(window)
    window.dialogs = window.keeper._dialogs = window.keeper._rescues._dialogs = dialogs
    return window


def test_esc_in_the_real_box_refuses_nothing(asking, qtbot, saved):
    window = asking
    write_rescue(saved, titled("Unsaved"))
    answered_by_keys(qtbot, Qt.Key.Key_Escape)
    assert window.keeper.open(saved)
    assert window.document.episode.title == "Spring check"
    assert unsaved(saved) == "Unsaved"


@pytest.mark.parametrize("key", [Qt.Key.Key_Return, Qt.Key.Key_Escape])
def test_neither_enter_nor_esc_overwrites_what_another_program_wrote(asking, qtbot, saved, key):
    window = asking
    window.keeper.open(saved)
    rename(window.document, "Mine")
    save(saved, titled("Theirs"))
    texts = answered_by_keys(qtbot, key)
    window.keeper.look_outside()
    assert "Overwrite with mine" in [text.replace("&", "") for text in texts]
    assert decode(saved.read_bytes()).title == "Theirs"
    assert window.document.episode.title == "Mine"
    window.document.undo_stack.setClean()  # nothing is to be asked when the test closes it


def test_what_was_overwritten_can_be_brought_back(window, answers, saved):
    window.keeper.open(saved)
    rename(window.document, "Mine")
    save(saved, titled("Theirs"))
    answers.queue = ["overwrite"]
    window.keeper.look_outside()
    assert decode(saved.read_bytes()).title == "Mine"
    window.menus.fill_kept()
    (entry,) = window.menus.kept.actions()
    assert entry.text().startswith("spring.json before its last save (")
    entry.trigger()
    assert window.document.episode.title == "Theirs"
    window.document.undo_stack.undo()
    assert window.document.episode.title == "Mine"


def test_work_put_aside_comes_back_by_the_file_menu(window, answers, saved):
    write_rescue(saved, titled("Unsaved"))
    answers.queue = ["saved"]
    window.keeper.open(saved)
    assert recoverable(saved) is None
    window.menus.fill_kept()
    entry = next(action for action in window.menus.kept.actions() if "put aside" in action.text())
    entry.trigger()
    assert (window.document.episode.title, window.document.is_clean) == ("Unsaved", False)


def test_unnamed_work_put_aside_comes_back_too(window, answers, home):
    folder = home / "data" / "rescue"
    folder.mkdir(parents=True)
    save(folder / "untitled-4711-aa.rescue.json", titled("No name"))
    answers.queue = ["refuse"]
    window.offer_unsaved()
    window.menus.fill_kept()
    (entry,) = window.menus.kept.actions()
    assert entry.text().startswith("work without a name, put aside (")
    entry.trigger()
    assert (window.document.episode.title, window.document.path) == ("No name", None)


def test_nothing_kept_is_said(window):
    window.menus.fill_kept()
    (entry,) = window.menus.kept.actions()
    assert (entry.text(), entry.isEnabled()) == ("Nothing is kept", False)


def test_a_broken_file_opens_by_the_version_before_it(window, answers, saved):
    save(saved, titled("Second"))
    saved.write_bytes(saved.read_bytes()[:200])
    broken = saved.read_bytes()
    answers.queue = ["previous"]
    assert window.keeper.open(saved)
    assert "breaks off" in answers.asked[-1][1]
    assert (window.document.episode.title, window.document.is_clean) == ("Spring check", False)
    assert window.keeper.save()
    assert decode(saved.read_bytes()).title == "Spring check"
    assert saved.with_name("spring.json.bak").read_bytes() == broken  # for who wants to mend it by hand


def test_a_broken_file_opens_by_newer_unsaved_work(window, answers, saved):
    save(saved, titled("Second"))
    write_rescue(saved, titled("Unsaved"))
    saved.write_bytes(b"broken")
    answers.queue = ["unsaved"]
    assert window.keeper.open(saved)
    assert window.document.episode.title == "Unsaved"


def test_a_broken_file_with_nothing_kept_is_told(window, answers, saved):
    saved.write_bytes(b"broken")
    assert not window.keeper.open(saved)
    assert answers.asked[-1][0] == "This file cannot be opened"
    assert not previous_path(saved).exists()


@pytest.mark.skipif(not hasattr(os, "symlink"), reason="this system has no links")
def test_a_link_to_itself_is_one_line(window, answers, tmp_path):
    loop = tmp_path / "loop.json"
    loop.symlink_to(loop)
    assert not window.keeper.open(loop)
    title, text = answers.asked[-1]
    assert title == "This file cannot be opened"
    assert text.startswith("loop.json cannot be read: ") and "\n" not in text


def test_work_that_was_undone_leaves_no_copy_behind(window, saved, tmp_path, qtbot):
    window.keeper.open(saved)
    rename(window.document, "Tried")
    window.autosave.keep()
    qtbot.waitUntil(lambda: unsaved(saved) == "Tried")
    window.document.undo_stack.undo()
    window.keeper.new(dt.date(2026, 11, 14))
    assert recoverable(saved) is None


def test_saving_over_an_episode_puts_its_unsaved_work_aside(window, answers, saved):
    write_rescue(saved, titled("Unsaved"))
    rename(window.document, "Mine")
    answers.queue = [saved]
    assert window.keeper.save_as()
    assert decode(saved.read_bytes()).title == "Mine"
    assert {kept.kind for kept in kept_copies(saved)} == {"put_aside", "previous"}


def test_where_no_lock_can_lie_beside_a_file_its_windows_still_know_of_each_other(
    window, answers, saved, monkeypatch, home
):
    from studio.storage.autosave import hold_far
    from studio.storage.errors import StorageError

    real = EpisodeLock.take.__func__

    def only_at_home(cls, episode, *more):
        if home not in episode.parents:
            raise StorageError("no lock file can be written here")
        return real(cls, episode, *more)

    monkeypatch.setattr(EpisodeLock, "take", classmethod(only_at_home))
    with hold_far(saved):
        answers.queue = ["read"]
        assert window.keeper.open(saved)
        assert window.document.read_only
