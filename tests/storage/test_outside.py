"""A change made outside is noticed by content, and a mere touch is none."""

import os
from pathlib import Path

import pytest

from studio.storage.outside import changed_outside, fingerprint


@pytest.fixture
def path(tmp_path: Path) -> Path:
    file = tmp_path / "episode.json"
    file.write_bytes(b"first")
    return file


def later(path: Path) -> None:
    status = path.stat()
    os.utime(path, ns=(status.st_atime_ns, status.st_mtime_ns + 10_000_000))


def test_nothing_happened(path: Path) -> None:
    assert changed_outside(path, fingerprint(path)) == "unchanged"


def test_a_touch_and_a_copy_of_the_same_content_are_no_change(path: Path) -> None:
    known = fingerprint(path)
    later(path)
    assert changed_outside(path, known) == "unchanged"
    path.unlink()
    path.write_bytes(b"first")
    assert changed_outside(path, known) == "unchanged"


def test_another_content_of_the_same_length_is_a_change(path: Path) -> None:
    known = fingerprint(path)
    path.write_bytes(b"other")
    later(path)
    assert changed_outside(path, known) == "changed"


def test_a_longer_content_with_the_old_time_is_a_change(path: Path) -> None:
    known = fingerprint(path)
    assert known is not None
    path.write_bytes(b"first and more")
    os.utime(path, ns=(known.mtime_ns, known.mtime_ns))
    assert changed_outside(path, known) == "changed"


def test_a_file_that_went_or_came(path: Path) -> None:
    known = fingerprint(path)
    assert changed_outside(path, None) == "appeared"
    path.unlink()
    assert changed_outside(path, known) == "gone"
    assert changed_outside(path, None) == "unchanged"
    assert fingerprint(path) is None


def test_the_hash_is_that_of_the_standard(path: Path) -> None:
    """FIPS 180-2, appendix B.1: SHA-256 of "abc"."""
    path.write_bytes(b"abc")
    found = fingerprint(path)
    assert found is not None
    assert found.sha256 == "ba7816bf8f01cfea414140de5dae2223b00361a396177a9cb410ff61f20015ad"
