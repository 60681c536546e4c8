"""The vapour-pressure line through a section: a taut string under the saturation pressures, pinned where wet."""

import math
from collections.abc import Sequence
from itertools import accumulate, pairwise
from operator import lt
from typing import NamedTuple

from speccheck.physics._bounds import finite
from speccheck.physics.vapour import DELTA_AIR

__all__ = [
    "HIGHEST_PRESSURE",
    "IMPERMEABLE",
    "NO_RESISTANCE",
    "VapourLine",
    "at_a_surface",
    "line_under",
    "positions_of",
    "taut_string",
    "vapour_line",
]

IMPERMEABLE = 1.0e6
"""The sd [m] that stands in for anything tighter, infinity included. A year at 1000 Pa carries 6 mg/m² through
it: water of that order beside it is a trace of the convention, not of the weather (ours; ISO 13788 takes a
resistance factor of 100 000, memory)."""

NO_RESISTANCE = 1.0e-6
"""The sd [m] that stands in for anything more open, zero included: a thousandth of a millimetre of still air."""

HIGHEST_PRESSURE = 1.1e5
"""The highest vapour pressure taken [Pa]: a little above saturation at 100 °C."""


class VapourLine(NamedTuple):
    """The vapour-pressure line through a section and what gathers or leaves where it touches saturation.

    `pressures` [Pa] at every interface, inside surface first; `contacts`, the numbers of the interfaces where
    water condenses or lies; `rates` [kg/(m²·s)] at those, positive where water gathers, negative where it
    leaves; `inflow` from the indoor air into the section and `outflow` from the section to the outdoor air
    [kg/(m²·s)], negative when they run the other way. Inflow less outflow is the sum of the rates.
    """

    pressures: tuple[float, ...]
    contacts: tuple[int, ...]
    rates: tuple[float, ...]
    inflow: float
    outflow: float


def positions_of(sd: Sequence[float]) -> tuple[float, ...]:
    """Return where the interfaces of a section lie on the axis of vapour resistance.

    Args:
        sd: equivalent air layer thickness of each layer from inside to outside [m], 0 up to infinite.

    Returns:
        position of each interface [m], 0 for the inside surface first; always rising.

    Raises:
        ValueError: when there is no layer, or an sd is negative or not a number.

    Notes:
        Each sd is held between `NO_RESISTANCE` and `IMPERMEABLE`, so that interfaces never coincide and an
        impermeable layer keeps a finite place.

    Example:
        >>> positions_of([0.1, 2.0, 0.16])
        (0.0, 0.1, 2.1, 2.2600000000000002)

    Source: ISO 13788:2012, diagram of vapour pressure over sd, memory; the two bounds are our convention, no
    source.
    """
    if not sd:
        raise ValueError("a section has at least one layer")
    for value in sd:
        if math.isnan(value) or value < 0.0:
            raise ValueError(f"sd must not be negative, not {value}")
    held = (min(max(value, NO_RESISTANCE), IMPERMEABLE) for value in sd)
    return tuple(accumulate(held, initial=0.0))


def at_a_surface(sd: Sequence[float]) -> tuple[bool, ...]:
    """Return which interfaces have nothing between them and the air that resists vapour.

    Args:
        sd: equivalent air layer thickness of each layer from inside to outside [m], 0 up to infinite.

    Returns:
        one answer for each interface, both surfaces included.

    Raises:
        ValueError: when an sd is not a number.

    Notes:
        Such an interface has the pressure of the air. Condensation there is surface condensation, which knows
        no diffusion to limit it, and is left to the check of the surface.

    Example:
        >>> at_a_surface([0.0, 2.0, 0.16])
        (True, True, False, True)

    Source: our convention, no source.
    """
    if any(math.isnan(value) for value in sd):
        raise ValueError("sd must be a number")
    from_inside = list(accumulate(sd, initial=0.0))
    from_outside = list(accumulate(reversed(sd), initial=0.0))
    ends = zip(from_inside, reversed(from_outside), strict=True)
    return tuple(inside < NO_RESISTANCE or outside < NO_RESISTANCE for inside, outside in ends)


