"""Each campaign's short form finds nothing; the long ones are run by hand (see the package's docstring)."""

import importlib
import pkgutil
from types import ModuleType

import pytest

import tests.campaigns


def _campaigns() -> list[ModuleType]:
    names = [each.name for each in pkgutil.iter_modules(tests.campaigns.__path__)]
    modules = [importlib.import_module(f"tests.campaigns.{name}") for name in names if not name.startswith("test_")]
    return [module for module in modules if hasattr(module, "run")]


@pytest.mark.parametrize("campaign", _campaigns(), ids=lambda module: module.__name__.rpartition(".")[2])
def test_the_short_form_finds_no_fault(campaign: ModuleType) -> None:
    report = campaign.run(1, campaign.SHORT)
    assert report.done, "the campaign did nothing"
    assert not report.faults, "\n".join(report.lines())
