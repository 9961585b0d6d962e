"""The shipped JSON Schema is the model's; an independent validator takes what we read and refuses what we refuse."""

import json
from pathlib import Path
from typing import Any

import jsonschema  # type: ignore[import-untyped]
import pytest
from hypothesis import HealthCheck, given, settings

from studio import shipped
from studio.model.episode import Episode
from studio.storage import schema
from studio.storage.episode_file import encode
from studio.storage.errors import StorageError
from tests.storage.episodes import SMALL
from tests.strategies import episodes

SHIPPED: dict[str, Any] = json.loads((shipped.resources() / "episode.schema.json").read_text(encoding="utf-8"))
VALIDATOR = jsonschema.Draft202012Validator(SHIPPED, format_checker=jsonschema.FormatChecker())


def test_the_shipped_file_is_what_the_model_gives() -> None:
    assert schema.schema_path().read_bytes() == schema.schema_bytes(), "run: python -m studio.storage.schema"


def test_it_is_a_schema() -> None:
    jsonschema.Draft202012Validator.check_schema(SHIPPED)


@pytest.mark.parametrize("path", sorted(shipped.demos().glob("*.json")), ids=lambda path: path.name)
def test_the_demos_hold_to_it(path: Path) -> None:
    VALIDATOR.validate(json.loads(path.read_text(encoding="utf-8")))


@settings(max_examples=25, suppress_health_check=[HealthCheck.too_slow])
@given(episodes())
def test_every_written_episode_holds_to_it(episode: Episode) -> None:
    VALIDATOR.validate(json.loads(encode(episode)))


@pytest.mark.parametrize(
    "changes",
    [
        {"format": 3}, {"format": None}, {"colour": 1}, {"on": "14.11.2026"}, {"region": "US"}, {"region": "us\n"},
        {"title": "x" * 201}, {"units": "imperial"}, {"car": {"drivetrain": "six"}},
        {"specimens": [{"id": "Tire 1", "place": "bench"}]}, {"specimens": [{"id": "a"}]},
    ],
)  # fmt: skip
def test_it_refuses_what_the_program_refuses(changes: dict[str, Any]) -> None:
    raw = {**json.loads(encode(SMALL)), **changes}
    assert list(VALIDATOR.iter_errors(raw))


def test_a_file_without_a_format_is_refused() -> None:
    raw = json.loads(encode(SMALL))
    del raw["format"]
    assert list(VALIDATOR.iter_errors(raw))


def test_the_command_writes_it(tmp_path: Path, monkeypatch: pytest.MonkeyPatch, capsys: Any) -> None:
    monkeypatch.setattr(schema, "schema_path", lambda: tmp_path / "episode.schema.json")
    assert schema.main() == 0
    assert (tmp_path / "episode.schema.json").read_bytes() == schema.schema_bytes()

    def full(*_: Any) -> None:
        raise StorageError("the disk is full")

    monkeypatch.setattr(schema, "write_atomically", full)
    assert schema.main() == 2
    assert capsys.readouterr().err == "the disk is full\n"
