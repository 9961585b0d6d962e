"""A look's file: small, JSON, and with it whatever lies beside it by name."""

import re
import stat
from pathlib import Path, PurePosixPath
from typing import get_args

import msgspec

from studio.graphics.look_parts import COLORS, Corner, Fonts, Logo, LookError, LookFile, VerdictFills, Zones

MOST_BYTES = 100_000
ENDING = ".json"
_WITHOUT_NAME = re.compile(r"^(?:[A-Za-z]:|~)")
_AT = re.compile(r" - at `(?:key in )?\$\.?(?P<path>[^`]*)`$")
_NAMED = re.compile(r"^Object (?P<how>contains unknown|missing required) field `(?P<name>.*)`$", re.DOTALL)
_ENUM = re.compile(r"^Invalid enum value '(?P<name>.*)'$", re.DOTALL)
_LENGTH = re.compile(r" of length <= (\d+)")
_KINDS = {
    "`str`": "text", "`float`": "a number", "`bool`": "true or false", "`object`": "an object", "`array`": "a list",
    "`null`": "null", "`int`": "a whole number", "<=": "of at most", ">=": "of at least",
}  # fmt: skip


def read_look_file(path: Path) -> LookFile:
    """The values of a look's file, their kinds checked and nothing else. Raises LookError."""
    content = read_bytes(path, MOST_BYTES, "a look is a small file")
    try:
        return msgspec.json.decode(content, type=LookFile)
    except (msgspec.MsgspecError, UnicodeDecodeError, RecursionError) as error:
        raise LookError(f"{path.name} is not a look: {_one_line(_told(str(error)))}") from error


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
        status = path.stat()
        if not stat.S_ISREG(status.st_mode):
            raise LookError(f"{path.name} is a folder or a device; expected a file")  # a pipe is waited for without end
        if status.st_size > most:
            raise LookError(f"{path.name} holds {status.st_size} bytes; {expected} of at most {most}")
        with path.open("rb") as stream:
            content = stream.read(most + 1)  # a device or a growing file has no size that can be trusted
    except LookError:
        raise
    except OSError as error:
        raise LookError(f"{path.name} cannot be read: {error.strerror}") from error
    except ValueError as error:
        raise LookError(f"{path.name[:60]!r} is not the name of a file") from error
    if len(content) > most:
        raise LookError(f"{path.name} holds more than {most} bytes; {expected}")
    return content


def _told(complaint: str) -> str:
    """A decoder's complaint in words: where, what was expected, an example."""
    at = _AT.search(complaint)
    where, what = (at["path"], complaint[: at.start()]) if at else ("", complaint)
    if found := _NAMED.match(what):
        name = ".".join(filter(None, (where, found["name"][:40])))
        if found["how"].startswith("missing"):
            return f"{name} is missing{_example(name)}"
        return f"{name}: there is no such name here; expected one of {', '.join(_names(where))}"
    if found := _ENUM.match(what):
        return f"{where}: {found['name'][:40]!r} was read; expected one of {', '.join(get_args(Corner))}"
    if not what.startswith("Expected"):
        return f"this is not JSON ({what[:1].lower()}{what[1:]}); expected an object such as {{\"id\": \"ours\", ...}}"
    if "regex" in what:
        return f"{where}: this cannot be{_example(where)}"
    what = _LENGTH.sub(r" of at most \1 characters", what)
    for kind, words in _KINDS.items():
        what = what.replace(kind, words)
    return f"{where or 'the file'}: {what[:1].lower()}{what[1:]}"


def _names(where: str) -> tuple[str, ...]:
    parts: dict[str, type[msgspec.Struct]] = {
        "": LookFile, "verdicts": VerdictFills, "fonts": Fonts, "logo": Logo, "zones": Zones,
    }  # fmt: skip
    return parts[where].__struct_fields__


def _example(name: str) -> str:
    if name in COLORS or name.startswith("verdicts."):
        return "; expected a colour #RRGGBB, such as #1A1D21"
    return "; expected small letters, digits and _, such as our_look" if name == "id" else ""


def _one_line(text: str) -> str:
    return "".join(character if character.isprintable() else " " for character in text)[:300]
