"""Which note goes where, so that no two leaders cross.

Of all ways to join two rows of points one to one by straight lines, the shortest has no crossing: exchanging two
crossing lines always shortens the sum (the triangle inequality). So exchange until nothing gets shorter.
"""

import math
from collections.abc import Sequence

from studio.graphics.scene import Point


def untangle(starts: Sequence[Point], ends: Sequence[Point]) -> tuple[int, ...]:
    """For each start the index of the end that it is joined to. The rows are of one length."""
    order = sorted(range(len(ends)), key=lambda index: (ends[index][1], ends[index][0]))
    better = True
    while better:
        better = False
        for i in range(len(order)):
            for j in range(i + 1, len(order)):
                now = math.dist(starts[i], ends[order[i]]) + math.dist(starts[j], ends[order[j]])
                then = math.dist(starts[i], ends[order[j]]) + math.dist(starts[j], ends[order[i]])
                if then < now - 1e-9:
                    order[i], order[j] = order[j], order[i]
                    better = True
    return tuple(order)


def crosses(a: Point, b: Point, c: Point, d: Point) -> bool:
    """Whether the segments a-b and c-d cross properly."""

    def side(p: Point, q: Point, r: Point) -> float:
        return (q[0] - p[0]) * (r[1] - p[1]) - (q[1] - p[1]) * (r[0] - p[0])

    return side(a, b, c) * side(a, b, d) < 0 and side(c, d, a) * side(c, d, b) < 0
