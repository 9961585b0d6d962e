"""Which tire goes where when some of four are new: alike across an axle first, the deeper pair to the rear, few moves.

Common practice, no source: a match across an axle comes before a match between axles, and two new or deeper tires go on
the rear axle.
"""

import itertools
from collections.abc import Mapping

from studio.tires.rotation import FRONT, REAR

_PLACES = (*FRONT, *REAR)


def arrange(
    depths: Mapping[str, float], may_stand: Mapping[str, tuple[str, ...]], now: Mapping[str, str], step: float
) -> dict[str, str] | None:
    """The place of each of four tires, by name; every arrangement is tried. None where the tires may not fill all four.

    ``may_stand`` are the places that each may take, ``now`` where those stand that are on the car. Depths closer than
    ``step`` count as equal, so that no wheel is moved for what no gauge can tell; of what is left the closest match.
    """
    names, deep = tuple(depths), tuple(depths.values())
    may = [tuple(place in may_stand[name] for place in _PLACES) for name in names]
    here = [_PLACES.index(now[name]) if name in now else -1 for name in names]
    best, least = None, None
    for order in itertools.permutations(range(4)):  # order[place] is the tire that goes there
        if not all(may[tire][place] for place, tire in enumerate(order)):
            continue
        fl, fr, rl, rr = (deep[tire] for tire in order)
        (less, apart), front_deeper = sorted((abs(fl - fr), abs(rl - rr))), max(0.0, (fl + fr - rl - rr) / 2)
        moved = sum(1 for place, tire in enumerate(order) if here[tire] not in (-1, place))
        key = (round(apart / step), round(front_deeper / step), moved, round(apart, 9), round(less, 9))
        if least is None or key < least:
            best, least = {names[tire]: _PLACES[place] for place, tire in enumerate(order)}, key
    return best


def axle_difference(at: Mapping[str, float]) -> float:
    """The larger of the differences of depth across the two axles."""
    return max(abs(at[left] - at[right]) for left, right in (FRONT, REAR))
