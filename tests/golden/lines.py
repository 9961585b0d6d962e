"""How values are written in a golden: numbers to ten digits, so that no machine's last bit is kept."""

from collections.abc import Mapping
from functools import lru_cache
from hashlib import sha256
from pathlib import Path

from studio import shipped
from studio.decide import decide
from studio.headless.opening import open_episode
from studio.model.episode import Episode
from studio.model.finding import Findings
from studio.questions.told import with_answer
from studio.reference.tables import load_tables

Golden = Mapping[str, list[str]]


def digest(value: str | bytes) -> str:
    """A hash, long enough to tell apart what is kept."""
    return sha256(value.encode() if isinstance(value, str) else value).hexdigest()[:16]


def number(value: object) -> str:
    """A number, a missing one, or several words."""
    if isinstance(value, float):
        return f"{value:.10g}"
    if isinstance(value, list | tuple):
        return ", ".join(map(number, value))
    return str(value)


def one_line(text: str) -> str:
    """A text with its line ends written out."""
    return "\\n".join(text.splitlines())


@lru_cache
def demos() -> dict[str, Episode]:
    """The demo projects by name."""
    return {path.stem: open_episode(path) for path in sorted(Path(shipped.demos()).glob("*.json"))}


@lru_cache
def demo_findings(name: str) -> Findings:
    """What is decided of a demo, with the viewer's question that a picture shows."""
    episode, tables = demos()[name], load_tables()
    return with_answer(episode, decide(episode, tables), tables)
