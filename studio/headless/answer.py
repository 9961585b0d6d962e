"""``answer``: a viewer's comment answered by computation."""

import argparse
import datetime as dt
import json
from typing import TYPE_CHECKING, Any

from studio.headless.opening import open_episode, read_date, read_region
from studio.model.quantity import Quantity
from studio.model.source import Source
from studio.questions.answer_values import Answer
from studio.questions.answering import answer
from studio.questions.facts import Fact
from studio.reference.tables import load_tables

if TYPE_CHECKING:
    from argparse import _SubParsersAction

EPILOG = """\
Without an episode only what the comment says and the region's limits are used. The region comes from --region, else
from the comment's own hints (places, language, spelling, units), else it is the US; the reply says which. With an
episode the comment is answered as of its date, and what a comment about its car leaves open is taken from it.

examples:
  python -m studio answer "left rear is 3/32, right rear 6/32, AWD. do I need four new ones?"
  python -m studio answer "darf ich mit 2 mm Profil noch fahren?" --json
  python -m studio answer "does 225/65R17 fit your van?" --episode demo_projects/minivan_one_new_tire.json
"""


def add_parser(verbs: "_SubParsersAction[argparse.ArgumentParser]") -> None:
    """Enter the verb."""
    parser = verbs.add_parser(
        "answer",
        help="a viewer's comment, read, computed and answered",
        description="Read a viewer's comment, compute what it asks, and write a reply with working, source and "
        "caution.",
        epilog=EPILOG,
        formatter_class=argparse.RawDescriptionHelpFormatter,
    )
    parser.add_argument("text", metavar="TEXT", help="the comment")
    parser.add_argument("--episode", metavar="EPISODE", help="an episode file, for comments about its car")
    parser.add_argument("--on", metavar="DATE", help="the day for which ages are computed, such as 2026-12-01")
    parser.add_argument("--region", metavar="R", help="the region whose rules hold, such as us, de or ca-qc")
    parser.add_argument("--length", choices=("short", "full"), default="full", help="how long the reply is")
    parser.add_argument("--tone", choices=("plain", "warm"), default="plain", help="how the reply begins")
    parser.add_argument("--json", action="store_true", help="print one JSON object")


def run(arguments: argparse.Namespace) -> int:
    """Print the answer."""
    episode = open_episode(arguments.episode, arguments.on) if arguments.episode else None
    day = episode.on if episode is not None else read_date(arguments.on) if arguments.on else dt.date.today()
    region = read_region(arguments.region) if arguments.region is not None else None
    found = answer(
        arguments.text,
        tables=load_tables(),
        on=day,
        region=region,
        episode=episode,
        length=arguments.length,
        tone=arguments.tone,
    )
    if arguments.json:
        print(json.dumps(as_json(found), indent=2, ensure_ascii=False, allow_nan=False))
    else:
        print(found.reply)
    return 0


def as_json(found: Answer) -> dict[str, Any]:
    """An answer with the keys that scripts rely on."""
    return {
        "kind": found.kind,
        "read": [_fact(fact) for fact in found.read],
        "missing": list(found.missing),
        "invalid": list(found.invalid),
        "verdict": found.verdict,
        "numbers": {key: list(value) if isinstance(value, tuple) else value for key, value in found.numbers.items()},
        "working": list(found.working),
        "reply": found.reply,
        "sources": [_source(source) for source in found.sources],
        "caution": found.caution,
        "region": found.region,
        "region_from": found.region_how,
        "why": list(found.why),
        "left_out": found.left_out,
        "also": [as_json(other) for other in found.also],
    }


def _fact(fact: Fact) -> dict[str, Any]:
    value, unit = (fact.value.value, fact.value.unit) if isinstance(fact.value, Quantity) else (fact.value, None)
    return {
        "field": fact.field,
        "value": value,
        "unit": unit,
        "where": list(fact.where),
        "text": fact.text,
        "start": fact.start,
        "end": fact.end,
        "sure": fact.sure,
        "how": fact.how,
    }


def _source(source: Source) -> dict[str, str]:
    return {"title": source.title, "locator": source.locator, "standing": source.standing}
