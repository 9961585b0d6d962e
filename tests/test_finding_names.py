"""Every name by which a room looks into a finding is one that some topic gives: a misspelled one finds nothing."""

from functools import cache
from typing import get_args

from studio.decide import decide
from studio.model.finding import Finding
from studio.model.finding_names import FigureName, WordName
from studio.questions.told import with_answer
from studio.reference.tables import load_tables
from tests.golden.lines import demos
from tests.golden.made_up import episodes


@cache
def found() -> list[Finding]:
    """The findings of the demos, of the made-up episodes, and what answers the demos' questions."""
    tables = load_tables()
    every = [with_answer(its, decide(its, tables), tables) for its in (*demos().values(), *episodes().values())]
    return [finding for its in every for finding in (*its.all, *(asked.finding for asked in its.asked))]


def test_every_figure_that_is_looked_for_is_given() -> None:
    assert set(get_args(FigureName)) - {figure.name for finding in found() for figure in finding.figures} == set()


def test_every_detail_that_is_looked_for_is_given() -> None:
    assert set(get_args(WordName)) - {name for finding in found() for name, _ in finding.detail} == set()
