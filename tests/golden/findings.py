"""The findings of the demos, and of made-up episodes: all that ``findings --json`` prints, and what it does not.

What many findings share (sources, cautions) stands once, at the end, under a hash of its text; a line of an earlier
finding of the same topic and episode is a hash, too. Figures and details are written out for the demos; of the made-up
episodes their hash is kept.
"""

from collections.abc import Iterator

from studio.decide import decide
from studio.headless.findings import as_json
from studio.model.finding import Finding
from studio.reference.tables import load_tables
from tests.golden.lines import Golden, demos, digest, number
from tests.golden.made_up import episodes

_LONG = 40
_NUMBERS = ("value", "limit", "margin", "uncertainty")
_LISTS = {"working": "work", "would_change": "change", "missing": "lacks"}


def given() -> Golden:
    """Each finding under the name of its episode and its id."""
    tables, shared = load_tables(), dict[str, str]()
    found: dict[str, list[str]] = {}
    for name, episode in {**demos(), **episodes()}.items():
        before: set[tuple[str, str]] = set()
        for finding in decide(episode, tables):
            facts = [_short(finding.topic, fact, before) for fact in _facts(finding, shared)]
            facts += _figures(finding) if name in demos() else _hash(finding)
            found[f"{name}: {finding.id}"] = facts
    return {**found, "shared": sorted(f"{short} {text}" for text, short in shared.items())}


def _short(topic: str, fact: str, before: set[tuple[str, str]]) -> str:
    """A long line the first time, then its hash."""
    if (topic, fact) in before:
        return f"{fact.partition(' ')[0]} again {digest(fact)[:8]}" if len(fact) > _LONG else fact
    before.add((topic, fact))
    return fact


def _facts(finding: Finding, shared: dict[str, str]) -> Iterator[str]:
    its = as_json(finding)
    yield f"says {its.pop('sentence')}"
    yield f"for {its.pop('topic')}, {its.pop('subject')}; {its.pop('id')}; {its.pop('verdict')}"
    numbers = [f"{name} {number(its.pop(name))}" for name in _NUMBERS]
    yield f"{', '.join(numbers)} in {its.pop('unit')}; {finding.limit_label}"
    for key, short in _LISTS.items():
        yield from (f"{short} {line}" for line in its.pop(key))
    yield f"from {', '.join(its.pop('inputs'))}"
    texts = [f"{s['title']}, {s['locator']} ({s['standing']})" for s in its.pop("sources")]
    yield " ".join(["by", *(shared.setdefault(text, digest(text)[:8]) for text in texts)])
    if caution := its.pop("caution"):
        yield f"caution {shared.setdefault(caution, digest(caution)[:8])}"
    yield from (f"{key} {value}" for key, value in its.items())


def _figures(finding: Finding) -> Iterator[str]:
    for figure in finding.figures:
        its = figure.quantity
        yield f"figure {figure.name} {number(its.value)} {its.unit} {its.kind or ''}, {figure.label}"
    yield from (f"detail {name}: {text}" for name, text in finding.detail)


def _hash(finding: Finding) -> Iterator[str]:
    if rest := "\n".join(_figures(finding)):
        yield f"rest {digest(rest)}"
