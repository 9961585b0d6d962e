"""Readings as a spreadsheet's table: what goes out comes back, and no cell runs."""

import csv
import io

import msgspec
import pytest
from hypothesis import HealthCheck, given, settings

from studio.model.episode import Episode
from studio.model.quantity import Quantity
from studio.storage.readings_csv import read_readings
from studio.storage.readings_out import COLUMNS, safe_text, write_readings
from tests.storage.episodes import SMALL, nothing_wrong
from tests.strategies import plausible_episodes


def rows(episode: Episode) -> list[dict[str, str]]:
    return list(csv.DictReader(io.StringIO(write_readings(episode).decode(), newline="")))


def without_readings(episode: Episode) -> Episode:
    bare = tuple(msgspec.structs.replace(specimen, readings=()) for specimen in episode.specimens)
    return msgspec.structs.replace(episode, specimens=bare)


def test_a_row_for_each_depth_with_plain_numbers() -> None:
    first, second, *_ = rows(SMALL)
    assert tuple(first) == COLUMNS
    assert first == {
        "tire": "left", "place": "front_left", "date": "2026-11-07", "odometer": "41200", "odometer_unit": "mi",
        "pressure": "33", "pressure_unit": "psi", "temperature": "-4", "temperature_unit": "degC", "cold": "yes",
        "gauge": "dial", "resolution": "1/32", "unit": "32nds", "groove": "1", "station": "1", "depth": "5", "note": "",
    }  # fmt: skip
    assert second["depth"] == "" and second["station"] == "2"


@settings(max_examples=40, suppress_health_check=[HealthCheck.too_slow])
@given(plausible_episodes())
def test_what_goes_out_comes_back_equal(episode: Episode) -> None:
    again = read_readings(write_readings(episode), without_readings(episode), nothing_wrong)
    for before, after in zip(episode.specimens, again.specimens, strict=True):
        for old, new in zip(before.readings, after.readings, strict=True):
            assert (new.on, new.place, new.unit, new.gauge.name) == (old.on, old.place, old.unit, old.gauge.name)
            assert new.depths == old.depths
            assert new.gauge.resolution.value == pytest.approx(old.gauge.resolution.value)
            assert new.odometer is not None and old.odometer is not None
            assert new.odometer.value == pytest.approx(old.odometer.value, abs=1e-9)


def test_the_small_episode_comes_back_with_its_gaps_and_its_pressure() -> None:
    again = read_readings(write_readings(SMALL), without_readings(SMALL), nothing_wrong)
    old, new = SMALL.specimens[0].readings[0], again.specimens[0].readings[0]
    assert new.depths == old.depths
    assert new.pressure is not None and old.pressure is not None
    assert (new.pressure.pressure.value, new.pressure.temperature) == (
        33.0,
        msgspec.structs.replace(old.pressure.temperature, kind="temperature") if old.pressure.temperature else None,
    )


@pytest.mark.parametrize("text", ["=1+1", "+1", "-1", "@x", "=cmd|' /C calc'!A0", "\uff1d1+1", "\uff20x"])
def test_a_text_that_would_run_gets_an_apostrophe_and_reads_back(text: str) -> None:
    first = SMALL.specimens[0]
    noted = msgspec.structs.replace(first.readings[0], note=text)
    episode = msgspec.structs.replace(
        SMALL, specimens=(msgspec.structs.replace(first, readings=(noted,)), *SMALL.specimens[1:])
    )
    assert all(row["note"] == f"'{text}" for row in rows(episode))
    again = read_readings(write_readings(episode), without_readings(episode), nothing_wrong)
    assert again.specimens[0].readings[0].note == text


def test_line_breaks_and_tabs_cannot_begin_a_cell() -> None:
    assert safe_text("\t=1") == "'=1"
    assert safe_text("\r=1\nnext") == "'=1 next"
    assert safe_text('plain, with "quotes"') == 'plain, with "quotes"'


def test_signs_that_cannot_be_seen_are_left_out_before_it_is_seen_how_a_cell_begins() -> None:
    assert safe_text("\x00\u202e=1+1\x1b[31m") == "'=1+1[31m"
    assert safe_text("\u2066left\u2069 \u200bside") == "left side"


def test_a_number_is_never_mistaken_for_thousands() -> None:
    first = SMALL.specimens[0]
    odd = msgspec.structs.replace(first.readings[0], odometer=Quantity(412.125, "km"), depths=((4.125,),))
    episode = msgspec.structs.replace(
        SMALL, specimens=(msgspec.structs.replace(first, readings=(odd,)), *SMALL.specimens[1:])
    )
    assert (rows(episode)[0]["odometer"], rows(episode)[0]["depth"]) == ("412.1250", "4.1250")
    again = read_readings(write_readings(episode), without_readings(episode), nothing_wrong)
    assert again.specimens[0].readings[0].odometer == Quantity(412.125, "km", "distance")


def test_a_byte_order_mark_on_request() -> None:
    assert write_readings(SMALL, byte_order_mark=True) == b"\xef\xbb\xbf" + write_readings(SMALL)


def test_a_reading_without_depths_keeps_its_row() -> None:
    first = SMALL.specimens[0]
    bare = msgspec.structs.replace(first.readings[0], depths=())
    episode = msgspec.structs.replace(SMALL, specimens=(msgspec.structs.replace(first, readings=(bare,)),))
    assert [(row["groove"], row["depth"], row["pressure"]) for row in rows(episode)] == [("", "", "33")]
