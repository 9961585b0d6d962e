"""The car from above as a quiet outline, its tires in their places, and the word that says where the front is."""

from studio.graphics.color import contrast, faded, mix
from studio.graphics.draw import polyline, rectangle
from studio.graphics.frame import Frame
from studio.graphics.look import Look
from studio.graphics.parts.car_body import Body
from studio.graphics.parts.car_plan import PlacedCar
from studio.graphics.parts.tread_above import tire_above
from studio.graphics.scene import Command, Outline, Shape, Stroke, Text

_PALE = 6.0  # a body this far from the glass's black is pale; its glass needs less of it
_HOUSE_MM = (22.0, 55.0)  # how far a wheel house reaches beyond its tire, across and along the car


def car_above(car: PlacedCar, frame: Frame, look: Look, step: int = 0) -> tuple[Shape | Text, ...]:
    """Shadow, body, glass, fine lines, the word that says where the front is, and the tires."""
    body = Body(car)
    fine = max(1.0, frame.short / 540)
    pen = Stroke(mix(look.car, look.ink, 0.45), fine)
    edge = Stroke(pen.color, 1.6 * fine)
    glass = mix(look.car, look.groove, 0.20 if contrast(look.car, look.groove) > _PALE else 0.45)
    marks: list[Shape | Text] = [
        *_shadow(body, look, step),
        Shape(name="car/mirrors", step=step, outline=body.mirrors(), fill=mix(look.car, look.ink, 0.08), stroke=pen),
        Shape(name="car/body", step=step, outline=body.skin(), fill=body.light(look), stroke=edge),
        Shape(name="car/lamps", step=step, outline=body.lamps(), fill=mix(look.car, look.plate, 0.55), stroke=pen),
        Shape(name="car/glass", step=step, outline=body.glass(), fill=glass),
        Shape(name="car/lines", step=step, outline=body.lines(), stroke=pen),
        *_front(car, frame, look, step),
    ]
    return (*marks, *_tires(car, look, step))


def _tires(car: PlacedCar, look: Look, step: int) -> tuple[Shape, ...]:
    """The tires; those on the car stand in dark wheel houses, or a tire would be lost on a dark body."""
    marks: list[Shape] = [Shape(name="car/wheel houses", step=step, outline=_houses(car), fill=look.groove)]
    for tire in car.plan.tires:
        center = car.at(*car.plan.center_mm(tire))
        marks += tire_above(
            tire.view, center, tire.width_mm * car.scale, tire.diameter_mm * car.scale, look, f"tires/{tire.place}",
            turn="across" if tire.place == "spare" else "up", step=step,
        )  # fmt: skip
    return tuple(marks)


def _houses(car: PlacedCar) -> Outline:
    commands: list[Command] = []
    across, along = _HOUSE_MM[0] * car.scale, _HOUSE_MM[1] * car.scale
    for tire in car.plan.tires:
        box = car.tire(tire.place)
        if box is not None and tire.place != "spare":
            commands += rectangle(box.left - across, box.top - along, box.width + 2 * across, box.height + 2 * along,
                                  0.4 * box.width)  # fmt: skip
    return tuple(commands)


def _front(car: PlacedCar, frame: Frame, look: Look, step: int) -> tuple[Shape | Text, ...]:
    """An arrow and the word on the hood: the front is up."""
    cap = min(frame.cap_height("small"), car.body.width / 7)
    cap = max(cap, frame.cap_height("incidental"))
    x, top = car.at(0.0, car.plan.nose)
    cowl = car.at(0.0, Body(car).cowl)[1]
    reach = cap * 0.62
    tip = top + max(0.16 * (cowl - top), 0.6 * cap)
    arrow = polyline(((x - reach, tip + reach), (x, tip), (x + reach, tip + reach)))
    base = tip + reach + cap * 1.55
    return (
        Shape(name="front/arrow", step=step, outline=arrow, stroke=Stroke(look.ink, max(frame.short / 270, cap / 7))),
        Text(name="front/word", step=step, text="front", at=(x, base), cap_height=cap, weight="semibold", fill=look.ink,
             ground=look.car, role="small" if cap >= frame.cap_height("small") else "incidental", anchor="middle"),
    )  # fmt: skip


def _shadow(body: "Body", look: Look, step: int) -> list[Shape]:
    """One soft shadow on the ground, towards the lower right."""
    marks = []
    for order, (grow, alpha) in enumerate(((120.0, 0.05), (75.0, 0.07), (35.0, 0.09))):
        outline = body.skin(grow, (40.0, 55.0))
        marks.append(Shape(name=f"car/shadow{order}", step=step, outline=outline, fill=faded(look.shadow, alpha)))
    return marks
