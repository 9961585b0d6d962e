"""The JSON Schema of an episode file, made from the model: ``python -m studio.storage.schema`` writes it."""

import inspect
import sys
from pathlib import Path
from typing import Any

import msgspec

from studio import shipped
from studio.model.episode import FORMAT, Episode
from studio.storage.atomic import write_atomically
from studio.storage.errors import StorageError


def schema() -> dict[str, Any]:
    """The schema; unlike the model, which knows no older formats, it asks for the format number."""
    made = msgspec.json.schema(Episode)
    episode = made["$defs"]["Episode"]
    episode["required"] = ["format", *(name for name in episode["required"] if name != "format")]
    episode["properties"]["format"] = {"const": FORMAT}
    return {
        "$schema": "https://json-schema.org/draft/2020-12/schema",
        "title": f"Episode of the tire episode studio, format {FORMAT}",
        **_dedented(made),
    }


def _dedented(made: Any) -> Any:
    """The same with descriptions free of the source's indentation, which some releases of the library hand on."""
    if isinstance(made, list):
        return [_dedented(each) for each in made]
    if not isinstance(made, dict):
        return made
    return {
        key: inspect.cleandoc(value) if key == "description" and isinstance(value, str) else _dedented(value)
        for key, value in made.items()
    }


def schema_bytes() -> bytes:
    """The schema as the bytes of its file."""
    return msgspec.json.format(msgspec.json.encode(schema()), indent=2) + b"\n"


def schema_path() -> Path:
    """The shipped file."""
    return shipped.resources() / "episode.schema.json"


def main() -> int:
    """Write the schema to its place."""
    try:
        write_atomically(schema_path(), schema_bytes())
    except StorageError as error:
        sys.stderr.write(f"{error}\n")
        return 2
    sys.stdout.write(f"{schema_path().name} was written\n")
    return 0


if __name__ == "__main__":
    sys.exit(main())
