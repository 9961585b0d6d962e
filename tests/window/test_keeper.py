"""The life of a file: save, lock, recovery, changes from outside. Nothing is lost silently (D1-D2, D5-D8, D10)."""

import os
import subprocess
import sys
import time
from pathlib import Path

import pytest
from msgspec.structs import replace

from studio import shipped
from studio.storage import recent
from studio.storage.autosave import recoverable, rescue_paths, write_rescue
from studio.storage.episode_file import decode, save
from studio.storage.lock import EpisodeLock, lock_path
from studio.window import keeper as keeper_module
from studio.window.autosave import MOST_SECONDS, Autosave
from studio.window.document import Document
from studio.window.keeper import Keeper
from studio.window.preferences import Preferences
from tests.window.helpers import DAY, five_tires


@pytest.fixture
def document(qapp):
    return Document(five_tires())


@pytest.fixture
def autosave(document):
    made = Autosave(document, 20)
    yield made
    made.stop()


@pytest.fixture
def keeper(document, answers, autosave):
    made = Keeper(document, answers, autosave, Preferences())
    yield made
    made.close()


@pytest.fixture
def saved(tmp_path) -> Path:
    path = tmp_path / "spring.json"
    save(path, five_tires())
    return path


def rename(document: Document, title: str) -> None:
    document.edit("Change title", replace(document.episode, title=title))


def on_disk(path: Path) -> str:
    return decode(path.read_bytes()).title


def test_what_is_saved_opens_equal_and_is_clean(keeper, document, answers, tmp_path):
    rename(document, "Summer check")
    answers.queue = [tmp_path / "summer"]
    assert keeper.save()
    assert (document.is_clean, document.path) == (True, tmp_path / "summer.json")
    assert decode((tmp_path / "summer.json").read_bytes()) == document.episode
    rename(document, "Autumn check")
    assert keeper.save()  # no question: it has a name now
    assert on_disk(tmp_path / "summer.json") == "Autumn check"


def test_a_save_that_fails_says_why_and_changes_nothing(keeper, document, answers, saved, monkeypatch):
    keeper.open(saved)
    rename(document, "Summer check")

    def full(_source: object, _target: object) -> None:
        raise OSError(28, "No space left on device")

    monkeypatch.setattr(os, "replace", full)
    assert not keeper.save()
    assert answers.asked[-1][0] == "The episode was not saved"
    assert "the disk is full" in answers.asked[-1][1]
    assert (document.is_clean, on_disk(saved)) == (False, "Spring check")


@pytest.mark.parametrize(
    ("content", "said"),
    [
        (b"", "the file is empty"),
        (b"not json", "this is not JSON"),
        (b'{"format": 99}', "made by a newer program"),
        (b'{"format": 1, "title": "x", "on": "2025-06-01", "wings": 2}', "wings"),
    ],
)
def test_a_file_that_is_no_episode_is_refused_in_one_line_and_the_open_one_stays(
    keeper, document, answers, tmp_path, content, said
):
    path = tmp_path / "bad.json"
    path.write_bytes(content)
    before = document.episode
    assert not keeper.open(path)
    title, text = answers.asked[-1]
    assert title == "This file cannot be opened"
    assert said in text
    assert "\n" not in text
    assert document.episode is before
    assert not lock_path(path).exists()


def test_a_second_window_opens_for_reading_and_names_who_holds_it(keeper, document, answers, saved):
    code = (
        "import sys, time; from pathlib import Path; from studio.storage.lock import EpisodeLock;"
        "lock = EpisodeLock.take(Path(sys.argv[1])); print('held', flush=True); time.sleep(60)"
    )
    other = subprocess.Popen([sys.executable, "-c", code, str(saved)], stdout=subprocess.PIPE)
    try:
        assert other.stdout is not None and other.stdout.readline() == b"held\n"
        answers.queue = ["read"]
        assert keeper.open(saved)
        assert f"process {other.pid}" in answers.asked[-1][1]
        assert document.read_only
        rename(document, "Mine")
        answers.queue = [saved]  # saving asks for a name, and the held one is refused
        assert not keeper.save()
        assert answers.asked[-1][0] == "This name cannot be used"
        answers.queue = [saved.with_name("mine.json")]
        assert keeper.save()
        assert (document.read_only, on_disk(saved)) == (False, "Spring check")
    finally:
        other.kill()
        other.communicate()
    # a lock that a crash has left is taken over
    keeper.open(saved)
    assert (document.path, document.read_only) == (saved, False)


def test_one_may_also_decide_not_to_read(keeper, document, answers, saved):
    with EpisodeLock.take(saved):
        answers.queue = ["cancel"]
        assert not keeper.open(saved)
    assert document.path is None


def test_unsaved_work_is_kept_within_thirty_seconds_and_never_in_the_users_file(
    keeper, document, autosave, saved, qtbot
):
    keeper.open(saved)
    assert autosave.interval_ms <= MOST_SECONDS * 1000 == 30_000
    autosave.keep()
    assert recoverable(saved) is None
    rename(document, "Unsaved")
    autosave.keep()
    qtbot.waitUntil(lambda: recoverable(saved) is not None)
    assert recoverable(saved).episode.title == "Unsaved"
    assert on_disk(saved) == "Spring check"


def test_a_save_takes_the_rescue_copy_away_and_none_comes_back(keeper, document, autosave, saved, qtbot):
    keeper.open(saved)
    rename(document, "Unsaved")
    autosave.keep()
    keeper.save()  # while the copy may be on its way
    qtbot.waitUntil(lambda: not autosave.is_writing)
    assert recoverable(saved) is None
    assert not rescue_paths(saved)[0].exists()


