"""The small catalogue for every test of the hand-off."""

from tests.handoff.small_catalogue import small_catalogue

__all__ = ["small_catalogue"]
