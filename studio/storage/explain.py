"""Turn a typed decoder's complaint into one line: where, what was read, what was expected, an example.

Only for files that were refused: it looks at the content a second time, untyped.
"""

import difflib
import re
from typing import Any

from msgspec import inspect

from studio.model.episode import Episode
from studio.model.quantity import Quantity
from studio.storage.errors import plain, shown

_AT = re.compile(r" - at `\$(?P<path>[^`]*)`$")
_STEP = re.compile(r"\.([A-Za-z_]+)|\[(\d+)\]")
_UNKNOWN = re.compile(r"Object contains unknown field `(?P<name>.*)`$", re.DOTALL)
_MISSING = re.compile(r"Object missing required field `(?P<name>[a-z_]+)`$")
_LONGEST_LIST = 200  # signs; of more names than that only those are told that are spelled most alike
_PATTERNS = {"region": "two small letters, and two more for a state", "": "small letters, digits and _"}
_EXAMPLES = {
    "region": '"us" or "us-md"', "id": '"front_left"', "specimens": '"front_left"', "unit": '"mm"', "format": "1",
    "title": '"One new tire or four?"', "channel": '"The Driveway Bench"', "marking": '"225/60R17 99H"',
    "date_code": '"2324"', "photos": '"front_left.jpg"', "depths": "[[7.5, 7.0], [8.0, 7.5]]",
}  # fmt: skip
_NAMES = {dict: "an object", list: "a list", str: "text", bool: "true or false", int: "a number", float: "a number"}


UNSEEN = object()
"""In place of the content of a file too large for a second look: the value that was read is then not told."""


def explain(error: Exception, raw: Any) -> str:
    """One line for ``error``, raised for the untyped content ``raw`` of an episode file (`UNSEEN`: not known)."""
    complaint = str(error)
    at = _AT.search(complaint)
    path = at["path"] if at else ""
    what = complaint[: at.start()] if at else complaint
    where = path.lstrip(".")
    if found := _UNKNOWN.match(what):
        return _unknown_name(where, found["name"], path)
    if found := _MISSING.match(what):
        name = found["name"]
        return f"{_joined(where, name)}: nothing was read; {_expected(f'{path}.{name}')}"
    if what.startswith("Number out of range"):
        return f"{where}: the number is out of range{_example(path)}"
    read = "" if raw is UNSEEN else f", read {_read(_value_at(raw, path))}"
    if what.startswith(("Expected", "Invalid")):
        return f"{where or 'the file'}: {_expected(path)}{read}{_example(path)}"
    return f"{where or 'the file'}: {plain(what)}{read}{_example(path)}"


def _unknown_name(where: str, name: str, path: str) -> str:
    kind = _type_at(path)
    names = [field.encode_name for field in kind.fields] if isinstance(kind, inspect.StructType) else []
    said = f"expected one of {', '.join(names)}"
    if len(said) > _LONGEST_LIST:
        said = f"expected one such as {', '.join(difflib.get_close_matches(name[:40], names, 3, 0.0))}"
    return f"{_joined(where, plain(name[:40]))}: there is no such name here; {said}"


def _joined(where: str, name: str) -> str:
    return f"{where}.{name}" if where else name


def _read(value: Any) -> str:
    if isinstance(value, (dict, list)) and len(shown(value)) > 20:
        return _NAMES[type(value)]
    return shown(value)


def _value_at(raw: Any, path: str) -> Any:
    here = raw
    for name, index in _STEP.findall(path):
        try:
            here = here[name] if name else here[int(index)]
        except (KeyError, IndexError, TypeError):
            return None
    return here


def _type_at(path: str) -> inspect.Type:
    here: inspect.Type = inspect.type_info(Episode)
    for name, _ in _STEP.findall(path):
        here = _bare(here)
        if name and isinstance(here, inspect.StructType):
            here = next((f.type for f in here.fields if f.encode_name == name), inspect.AnyType())
        elif isinstance(here, inspect.VarTupleType):
            here = here.item_type
    return _bare(here)


def _bare(kind: inspect.Type) -> inspect.Type:
    """``kind`` without its notes and without "or null"."""
    if isinstance(kind, inspect.Metadata):
        return _bare(kind.type)
    if isinstance(kind, inspect.UnionType):
        return _bare(next(each for each in kind.types if not isinstance(each, inspect.NoneType)))
    return kind


def _expected(path: str) -> str:
    """What belongs at ``path``."""
    kind = _type_at(path)
    if isinstance(kind, inspect.LiteralType):
        return "expected one of " + ", ".join(str(value) for value in kind.values if value)
    if isinstance(kind, inspect.StrType):
        most = f" of at most {kind.max_length} characters" if kind.max_length else ""
        pattern = _PATTERNS.get(_last_name(path), _PATTERNS[""])
        return f"expected {pattern}" if kind.pattern else f"expected text{most}"
    if isinstance(kind, inspect.VarTupleType):
        most = f" of at most {kind.max_length} entries" if kind.max_length else ""
        return f"expected a list{most}"
    if isinstance(kind, inspect.StructType):
        needed = ", ".join(field.encode_name for field in kind.fields if field.required)
        return "expected an object" + (f" with {needed}" if needed else "")
    return "expected " + _SIMPLE.get(type(kind), "another value")


_SIMPLE: dict[type[inspect.Type], str] = {
    inspect.FloatType: "a number",
    inspect.IntType: "a whole number",
    inspect.BoolType: "true or false",
    inspect.DateType: "a date",
}


def _example(path: str) -> str:
    example = _example_of(_type_at(path), _last_name(path))
    return f"; for example {example}" if example else ""


def _last_name(path: str) -> str:
    names = [name for name, _ in _STEP.findall(path) if name]
    return names[-1] if names else ""


def _example_of(kind: inspect.Type, name: str) -> str:
    if name in _EXAMPLES and not isinstance(kind, inspect.FloatType):
        return _EXAMPLES[name]
    if isinstance(kind, inspect.LiteralType):
        return shown(kind.values[0])
    if isinstance(kind, inspect.StructType):
        return '{"value": 35, "unit": "psi"}' if kind.cls is Quantity else ""
    return _SIMPLE_EXAMPLES.get(type(kind), "")


_SIMPLE_EXAMPLES: dict[type[inspect.Type], str] = {
    inspect.FloatType: "4.5",
    inspect.IntType: "1",
    inspect.BoolType: "true",
    inspect.DateType: '"2026-11-14"',
    inspect.StrType: '"front left"',
}
