"""About names every package that the program asks for, with the version that is installed and its own licence."""

import re
import tomllib
from importlib import metadata
from pathlib import Path

import pytest

from studio.window import about
from studio.window.about import about_detail

PROJECT = tomllib.loads((Path(__file__).parents[2] / "pyproject.toml").read_text("utf-8"))["project"]
ASKED = [re.split("[<>=]", each)[0] for each in PROJECT["dependencies"]]
MOVIES = [re.split("[<>=]", each)[0] for each in PROJECT["optional-dependencies"]["clips"]]
FAMILIES = {"PSF": "PSF|Python Software Foundation|matplotlib"}
"""How a package's own words name a licence's family, where they do not use its name."""


def told_by(name: str) -> str:
    """All that a package says of its licence."""
    its = metadata.metadata(name)
    return " ".join([its["License-Expression"] or "", its["License"] or "", *(its.get_all("Classifier") or ())])


@pytest.mark.parametrize("name", [*ASKED, *MOVIES])
def test_it_names_each_part_with_its_version_and_the_licence_that_the_part_tells(name: str) -> None:
    lines = [line for line in about_detail().splitlines() if line.startswith(f"{name} {metadata.version(name)}: ")]
    assert len(lines) == 1
    family = re.split("[- ]", lines[0].split(": ")[1])[0]
    assert re.search(FAMILIES.get(family, family), told_by(name))


def test_what_makes_movies_is_named_with_the_gpl_only_where_it_is_there(monkeypatch: pytest.MonkeyPatch) -> None:
    assert re.search(r"^av \S+: .*FFmpeg.*GPL", about_detail(), re.MULTILINE)

    def version(name: str) -> str:
        if name == "av":
            raise metadata.PackageNotFoundError(name)
        return metadata.version(name)

    monkeypatch.setattr(about, "version", version)
    assert "FFmpeg" not in about_detail()
