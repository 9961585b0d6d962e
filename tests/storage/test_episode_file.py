"""Episode files: strict, whole, and each refusal one line that says where."""

import json
import os
from pathlib import Path
from typing import Any

import msgspec
import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from studio.model.episode import Episode
from studio.model.problem import Problem
from studio.model.quantity import Quantity
from studio.model.specimen import Reading
from studio.storage import episode_file
from studio.storage.episode_file import decode, encode, load, save
from studio.storage.errors import EpisodeFileError, StorageError
from tests.storage.episodes import SMALL, deeper_than_40, nothing_wrong
from tests.strategies import episodes, plausible_episodes

CONTENT = encode(SMALL)


def changed(**changes: Any) -> bytes:
    return json.dumps({**json.loads(CONTENT), **changes}).encode()


def complaint(content: bytes) -> str:
    with pytest.raises(EpisodeFileError) as caught:
        decode(content)
    message = str(caught.value)
    assert message and "\n" not in message and len(message) < 400
    return message


@settings(max_examples=60, suppress_health_check=[HealthCheck.too_slow])
@given(episodes())
def test_what_was_written_reads_back_equal(episode: Episode) -> None:
    content = encode(episode)
    assert decode(content) == episode
    assert encode(decode(content)) == content


@settings(max_examples=30, suppress_health_check=[HealthCheck.too_slow])
@given(plausible_episodes())
def test_the_layout_for_people_changes_no_value(episode: Episode) -> None:
    assert json.loads(encode(episode)) == json.loads(msgspec.json.encode(episode))


@settings(max_examples=300)
@given(st.binary(max_size=200) | st.text().map(lambda text: text.encode("utf-8", "surrogatepass")))
def test_any_bytes_are_refused_in_one_line(content: bytes) -> None:
    complaint(content)


JSON_VALUES = st.recursive(
    st.none() | st.booleans() | st.floats(allow_nan=False, allow_infinity=False) | st.text(max_size=8),
    lambda inner: st.lists(inner, max_size=3) | st.dictionaries(st.text(max_size=8), inner, max_size=3),
    max_leaves=8,
)


@settings(max_examples=200)
@given(st.sampled_from(sorted(json.loads(CONTENT))), JSON_VALUES)
def test_any_json_in_any_field_is_read_or_refused_in_one_line(field: str, value: Any) -> None:
    content = changed(**{field: value})
    try:
        decode(content)
    except EpisodeFileError:
        assert field in complaint(content) or "range" in complaint(content)


def test_truncated_at_every_byte_it_is_refused() -> None:
    for length in range(len(CONTENT.rstrip())):
        complaint(CONTENT[:length])


def test_every_single_byte_changed_is_read_or_refused() -> None:
    for at in range(len(CONTENT)):
        for byte in (0x00, 0x22, 0x7B, 0xFF):
            try:
                decode(CONTENT[:at] + bytes([byte]) + CONTENT[at + 1 :])
            except EpisodeFileError as error:
                assert "\n" not in str(error)


def test_a_file_ends_with_a_line_break_and_keeps_the_order_of_the_model() -> None:
    assert CONTENT.endswith(b"}\n")
    assert tuple(json.loads(CONTENT)) == Episode.__struct_fields__
    assert b'"depths": [\n            [5.0, null],\n            [6.0, 5.5]\n          ]' in CONTENT
    assert b'{"value": 36.0, "unit": "psi"}' in CONTENT


def test_equal_episodes_have_equal_bytes_even_if_a_whole_number_was_given_for_a_fraction() -> None:
    whole, fraction = (
        msgspec.structs.replace(SMALL, car=msgspec.structs.replace(SMALL.car, wheelbase=Quantity(value, "in")))
        for value in (118, 118.0)
    )
    assert encode(whole) == encode(fraction)


def test_a_text_that_looks_like_the_layout_is_left_alone() -> None:
    tricky = msgspec.structs.replace(SMALL, story='{\n  "value": 1,\n  "unit": "mm"\n}\n[\n  1,\n  2\n]')
    assert decode(encode(tricky)).story == tricky.story


def test_a_byte_order_mark_is_taken() -> None:
    assert decode(b"\xef\xbb\xbf" + CONTENT) == SMALL


