"""Every older format opens, keeps a copy on the first save, and a newer one is left alone."""

import datetime as dt
import json
from pathlib import Path
from typing import Any

import pytest
from hypothesis import given
from hypothesis import strategies as st

from studio.model.episode import FORMAT
from studio.model.quantity import Quantity
from studio.storage.episode_file import decode, encode, load, save
from studio.storage.errors import EpisodeFileError, StorageError
from studio.storage.migrations import STEPS, upgrade
from tests.storage.episodes import SMALL, nothing_wrong

DATA = Path(__file__).parent / "data"
DRAFT = (DATA / "format_0.json").read_bytes()


def test_every_older_format_has_a_step_and_a_file() -> None:
    assert sorted(STEPS) == list(range(FORMAT))
    assert sorted(path.name for path in DATA.glob("format_*.json")) == [f"format_{number}.json" for number in STEPS]


def test_the_first_draft_reads_as_what_it_said() -> None:
    episode = decode(DRAFT)
    assert (episode.format, episode.title, episode.region) == (FORMAT, "The first draft", "us")
    assert episode.car.placard.front.pressure == Quantity(33.0, "psi")
    assert episode.car.placard.rear.pressure == Quantity(32.0, "psi")
    first, spare = episode.specimens
    assert first.depth_new == Quantity(10.0, "32nds")
    reading = first.readings[0]
    assert (reading.on, reading.place, reading.unit) == (dt.date(2024, 3, 2), "front_left", "32nds")
    assert reading.depths == ((5.0,), (6.0,), (4.5,))
    assert reading.gauge.resolution == Quantity(1.0, "32nds")
    assert spare.readings == ()


def test_bare_picture_names_of_format_1_become_cues() -> None:
    before = json.loads((DATA / "format_1.json").read_bytes())
    episode = decode((DATA / "format_1.json").read_bytes())
    named = [tuple(segment["pictures"]) for segment in before["rundown"]["segments"]]
    assert named[1] == ("depth_compare", "cross_section")
    assert [tuple(cue.picture for cue in segment.pictures) for segment in episode.rundown.segments] == named
    assert {cue.with_point for segment in episode.rundown.segments for cue in segment.pictures} == {0}


def test_what_is_no_picture_name_in_format_1_is_refused_with_its_place() -> None:
    raw = json.loads((DATA / "format_1.json").read_bytes())
    raw["rundown"]["segments"][0]["pictures"] = [7]
    with pytest.raises(EpisodeFileError, match=r"rundown\.segments\[0\]\.pictures\[0\]"):
        decode(json.dumps(raw).encode())


def test_a_step_leaves_its_input_as_it_was() -> None:
    raw = json.loads(DRAFT)
    upgrade(raw, 0)
    assert raw == json.loads(DRAFT)


def test_what_is_wrong_in_an_older_file_is_named() -> None:
    raw = json.loads(DRAFT)
    raw["specimens"][0]["depths_32nds"] = [5, "six"]
    with pytest.raises(EpisodeFileError) as caught:
        decode(json.dumps(raw).encode())
    assert str(caught.value) == (
        'format 0: specimens[0].readings[0].depths[1][0]: expected a number, read "six"; for example 4.5'
    )


JSON_VALUES = st.recursive(
    st.none() | st.integers() | st.text(max_size=4),
    lambda inner: (
        st.lists(inner, max_size=3)
        | st.dictionaries(st.sampled_from(["car", "placard", "front", "pressure_psi", "depths_32nds"]), inner)
    ),
    max_leaves=6,
)


@given(st.dictionaries(st.sampled_from(["car", "specimens", "region", "gauge_32nds", "title", "on"]), JSON_VALUES))
def test_any_older_file_is_read_or_refused_in_one_line(raw: dict[str, Any]) -> None:
    try:
        decode(json.dumps({**raw, "format": 0}).encode())
    except EpisodeFileError as error:
        assert "\n" not in str(error)


def test_the_first_save_keeps_the_older_file_and_the_second_does_not(tmp_path: Path) -> None:
    path, backup = tmp_path / "old.json", tmp_path / "old.json.bak"
    path.write_bytes(DRAFT)
    episode = load(path, nothing_wrong)
    assert not backup.exists()
    save(path, episode)
    assert backup.read_bytes() == DRAFT
    assert load(path, nothing_wrong) == episode
    backup.unlink()
    save(path, episode)
    assert not backup.exists()


def test_a_backup_is_never_overwritten_by_another(tmp_path: Path) -> None:
    path = tmp_path / "old.json"
    (tmp_path / "old.json.bak").write_bytes(b"something of the presenter's")
    path.write_bytes(DRAFT)
    save(path, SMALL)
    assert (tmp_path / "old.json.bak").read_bytes() == b"something of the presenter's"
    assert (tmp_path / "old.json.bak2").read_bytes() == DRAFT


def test_if_no_backup_can_be_kept_the_file_stays(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    path = tmp_path / "old.json"
    path.write_bytes(DRAFT)

    def full(*_: Any) -> None:
        raise StorageError("old.json.bak was not saved: the disk is full")

    monkeypatch.setattr("studio.storage.episode_file.write_atomically", full)
    with pytest.raises(StorageError, match="bak was not saved"):
        save(path, SMALL)
    assert path.read_bytes() == DRAFT


def test_a_newer_file_is_refused_with_nothing_written(tmp_path: Path) -> None:
    path = tmp_path / "newer.json"
    content = encode(SMALL).replace(b'"format": 2', b'"format": 3')
    path.write_bytes(content)
    with pytest.raises(EpisodeFileError, match=r"newer\.json: format 3 was made by a newer program"):
        load(path, nothing_wrong)
    assert [(each.name, each.read_bytes()) for each in tmp_path.iterdir()] == [("newer.json", content)]
