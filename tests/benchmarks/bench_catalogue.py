"""The whole catalogue to PNG: one picture after another, on two threads, and by two processes with their start.

    python -m tests.benchmarks.bench_catalogue [WIDTHxHEIGHT]

Aim: 1.6 times faster on two cores of an idle machine. On a busy one the time on the wall tells little, so the CPU time
of all is shown beside it; the least of several runs counts. The program writes one picture after another: see below.

Painting is some thousand short calls of Python's into Qt, which hold Python's lock for most of their time; deflate
alone lets it go. So two threads gain little, and a process starts longer than its half of the catalogue takes.
"""

import os
import sys
import time
from collections.abc import Callable, Iterable
from concurrent.futures import ProcessPoolExecutor, ThreadPoolExecutor
from hashlib import sha256
from multiprocessing import get_context

from studio import shipped
from studio.decide import decide
from studio.graphics.catalogue import CannotShow, catalogue, scene_of
from studio.graphics.frame import read_frame
from studio.graphics.look import look_named
from studio.graphics.paint.raster import png
from studio.reference.tables import load_tables
from studio.storage.episode_file import decode
from tests.benchmarks.bench_pictures import DEMO

RUNS, WORKERS = 5, 2
Made = dict[str, str]


def made(frame: str, ids: tuple[str, ...]) -> Made:
    """The pictures' digests by id; those that the demo cannot show are left out."""
    episode = decode((shipped.demos() / f"{DEMO}.json").read_bytes())
    findings, look, found = decide(episode, load_tables()), look_named(episode.look), Made()
    for id_ in ids:
        try:
            scene = scene_of(episode, findings, id_, read_frame(frame), look)
        except CannotShow:
            continue
        found[id_] = sha256(png(scene)).hexdigest()
    return found


def in_turn(frame: str) -> Made:
    return made(frame, tuple(catalogue()))


def on_threads(frame: str) -> Made:
    with ThreadPoolExecutor(WORKERS) as pool:
        return _joined(pool.map(made, [frame] * WORKERS, _shares()))


def by_processes(frame: str) -> Made:
    with ProcessPoolExecutor(WORKERS, mp_context=get_context("spawn")) as pool:
        return _joined(pool.map(made, [frame] * WORKERS, _shares()))


def _shares() -> list[tuple[str, ...]]:
    ids = tuple(catalogue())
    return [ids[start::WORKERS] for start in range(WORKERS)]


def _joined(parts: Iterable[Made]) -> Made:
    return {id_: digest for part in parts for id_, digest in part.items()}


def measured(work: Callable[[], Made]) -> tuple[float, float, Made]:
    """The least seconds on the wall, the least CPU seconds with those of processes it started, what was made."""
    walls, cpus, found = [], [], Made()
    for _ in range(RUNS):
        wall, before = time.perf_counter(), os.times()
        found, after = work(), os.times()
        walls.append(time.perf_counter() - wall)
        cpus.append(sum(after[:4]) - sum(before[:4]))
    return min(walls), min(cpus), found


def main() -> None:
    frame = sys.argv[1] if len(sys.argv) > 1 else "wide"
    in_turn(frame)  # warms the caches of letters, which a program that draws its thumbnails has warm
    base, _, expected = measured(lambda: in_turn(frame))
    print(f"{len(expected)} pictures, {frame}; least of {RUNS}; load of the machine {os.getloadavg()[0]:.1f}")
    print(f"{'way':<34}{'wall, s':>9}{'CPU, s':>9}{'faster':>9}")
    for name, way in (("one after another", in_turn), ("two threads", on_threads), ("two processes", by_processes)):
        wall, cpu, found = measured(lambda way=way: way(frame))  # type: ignore[misc]
        other = [id_ for id_ in expected if found[id_] != expected[id_]]
        print(f"{name:<34}{wall:>9.2f}{cpu:>9.2f}{base / wall:>8.2f}x" + (f"  other bytes: {other}" if other else ""))


if __name__ == "__main__":
    main()
