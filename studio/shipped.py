"""Where the shipped files lie: beside the package in a checkout, inside it in an installed wheel."""

from pathlib import Path

_PACKAGE = Path(__file__).resolve().parent


def _folder(name: str) -> Path:
    inside = _PACKAGE / "_shipped" / name
    return inside if inside.is_dir() else _PACKAGE.parent / name


def resources() -> Path:
    """The folder of reference tables, looks, fonts and icons."""
    return _folder("resources")


def demos() -> Path:
    """The folder of demo episodes."""
    return _folder("demo_projects")
