"""No two leaders cross: of all ways to join two rows of points the shortest has no crossing (triangle inequality)."""

import math
from itertools import combinations, permutations

from hypothesis import given
from hypothesis import strategies as st

from studio.graphics.layout.untangle import crosses, untangle

POINT = st.tuples(st.integers(0, 300), st.integers(0, 300))
ENDS = st.lists(POINT, min_size=1, max_size=5, unique=True)


def starts(count: int) -> list[tuple[float, float]]:
    return [(400.0, 60.0 * order) for order in range(count)]


@given(ENDS)
def test_joined_lines_do_not_cross(ends):
    order = untangle(starts(len(ends)), ends)
    lines = [(start, ends[index]) for start, index in zip(starts(len(ends)), order, strict=True)]
    assert not any(crosses(*one, *other) for one, other in combinations(lines, 2))


@given(ENDS)
def test_every_end_is_used_once(ends):
    assert sorted(untangle(starts(len(ends)), ends)) == list(range(len(ends)))


@given(st.lists(POINT, min_size=2, max_size=4, unique=True))
def test_no_exchange_of_two_makes_it_shorter(ends):
    found = untangle(starts(len(ends)), ends)

    def total(order):
        return sum(math.dist(s, ends[index]) for s, index in zip(starts(len(ends)), order, strict=True))

    best = min(total(order) for order in permutations(range(len(ends))))
    swapped = []
    for i, j in combinations(range(len(found)), 2):
        other = list(found)
        other[i], other[j] = other[j], other[i]
        swapped.append(total(other))
    assert total(found) >= best - 1e-6 and all(total(found) <= length + 1e-6 for length in swapped)


def test_crossing_is_told_from_touching():
    assert crosses((0, 0), (2, 2), (0, 2), (2, 0))
    assert not crosses((0, 0), (2, 2), (2, 2), (4, 0)), "lines that share an end do not cross"
    assert not crosses((0, 0), (1, 0), (0, 1), (1, 1))
