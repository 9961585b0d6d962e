"""Stopping: kinematics with a steady friction. Real stops depend on much more; use it to compare, not to promise."""

import math

from studio.tires.errors import RangeError, require_at_least_zero, require_positive
from studio.tires.units import METERS_PER_KM, SECONDS_PER_HOUR


def stopping_distance_m(speed_kmh: float, friction: float, reaction_s: float, gravity_m_s2: float) -> float:
    """Distance of reaction and braking: v t + v^2 / (2 mu g)."""
    require_at_least_zero(speed_kmh=speed_kmh, reaction_s=reaction_s)
    require_positive(friction=friction, gravity_m_s2=gravity_m_s2)
    speed_m_s = speed_kmh * METERS_PER_KM / SECONDS_PER_HOUR
    return speed_m_s * reaction_s + speed_m_s**2 / (2 * friction * gravity_m_s2)


def residual_speed(speed: float, good_friction: float, worn_friction: float) -> float:
    """Speed that the worse tire still has where the better one has stopped: v sqrt(1 - mu_worse / mu_better)."""
    require_at_least_zero(speed=speed)
    require_positive(good_friction=good_friction, worn_friction=worn_friction)
    if worn_friction > good_friction:
        raise RangeError(f"worn friction {worn_friction:g} is above the good one {good_friction:g}, expected less")
    return speed * math.sqrt(1 - worn_friction / good_friction)


def sight_distance_ft(
    speed_mph: float, reaction_s: float, deceleration_ft_s2: float, reaction_scale: float, braking_scale: float
) -> float:
    """Stopping sight distance for road design, in feet (AASHTO: 1.47 V t + 1.075 V^2 / a)."""
    require_at_least_zero(speed_mph=speed_mph, reaction_s=reaction_s)
    require_positive(deceleration_ft_s2=deceleration_ft_s2)
    return reaction_scale * speed_mph * reaction_s + braking_scale * speed_mph**2 / deceleration_ft_s2
