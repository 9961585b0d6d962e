"""Episodes with damage of every kind, for the pictures that show it."""

from typing import get_args

from studio.model.episode import Episode
from studio.model.quantity import length
from studio.model.specimen import Damage, DamageKind, Zone
from tests.decide.build import episode, flat, tire

USUAL_MM: dict[str, tuple[Zone, float | None]] = {
    "cut": ("sidewall", 18), "bulge": ("sidewall", 45), "cord": ("shoulder", 30), "cracks": ("sidewall", None),
    "puncture": ("crown", 4), "flat_spot": ("crown", 120), "separation": ("shoulder", 60), "chunking": ("crown", 25),
    "other": ("bead", None),
}  # fmt: skip


def hurt(
    kind: DamageKind, zone: Zone | None = None, size_mm: float | None = None, marking: str = "225/60R17 99H",
    **more: object,
) -> Episode:
    """One tire with one damage, where and as large as such damage usually is unless told otherwise."""
    usual, size = USUAL_MM[kind]
    size = size_mm if size_mm is not None else size
    seen = Damage(kind=kind, zone=zone or usual, size=length(size) if size else None)
    return episode(tire("rear_left", flat(6, damage=(seen,)), marking=marking), **more)


DAMAGED = {kind: hurt(kind) for kind in get_args(DamageKind)}
