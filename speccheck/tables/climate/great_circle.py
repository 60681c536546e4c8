"""Distance between two points on the globe, and the middle of several."""

from collections.abc import Iterable
from math import asin, atan2, cos, degrees, hypot, radians, sin, sqrt

__all__ = ["EARTH_RADIUS", "distance", "middle"]

EARTH_RADIUS = 6_371_000.0
"""Mean radius of the earth [m]; common practice, no source."""


def distance(latitude: float, longitude: float, other_latitude: float, other_longitude: float) -> float:
    """Return the great-circle distance between two points.

    Args:
        latitude: [°], -90 to 90.
        other_latitude: [°], -90 to 90.
        longitude: [°], -180 to 180.
        other_longitude: [°], -180 to 180.

    Returns:
        the distance [m].

    Notes:
        haversine formula on a sphere; within 0.6 % of the distance on the ellipsoid.

    Example:
        A degree of latitude is 2 π 6371 km / 360.
        >>> round(distance(40, -90, 41, -90))
        111195

    Source: haversine formula, common practice, no source.
    """
    south, north = radians(latitude), radians(other_latitude)
    half = sin((north - south) / 2) ** 2
    half += cos(south) * cos(north) * sin(radians(other_longitude - longitude) / 2) ** 2
    return 2 * EARTH_RADIUS * asin(min(1.0, sqrt(half)))


def middle(points: Iterable[tuple[float, float]]) -> tuple[float, float]:
    """Return the middle of several points, also across the date line.

    Args:
        points: latitude and longitude [°] of each; at least one.

    Returns:
        latitude and longitude [°] of the direction of the summed unit vectors.

    Example:
        >>> [round(angle, 6) for angle in middle([(0.0, 179.0), (0.0, -177.0)])]
        [0.0, -179.0]

    Source: geometry, no source needed.
    """
    x = y = z = 0.0
    for latitude, longitude in points:
        up, east = radians(latitude), radians(longitude)
        x, y, z = x + cos(up) * cos(east), y + cos(up) * sin(east), z + sin(up)
    return degrees(atan2(z, hypot(x, y))), degrees(atan2(y, x))