@pytest.mark.parametrize(
    ("content", "said"),
    [
        (b"", "the file is empty"),
        (b" \n", "the file is empty"),
        (b"\x89PNG\r\n\x1a\n\x00\x00", "not text in UTF-8"),
        ("{}".encode("utf-16"), "not text in UTF-8"),
        (b"[1, 2]", "not an episode"),
        (b"null", "not an episode"),
        (b'{"name": "package", "version": "1.0.0"}', '"format" is missing'),
        (b"hello", "not JSON"),
        (b"[" * 100_000, "not an episode"),
        (b'{"format": 1, "title": ' + b"[" * 100_000, "nested too deeply"),
        (b'{"a":' * 100_000, "nested too deeply"),
        (b'{"format": true}', "format: expected a whole number, read true"),
        (b'{"format": "1"}', 'format: expected a whole number, read "1"'),
        (b'{"format": -1}', "format: expected a whole number, read -1"),
        (b'{"format": 1} trailing', "not JSON"),
        (b'{"format": 1, "title": "\xff", "on": "2026-01-01"}', "not text in UTF-8"),
    ],
)
def test_foreign_files_are_named_for_what_they_are(content: bytes, said: str) -> None:
    assert said in complaint(content)


def test_a_newer_format_is_refused_by_its_number() -> None:
    said = "format 7 was made by a newer program; this one reads up to 2; nothing was changed"
    assert complaint(changed(format=7, tread_gauge={"new": True})) == said


def reading(**changes: Any) -> bytes:
    raw = json.loads(CONTENT)
    raw["specimens"][0]["readings"][0].update(changes)
    return json.dumps(raw).encode()


@pytest.mark.parametrize(
    ("content", "path", "read", "expected"),
    [
        (reading(gauge={"resolution": {"value": 1, "unit": "inch"}}),
         "specimens[0].readings[0].gauge.resolution.unit", 'read "inch"', "expected one of"),
        (reading(depths=[["five"]]), "specimens[0].readings[0].depths[0][0]", 'read "five"', "expected a number"),
        (reading(depths=5), "specimens[0].readings[0].depths", "read 5", "a list"),
        (reading(on="14.11.2026"), "specimens[0].readings[0].on", 'read "14.11.2026"', 'for example "2026-11-14"'),
        (reading(odometer=41200), "specimens[0].readings[0].odometer", "read 41200", '{"value": 35, "unit": "psi"}'),
        (reading(odometer={"value": 1e999, "unit": "mi"}),
         "specimens[0].readings[0].odometer.value", "", "out of range; for example 4.5"),
        (changed(region="Germany"), "region", 'read "Germany"', '"us" or "us-md"'),
        (changed(region="us\n"), "region", 'read "us\\n"', "small letters"),
        (changed(title="x" * 201), "title", 'read "xxx', "at most 200 characters"),
        (changed(car={"drivetrain": "six-wheel"}), "car.drivetrain", 'read "six-wheel"', "front"),
        (changed(units=None), "units", "read null", "metric, us"),
        (changed(specimens=[{"id": "Tire 1", "place": "bench"}]), "specimens[0].id", 'read "Tire 1"', "front_left"),
        (changed(specimens={"a": 1}), "specimens", "read ", "expected a list of at most 200 entries"),
    ],
)  # fmt: skip
def test_a_wrong_field_is_named_with_what_was_read_and_expected(
    content: bytes, path: str, read: str, expected: str
) -> None:
    if b"Infinity" in content:
        content = content.replace(b"Infinity", b"1e999")
    message = complaint(content)
    assert message.startswith(f"{path}: ")
    assert read in message
    assert expected in message


def test_a_missing_field_is_named() -> None:
    raw = json.loads(CONTENT)
    del raw["specimens"][1]["place"]
    message = complaint(json.dumps(raw).encode())
    assert message.startswith("specimens[1].place: nothing was read; expected one of ")
    assert "front_left" in message


def test_an_unknown_name_is_refused_with_its_path() -> None:
    raw = json.loads(CONTENT)
    raw["specimens"][0]["colour"] = "black"
    message = complaint(json.dumps(raw).encode())
    assert message.startswith("specimens[0].colour: there is no such name here; expected one of id, place")


def test_where_there_are_many_names_the_nearest_are_told() -> None:
    message = complaint(changed(car={"drivetrian": "front"}))
    assert message.startswith("car.drivetrian: there is no such name here; expected one such as drivetrain, ")
    assert len(message) < 200