@pytest.mark.parametrize("answer", ["restore", "saved"])
def test_after_a_crash_the_work_is_offered(keeper, document, answers, saved, answer):
    write_rescue(saved, replace(five_tires(), title="Unsaved"))
    answers.queue = [answer]
    assert keeper.open(saved)
    assert answers.asked[-1][0] == "Unsaved work was found"
    restored = answer == "restore"
    assert document.episode.title == ("Unsaved" if restored else "Spring check")
    assert document.is_clean is not restored
    assert on_disk(saved) == "Spring check"
    if not restored:
        kept = [path.name for path in saved.parent.iterdir() if ".refused-" in path.name]
        assert len(kept) == 1  # put aside, not thrown away
        assert recoverable(saved) is None


def test_work_that_never_had_a_name_is_offered_too(keeper, document, answers, home):
    folder = home / "data" / "rescue"
    folder.mkdir(parents=True)
    left = folder / "untitled-4711.rescue.json"
    save(left, replace(five_tires(), title="Never saved"))
    answers.queue = ["restore"]
    keeper.recover_untitled()
    assert (document.episode.title, document.is_clean) == ("Never saved", False)
    assert not left.exists()
    assert rescue_paths(None)[1].exists()  # it is kept under this process now


@pytest.mark.parametrize(
    ("answer", "here", "there"),
    [("reload", "Theirs", "Theirs"), ("overwrite", "Mine", "Mine"), ("later", "Mine", "Theirs")],
)
def test_a_change_from_outside_is_noticed_and_asked_about(keeper, document, answers, saved, answer, here, there):
    keeper.open(saved)
    keeper.look_outside()
    assert answers.asked == []
    rename(document, "Mine")
    save(saved, replace(five_tires(), title="Theirs"))
    answers.queue = [answer]
    keeper.look_outside()
    assert answers.asked[-1][0] == "The file was changed outside"
    assert (document.episode.title, on_disk(saved)) == (here, there)
    assert document.is_clean is (answer != "later")


def test_a_save_over_a_change_from_outside_asks_first(keeper, document, answers, saved):
    keeper.open(saved)
    rename(document, "Mine")
    save(saved, replace(five_tires(), title="Theirs"))
    answers.queue = ["save_as", saved.with_name("mine.json")]
    assert keeper.save()
    assert (on_disk(saved), on_disk(saved.with_name("mine.json"))) == ("Theirs", "Mine")


def test_a_file_that_is_gone_makes_the_episode_unsaved(keeper, document, saved):
    keeper.open(saved)
    saved.unlink()
    keeper.look_outside()
    assert not document.is_clean
    assert keeper.save()
    assert on_disk(saved) == "Spring check"


def test_a_file_only_touched_is_not_asked_about(keeper, answers, saved):
    keeper.open(saved)
    later = time.time() + 10
    os.utime(saved, (later, later))
    keeper.look_outside()
    assert answers.asked == []


@pytest.mark.parametrize(("answer", "left", "title"), [("cancel", False, "Mine"), ("discard", True, "Untitled")])
def test_leaving_unsaved_work_asks(keeper, document, answers, answer, left, title):
    rename(document, "Mine")
    answers.queue = [answer]
    keeper.new(DAY)
    assert (document.episode.title, document.undo_stack.count() == 0) == (title, left)


def test_a_new_episode_has_region_and_units_of_the_settings(keeper, document):
    keeper._preferences.change(region="de", units="metric")
    keeper.new(DAY)
    assert (document.episode.region, document.episode.units, document.is_clean) == ("de", "metric", True)


def test_opened_and_saved_files_are_remembered_unless_that_is_turned_off(keeper, saved):
    keeper.open(saved)
    assert [each.path for each in recent.recent_files()] == [saved]
    recent.forget_all()
    keeper._preferences.change(keep_recent=False)
    keeper.save()
    assert recent.recent_files() == ()


def test_a_shipped_demo_is_opened_as_a_copy_and_nothing_is_written_beside_it(keeper, document):
    demo = min(shipped.demos().glob("*.json"))
    before = sorted(shipped.demos().iterdir())
    assert keeper.open(demo)
    assert (document.path, document.is_clean) == (None, True)
    assert document.episode == decode(demo.read_bytes())
    assert sorted(shipped.demos().iterdir()) == before


def test_closing_lets_the_lock_go(keeper, saved):
    keeper.open(saved)
    assert lock_path(saved).exists()
    keeper.close()
    assert not lock_path(saved).exists()


def test_another_episode_lets_the_first_one_go(keeper, saved, tmp_path):
    other = tmp_path / "other.json"
    save(other, five_tires())
    keeper.open(saved)
    keeper.open(other)
    assert not lock_path(saved).exists()
    assert lock_path(other).exists()


@pytest.mark.parametrize(
    ("title", "name"), [("Spring check?", "spring_check"), ("../../etc/passwd", "etcpasswd"), ("<>:|", "episode")]
)
def test_a_title_makes_a_harmless_name(title, name):
    assert keeper_module._file_name(title) == name


def test_a_job_that_fails_is_tried_again(document, qtbot, caplog):
    tries = []

    def write(_path, episode):
        tries.append(episode.title)
        raise OSError("no room")

    autosave = Autosave(document, 600, write=write)
    rename(document, "Mine")
    autosave.keep()
    qtbot.waitUntil(lambda: autosave.problem == "no room")
    autosave.keep()
    qtbot.waitUntil(lambda: len(tries) == 2)
    autosave.stop()
