"""Opening an episode for a verb: another day, another region, and what cannot be."""

import datetime as dt
import os
from pathlib import Path

import msgspec
import pytest

from studio import shipped
from studio.headless.opening import Refused, impossible, open_episode, read_date, read_region
from studio.storage.episode_file import save
from studio.storage.errors import EpisodeFileError, StorageError
from tests.storage.episodes import SMALL

DEMO = shipped.demos() / "minivan_one_new_tire.json"


def test_it_opens_as_written() -> None:
    episode = open_episode(DEMO)
    assert (episode.region, episode.on) == ("us", dt.date(2026, 11, 14))


def test_for_another_day_and_another_audience() -> None:
    episode = open_episode(str(DEMO), on="2027-03-01", region=" DE ")
    assert (episode.region, episode.on) == ("de", dt.date(2027, 3, 1))
    assert episode.specimens == open_episode(DEMO).specimens
    assert open_episode(DEMO, on=dt.date(2027, 3, 1)).on == dt.date(2027, 3, 1)


@pytest.mark.parametrize("given", ["", "14.11.2026", "2026-13-01", "2026-02-30", "tomorrow", "2026-11-14T10:00"])
def test_what_is_no_date(given: str) -> None:
    with pytest.raises(Refused, match=r"expected year-month-day, such as 2026-11-14"):
        read_date(given)


@pytest.mark.parametrize("given", ["", "usa", "Mars", "us\n; rm", "x" * 500])
def test_what_is_no_region(given: str) -> None:
    with pytest.raises(Refused) as caught:
        read_region(given)
    assert "expected one of us, " in str(caught.value) and str(caught.value).isprintable()


def test_what_cannot_be_is_refused_with_its_path(tmp_path: Path) -> None:
    first = SMALL.specimens[0]
    deep = msgspec.structs.replace(first.readings[0], depths=((45.0,),))
    save(
        tmp_path / "deep.json",
        msgspec.structs.replace(SMALL, specimens=(msgspec.structs.replace(first, readings=(deep,)),)),
    )
    with pytest.raises(EpisodeFileError, match=r"json: specimens\[0\]\.readings\[0\]\.depths\[0\]\[0\]: 45/32 in"):
        open_episode(tmp_path / "deep.json")


@pytest.mark.parametrize("path", sorted(shipped.demos().glob("*.json")), ids=lambda path: path.stem)
def test_nothing_in_a_demo_cannot_be(path: Path) -> None:
    assert impossible(open_episode(path)) == ()


def test_a_broken_file_names_the_version_before_it(tmp_path: Path) -> None:
    path = tmp_path / "mine.json"
    save(path, SMALL)
    save(path, msgspec.structs.replace(SMALL, title="Second"))
    path.write_bytes(path.read_bytes()[:300])
    said = r"^mine\.json: the file breaks off after 300 bytes; .* its last save, of 2.* lies in \.mine\.json\.bak$"
    with pytest.raises(EpisodeFileError, match=said):
        open_episode(path)


@pytest.mark.parametrize("value", [1e308, -1e308, 1e16])
@pytest.mark.parametrize("unit", ["32nds", "mm"])
def test_a_number_beyond_all_measure_is_refused_in_one_short_line(tmp_path: Path, value: float, unit: str) -> None:
    first = SMALL.specimens[0]
    beyond = msgspec.structs.replace(first.readings[0], depths=((value,),), unit=unit)
    save(
        tmp_path / "mine.json",
        msgspec.structs.replace(SMALL, specimens=(msgspec.structs.replace(first, readings=(beyond,)),)),
    )
    with pytest.raises(EpisodeFileError) as caught:
        open_episode(tmp_path / "mine.json")
    said = str(caught.value)
    assert said.startswith("mine.json: specimens[0].readings[0].depths[0][0]: ")
    assert f"1e{len(str(int(abs(value)))) - 1}" in said and len(said) < 250 and said.isprintable()


@pytest.mark.skipif(not hasattr(os, "symlink"), reason="this system has no links")
def test_a_link_to_itself_is_one_line(tmp_path: Path) -> None:
    loop = tmp_path / "loop.json"
    loop.symlink_to(loop)
    with pytest.raises(StorageError, match=r"^loop\.json cannot be read: .+$"):
        open_episode(loop)
