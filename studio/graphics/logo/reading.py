"""A logo's file, PNG or SVG: read with suspicion, and written anew from what was understood."""

from studio.graphics.color import rgba
from studio.graphics.logo.art import Art, LogoError
from studio.graphics.logo.outlines import art_of_svg
from studio.graphics.logo.pixels import art_of_png
from studio.graphics.paint.svg import path_data
from studio.graphics.scene import Shape

ENDINGS = (".png", ".svg")
MOST_BYTES = 30_000_000


def art_of(content: bytes, name: str) -> Art:
    """The logo in a file of this name. Raises LogoError."""
    ending = name.lower().rpartition(".")[2]
    if ending == "svg":
        return art_of_svg(content)
    if ending == "png":
        return art_of_png(content)
    raise LogoError(f"{name[-40:]!r} is not a logo's file; expected a PNG or an SVG, such as logo.svg")


def clean_file(art: Art) -> bytes:
    """The logo as a file that holds nothing but what is shown of it."""
    if art.png:
        return art.png
    size = f'width="{art.width:.6g}" height="{art.height:.6g}" viewBox="0 0 {art.width:.6g} {art.height:.6g}"'
    lines = [f'<svg xmlns="http://www.w3.org/2000/svg" {size}>', *(_element(shape) for shape in art.shapes), "</svg>"]
    return ("\n".join(lines) + "\n").encode("utf-8")


def _element(shape: Shape) -> str:
    rule = ' fill-rule="evenodd"' if shape.even_odd else ""
    stroke = ""
    if shape.stroke is not None:
        dash = f' stroke-dasharray="{" ".join(f"{its:.4g}" for its in shape.stroke.dash)}"' if shape.stroke.dash else ""
        cap = ' stroke-linecap="round"' if shape.stroke.cap == "round" else ""
        stroke = f'{_paint("stroke", shape.stroke.color)} stroke-width="{shape.stroke.width:.4g}"{dash}{cap}'
    fill = _paint("fill", shape.fill) if isinstance(shape.fill, str) else ' fill="none"'
    return f'<path d="{path_data(shape.outline)}"{fill}{rule}{stroke}/>'


def _paint(role: str, color: str) -> str:
    alpha = rgba(color)[3]
    return f' {role}="{color[:7]}"' + ("" if alpha == 255 else f' {role}-opacity="{alpha / 255:.4g}"')
