"""Large files and folders made beside their place: the old or the new one, whole, whatever happens."""

import os
import time
from pathlib import Path

import pytest

from studio.storage import beside
from studio.storage.beside import file_beside, folder_beside
from studio.storage.errors import StorageError


def names(folder: Path) -> list[str]:
    return sorted(path.name for path in folder.iterdir())


def test_a_file_takes_its_place_when_it_is_whole(tmp_path: Path) -> None:
    target = tmp_path / "a.mov"
    target.write_bytes(b"old")
    with file_beside(target) as part:
        part.write_bytes(b"new")
        assert target.read_bytes() == b"old" and part.parent == tmp_path
    assert target.read_bytes() == b"new" and names(tmp_path) == ["a.mov"]


@pytest.mark.parametrize("stop", [KeyboardInterrupt, GeneratorExit, ValueError])
def test_whatever_stops_it_the_old_one_stays(tmp_path: Path, stop: type[BaseException]) -> None:
    (tmp_path / "seq").mkdir()
    (tmp_path / "seq" / "1").write_bytes(b"old")
    with pytest.raises(stop), folder_beside(tmp_path / "seq") as part:
        (part / "1").write_bytes(b"new")
        raise stop
    assert names(tmp_path) == ["seq"] and (tmp_path / "seq" / "1").read_bytes() == b"old"


def test_a_folder_takes_the_whole_place(tmp_path: Path) -> None:
    target = tmp_path / "seq [1]*"
    for content in ("old", "new"):
        with folder_beside(target) as part:
            (part / content).write_bytes(b"")
    assert names(tmp_path) == ["seq [1]*"] and names(target) == ["new"]


def test_a_folder_that_cannot_take_its_place_leaves_the_old_one(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    target = tmp_path / "seq"
    target.mkdir()
    (target / "old").write_bytes(b"")
    real = beside._replace

    def refused(part: Path, goal: Path) -> None:
        if part.suffix == ".part":
            raise OSError("refused")
        real(part, goal)

    monkeypatch.setattr(beside, "_replace", refused)
    with pytest.raises(StorageError, match="seq was not saved: refused; nothing was changed"), folder_beside(target):
        pass
    assert names(tmp_path) == ["seq"] and names(target) == ["old"]


def test_what_a_killed_program_left_is_put_right(tmp_path: Path) -> None:
    """Killed between its two renames: the old folder stands aside, an unfinished one lies about."""
    (tmp_path / ".seq.old").mkdir()
    (tmp_path / ".seq.old" / "old").write_bytes(b"")
    left = tmp_path / ".seq.99999999-1.part"
    left.mkdir()
    os.utime(left, (time.time() - 3600,) * 2)
    (tmp_path / ".seq.2-1.part").mkdir()  # another program's, being written now
    with pytest.raises(ValueError), folder_beside(tmp_path / "seq"):
        raise ValueError
    assert names(tmp_path) == [".seq.2-1.part", "seq"] and names(tmp_path / "seq") == ["old"]


def test_a_folder_that_is_not_there_is_one_line(tmp_path: Path) -> None:
    target = tmp_path / "gone" / "a"
    with pytest.raises(StorageError, match="there is no folder gone") as said, file_beside(target) as part:
        part.write_bytes(b"")
    assert "\n" not in str(said.value)
