"""How high a batch stands in a vessel, and how much of the wall it touches."""

from math import asin, cos, pi, sin, sqrt

STEPS = 200             # rings in a dished bottom: area and volume to 0.01 %
KNUCKLE = 0.1           # of the diameter, for a torispherical bottom whose crown radius is the diameter


def wetted_wall(*, volume: float, diameter: float, bottom: str = "elliptical") -> tuple[float, float]:
    """Return the height of a batch in an upright round vessel, and the wall it touches.

    rings of the bottom from its deepest point, each a cone's frustum; above it V / (pi D² / 4) of height and pi D of wall for each metre

    volume    [m^3]
    diameter  [m]    inside
    bottom           "flat", "elliptical" (2:1, a quarter of the diameter deep) or "torispherical" (crown D, knuckle 0.1 D, 0.194 D deep)
    returns   [m], [m^2]  height from the deepest point; area of bottom and side

    Valid for a still surface: a vortex wets more. The jacket may cover less than the wall; stirrer and baffles are not in it.

    Example: 1 m³ in a vessel 1 m wide with a dished bottom.
    >>> [round(one, 3) for one in wetted_wall(volume=1, diameter=1)]
    [1.357, 4.56]

    Source: geometry.
    """
    if volume < 0 or diameter <= 0 or bottom not in PROFILES:
        raise ValueError(f"wetted_wall needs volume >= 0, diameter > 0 and one of {sorted(PROFILES)}, got {volume}, {diameter}, {bottom}")
    height, area, left, radius = 0.0, 0.0, volume, 0.0
    for wide, high in PROFILES[bottom]:
        wide, rise = wide * diameter, high * diameter - height
        ring = pi * rise * (radius * radius + radius * wide + wide * wide) / 3
        part = min(left / ring, 1.0) if ring else float(left > 0)
        area += part * pi * (radius + wide) * sqrt((wide - radius) ** 2 + rise ** 2)
        height, left, radius = height + part * rise, left - part * ring, wide
        if left <= 0:
            return height, area
    rise = left / (pi * diameter ** 2 / 4)
    return height + rise, area + pi * diameter * rise


def wetted_share(*, volume: float, full: float, diameter: float, bottom: str = "elliptical") -> float:
    """Return the share of a full vessel's wetted wall that a smaller batch touches.

    A(volume) / A(full)

    volume, full  [m^3]  the batch, and the fill for which the jacket's area is stated
    diameter      [m]    inside
    bottom               as of wetted_wall
    returns       [1]    no more than 1

    Valid as wetted_wall is, where the jacket covers bottom and side alike up to the full mark.

    Example: half a fill touches more than half of the wall.
    >>> round(wetted_share(volume=0.5, full=1, diameter=1), 3)
    0.561

    Source: geometry.
    """
    if not 0 <= volume or full <= 0:
        raise ValueError(f"wetted_share needs volume >= 0 and full > 0, got {volume}, {full} m³")
    part, whole = (wetted_wall(volume=one, diameter=diameter, bottom=bottom)[1] for one in (volume, full))
    return min(part / whole, 1.0)


def _elliptical() -> tuple[tuple[float, float], ...]:
    """Radius and height of each ring's upper edge, for a diameter of 1."""
    angles = [pi / 2 * step / STEPS for step in range(1, STEPS + 1)]
    return tuple((sin(angle) / 2, (1 - cos(angle)) / 4) for angle in angles)


def _torispherical() -> tuple[tuple[float, float], ...]:
    """The crown as far as the knuckle, then the knuckle as far as the side."""
    meet = asin((0.5 - KNUCKLE) / (1 - KNUCKLE))
    crown = [meet * step / STEPS for step in range(1, STEPS + 1)]
    knuckle = [meet + (pi / 2 - meet) * step / STEPS for step in range(1, STEPS + 1)]
    centre = 1 - (1 - KNUCKLE) * cos(meet)          # height of the knuckle's centre, which is the depth of the bottom
    return (*((sin(angle), 1 - cos(angle)) for angle in crown),
            *((0.5 - KNUCKLE + KNUCKLE * sin(angle), centre - KNUCKLE * cos(angle)) for angle in knuckle))


PROFILES = {"flat": ((0.5, 0.0),), "elliptical": _elliptical(), "torispherical": _torispherical()}