def taut_string(positions: Sequence[float], ceiling: Sequence[float], pins: Sequence[int] = ()) -> list[int]:
    """Return the points that a string drawn tight under a ceiling rests on.

    Args:
        positions: rising positions of the points [m].
        ceiling: height of each point [Pa]: those of the ends are fixed, those between bound the string from
            above; infinite where there is no bound.
        pins: numbers of the points between the ends, rising, through which the string must pass.

    Returns:
        numbers of the points where the string bends or is pinned, both ends included, rising.

    Notes:
        Between two pins the string is the lower convex hull of the points (the greatest convex line that is
        nowhere above them). A point above the straight line between the pins cannot be on it; the rest is one
        pass with a stack, so that the work grows with the number of points. Nothing is checked: this is the
        inner loop.

    Example:
        >>> taut_string([0.0, 1.0, 2.0, 3.0], [1000.0, 400.0, 600.0, 300.0])
        [0, 1, 3]
        >>> taut_string([0.0, 1.0, 2.0, 3.0], [1000.0, 400.0, 600.0, 300.0], [2])
        [0, 1, 2, 3]

    Source: rope rule of DIN 4108-3 and ISO 13788:2012 clause 6, read in textbook notes; lower convex hull by
    monotone chain, textbook knowledge, memory.
    """
    return _drawn_tight(positions, ceiling, pins)[0]


def _drawn_tight(
    x: Sequence[float], ceiling: Sequence[float], pins: Sequence[int]
) -> tuple[list[int], list[float]]:
    """Return the points that the string rests on, and its slope from each to the next."""
    points, slopes = [0], [-math.inf]
    for end in (*pins, len(x) - 1):
        _carry_on(x, ceiling, end, points, slopes)
    return points, slopes[1:]


def _carry_on(
    x: Sequence[float], ceiling: Sequence[float], end: int, points: list[int], slopes: list[float]
) -> None:
    """Carry the string on from its last point to the next fixed one."""
    start = points[-1]
    x0, p0 = x[start], ceiling[start]
    straight = (ceiling[end] - p0) / (x[end] - x0)
    below = (
        [j for j in range(start + 1, end) if ceiling[j] < p0 + straight * (x[j] - x0)]
        if end - start > 1
        else ()
    )
    if not below:
        points.append(end)
        slopes.append(straight)
        return
    chain, rising = [start], [-math.inf]
    last, height = x0, p0
    for j in (*below, end):
        here, bound = x[j], ceiling[j]
        slope = (bound - height) / (here - last)
        while slope <= rising[-1]:
            chain.pop()
            rising.pop()
            top = chain[-1]
            slope = (bound - ceiling[top]) / (here - x[top])
        chain.append(j)
        rising.append(slope)
        last, height = here, bound
    points += chain[1:]
    slopes += rising[1:]


def line_under(
    positions: Sequence[float],
    ceiling: Sequence[float],
    pins: Sequence[int] = (),
    permeability: float = DELTA_AIR,
) -> VapourLine:
    """Return the vapour-pressure line under a ceiling of saturation pressures, unchecked.

    Args:
        positions: rising positions of the interfaces [m].
        ceiling: saturation pressure at each interface [Pa], at the two ends the pressure of the air;
            infinite where an interface does not bound the line.
        pins: numbers of the interfaces that hold water, rising; their ceiling is finite.
        permeability: vapour permeability of still air [kg/(m·s·Pa)].

    Returns:
        pressures, contacts, rates, inflow and outflow.

    Notes:
        `vapour_line` with the checks left out, for the loops over months. The rate at a contact is the
        permeability times the change of slope there: what flows in less what flows out.

    Example:
        >>> line_under([0.0, 1.0, 2.0], [1000.0, 400.0, 300.0]).rates[0] / 2.0e-10
        500.0

    Source: ISO 13788:2012, clause 6, memory; single-plane form read in textbook notes.
    """
    if not pins:
        straight = _straight(positions, ceiling, permeability)
        if straight is not None:
            return straight
    points, slopes = _drawn_tight(positions, ceiling, pins)
    rates = tuple([permeability * (after - before) for before, after in pairwise(slopes)])
    pressures = [ceiling[0]]
    for (a, b), slope in zip(pairwise(points), slopes, strict=True):
        if b - a > 1:
            x0, p0 = positions[a], ceiling[a]
            pressures += [p0 + slope * (x - x0) for x in positions[a + 1 : b]]
        pressures.append(ceiling[b])
    return VapourLine(
        pressures=tuple(pressures),
        contacts=tuple(points[1:-1]),
        rates=rates,
        inflow=-permeability * slopes[0],
        outflow=-permeability * slopes[-1],
    )


