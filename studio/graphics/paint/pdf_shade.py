"""Gradients on a reportlab canvas, with stops that may be transparent (ISO 32000-1, 8.7.4 and 11.5: a soft mask)."""

from itertools import pairwise
from typing import Any

from reportlab.pdfbase import pdfdoc
from reportlab.pdfgen.canvas import Canvas

from studio.graphics.color import rgba
from studio.graphics.draw import bounds
from studio.graphics.scene import Linear, Outline, Radial

Stops = list[tuple[float, tuple[float, ...]]]


def shade(canvas: Any, fill: Linear | Radial, outline: Outline) -> None:
    """Spread a gradient over the canvas' clip, which ``outline`` bounds; the caller fences the state."""
    stops = sorted(fill.stops, key=lambda stop: stop[0])
    colors: Stops = [(at, tuple(value / 255 for value in rgba(color)[:3])) for at, color in stops]
    alphas: Stops = [(at, (rgba(color)[3] / 255,)) for at, color in stops]
    if any(alpha[0] < 1 for _, alpha in alphas):
        _mask(canvas, _shading(fill, alphas, "DeviceGray"), outline)
    canvas.shade(_shading(fill, colors, "DeviceRGB"))


def _shading(fill: Linear | Radial, stops: Stops, space: str) -> Any:
    function, extend = _function(stops), "[true true]"
    if isinstance(fill, Linear):
        ends = (*fill.start, *fill.end)
        return pdfdoc.PDFAxialShading(*ends, Function=function, ColorSpace=space, Extend=extend)
    x, y = fill.center
    return pdfdoc.PDFRadialShading(x, y, 0, x, y, fill.radius, Function=function, ColorSpace=space, Extend=extend)


def _function(stops: Stops) -> Any:
    """The stops as one function of 0..1, constant before the first and after the last."""
    inside = [(min(1.0, max(0.0, at)), value) for at, value in stops]
    whole = [(0.0, inside[0][1]), *inside, (1.0, inside[-1][1])]
    pieces = [(a, b) for a, b in pairwise(whole) if b[0] > a[0]]
    functions = [pdfdoc.PDFExponentialFunction(N=1, C0=a[1], C1=b[1]) for a, b in pieces]
    encode = [0.0, 1.0] * len(pieces)
    return pdfdoc.PDFStitchingFunction(functions, [a[0] for a, _ in pieces[1:]], encode, Domain="[0 1]")


def _mask(canvas: Canvas, shading: Any, outline: Outline) -> None:
    """Let what is drawn next show only as far as the grey of ``shading`` says."""
    document: Any = canvas._doc  # type: ignore[attr-defined]
    document.ensureMinPdfVersion("transparency")
    group = pdfdoc.PDFStream(content="/S sh")
    group.dictionary = pdfdoc.PDFDictionary({
        "Type": pdfdoc.PDFName("XObject"), "Subtype": pdfdoc.PDFName("Form"),
        "BBox": pdfdoc.PDFArrayCompact([round(value, 2) for value in bounds(outline)]),
        "Group": pdfdoc.PDFDictionary({"S": pdfdoc.PDFName("Transparency"), "CS": pdfdoc.PDFName("DeviceGray")}),
        "Resources": pdfdoc.PDFDictionary({"Shading": pdfdoc.PDFDictionary({"S": document.Reference(shading)})}),
    })  # fmt: skip
    mask = pdfdoc.PDFDictionary({
        "Type": pdfdoc.PDFName("Mask"), "S": pdfdoc.PDFName("Luminosity"), "G": document.Reference(group),
    })  # fmt: skip
    states: dict[tuple[str, Any], str] = canvas._extgstate._c  # type: ignore[attr-defined]
    name = states.setdefault(("SMask", mask), f"gRLs{len(states)}")  # reportlab's own way of naming a state
    canvas._code.append(f"/{name} gs")  # type: ignore[attr-defined]
