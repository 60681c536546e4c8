"""Where a section lies on the sheet: depth from inside to outside along one axis, the breadth along the other.

Walls stand: inside is left. Roofs and ceilings lie with the inside below, floors and slabs with the inside above. The
scale is one for all layers that are shown thick enough to draw; the rest are drawn as lines or marked as out of scale.
"""

from collections.abc import Sequence
from typing import NamedTuple

from speccheck.report.drawing.subject import DrawnLayer

__all__ = ["LEAST", "Extent", "Frame", "extents", "spread"]

LEAST = 3.0
"""The least width a layer is drawn with."""

_SHEET = 3.0
_UNKNOWN = 16.0


class Extent(NamedTuple):
    """Where one layer begins and ends along the depth; ``scaled`` where its width is that of the scale."""

    start: float
    end: float
    scaled: bool

    @property
    def middle(self) -> float:
        """Half way through it."""
        return (self.start + self.end) / 2

    @property
    def width(self) -> float:
        """Its width."""
        return self.end - self.start


class Frame(NamedTuple):
    """A rectangle on the sheet in which depth and breadth are told apart by the way the section lies."""

    lying: bool
    outside_up: bool
    left: float
    top: float
    length: float
    breadth: float

    def at(self, depth: float, across: float) -> tuple[float, float]:
        """Return the place on the sheet of a depth and a place across."""
        if not self.lying:
            return self.left + depth, self.top + across
        return self.left + across, self.top + (self.length - depth if self.outside_up else depth)

    def box(self, start: float, end: float, near: float, far: float) -> tuple[float, float, float, float]:
        """Return x, y, width, height of the rectangle between two depths and two places across."""
        (x1, y1), (x2, y2) = self.at(start, near), self.at(end, far)
        return min(x1, x2), min(y1, y2), abs(x2 - x1), abs(y2 - y1)


def extents(layers: Sequence[DrawnLayer], length: float) -> tuple[list[Extent], float]:
    """Return where each layer lies along a depth of ``length``, and the scale [units per metre], 0 for none."""
    fixed = [_fixed(layer) for layer in layers]
    scale = 0.0
    for _ in layers:
        left = length - sum(width for width in fixed if width is not None)
        depth = sum(
            layer.thickness or 0.0 for layer, width in zip(layers, fixed, strict=True) if width is None
        )
        scale = max(left, 0.0) / depth if depth > 0 else 0.0
        thin = [i for i, w in enumerate(fixed) if w is None and (layers[i].thickness or 0.0) * scale < LEAST]
        if not thin:
            break
        for i in thin:
            fixed[i] = LEAST
    widths = [
        (layer.thickness or 0.0) * scale if width is None else width
        for layer, width in zip(layers, fixed, strict=True)
    ]
    stretch = length / sum(widths)
    found, at = [], 0.0
    for width, known in zip(widths, fixed, strict=True):
        found.append(Extent(at, at + width * stretch, known is None))
        at += width * stretch
    return found, scale * stretch


def _fixed(layer: DrawnLayer) -> float | None:
    """Return the width of a layer that has no scale, None where its thickness gives it."""
    if layer.sheet:
        return _SHEET
    return _UNKNOWN if layer.thickness is None else None


def spread(wanted: Sequence[float], gap: float, low: float, high: float) -> list[float]:
    """Return places as near as may be to those wanted, in the same order and a gap apart.

    Example:
        >>> spread([10.0, 11.0, 12.0], 5.0, 0.0, 100.0)
        [6.0, 11.0, 16.0]
    """
    count = len(wanted)
    room = high - low - gap * (count - 1)
    if room <= 0:
        step = (high - low) / max(count - 1, 1)
        return [low + i * step for i in range(count)]
    # less the gaps before it, each place may not lie before the one ahead: neighbours that would are levelled
    groups: list[tuple[float, int]] = []  # where a group stands, and how many are in it
    for i, place in enumerate(wanted):
        level, size = place - gap * i, 1
        while groups and groups[-1][0] > level:
            before, many = groups.pop()
            level, size = (before * many + level * size) / (many + size), many + size
        groups.append((level, size))
    levels = [min(max(level, low), low + room) for level, size in groups for _ in range(size)]
    return [level + gap * i for i, level in enumerate(levels)]
