"""The hand that writes SVG: text stays text, parts are grouped by step and meaning, every id is a mark's name.

Follows the W3C's Scalable Vector Graphics 1.1 but for ``paint-order`` (SVG 2), which draws a halo behind its letters;
the outlined variant needs neither that nor a font.
"""

import re
from base64 import b64encode
from collections.abc import Iterable, Iterator
from itertools import groupby
from xml.sax.saxutils import escape, quoteattr

from studio.graphics.color import rgba
from studio.graphics.face import Face
from studio.graphics.layout.text import (
    FAMILIES,
    files_of,
    font_path,
    font_size,
    is_own,
    scale_of,
    shape,
    typeset,
    visible,
)
from studio.graphics.paint.glyphs import HALO_STROKES, arc_outline, text_outline
from studio.graphics.scene import AnyMark, ArcText, Image, Linear, Outline, Paint, Radial, Scene, Shape, Stroke, Text

FONT_FOLDER = "fonts"
_FAMILY = "Inter, 'DejaVu Sans', sans-serif"
_FACES = {
    "Inter-Regular.ttf": ("Inter", 400), "Inter-SemiBold.ttf": ("Inter", 600), "Inter-Bold.ttf": ("Inter", 700),
    "DejaVuSans.ttf": ("DejaVu Sans", 400), "DejaVuSans-Bold.ttf": ("DejaVu Sans", 700),
}  # fmt: skip
_FEATURES = '"kern","calt" 0,"liga" 0'  # those with which the text was measured
_COMMANDS = {"M": "M%.2f %.2f", "L": "L%.2f %.2f", "C": "C%.2f %.2f %.2f %.2f %.2f %.2f", "Z": "Z"}
_SPARE_ZEROS = re.compile(r"\.00(?!\d)|(?<=\.\d)0(?!\d)")
_NOT_XML = re.compile("[^\t\n\r\x20-\ud7ff\ue000-\ufffd\U00010000-\U0010ffff]")
_NOT_ID = re.compile(r"[^A-Za-z0-9_.]+")


def svg(scene: Scene, outlined: bool = False) -> str:
    """The scene as an SVG document; ``outlined`` turns its text into outlines, which need no font."""
    return _Page(outlined).document(scene)


def font_files(scene: Scene) -> tuple[str, ...]:
    """The font files that the scene's text needs beside its SVG, in a fixed order; ``font_name`` is theirs there."""
    used = {glyph.font for mark in scene.texts for glyph in shape(mark.text, mark.weight, mark.face)}
    return (*(file for file in _FACES if file in used), *sorted(file for file in used if is_own(file)))


def font_name(file: str) -> str:
    """The name of a font file beside the SVG."""
    return f"channel_{_NOT_ID.sub('_', font_path(file).name)}" if is_own(file) else file


