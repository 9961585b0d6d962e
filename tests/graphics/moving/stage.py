"""Small pictures for clips: a drawing, a note with its leader, a number; a car with a move; worn tread; two tires."""

from studio.graphics.draw import circle, polyline, rectangle
from studio.graphics.frame import Frame
from studio.graphics.look import look_named
from studio.graphics.moving.cues import Clock
from studio.graphics.parts.arrows import Curve, arrow
from studio.graphics.parts.groove_section import TreadPiece, tread_piece
from studio.graphics.parts.tread_above import TreadView, tire_above
from studio.graphics.scene import AnyMark, Role, Scene, Shape, Stroke, Text

FRAME = Frame(320, 180)
LOOK = look_named("chalk")
CLOCK = Clock("30000/1001")
ACROSS: Curve = ((60.0, 60.0), (60.0, 100.0), (240.0, 80.0), (240.0, 120.0))


def text(name: str, words: str, at: tuple[float, float], step: int = 0, role: Role = "callout") -> Text:
    return Text(name=name, step=step, text=words, at=at, cap_height=10.0, fill=LOOK.ink, ground=LOOK.ground, role=role)


def scene(picture: str, *marks: AnyMark, clear: bool = False) -> Scene:
    steps = tuple(f"step {order}" for order in range(1 + max(mark.step for mark in marks)))
    return Scene(picture=picture, frame=FRAME, background=None if clear else LOOK.ground, marks=marks, steps=steps)


def noted(clear: bool = False) -> Scene:
    """A disc, its note with leader and dot, and the deciding number; a plate stands above all of it."""
    line = Stroke(LOOK.measure, 2.0)
    return scene(
        "any",
        Shape(name="disc", outline=circle((80.0, 90.0), 50.0), fill=LOOK.rubber),
        text("sentence/line0", "Worn", (10.0, 20.0), role="heading"),
        text("note/line0a", "5 mm", (220.0, 60.0), step=1),
        Shape(name="note/leader", step=1, outline=polyline(((210.0, 55.0), (190.0, 55.0), (110.0, 90.0))), stroke=line),
        Shape(name="note/dot", step=1, outline=circle((110.0, 90.0), 4.0), fill=LOOK.measure),
        text("number/line0a", "2", (220.0, 120.0), step=2, role="deciding"),
        text("number/line0b", "mm", (240.0, 120.0), step=2),
        text("number/line1a", "of tread", (220.0, 140.0), step=2),
        Shape(name="frame/line", outline=rectangle(150, 30, 40, 80), stroke=Stroke(LOOK.ink, 1.0)),
        clear=clear,
    )  # fmt: skip


def rotated(dashed: bool = False) -> Scene:
    """Two tires from above and the way of one to the other's place."""
    tires: list[AnyMark] = []
    for place, at in (("front_left", (60.0, 40.0)), ("rear_right", (240.0, 140.0))):
        tires += tire_above(_view(), at, 16.0, 36.0, LOOK, f"tires/{place}")
    move = arrow("moves/front_left to rear_right", ACROSS, LOOK.measure, 3.0, dashed=dashed, step=1)
    return scene("rotation", *tires, *move, text("front_left/to", "to rear right", (80.0, 40.0), step=1))


def worn() -> Scene:
    """A tread cut through, 8 mm when new and 3 mm now."""
    piece = TreadPiece(left=100.0, right=200.0, floor=150.0, scale=12.0, depth_mm=3.0, grooves=(150.0,), groove=40.0,
                       base_mm=2.0, bar_mm=1.6, new_mm=8.0)  # fmt: skip
    number = text("one/depth", "3", (120.0, 40.0), role="deciding")
    return scene("depth_compare", *tread_piece(piece, LOOK, "one/tread"), number)


def beside(small: float = 30.0, large: float = 40.0) -> Scene:
    """Two tires on one road, with their shadows."""
    marks: list[AnyMark] = []
    for name, x, radius in (("small", 150.0, small), ("large", 260.0, large)):
        center = (x, 150.0 - radius)
        marks += [
            Shape(name=f"{name}/shadow/layer 1", outline=circle((x, 150.0), 8.0), fill="#00000040"),
            Shape(name=f"{name}/tire/tread", outline=circle(center, radius), fill=LOOK.rubber),
            Shape(name=f"{name}/tire/wheel", outline=rectangle(x - 4, center[1] - 4, 20, 8), fill=LOOK.steel),
        ]
    return scene("sizes_beside", *marks, text("note", "larger", (20.0, 40.0), step=1))


def _view() -> TreadView:
    return TreadView(finest=4.0)
