"""``findings``: what an episode's readings say."""

import argparse
import json
from collections.abc import Sequence
from typing import TYPE_CHECKING, Any

from studio.decide import TOPICS, decide
from studio.headless.findings_text import told
from studio.headless.opening import fail, open_episode
from studio.model.finding import Finding, Findings
from studio.reference.tables import load_tables

if TYPE_CHECKING:
    from argparse import _SubParsersAction

EPILOG = """\
value, limit, margin and uncertainty (a half width) are in unit; margin is positive on the good side of the limit. The
verdict is keep, watch, rotate, replace, inspect or unknown, and null for a plain quantity. inputs are paths into the
episode file. With --only the text shows working, sources and caution too.

examples:
  python -m studio findings demo_projects/minivan_one_new_tire.json
  python -m studio findings demo_projects/minivan_one_new_tire.json --only tread_left.front_right,matching
  python -m studio findings demo_projects/estate_before_winter.json --on 2026-12-01 --region at --json
"""


def add_parser(verbs: "_SubParsersAction[argparse.ArgumentParser]") -> None:
    """Enter the verb."""
    parser = verbs.add_parser(
        "findings",
        help="what an episode's readings say, with working and sources",
        description="Say what an episode's readings mean, each answer with its working and its sources.",
        epilog=EPILOG,
        formatter_class=argparse.RawDescriptionHelpFormatter,
    )
    parser.add_argument("episode", metavar="EPISODE", help="the episode file")
    parser.add_argument("--on", metavar="DATE", help="another day, such as 2026-12-01; ages and readings up to it")
    parser.add_argument("--region", metavar="R", help="another region's law and advice, such as us, de or ca-qc")
    parser.add_argument("--only", metavar="ID,...", help="these findings or topics only, such as matching.set,age")
    parser.add_argument("--json", action="store_true", help="print one JSON object")


def run(arguments: argparse.Namespace) -> int:
    """Print the findings."""
    episode = open_episode(arguments.episode, arguments.on, arguments.region)
    tables = load_tables()
    found = decide(episode, tables)
    wanted = found.all if arguments.only is None else _chosen(found, arguments.only)
    if arguments.json:
        answer = {"findings": [as_json(finding) for finding in wanted]}
        print(json.dumps(answer, indent=2, ensure_ascii=False, allow_nan=False))
    else:
        print("\n".join(told(episode, wanted, tables, in_full=arguments.only is not None)))
    return 0


def _chosen(found: Findings, only: str) -> tuple[Finding, ...]:
    """The findings named, or all of a topic named, in the order of the answer."""
    names = {name.strip() for name in only.split(",") if name.strip()}
    if not names:
        fail(f"--only: {only[:40]!r} names no finding, expected ids or topics such as matching.set,age")
    known = {finding.id for finding in found} | {topic.id for topic in TOPICS}
    if unknown := sorted(names - known):
        topics = ", ".join(topic.id for topic in TOPICS)
        fail(f"--only: {unknown[0][:60]!r} was given, expected a finding such as matching.set or a topic: {topics}")
    return tuple(finding for finding in found if {finding.id, finding.topic} & names)


def as_json(finding: Finding) -> dict[str, Any]:
    """One finding with the keys that scripts rely on."""
    return {
        "id": finding.id,
        "topic": finding.topic,
        "subject": finding.subject,
        "sentence": finding.sentence,
        "verdict": finding.verdict,
        "value": finding.value,
        "unit": finding.unit,
        "limit": finding.limit,
        "margin": finding.margin,
        "uncertainty": finding.uncertainty,
        "working": _list(finding.working),
        "inputs": _list(finding.inputs),
        "sources": [{"title": s.title, "locator": s.locator, "standing": s.standing} for s in finding.sources],
        "caution": finding.caution,
        "advises": list(finding.advises),
        "held_by": list(finding.held_by),
        "would_change": _list(finding.would_change),
        "missing": _list(finding.missing),
    }


def _list(lines: Sequence[str]) -> list[str]:
    return list(lines)