class _Page:
    """One document while it is written: its ids so far, and what its definitions hold."""

    def __init__(self, outlined: bool) -> None:
        self.outlined = outlined
        self.ids = {"title", "about", "background"}
        self.defined: dict[str, str] = {}  # a definition with a blank for its id: the id

    def document(self, scene: Scene) -> str:
        width, height = scene.frame.width, scene.frame.height
        body = "\n".join(self.groups(scene))
        lines = [
            f'<svg xmlns="http://www.w3.org/2000/svg" width="{width}" height="{height}" '
            f'viewBox="0 0 {width} {height}" xml:space="preserve" role="img" aria-labelledby="title about">',
            f'<title id="title">{escape(visible(scene.title or scene.picture))}</title>',
            f'<desc id="about">{escape(visible(scene.alternative))}</desc>',
            *([] if self.outlined or not scene.texts else [_style(scene)]),
            *(["<defs>", *(text % id_ for text, id_ in self.defined.items()), "</defs>"] if self.defined else []),
        ]
        if scene.background is not None:
            paint = _color("fill", scene.background)
            lines.append(f'<rect id="background" width="{width}" height="{height}"{paint}/>')
        return "\n".join((*lines, body, "</svg>")) + "\n"

    def groups(self, scene: Scene) -> Iterator[str]:
        """Marks in painting order; neighbours of one step stand in one group, and in it those of one whole."""
        for step, of_step in groupby(scene.marks, key=lambda mark: mark.step):
            label = scene.steps[step] if 0 <= step < len(scene.steps) else ""
            yield f'<g id="{self.id(f"step-{step}")}" data-step={quoteattr(visible(label))}>'
            for whole, marks in groupby(of_step, key=lambda mark: mark.name.partition("/")[0]):
                yield f'<g id="{self.id(f"step-{step}-{whole}")}">'
                yield from (self.mark(mark) for mark in marks)
                yield "</g>"
            yield "</g>"

    def id(self, name: str) -> str:
        """An id made of a name: legal in XML and in a web address, and not given before."""
        wanted = _NOT_ID.sub("-", name).strip("-.") or "mark"
        wanted = wanted if wanted[0].isalpha() or wanted[0] == "_" else f"mark-{wanted}"
        given, count = wanted, 1
        while given in self.ids:
            count += 1
            given = f"{wanted}-{count}"
        self.ids.add(given)
        return given

    def define(self, kind: str, text: str) -> str:
        """The reference to a definition; equal ones are written once."""
        if text not in self.defined:
            self.defined[text] = self.id(kind)
        return f"url(#{self.defined[text]})"

    def mark(self, mark: AnyMark) -> str:
        id_ = self.id(mark.name)
        if isinstance(mark, Shape):
            return self.shape(id_, mark)
        if isinstance(mark, ArcText):
            return _outlined(id_, mark.text, arc_outline(mark), mark.fill)
        if isinstance(mark, Image):
            return _image(id_, mark)
        if self.outlined:
            halos = [_halo(mark, share) for share in HALO_STROKES] if mark.halo else []
            return _outlined(id_, mark.text, text_outline(mark), mark.fill, halos)
        return _text(id_, mark)

    def shape(self, id_: str, mark: Shape) -> str:
        rule = ' fill-rule="evenodd"' if mark.even_odd and mark.fill is not None else ""
        clip = "" if mark.clip is None else f' clip-path="{self.clip(mark.clip)}"'
        stroke = _stroke(mark.stroke) if mark.stroke and mark.stroke.width > 0 else ""
        return f'<path id="{id_}" d="{path_data(mark.outline)}"{self.fill(mark.fill)}{rule}{stroke}{clip}/>'

    def clip(self, outline: Outline) -> str:
        return self.define("clip", f'<clipPath id="%s"><path d="{path_data(outline)}"/></clipPath>')

    def fill(self, fill: Paint | None) -> str:
        if fill is None:
            return ' fill="none"'
        return _color("fill", fill) if isinstance(fill, str) else f' fill="{self.define("shade", _gradient(fill))}"'


def path_data(outline: Outline) -> str:
    """An outline in SVG's path notation, two decimals at most."""
    return "".join([_COMMANDS[command[0]] % command[1:] for command in outline]).replace(".00", "")


def _number(value: float) -> str:
    return _SPARE_ZEROS.sub("", f"{value:.2f}")


def _legal(text: str) -> str:
    return _NOT_XML.sub("", text)


def _plain(text: str) -> str:
    return escape(_legal(text))


def _color(role: str, color: str) -> str:
    alpha = rgba(color)[3]
    opacity = "" if alpha == 255 else f' {role}-opacity="{_number(alpha / 255)}"'
    return f' {role}="{color[:7]}"{opacity}'


def _stroke(stroke: Stroke) -> str:
    dash = f' stroke-dasharray="{" ".join(map(_number, stroke.dash))}"' if sum(stroke.dash) > 0 else ""
    round_ = ' stroke-linecap="round" stroke-linejoin="round"' if stroke.cap == "round" else ""
    return f'{_color("stroke", stroke.color)} stroke-width="{_number(stroke.width)}"{dash}{round_}'


