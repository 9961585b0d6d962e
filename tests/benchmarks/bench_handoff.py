"""The hand-off of a demo: each deliverable's time, the whole against its largest part, the brief against its bare self.

    python -m tests.benchmarks.bench_handoff [with_clips]

Aims: the whole at most twice its largest part; the brief at most 20 times the same document without pictures.
"""

import sys
import tempfile
import time
from dataclasses import replace
from pathlib import Path

from studio import shipped
from studio.decide import decide
from studio.graphics.look import look_named
from studio.handoff.brief import brief
from studio.handoff.gathering import gather
from studio.handoff.making import make
from studio.handoff.material import Material
from studio.handoff.works import ITEMS
from studio.reference.tables import load_tables
from studio.storage.episode_file import decode
from tests.benchmarks.bench_pictures import least_ms

DEMO = "minivan_one_new_tire"


def main(arguments: list[str]) -> None:
    """Print the table."""
    tables = load_tables()
    episode = decode((shipped.demos() / f"{DEMO}.json").read_bytes())
    findings = decide(episode, tables)
    material = gather(episode, findings, tables, look_named("chalk"))
    gathering = least_ms(lambda: gather(episode, findings, tables, look_named("chalk")), 3)
    print(f"{'gathering':<12} {gathering:8.0f} ms   every picture composed, everything timed")
    items = ITEMS if "with_clips" in arguments else tuple(item for item in ITEMS if item != "clips")
    parts = {item: _made_ms(material, (item,)) for item in items}
    for item, took in parts.items():
        print(f"{item:<12} {took:8.0f} ms")
    whole, largest = _made_ms(material, items), max(parts.values())
    print(f"{'whole':<12} {whole:8.0f} ms   {whole / largest:.2f} x its largest part")
    bare = replace(material, scenes={})
    with_, without = least_ms(lambda: brief(material), 3), least_ms(lambda: brief(bare), 3)
    print(f"{'brief':<12} {with_:8.0f} ms   {with_ / without:.2f} x the same without pictures ({without:.0f} ms)")


def _made_ms(material: Material, items: tuple[str, ...]) -> float:
    with tempfile.TemporaryDirectory() as folder:
        start = time.perf_counter()
        for _ in make(material, Path(folder), items):
            pass
        return (time.perf_counter() - start) * 1000


if __name__ == "__main__":
    main(sys.argv[1:])
