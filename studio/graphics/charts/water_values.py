"""What a water chart draws: panels, curves and speeds, in the units shown."""

import msgspec

from studio.graphics.scene import Point


class Curve(msgspec.Struct, frozen=True, kw_only=True):
    """One relation along one axis: its year and its points, from its lowest to its highest tested value."""

    year: str
    points: tuple[Point, ...]


class Panel(msgspec.Struct, frozen=True, kw_only=True):
    """One thing that the speed depends on. ``ends`` are what the axis shows; ``own`` is this tire's value."""

    name: str
    title: str
    unit: str
    own: float
    own_text: str
    ends: tuple[float, float]
    end_texts: tuple[str, str]
    curves: tuple[Curve, ...]


class Floating(msgspec.Struct, frozen=True, kw_only=True):
    """What the chart draws, speeds in the unit shown; ``year`` is the relation that gives ``speed``."""

    panels: tuple[Panel, ...]
    year: str
    speed: float
    driven: float
    gradual: float
    unit: str
    steps: dict[str, int]
