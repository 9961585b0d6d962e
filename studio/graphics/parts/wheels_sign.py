"""Which wheels are meant: a small car from above with one axle or both picked out, or a spare wheel alone."""

from studio.graphics.color import mix
from studio.graphics.draw import circle, rectangle
from studio.graphics.look import Look
from studio.graphics.scene import Outline, Point, Shape, Stroke

_HIGH = 1.75  # the little car is this many times longer than it is wide


def wheels_sign(
    name: str, wheels: tuple[str, ...], at: Point, long: float, look: Look, step: int = 0
) -> tuple[Shape, ...]:  # fmt: skip
    """``wheels`` are front, rear or both of them, or spare; ``at`` is the middle of its left side, ``long`` its width.

    It stands on the look's plate; the front is at the left.
    """
    if wheels == ("spare",):
        return (_spare(name, at, long, look, step),)
    (x, y), high = at, long / _HIGH
    body = rectangle(x, y - 0.36 * high, long, 0.72 * high, 0.26 * high)
    glass = rectangle(x + 0.30 * long, y - 0.27 * high, 0.09 * long, 0.54 * high, 0.03 * long)
    chosen, others = _wheels(wheels, x, y, long)
    pale = mix(look.plate, look.quiet, 0.5)
    found = [
        Shape(name=f"{name}/car", step=step, outline=body, fill=mix(look.plate, look.quiet, 0.14),
              stroke=Stroke(look.quiet, long / 34)),
        Shape(name=f"{name}/windshield", step=step, outline=glass, fill=pale),
    ]  # fmt: skip
    if others:
        found.append(Shape(name=f"{name}/other wheels", step=step, outline=others, fill=pale))
    found.append(Shape(name=f"{name}/wheels", step=step, outline=chosen, fill=look.ink))
    return tuple(found)


def _spare(name: str, at: Point, long: float, look: Look, step: int) -> Shape:
    center, radius = (at[0] + long / 2, at[1]), 0.30 * long
    tire = circle(center, radius) + circle(center, 0.58 * radius, clockwise=False)
    return Shape(name=f"{name}/spare", step=step, outline=tire + circle(center, 0.16 * radius), fill=look.ink)


def _wheels(wheels: tuple[str, ...], x: float, y: float, long: float) -> tuple[Outline, Outline]:
    high = long / _HIGH
    chosen: Outline = ()
    others: Outline = ()
    for axle, along in (("front", 0.20), ("rear", 0.78)):
        pair: Outline = ()
        for side in (-1, 1):
            top = y + side * 0.40 * high - 0.12 * high
            pair += rectangle(x + along * long - 0.10 * long, top, 0.20 * long, 0.24 * high, 0.05 * high)
        chosen, others = (chosen + pair, others) if axle in wheels else (chosen, others + pair)
    return chosen, others