@given(st.text(st.characters(exclude_categories=["Cs"]), min_size=1))
def test_hostile_names_and_texts_come_out_plain(text: str) -> None:
    for content in (changed(**{text: 1}), changed(on=text), changed(specimens=[{text: text}])):
        try:
            decode(content)
        except EpisodeFileError:
            message = complaint(content)
            assert message.isprintable()


@pytest.mark.parametrize("value", [float("nan"), float("inf"), float("-inf")])
def test_nan_is_never_written(value: float) -> None:
    first = SMALL.specimens[0]
    bad = msgspec.structs.replace(first.readings[0], depths=((5.0, value),))
    specimens = (msgspec.structs.replace(first, readings=(bad,)),)
    with pytest.raises(EpisodeFileError, match=r"specimens\[0\]\.readings\[0\]\.depths\[0\]\[1\]: (nan|inf|-inf) "):
        encode(msgspec.structs.replace(SMALL, specimens=specimens))


def test_what_could_not_be_read_again_is_not_written(tmp_path: Path) -> None:
    path = tmp_path / "episode.json"
    save(path, SMALL)
    for bad in (msgspec.structs.replace(SMALL, title="x" * 300), msgspec.structs.replace(SMALL, story="\ud800")):
        with pytest.raises(EpisodeFileError):
            save(path, bad)
    assert path.read_bytes() == CONTENT


def test_load_gives_back_what_save_kept(tmp_path: Path) -> None:
    save(tmp_path / "episode.json", SMALL)
    assert load(tmp_path / "episode.json", nothing_wrong) == SMALL
    assert [path.name for path in tmp_path.iterdir()] == ["episode.json"]


def deep(value: float) -> Episode:
    first = SMALL.specimens[0]
    readings: tuple[Reading, ...] = (msgspec.structs.replace(first.readings[0], depths=((5.0,), (value,))),)
    return msgspec.structs.replace(SMALL, specimens=(msgspec.structs.replace(first, readings=readings),))


def test_what_cannot_be_is_refused_with_path_and_reason(tmp_path: Path) -> None:
    path = tmp_path / "odd.json"
    save(path, deep(45.0))
    with pytest.raises(EpisodeFileError) as caught:
        load(path, deeper_than_40)
    assert str(caught.value) == (
        "odd.json: specimens[0].readings[0].depths[1][0]: 45/32 in was read; at most 40/32 in can be"
    )
    assert load(path, nothing_wrong) == deep(45.0)


def test_further_problems_are_counted(tmp_path: Path) -> None:
    save(tmp_path / "odd.json", SMALL)

    def two(_: Episode) -> tuple[Problem, ...]:
        return Problem("title", "first"), Problem("on", "second")

    with pytest.raises(EpisodeFileError, match=r"title: first \(and 1 more of the kind\)"):
        load(tmp_path / "odd.json", two)


def test_a_huge_file_is_refused_before_it_is_read(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    path = tmp_path / "huge.json"
    with path.open("wb") as stream:
        stream.truncate(episode_file.MOST_BYTES + 1)

    def never(*_: Any, **__: Any) -> None:
        raise AssertionError("it was opened")

    monkeypatch.setattr(Path, "open", never)
    with pytest.raises(EpisodeFileError, match=r"100\.0 MB is too large; expected at most 100 MB"):
        load(path, nothing_wrong)
    with pytest.raises(EpisodeFileError, match="too large"):
        decode(b" " * (episode_file.MOST_BYTES + 1))


@pytest.mark.skipif(not hasattr(os, "mkfifo"), reason="this system has no named pipes")
def test_a_device_is_never_waited_for(tmp_path: Path) -> None:
    os.mkfifo(tmp_path / "pipe.json")
    with pytest.raises(StorageError, match=r"a folder or a device; expected a file"):
        load(tmp_path / "pipe.json", nothing_wrong)


@pytest.mark.parametrize("name", ["missing.json", "folder", "bad\x00name.json", "x" * 5000])
def test_what_is_no_file_is_one_line(tmp_path: Path, name: str) -> None:
    (tmp_path / "folder").mkdir()
    with pytest.raises(StorageError) as caught:
        load(tmp_path / name, nothing_wrong)
    assert "\n" not in str(caught.value) and str(caught.value).isprintable()
