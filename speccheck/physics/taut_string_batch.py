"""The taut string for thousands of profiles at once: the same line as for one, on arrays with a leading axis."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

from speccheck.physics.vapour import DELTA_AIR

if TYPE_CHECKING:
    import numpy as np
    from numpy.typing import ArrayLike, NDArray

__all__ = ["VapourLines", "taut_strings"]


@dataclass(frozen=True, slots=True)
class VapourLines:
    """The vapour-pressure lines of many profiles, one in each row.

    `pressures` [Pa] at every interface; `contacts`, where water condenses or lies; `rates` [kg/(m²·s)],
    positive where it gathers, 0 away from contacts; `inflow` and `outflow` [kg/(m²·s)] of each profile.
    """

    pressures: NDArray[np.float64]
    contacts: NDArray[np.bool_]
    rates: NDArray[np.float64]
    inflow: NDArray[np.float64]
    outflow: NDArray[np.float64]


def taut_strings(
    positions: ArrayLike, ceiling: ArrayLike, wet: ArrayLike | None = None, permeability: float = DELTA_AIR
) -> VapourLines:
    """Return the vapour-pressure lines of many profiles under their saturation pressures.

    Args:
        positions: rising positions of the interfaces [m], one profile in each row, or one row for all.
        ceiling: saturation pressure at each interface, the pressure of the air at both ends [Pa]; infinite
            where an interface does not bound the line.
        wet: whether each interface holds water; none where absent.
        permeability: vapour permeability of still air [kg/(m·s·Pa)].

    Returns:
        pressures, contacts, rates, inflows and outflows.

    Raises:
        ValueError: when shapes do not fit each other or there is no layer.

    Notes:
        From the inside every line goes to the point it can reach by the steepest fall, or to the next wet
        interface, and on from there: as many rounds as the profile with the most contacts has, each over all
        profiles not yet at their end. Agrees with `line_under` to rounding. Nothing else is checked.

    Example:
        >>> lines = taut_strings([0.0, 1.0, 2.0, 3.0], [[1000.0, 400.0, 600.0, 300.0], [900.0, 800.0, 800.0, 300.0]])
        >>> lines.contacts.tolist()
        [[False, True, False, False], [False, False, False, False]]

    Source: as `taut_string`; gift wrapping in place of the stack, textbook knowledge, memory.
    """
    import numpy as np

    heights = np.atleast_2d(np.asarray(ceiling, dtype=np.float64))
    places = np.broadcast_to(np.asarray(positions, dtype=np.float64), heights.shape)
    pinned = np.zeros(heights.shape, dtype=bool) if wet is None else np.array(wet, dtype=bool, ndmin=2)
    if heights.shape[1] < 2 or pinned.shape != heights.shape:
        raise ValueError(f"positions, ceiling {heights.shape} and wet {pinned.shape} must fit each other")
    fixed = pinned.copy()
    fixed[:, -1] = True
    drawing = _Drawing(places, heights, fixed)
    while drawing.rows.size:
        drawing.reach_on()
    drawing.bends[:, [0, -1]] = 0.0
    contacts = drawing.touched
    contacts[:, [0, -1]] = False
    return VapourLines(
        pressures=drawing.pressures,
        contacts=contacts,
        rates=permeability * drawing.bends,
        inflow=-permeability * drawing.first,
        outflow=-permeability * drawing.last,
    )


class _Drawing:
    """Lines being drawn, all from one contact to the next at a time."""

    def __init__(
        self, places: NDArray[np.float64], heights: NDArray[np.float64], fixed: NDArray[np.bool_]
    ) -> None:
        import numpy as np

        count = len(heights)
        self.places, self.heights, self.fixed = places, heights, fixed
        self.rows, self.at = np.arange(count), np.zeros(count, dtype=np.intp)
        self.pressures = np.empty(heights.shape)
        self.pressures[:, 0] = heights[:, 0]
        self.bends = np.zeros(heights.shape)
        self.touched = np.zeros(heights.shape, dtype=bool)
        self.first, self.last = np.zeros(count), np.zeros(count)

    def reach_on(self) -> None:
        """Draw every unfinished line to its next contact."""
        import numpy as np

        rows, at = self.rows, self.at
        every = len(rows) == len(self.heights)
        x = self.places if every else self.places[rows]
        p = self.heights if every else self.heights[rows]
        lane, number, last = np.arange(len(rows)), np.arange(p.shape[1]), p.shape[1] - 1
        ahead = number > at[:, None]
        stop = np.argmax((self.fixed if every else self.fixed[rows]) & ahead, axis=1)
        within = ahead & (number <= stop[:, None])
        rise, run = p - p[lane, at][:, None], x - x[lane, at][:, None]
        slopes = np.divide(rise, run, out=np.full(p.shape, np.inf), where=within)
        following = last - np.argmin(slopes[:, ::-1], axis=1)
        slope = slopes[lane, following]
        passed = within & (number <= following[:, None])
        line = p[lane, at][:, None] + slope[:, None] * run
        line[lane, following] = p[lane, following]
        self.pressures[rows] = np.where(passed, line, self.pressures[rows])
        self.bends[rows, at] += slope
        self.bends[rows, following] -= slope
        self.touched[rows, following] = True
        begun = at == 0
        self.first[rows[begun]] = slope[begun]
        ended = following == last
        self.last[rows[ended]] = slope[ended]
        self.rows, self.at = rows[~ended], following[~ended]
