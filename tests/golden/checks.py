"""The number check over every set of sentences, of the myths, and of the demos' own rundowns."""

from collections.abc import Iterator

from studio.reference.tables import load_tables
from studio.script.check import check_script
from studio.script.check_text import Mark, check_numbers
from studio.script.statements import statements_in
from tests.golden.lines import Golden, demo_findings, demos
from tests.script.scoring import DATA, ground_of, sentences


def given() -> Golden:
    """Each set and each rundown with its sentences, and under each sentence its marks."""
    found: dict[str, list[str]] = {}
    for path in sorted(DATA.glob("sentences*.txt")):
        found[path.stem] = []
        for its in sentences(path.name):
            found[path.stem] += [its.text, *_marks(check_numbers(its.text, ground_of(its.episode), its.about))]
    found["myths"] = list(_myths())
    for name, episode in demos().items():
        check = check_script(episode, demo_findings(name), load_tables())
        found[name] = [f"{mark}" for mark in (*check.marks, *check.statements)]
    return found


def _marks(marks: tuple[Mark, ...]) -> Iterator[str]:
    for mark in marks:
        sign = "~" if mark.conversion else ""
        told = (mark.expected, mark.source, mark.why)
        yield f"  {mark.start} {mark.text}: {mark.state}{sign} | {' | '.join(told)}".rstrip()


def _myths() -> Iterator[str]:
    for line in (DATA / "myths.txt").read_text(encoding="utf-8").splitlines():
        yield line
        yield from (f"  {its.id} {its.start}-{its.end}" for its in statements_in(line, load_tables()))
