"""What drawing a clip's frames costs, against encoding them once they are finished, in the same run.

    python -m tests.benchmarks.bench_clips [WIDTHxHEIGHT]

Aims: a clip of five seconds takes at most 1.5 times as long as encoding its finished frames; a moving frame is painted
within 16 ms. The clip is each picture's own, its holds cut to a third of a second, so that most of it moves; the least
of several runs counts.
"""

import sys
import time
from io import BytesIO
from itertools import islice

from msgspec.structs import replace

from studio.graphics.backdrop import on_background
from studio.graphics.frame import read_frame
from studio.graphics.look import look_named
from studio.graphics.motion import Clip, StepTimes
from studio.graphics.moving.clips import clip_of
from studio.graphics.paint.clip import ClipPainter, spans
from studio.graphics.paint.video import CODECS, Encoder
from studio.model.rate import RATES
from tests.benchmarks.bench_pictures import makers

RATE = "30000/1001"
SECONDS, HOLD, RUNS = 5, 10, 3
IDS = ("rotation", "depth_compare", "axle_match", "sizes_beside")


def restless(clip: Clip) -> Clip:
    """The clip with every hold cut to ``HOLD`` frames."""
    steps, moved, at = [], [], clip.opening
    for order, times in enumerate(clip.steps):
        by = at - times.start
        moved += [replace(movement, start=movement.start + by) for movement in clip.movements_of(order)]
        steps.append(StepTimes(at, times.still + by, times.still + by + HOLD))
        at = steps[-1].end
    return replace(clip, steps=tuple(steps), movements=tuple(moved))


def encoded(clip: Clip, movie: str) -> tuple[float, float, int]:
    """Seconds for painting and for encoding the first five seconds, and how many frames those were."""
    most = round(SECONDS * RATES[RATE])
    encoder = Encoder(clip, CODECS[movie], BytesIO(), "#F5F2EB")
    painting, coding, done, drawn = 0.0, 0.0, 0, spans(clip)
    while done < most:
        start = time.perf_counter()
        span = next(drawn, None)
        middle = time.perf_counter()
        if span is None:
            break
        done += sum(1 for _ in islice(encoder.add(span.pixels, span.frames), most - done))
        painting, coding = painting + middle - start, coding + time.perf_counter() - middle
    start = time.perf_counter()
    encoder.finish()
    return painting, coding + time.perf_counter() - start, done


def moving_ms(clip: Clip) -> list[float]:
    """What each moving frame takes to be painted for the screen, in ms of this thread; steps are made ready before."""
    painter, found = ClipPainter(clip), []
    for step, times in enumerate(clip.steps):
        painter.prepare(step)
        for frame in range(times.start, times.still):
            start = time.thread_time()
            painter.image(frame)
            found.append((time.thread_time() - start) * 1000)
    return sorted(found)


def main() -> None:
    frame, look = read_frame(sys.argv[1] if len(sys.argv) > 1 else "wide"), look_named("chalk")
    print(f"{frame.width} x {frame.height}, {SECONDS} s at {RATE}, least of {RUNS}; ratio of all to encoding alone")
    print(f"{'picture':<16}{'ground':<7}" + "".join(f"{movie + ', s':>12}{'ratio':>7}" for movie in CODECS)
          + f"{'a frame: half':>15}{'99 %':>7}{'most, ms':>10}")  # fmt: skip
    for id_, make in makers(frame):
        for ground in ("look", "clear") if id_ in IDS else ():
            clip = restless(clip_of(on_background(make(), look, None if ground == "clear" else look.ground), RATE))
            line = f"{id_:<16}{ground:<7}"
            for movie in CODECS:
                if movie == "mp4" and ground == "clear":
                    line += " " * 19
                    continue
                painting, coding, _ = min((encoded(clip, movie) for _ in range(RUNS)), key=lambda run: run[0] + run[1])
                line += f"{painting + coding:>12.2f}{(painting + coding) / coding:>7.2f}"
            times = moving_ms(clip)
            print(f"{line}{times[len(times) // 2]:>15.1f}{times[int(0.99 * len(times))]:>7.1f}{times[-1]:>10.1f}")


if __name__ == "__main__":
    main()
