"""How long a picture takes from findings to file, against the fastest encoding of its own pixels in the same run.

    python -m tests.benchmarks.bench_pictures [WIDTHxHEIGHT]

Aims: PNG at most 15 times that floor, SVG at most a tenth of the PNG. The least of several runs counts: on a shared
machine the others tell how busy it was.
"""

import sys
import time
from collections.abc import Callable, Iterator

from isal import isal_zlib
from PySide6.QtGui import QImage

from studio import shipped
from studio.decide import decide
from studio.graphics.backdrop import on_background
from studio.graphics.catalogue import CannotShow, catalogue, scene_of
from studio.graphics.frame import Frame, read_frame
from studio.graphics.look import look_named
from studio.graphics.paint.pdf import pdf
from studio.graphics.paint.raster import image, png
from studio.graphics.paint.svg import svg
from studio.graphics.scene import Scene
from studio.model.episode import Episode
from studio.model.finding import Findings
from studio.reference.tables import load_tables
from studio.storage.episode_file import decode

RUNS = 7
DEMO = "minivan_one_new_tire"


def least_ms(work: Callable[[], object], runs: int = RUNS) -> float:
    """The least time of several runs, in ms; a first one warms the caches of fonts and glyphs."""
    work()
    times = []
    for _ in range(runs):
        start = time.perf_counter()
        work()
        times.append(time.perf_counter() - start)
    return min(times) * 1000


def floor_ms(scene: Scene) -> float:
    """The fastest encoding of the picture's own buffer: deflate at its fastest, nothing else."""
    straight = image(scene).convertToFormat(QImage.Format.Format_RGBA8888)
    buffer = bytes(straight.constBits())
    return min(least_ms(lambda level=level: isal_zlib.compress(buffer, level)) for level in (0, 1))  # type: ignore[misc]


def makers(frame: Frame) -> Iterator[tuple[str, Callable[[], Scene]]]:
    """Each picture that can be shown, from findings on."""
    episode = decode((shipped.demos() / f"{DEMO}.json").read_bytes())
    findings, look = decide(episode, load_tables()), look_named(episode.look)

    def maker(id_: str, episode: Episode, findings: Findings) -> Callable[[], Scene]:
        return lambda: scene_of(episode, findings, id_, frame, look)

    ids = tuple(catalogue())
    for id_ in ids:
        try:
            scene_of(episode, findings, id_, frame, look)
        except CannotShow as reason:
            print(f"{id_}: {reason}")
            continue
        yield id_, maker(id_, episode, findings)
        if id_ == ids[0]:
            yield f"{id_}, clear", lambda id_=id_: on_background(maker(id_, episode, findings)(), look, None)  # type: ignore[misc]


def main() -> None:
    frame = read_frame(sys.argv[1] if len(sys.argv) > 1 else "wide")
    print(f"{frame.width} x {frame.height}; ms, least of {RUNS}; ratio to the fastest encoding of the own buffer")
    print(f"{'picture':<22}{'compose':>9}{'PNG':>9}{'floor':>8}{'ratio':>7}{'SVG':>8}{'/PNG':>7}{'PDF':>8}{'KB':>7}")
    for name, make in makers(frame):
        scene = make()
        compose, whole = least_ms(make), least_ms(lambda make=make: png(make()))  # type: ignore[misc]
        floor, text = floor_ms(scene), least_ms(lambda scene=scene: svg(scene))  # type: ignore[misc]
        print_ = least_ms(lambda scene=scene: pdf([scene]), 3)  # type: ignore[misc]
        size = len(png(scene)) / 1024
        print(
            f"{name:<22}{compose:>9.1f}{whole:>9.1f}{floor:>8.2f}{whole / floor:>7.1f}{text:>8.2f}"
            f"{text / whole:>7.2f}{print_:>8.1f}{size:>7.0f}"
        )


if __name__ == "__main__":
    main()