def _straight(positions: Sequence[float], ceiling: Sequence[float], permeability: float) -> VapourLine | None:
    """Return the line straight from end to end where the ceiling lets it pass, as it mostly does."""
    x0, p0 = positions[0], ceiling[0]
    slope = (ceiling[-1] - p0) / (positions[-1] - x0)
    pressures = [p0 + slope * (x - x0) for x in positions]
    pressures[-1] = ceiling[-1]
    if any(map(lt, ceiling, pressures)):
        return None
    flow = -permeability * slope
    return VapourLine(tuple(pressures), (), (), flow, flow)


def vapour_line(
    sd: Sequence[float],
    saturation: Sequence[float],
    inside: float,
    outside: float,
    wet: Sequence[int] = (),
    permeability: float = DELTA_AIR,
) -> VapourLine:
    """Return the steady vapour-pressure line through a section, condensing and wet interfaces included.

    Args:
        sd: equivalent air layer thickness of each layer from inside to outside [m], 0 up to infinite.
        saturation: saturation pressure at each interface, both surfaces included [Pa], above 0. The two at
            the surfaces are not used: the air's own pressure stands there.
        inside: vapour pressure of the indoor air [Pa], not negative.
        outside: vapour pressure of the outdoor air [Pa], not negative.
        wet: numbers of the interfaces that hold water, 1 for the outer face of the first layer.
        permeability: vapour permeability of still air [kg/(m·s·Pa)].

    Returns:
        pressures, contacts, rates, inflow and outflow.

    Raises:
        ValueError: when numbers do not match, a value lies outside its range, or a wet interface is none
            between two layers.

    Notes:
        Steady diffusion with condensation is an obstacle problem: the line is convex, nowhere above
        saturation, and touches it where vapour condenses; at a wet interface it is held at saturation. What
        condenses is the change of slope times the permeability of air. Storage, rain, sun and air movement
        are not in it. Surface films resist no vapour.

    Example:
        A board of sd 3 m outside mineral wool; the plane between is at 585.4 Pa in January:

        >>> line = vapour_line([2.1, 0.16, 3.0], [2200.0, 2190.0, 585.4, 560.0], 1071.7, 477.7)
        >>> line.contacts, [f"{rate:.3e}" for rate in line.rates]
        ((2,), ['3.586e-08'])

    Source: ISO 13788:2012, clause 6, memory; rope rule and single-plane rate read in textbook notes.
    """
    positions = positions_of(sd)
    if len(saturation) != len(positions):
        raise ValueError(f"{len(sd)} layers have {len(positions)} interfaces, not {len(saturation)}")
    for pressure in saturation:
        if not _pressure("saturation pressure", pressure) > 0.0:
            raise ValueError(f"saturation pressure must be above zero, not {pressure}")
    pins = sorted(set(wet))
    if pins and not 1 <= pins[0] <= pins[-1] <= len(sd) - 1:
        raise ValueError(f"wet interfaces lie between two layers, 1 to {len(sd) - 1}, not {pins}")
    held = set(pins)
    free = at_a_surface(sd)
    ceiling = [math.inf if free[j] and j not in held else pressure for j, pressure in enumerate(saturation)]
    ceiling[0] = _pressure("indoor vapour pressure", inside)
    ceiling[-1] = _pressure("outdoor vapour pressure", outside)
    return line_under(positions, ceiling, pins, permeability)


def _pressure(name: str, value: float) -> float:
    if not 0.0 <= finite(name, value) <= HIGHEST_PRESSURE:
        raise ValueError(f"{name} must lie from 0 to {HIGHEST_PRESSURE:g} Pa, not {value}")
    return value
