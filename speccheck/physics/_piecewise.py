"""The straight line between given points: interpolation that never guesses past the ends."""

from bisect import bisect_left
from collections.abc import Sequence
from itertools import pairwise

__all__ = ["between"]


def between(points: Sequence[tuple[float, float]], at: float) -> float | None:
    """Return the value on the line through the points, or None outside their range.

    Points come in rising order of their first number, which must not repeat.
    """
    if not points:
        raise ValueError("at least one point is needed to interpolate")
    places = [place for place, _ in points]
    if any(right <= left for left, right in pairwise(places)):
        raise ValueError("points to interpolate must rise and must not repeat")
    if not places[0] <= at <= places[-1]:
        return None
    index = bisect_left(places, at)
    if places[index] == at:
        return points[index][1]
    (left, low), (right, high) = points[index - 1], points[index]
    return low + (high - low) * (at - left) / (right - left)
