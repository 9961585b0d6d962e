"""What an SVG element looks like: its own attributes over its style over its class over its parent's."""

import math
import re
from collections.abc import Mapping

from PIL import ImageColor

from studio.graphics.logo.art import LogoError
from studio.graphics.scene import Stroke

PROPERTIES = (
    "fill", "stroke", "stroke-width", "stroke-linecap", "stroke-dasharray", "fill-rule", "fill-opacity",
    "stroke-opacity", "opacity", "display", "visibility", "color",
)  # fmt: skip
_PASSED_ON = tuple(name for name in PROPERTIES if name not in ("opacity", "display"))
_RULE = re.compile(r"([^{}]*)\{([^{}]*)\}")
_CLASS = re.compile(r"\.[A-Za-z_][\w-]*")
_NUMBER = re.compile(r"[-+]?(?:\d+\.?\d*|\.\d+)(?:[eE][-+]?\d{1,3})?")
Style = dict[str, str]


def read_rules(sheet: str) -> dict[str, Style]:
    """The rules of a style sheet by class. Raises LogoError for anything but ``.name { property: value }``."""
    plain = re.sub(r"/\*.*?\*/", "", sheet, flags=re.DOTALL)
    squeezed = "".join(plain.lower().split())
    if "@" in plain or "url(" in squeezed or "\\" in plain or _RULE.sub("", plain).strip():
        raise LogoError("the logo's style sheet holds more than colours by class; export it with plain attributes")
    rules: dict[str, Style] = {}
    for selectors, body in _RULE.findall(plain):
        for selector in selectors.split(","):
            if not _CLASS.fullmatch(selector.strip()):
                raise LogoError(f"the logo's style sheet selects {selector.strip()[:20]!r}; expected classes only")
            rules.setdefault(selector.strip()[1:], {}).update(declarations(body))
    return rules


def declarations(text: str) -> Style:
    """``property: value; ...`` as far as we know the properties."""
    pairs = (part.partition(":") for part in text.split(";"))
    return {name.strip(): value.strip() for name, _, value in pairs if name.strip() in PROPERTIES}


def style_of(attributes: Mapping[str, str], parent: Style, rules: Mapping[str, Style]) -> Style:
    """All that applies to an element. Opacity of a group is taken on by its parts."""
    style = {name: value for name, value in parent.items() if name in _PASSED_ON}
    own = {name: attributes[name] for name in PROPERTIES if name in attributes}
    for name in attributes.get("class", "").split():
        own.update(rules.get(name, {}))
    own.update(declarations(attributes.get("style", "")))
    style.update({name: value for name, value in own.items() if value != "inherit"})
    above = number(parent.get("opacity", "1"), 1.0)
    style["opacity"] = str(above * number(own.get("opacity", "1"), 1.0))
    return style


def hidden(style: Style) -> bool:
    """Whether the element is not shown."""
    return style.get("display") == "none" or style.get("visibility") in ("hidden", "collapse")


def fill_of(style: Style) -> str | None:
    """The fill as ``#RRGGBB`` or ``#RRGGBBAA``; None where there is none."""
    return _color(style, "fill", "black")


def stroke_of(style: Style, scale: float) -> Stroke | None:
    """The stroke in px of the logo, widths times ``scale``; None where there is none."""
    color, width = _color(style, "stroke", "none"), number(style.get("stroke-width", "1"), 1.0) * scale
    if color is None or width <= 0:
        return None
    dash = tuple(abs(float(length)) * scale for length in _NUMBER.findall(style.get("stroke-dasharray", ""))[:16])
    return Stroke(color, width, dash, "round" if style.get("stroke-linecap") == "round" else "flat")


def number(text: str, otherwise: float) -> float:
    """The number at the start of ``text`` (``12px`` is 12, ``50%`` is 0.5); ``otherwise`` where there is none."""
    found = _NUMBER.match(text.strip())
    value = float(found[0]) if found else otherwise
    value = value / 100 if found and text.strip().endswith("%") else value
    return value if math.isfinite(value) and abs(value) < 1e7 else otherwise


def _color(style: Style, role: str, otherwise: str) -> str | None:
    text = style.get(role, otherwise).strip()
    if text in ("none", "transparent"):
        return None
    text = style.get("color", "black") if text.lower() == "currentcolor" else text
    try:
        red, green, blue, *rest = ImageColor.getrgb(text[:60])
    except ValueError as error:
        raise LogoError(f"{text[:20]!r} is not a colour; expected one such as #1A1D21") from error
    share = number(style.get(f"{role}-opacity", "1"), 1.0) * number(style.get("opacity", "1"), 1.0)
    alpha = round(min(1.0, max(0.0, share)) * (rest[0] if rest else 255))
    if alpha == 0:
        return None
    return f"#{red:02X}{green:02X}{blue:02X}" + ("" if alpha == 255 else f"{alpha:02X}")
