"""Core benchmarks, as ratios against a floor measured in the same run.

    python -m tests.benchmarks.bench_core

- loading an episode against a bare typed decode of its bytes (aim: 2 times),
- one edit to all findings (aim: 5 ms; shown beside the time of the findings from nothing).
"""

import datetime as dt
import statistics
import time
from collections.abc import Callable
from pathlib import Path

import msgspec
from msgspec.structs import replace

from studio import shipped
from studio.decide import decide
from studio.decide.admission import problems
from studio.model.episode import Episode
from studio.reference.tables import load_tables
from studio.storage.episode_file import decode, load


def median_ms(work: Callable[[], object], times: int) -> float:
    """The median time of one call in ms."""
    taken = []
    for _ in range(times):
        start = time.perf_counter()
        work()
        taken.append((time.perf_counter() - start) * 1000)
    return statistics.median(taken)


def loading(path: Path) -> None:
    """The strict reading with its checks against msgspec alone on the same bytes."""
    tables = load_tables()
    content = path.read_bytes()
    floor = median_ms(lambda: msgspec.json.decode(content, type=Episode), 200)
    plain = median_ms(lambda: decode(content), 200)
    whole = median_ms(lambda: load(path, lambda episode: problems(episode, tables)), 100)
    print(f"{path.stem}: bare decode {floor:.3f} ms, decode {plain / floor:.2f} x, with checks {whole / floor:.2f} x")


def one_edit(path: Path) -> None:
    """Each round changes one depth, so that no round is answered from memory."""
    tables = load_tables()
    episode = decode(path.read_bytes())
    decide(episode, tables)
    taken = []
    for order in range(40):
        changed = with_first_depth(episode, 4.0 + order * 0.01)
        start = time.perf_counter()
        decide(changed, tables)
        taken.append((time.perf_counter() - start) * 1000)
    fresh = [replace(episode, on=episode.on + dt.timedelta(days=day)) for day in range(1, 21)]
    remaining = iter(fresh)
    whole = median_ms(lambda: decide(next(remaining), tables), 20)
    print(f"{path.stem}: one edit to all findings {statistics.median(taken):.2f} ms, everything anew {whole:.2f} ms")


def with_first_depth(episode: Episode, value: float) -> Episode:
    """The episode with another first depth in its first tire's last reading."""
    first = episode.specimens[0]
    reading = first.readings[-1]
    groove = (value, *reading.depths[0][1:])
    changed = replace(reading, depths=(groove, *reading.depths[1:]))
    tire = replace(first, readings=(*first.readings[:-1], changed))
    return replace(episode, specimens=(tire, *episode.specimens[1:]))


def ten_readings(episode: Episode) -> Episode:
    """The episode with ten readings for each tire: its own first ones repeated, two days apart."""
    tires = []
    for tire in episode.specimens[:5]:
        first = tire.readings[0]
        days = [first.on - dt.timedelta(days=2 * back) for back in range(10 - len(tire.readings), 0, -1)]
        tires.append(replace(tire, readings=(*(replace(first, on=day) for day in days), *tire.readings)))
    return replace(episode, specimens=tuple(tires))


def all_findings(path: Path) -> None:
    """Five tires with ten readings each, everything anew (aim: 20 ms): each round stands on another day."""
    tables = load_tables()
    episode = ten_readings(decode(path.read_bytes()))
    days = iter([replace(episode, on=episode.on + dt.timedelta(days=day)) for day in range(100, 140)])
    taken = median_ms(lambda: decide(next(days), tables), 30)
    print(f"{path.stem}: five tires with ten readings each, all findings {taken:.1f} ms")


if __name__ == "__main__":
    for demo in sorted(shipped.demos().glob("*.json")):
        loading(demo)
        one_edit(demo)
        all_findings(demo)
