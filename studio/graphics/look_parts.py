"""What a look file holds, as plain values: colours, fonts, corners, logo, small print, zones."""

from typing import Annotated, Literal

import msgspec

from studio.model.finding import Verdict

Hex = Annotated[str, msgspec.Meta(pattern=r"^#[0-9A-Fa-f]{6}$(?!\n)")]
FileName = Annotated[str, msgspec.Meta(max_length=200)]
Corner = Literal["top_left", "top_right", "bottom_left", "bottom_right"]
COLORS = (
    "ground", "plate", "ink", "quiet", "measure", "rubber", "rubber_light", "rubber_edge", "groove", "letter",
    "steel", "steel_light", "water", "car", "shadow",
)  # fmt: skip
VERDICTS: tuple[Verdict, ...] = ("keep", "watch", "rotate", "replace")


class LookError(ValueError):
    """A look cannot be used; the message names the pair, the field or the file, on one line."""


class VerdictFills(msgspec.Struct, frozen=True, forbid_unknown_fields=True):
    """Fills of the verdicts' signs; ``inspect`` is ink on ground and ``unknown`` has none."""

    keep: Hex
    watch: Hex
    rotate: Hex
    replace: Hex


class Fonts(msgspec.Struct, frozen=True, kw_only=True, forbid_unknown_fields=True, omit_defaults=True):
    """The letters: a shipped family, or TTF or OTF files beside the look. A weight without a file takes the next one.

    ``family`` also names the channel's own files, for whoever edits an SVG.
    """

    family: Annotated[str, msgspec.Meta(max_length=60)] = "Inter"
    regular: FileName = ""
    semibold: FileName = ""
    bold: FileName = ""


class Logo(msgspec.Struct, frozen=True, kw_only=True, forbid_unknown_fields=True, omit_defaults=True):
    """A PNG or SVG file beside the look, the corner it stands in, its height as a share of the frame's shorter side.

    ``plate`` puts the look's plate behind it.
    """

    file: FileName = ""
    corner: Corner = "top_right"
    height: Annotated[float, msgspec.Meta(ge=0.03, le=0.2)] = 0.08
    plate: bool = False


class Zones(msgspec.Struct, frozen=True, kw_only=True, forbid_unknown_fields=True, omit_defaults=True):
    """What is kept free in every picture: the band of captions, and the logo's corner where the edit adds the logo."""

    captions: bool = False
    logo: bool = False


class LookFile(msgspec.Struct, frozen=True, kw_only=True, forbid_unknown_fields=True, omit_defaults=True):
    """A look as its file holds it; every text colour is legible on ``ground`` and on ``plate``.

    ``corners`` is how round plates and discs are: 0 is square, 1 is as round as can be.
    """

    id: Annotated[str, msgspec.Meta(pattern=r"^[a-z0-9_]{1,40}$(?!\n)")]
    name: Annotated[str, msgspec.Meta(max_length=60)]
    ground: Hex
    plate: Hex
    ink: Hex
    quiet: Hex
    measure: Hex
    rubber: Hex
    rubber_light: Hex
    rubber_edge: Hex | None = None
    groove: Hex
    letter: Hex
    steel: Hex
    steel_light: Hex
    water: Hex
    car: Hex
    shadow: Hex
    verdicts: VerdictFills
    fonts: Fonts = Fonts()
    corners: Annotated[float, msgspec.Meta(ge=0, le=1)] = 1.0
    logo: Logo = Logo()
    small_print: Annotated[str, msgspec.Meta(max_length=90)] = ""
    zones: Zones = Zones()

    def fill_of(self, verdict: Verdict | None) -> str | None:
        """The fill of a verdict's sign; None where the sign is drawn in ink alone."""
        return getattr(self.verdicts, verdict, None) if verdict else None

    def rounded(self, side: float, most: float = float("inf")) -> float:
        """The radius in px of a plate's corners, whose shorter side is ``side`` px; never more than ``most`` px."""
        return min(self.corners * side / 2, most)
