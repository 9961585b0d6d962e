"""The version before the last save stays beside the file, whole, and nothing unreadable takes its place."""

import os
from pathlib import Path

import msgspec
import pytest

from studio.storage.autosave import kept_copies, previous_version
from studio.storage.episode_file import encode, save
from studio.storage.folders import OVERRIDE
from studio.storage.previous import previous_path
from tests.storage.episodes import SMALL


@pytest.fixture(autouse=True)
def home(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setenv(OVERRIDE, str(tmp_path / "home"))


def titled(title: str):
    return msgspec.structs.replace(SMALL, title=title)


@pytest.fixture
def path(tmp_path: Path) -> Path:
    file = tmp_path / "work" / "ep.json"
    file.parent.mkdir()
    save(file, titled("one"))
    return file


def names(path: Path) -> list[str]:
    return sorted(each.name for each in path.parent.iterdir())


def test_each_save_keeps_the_version_before_it(path: Path) -> None:
    assert names(path) == ["ep.json"]
    save(path, titled("two"))
    save(path, titled("three"))
    assert previous_path(path).read_bytes() == encode(titled("two"))
    assert names(path) == [".ep.json.bak", "ep.json"]
    assert [kept.kind for kept in kept_copies(path)] == ["previous"]


def test_it_is_another_file_and_no_second_name_of_the_same(path: Path) -> None:
    save(path, titled("two"))
    path.write_bytes(b"written in place by another program")
    found = previous_version(path)
    assert found is not None and found.episode.title == "one"


def test_where_no_link_can_be_made_it_is_copied(path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    def refuse(_source: object, _target: object) -> None:
        raise OSError("links are not supported here")

    monkeypatch.setattr(os, "link", refuse)
    save(path, titled("two"))
    assert previous_path(path).read_bytes() == encode(titled("one"))
    assert names(path) == [".ep.json.bak", "ep.json"]


@pytest.mark.parametrize("broken", [b"broken", encode(SMALL)[:300], encode(SMALL).replace(b'"title"', b'"tidle"')])
def test_a_broken_file_takes_not_its_place_and_is_kept_for_good(path: Path, broken: bytes) -> None:
    save(path, titled("two"))
    path.write_bytes(broken)
    save(path, titled("three"))
    assert previous_path(path).read_bytes() == encode(titled("one"))
    assert path.with_name("ep.json.bak").read_bytes() == broken


@pytest.mark.skipif(not hasattr(os, "symlink"), reason="this system has no links")
def test_of_a_link_it_lies_beside_the_target(path: Path, tmp_path: Path) -> None:
    link = tmp_path / "link.json"
    link.symlink_to(path)
    save(link, titled("two"))
    assert names(path) == [".ep.json.bak", "ep.json"]
    found = previous_version(link)
    assert found is not None and found.episode.title == "one"
