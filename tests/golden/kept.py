"""The goldens as they lie in ``data``: one text file a kind, one line a fact, so that ``git diff`` can be read.

A line that begins with ``@ `` heads an entry; the lines below it are what was given.
"""

import difflib
from collections.abc import Callable, Iterator
from pathlib import Path

from tests.golden import checks, findings, handoff, pictures, replies
from tests.golden.lines import Golden

DATA = Path(__file__).parent / "data"
HEAD = "@ "
KINDS: dict[str, Callable[[], Golden]] = {
    "findings": findings.given,
    "pictures": pictures.given,
    "replies": replies.given,
    "checks": checks.given,
    "handoff": handoff.given,
}


def kept(kind: str) -> Golden:
    """What ``data`` holds of a kind; empty where it holds nothing yet."""
    path = DATA / f"{kind}.txt"
    found: dict[str, list[str]] = {}
    lines = list[str]()
    for line in path.read_text(encoding="utf-8").splitlines() if path.exists() else ():
        if line.startswith(HEAD):
            lines = found[line.removeprefix(HEAD)] = []
        else:
            lines.append(line)
    return found


def keep(kind: str, golden: Golden) -> None:
    """Write a kind into ``data``."""
    lines = [line for head, facts in golden.items() for line in (HEAD + head, *facts)]
    DATA.mkdir(exist_ok=True)
    (DATA / f"{kind}.txt").write_text("\n".join(lines) + "\n", encoding="utf-8", newline="\n")


def as_read_back(golden: Golden) -> Golden:
    """A golden as it is read back: a text with line ends of its own takes several lines."""
    return {head: [line for fact in facts for line in fact.splitlines() or [""]] for head, facts in golden.items()}


def changes(before: Golden, now: Golden) -> Iterator[str]:
    """What came, went and changed, line by line under the heading where it stands."""
    for head in dict.fromkeys((*before, *now)):
        was, given = before.get(head, []), now.get(head, [])
        if was != given:
            yield HEAD + head
            yield from (line for line in difflib.ndiff(was, given) if line[:2] in ("- ", "+ "))

