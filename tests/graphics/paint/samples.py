"""Small scenes that use everything a scene can hold, and pixels as plain numbers."""

import io

from PIL import Image
from PySide6.QtGui import QImage

from studio.graphics import draw
from studio.graphics.frame import Frame
from studio.graphics.scene import ArcText, Linear, Radial, Scene, Shape, Stroke, Text

INK, PAPER, RED = "#1A1D21", "#F5F2EB", "#D02020"
FRAME = Frame(480, 270)


def scene(*marks: Shape | Text | ArcText, background: str | None = PAPER, frame: Frame = FRAME) -> Scene:
    return Scene(picture="sample", frame=frame, background=background, marks=marks, title="A <sample> & more")


def square(left: float, top: float, side: float, **how: object) -> Shape:
    return Shape(name=str(how.pop("name", "square")), outline=draw.rectangle(left, top, side, side), **how)  # type: ignore[arg-type]


def line(text: str, **how: object) -> Text:
    values = {"name": "line", "at": (40.0, 150.0), "cap_height": 30.0, "fill": INK, "ground": PAPER, "role": "callout"}
    return Text(text=text, **{**values, **how})  # type: ignore[arg-type]


def along(text: str, **how: object) -> ArcText:
    values = {
        "name": "arc", "center": (240.0, 135.0), "radius": 90.0, "angle": 0.0, "cap_height": 20.0, "fill": INK,
        "ground": PAPER,
    }  # fmt: skip
    return ArcText(text=text, **{**values, **how})  # type: ignore[arg-type]


def everything(background: str | None = PAPER) -> Scene:
    """All kinds of marks, paints and strokes, in three steps that return to the first one."""
    fading = Radial((110, 140), 100, ((0, "#203040FF"), (0.6, "#20304080"), (1, "#20304000")))
    across = Linear((20, 0), (200, 0), ((0, "#8E9AA6"), (1, "#D5DBE1")))
    marks = (
        Shape(name="tire/shadow", outline=draw.ellipse((110, 230), 90, 14), fill=fading),
        Shape(name="tire/ring", outline=draw.ring((110, 140), 90, 50), fill=across, stroke=Stroke(INK, 2)),
        Shape(name="water", outline=draw.rectangle(20, 180, 180, 60), fill="#7FB2D699",
              clip=draw.circle((110, 140), 90)),
        along("225/45R17", name="tire/marking", center=(110.0, 140.0), radius=62.0, cap_height=14.0, step=1),
        along("2 PLIES", name="tire/plies", center=(110.0, 140.0), radius=74.0, cap_height=10.0, angle=180.0,
              inward=True, spacing=0.1, step=1),
        Shape(name="frame", outline=draw.rectangle(230, 20, 60, 60) + draw.rectangle(245, 35, 30, 30), fill=RED,
              even_odd=True, stroke=Stroke(INK, 3, cap="flat")),
        Shape(name="callouts/leader", outline=draw.polyline(((180, 100), (250, 100), (300, 130))),
              stroke=Stroke("#00558C", 3, dash=(9, 6)), step=2),
        line("Depth 5/32 in", name="callouts/depth", at=(300.0, 140.0), cap_height=16.0, step=2),
        line("4.0 mm ⌀ & <1>", name="callouts/metric", at=(460.0, 180.0), cap_height=14.0, anchor="end", step=2),
        line("plain words", name="small", at=(350.0, 240.0), cap_height=12.0, anchor="middle", weight="bold",
             halo="#FFFFFF"),
    )  # fmt: skip
    whole = scene(*marks, background=background)
    return Scene(
        picture="everything", frame=whole.frame, background=background, marks=marks, steps=("tire", "code", "depth"),
        title="Everything", alternative="A tire with its code", findings=("tread_left.front_left",),
    )  # fmt: skip


def pixels(image: QImage) -> Image.Image:
    """The pixels that Qt holds, in straight RGBA."""
    straight = image.convertToFormat(QImage.Format.Format_RGBA8888)
    size = (straight.width(), straight.height())
    return Image.frombytes("RGBA", size, bytes(straight.constBits()), "raw", "RGBA", straight.bytesPerLine())


def decoded(png: bytes) -> Image.Image:
    """A PNG as an independent reader sees it."""
    opened = Image.open(io.BytesIO(png), formats=["PNG"])
    opened.load()
    return opened
