"""Settings and recent files: kept in the platform's folder, and a broken file costs no start."""

from pathlib import Path

import platformdirs
import pytest

from studio.storage import folders
from studio.storage.errors import StorageError
from studio.storage.recent import MOST, forget, forget_all, recent_files, remember
from studio.storage.settings import Settings, read_settings, settings_path, write_settings

CHOSEN = Settings(scheme="dark", text_percent=150, region="de", units="metric", window={"places": "AAAA"})


def test_what_was_chosen_comes_back(tmp_path: Path) -> None:
    path = tmp_path / "not there yet" / "settings.json"
    write_settings(CHOSEN, path)
    assert read_settings(path).settings == CHOSEN
    assert read_settings(path).note == ""


def test_a_note_repeats_no_long_value_of_a_broken_file(tmp_path: Path) -> None:
    path = tmp_path / "settings.json"
    path.write_text('{"scheme": "' + "pink" * 10_000 + '"}', encoding="utf-8")
    assert len(read_settings(path).note) < 300 and "pink" in read_settings(path).note


def test_without_a_file_they_are_the_usual_ones_without_a_note(tmp_path: Path) -> None:
    found = read_settings(tmp_path / "settings.json")
    assert (found.settings, found.note) == (Settings(), "")


@pytest.mark.parametrize(
    "content",
    [b"", b"\xff\xfe", b"[]", b'{"text_percent": 9000}', b'{"scheme": "pink"}', b"[" * 9999, b'{"region": "Mars"}'],
)
def test_a_broken_file_falls_back_with_a_note(tmp_path: Path, content: bytes) -> None:
    path = tmp_path / "settings.json"
    path.write_bytes(content)
    found = read_settings(path)
    assert found.settings == Settings()
    assert found.note.startswith("the settings could not be read and are the usual ones again (")
    assert found.note.isprintable()
    assert path.read_bytes() == content  # the presenter's file stays until something is chosen anew


def test_a_setting_of_a_newer_program_is_left_out(tmp_path: Path) -> None:
    path = tmp_path / "settings.json"
    path.write_bytes(b'{"scheme": "dark", "of_tomorrow": true}')
    assert read_settings(path).settings == Settings(scheme="dark")


def test_where_they_cannot_be_kept_it_says_so(tmp_path: Path) -> None:
    (tmp_path / "file").write_bytes(b"")
    with pytest.raises(StorageError, match=r"settings\.json was not saved"):
        write_settings(CHOSEN, tmp_path / "file" / "settings.json")


def test_the_folders_are_the_platforms_or_the_ones_asked_for(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.delenv(folders.OVERRIDE, raising=False)
    assert settings_path().parent == platformdirs.user_config_path(folders.NAME, appauthor=False)
    assert folders.data_folder() == platformdirs.user_data_path(folders.NAME, appauthor=False)
    monkeypatch.setenv(folders.OVERRIDE, str(tmp_path))
    assert settings_path() == tmp_path / "settings" / "settings.json"
    assert folders.data_folder() == tmp_path / "data"


def test_ten_recent_files_newest_first_each_once(tmp_path: Path) -> None:
    store = tmp_path / "recent.json"
    for number in range(MOST + 3):
        remember(tmp_path / f"{number}.json", store)
    remember(tmp_path / "8.json", store)
    names = [each.path.name for each in recent_files(store)]
    assert names == [f"{number}.json" for number in (8, 12, 11, 10, 9, 7, 6, 5, 4, 3)]


def test_a_missing_recent_file_is_marked_and_can_be_taken_off(tmp_path: Path) -> None:
    store, there = tmp_path / "recent.json", tmp_path / "there.json"
    there.write_text("{}")
    remember(there, store)
    remember(tmp_path / "gone.json", store)
    assert [(each.path.name, each.there) for each in recent_files(store)] == [
        ("gone.json", False),
        ("there.json", True),
    ]
    forget(tmp_path / "gone.json", store)
    assert [each.path for each in recent_files(store)] == [there]
    forget_all(store)
    assert recent_files(store) == ()


@pytest.mark.parametrize("content", [b"", b"{}", b"\xff", b"[1, 2]", b"[" * 9999])
def test_a_broken_list_is_an_empty_one(tmp_path: Path, content: bytes) -> None:
    store = tmp_path / "recent.json"
    store.write_bytes(content)
    assert recent_files(store) == ()
    remember(tmp_path / "a.json", store)
    assert len(recent_files(store)) == 1


def test_hostile_names_in_the_list_are_left_out(tmp_path: Path) -> None:
    store = tmp_path / "recent.json"
    store.write_bytes(b'["a\\u0000b", "", "' + str(tmp_path).encode() + b'/ok.json"]')
    assert [each.path.name for each in recent_files(store)] == ["ok.json"]


def test_a_list_that_cannot_be_written_hinders_nobody(tmp_path: Path) -> None:
    (tmp_path / "file").write_bytes(b"")
    remember(tmp_path / "a.json", tmp_path / "file" / "recent.json")
    assert recent_files(tmp_path / "file" / "recent.json") == ()
