"""The walls of the house: which room may import which, and where each toolkit may be named."""

import ast
from collections.abc import Iterator
from pathlib import Path

import pytest

STUDIO = Path(__file__).resolve().parent.parent / "studio"
FILES = sorted(path for path in STUDIO.rglob("*.py"))

CORE = {"model", "reference", "tires"}
MAY_IMPORT: dict[str, set[str]] = {
    "model": set(),
    "reference": {"model", "shipped"},
    "tires": {"model", "reference"},
    "decide": CORE,
    "graphics": CORE | {"shipped"},
    "script": CORE,
    "questions": CORE | {"decide"},
    "storage": {"model", "shipped"},
    "handoff": CORE | {"decide", "graphics", "script", "storage", "shipped"},
    "headless": CORE | {"decide", "graphics", "script", "questions", "storage", "handoff", "shipped"},
    "window": CORE | {"decide", "graphics", "script", "questions", "storage", "handoff", "headless", "shipped"},
}
TOOLKIT_HOMES: dict[str, tuple[str, ...]] = {
    "PySide6": ("window", "graphics/paint"),
    "shiboken6": ("window",),
    "matplotlib": ("graphics/charts",),
    "reportlab": ("graphics/paint", "handoff"),
    "uharfbuzz": ("graphics/layout/text.py",),
    "isal": ("graphics/paint",),
    "av": ("graphics/paint",),
    "opentimelineio": ("handoff/timeline.py",),
}
READS_FILES = {"reference", "storage", "handoff", "headless", "window", "graphics"}


def imports(path: Path) -> Iterator[tuple[str, bool]]:
    """Each module named in ``path``, and whether it is imported only for type checkers."""
    for node in ast.walk(ast.parse(path.read_text(encoding="utf-8"))):
        if isinstance(node, ast.Import):
            yield from ((alias.name, False) for alias in node.names)
        elif isinstance(node, ast.ImportFrom):
            assert node.level == 0, f"{path}: relative import"
            yield node.module or "", False
            if node.module == "studio":
                yield from ((f"studio.{alias.name}", False) for alias in node.names)


def room_of(path: Path) -> str:
    return path.relative_to(STUDIO).parts[0]


@pytest.mark.parametrize("path", [p for p in FILES if p.parent != STUDIO], ids=lambda p: str(p.relative_to(STUDIO)))
def test_each_room_imports_only_what_it_may_know(path: Path) -> None:
    room = room_of(path)
    known = {module.split(".")[1] for module, _ in imports(path) if module.startswith("studio.")}
    assert known - {room} <= MAY_IMPORT[room]


@pytest.mark.parametrize("path", FILES, ids=lambda p: str(p.relative_to(STUDIO)))
def test_each_toolkit_stays_at_home(path: Path) -> None:
    inside = path.relative_to(STUDIO).as_posix()
    for module, _ in imports(path):
        homes = TOOLKIT_HOMES.get(module.split(".")[0])
        assert homes is None or inside.startswith(homes), f"{inside} imports {module}"


@pytest.mark.parametrize("path", [p for p in FILES if "graphics" in p.parts], ids=lambda p: str(p.relative_to(STUDIO)))
def test_pictures_know_no_widgets_and_no_global_figure(path: Path) -> None:
    named = {module for module, _ in imports(path)}
    assert not {"PySide6.QtWidgets", "matplotlib.pyplot"} & named
    assert "bbox_inches" not in path.read_text(encoding="utf-8")


@pytest.mark.parametrize(
    "path",
    [p for p in FILES if p.parent != STUDIO and room_of(p) not in READS_FILES],
    ids=lambda p: str(p.relative_to(STUDIO)),
)
def test_the_core_reads_and_writes_no_files(path: Path) -> None:
    calls = [node.func for node in ast.walk(ast.parse(path.read_text("utf-8"))) if isinstance(node, ast.Call)]
    names = {call.id for call in calls if isinstance(call, ast.Name)}
    methods = {call.attr for call in calls if isinstance(call, ast.Attribute)}
    clock = {ast.unparse(call) for call in calls if isinstance(call, ast.Attribute) and call.attr in ("today", "now")}
    assert not names & {"open", "print", "input"}
    assert not methods & {"read_text", "read_bytes", "write_text", "write_bytes", "unlink", "mkdir"}
    assert not {name for name in clock if name.split(".")[0] in ("dt", "datetime", "date", "time")}


def test_every_room_has_its_row() -> None:
    rooms = {room_of(path) for path in FILES if path.parent != STUDIO}
    assert rooms <= set(MAY_IMPORT)
