"""A look's file: small, JSON, and with it whatever lies beside it by name."""

import re
from pathlib import Path, PurePosixPath

import msgspec

from studio.graphics.look_parts import LookError, LookFile

MOST_BYTES = 100_000
ENDING = ".json"
_WITHOUT_NAME = re.compile(r"^(?:[A-Za-z]:|~)")


def read_look_file(path: Path) -> LookFile:
    """The values of a look's file, their kinds checked and nothing else. Raises LookError."""
    content = read_bytes(path, MOST_BYTES, "a look is a small file")
    try:
        return msgspec.json.decode(content, type=LookFile)
    except (msgspec.MsgspecError, UnicodeDecodeError, RecursionError) as error:
        raise LookError(f"{path.name} is not a look: {_one_line(str(error))}") from error


def encode_look_file(look: LookFile) -> bytes:
    """The file of a look: the same look gives the same bytes."""
    plain = LookFile(**{name: getattr(look, name) for name in LookFile.__struct_fields__})
    # A part that says nothing is left out, whether or not it is the default itself.
    values = {name: value for name, value in msgspec.to_builtins(plain).items() if value != {}}
    return msgspec.json.format(msgspec.json.encode(values), indent=2) + b"\n"


def beside(folder: Path, name: str, what: str) -> Path:
    """The file of this name below ``folder``. Raises LookError for a name that leads elsewhere."""
    pure = PurePosixPath(name)
    leads_away = pure.is_absolute() or ".." in pure.parts or "\\" in name or _WITHOUT_NAME.match(name)
    if not name or leads_away or not name.isprintable():
        raise LookError(f"{what} {name[:60]!r} must lie beside the file that names it, such as our_look/logo.svg")
    path = folder / pure
    try:
        path.resolve().relative_to(folder.resolve())
    except (OSError, ValueError, RuntimeError) as error:
        raise LookError(f"{what} {name[:60]!r} leads out of the folder of the file that names it") from error
    return path


def read_bytes(path: Path, most: int, expected: str) -> bytes:
    """All of a file that has a size to be expected. Raises LookError."""
    try:
        size = path.stat().st_size
        if size > most:
            raise LookError(f"{path.name} holds {size} bytes; {expected} of at most {most}")
        with path.open("rb") as stream:
            content = stream.read(most + 1)  # a device or a growing file has no size that can be trusted
    except OSError as error:
        raise LookError(f"{path.name} cannot be read: {error.strerror}") from error
    except ValueError as error:
        raise LookError(f"{path.name[:60]!r} is not the name of a file") from error
    if len(content) > most:
        raise LookError(f"{path.name} holds more than {most} bytes; {expected}")
    return content


def _one_line(text: str) -> str:
    return "".join(character if character.isprintable() else " " for character in text)[:300]