def _gradient(fill: Linear | Radial) -> str:
    stops = "".join(f'<stop offset="{_number(at)}"{_stop(color)}/>' for at, color in fill.stops)
    if isinstance(fill, Linear):
        kind, (x1, y1), (x2, y2) = "linearGradient", fill.start, fill.end
        where = f'x1="{_number(x1)}" y1="{_number(y1)}" x2="{_number(x2)}" y2="{_number(y2)}"'
    else:
        kind, (x, y) = "radialGradient", fill.center
        where = f'cx="{_number(x)}" cy="{_number(y)}" r="{_number(fill.radius)}"'
    return f'<{kind} id="%s" gradientUnits="userSpaceOnUse" {where}>{stops}</{kind}>'


def _stop(color: str) -> str:
    alpha = rgba(color)[3]
    return f' stop-color="{color[:7]}"' + ("" if alpha == 255 else f' stop-opacity="{_number(alpha / 255)}"')


def _halo(mark: Text, share: float) -> str:
    width = _number(share * font_size(mark.cap_height))
    return f'{_color("stroke", mark.halo or mark.ground)} stroke-width="{width}" stroke-linejoin="round"'


def _text(id_: str, mark: Text) -> str:
    anchor = "" if mark.anchor == "start" else f' text-anchor="{mark.anchor}"'
    weight = "" if mark.weight == "regular" else f' font-weight="{FAMILIES[mark.weight][1]}"'
    behind = f'{_halo(mark, HALO_STROKES[0])} paint-order="stroke"' if mark.halo else ""
    size = font_size(mark.cap_height) * scale_of(files_of(mark.weight, mark.face)[0])
    weight += f' style="font-family:{_own_family(mark.face)}, {_FAMILY}"' if mark.face else ""
    place = f'x="{_number(mark.at[0])}" y="{_number(mark.at[1])}" font-size="{_number(size)}"{weight}{anchor}'
    return f'<text id="{id_}" {place}{_color("fill", mark.fill)}{behind}>{_plain(typeset(mark.text))}</text>'


def _image(id_: str, mark: Image) -> str:
    """Pixels inside the document: nothing that lies elsewhere is asked for."""
    sides = (("x", mark.box.left), ("y", mark.box.top), ("width", mark.box.width), ("height", mark.box.height))
    place = " ".join(f'{name}="{_number(value)}"' for name, value in sides)
    data = b64encode(mark.png).decode("ascii")
    return (
        f'<image id="{id_}" xmlns:xlink="http://www.w3.org/1999/xlink" {place} preserveAspectRatio="none" role="img" '
        f'aria-label={quoteattr(visible(mark.text))} xlink:href="data:image/png;base64,{data}"/>'
    )


def _own_family(face: Face) -> str:
    """A face's family in quotation marks of CSS; what has a meaning there or in XML is left out."""
    return f"'Channel {_NOT_ID.sub(' ', face.family).strip()}'"


def _own_faces(scene: Scene) -> Iterator[str]:
    """The rules that say where a channel's own font files lie."""
    faces = {(mark.face, mark.weight) for mark in scene.texts if mark.face is not None}
    ordered = sorted(faces, key=lambda its: (its[0].family, FAMILIES[its[1]][1]))
    for face, weight in ordered:
        name, where = _own_family(face), f"{FONT_FOLDER}/{font_name(files_of(weight, face)[0])}"
        yield f'@font-face{{font-family:{name};font-weight:{FAMILIES[weight][1]};src:url("{where}")}}'


def _outlined(id_: str, text: str, outline: Outline, fill: str, halos: Iterable[str] = ()) -> str:
    data, label = path_data(outline), quoteattr(visible(text))
    behind = "".join(f'<path d="{data}" fill="none"{halo}/>' for halo in halos)
    return f'<g id="{id_}" role="img" aria-label={label}>{behind}<path d="{data}"{_color("fill", fill)}/></g>'


def _style(scene: Scene) -> str:
    faces = [
        f'@font-face{{font-family:"{family}";font-weight:{weight};src:url("{FONT_FOLDER}/{file}")}}'
        for file, (family, weight) in _FACES.items()
        if file in font_files(scene)
    ]
    faces += _own_faces(scene)
    rule = f"text{{font-family:{_FAMILY};font-feature-settings:{_FEATURES};font-optical-sizing:none;white-space:pre}}"
    return "<style>" + "".join((*faces, rule)) + "</style>"
