"""Steady heat flow through a section: series, parallel paths, isothermal planes, limits and temperatures."""

import math
from collections.abc import Sequence
from itertools import accumulate, pairwise, product
from typing import NamedTuple

from speccheck.physics._bounds import finite, fraction, not_negative, positive

__all__ = [
    "Layer",
    "Path",
    "ResistanceLimits",
    "combined_limits",
    "heat_flux",
    "interface_temperatures",
    "iso_6946_limits",
    "isothermal_planes",
    "layer_resistance",
    "material_resistance",
    "parallel_path",
    "section_paths",
    "series_resistance",
    "surface_temperature",
    "temperature_factor",
]

Layer = Sequence[tuple[float, float]]
"""One layer as (area fraction, resistance) of each part side by side; a plain layer is ((1.0, R),)."""

Path = tuple[float, Sequence[float]]
"""One way through the whole section as (area fraction, resistances in series)."""

_FRACTION_TOLERANCE = 1e-6
_LIMIT_RATIO = 1.5


class ResistanceLimits(NamedTuple):
    """Upper and lower limit of a section's resistance [m²·K/W], their mean and its largest error.

    `upper` is the parallel-path value, `lower` the isothermal-planes value, `mean` what ISO 6946 calls the
    total resistance, `max_relative_error` [-] half the gap over the mean.
    """

    upper: float
    lower: float
    mean: float
    max_relative_error: float

    @property
    def method_holds(self) -> bool:
        """Whether upper over lower stays at or below 1.5, where ISO 6946 stops (memory)."""
        return self.upper <= _LIMIT_RATIO * self.lower


def material_resistance(thickness: float, conductivity: float) -> float:
    """Return the thermal resistance of a homogeneous layer.

    Args:
        thickness: thickness [m], not negative.
        conductivity: thermal conductivity [W/(m·K)], above 0.

    Returns:
        thermal resistance [m²·K/W].

    Raises:
        ValueError: when an argument lies outside its range.

    Example:
        >>> round(material_resistance(0.100, 0.036), 2)
        2.78

    Source: ISO 6946:2017, clause on homogeneous layers, read in textbook notes.
    """
    return not_negative("thickness", thickness) / positive("conductivity", conductivity)


def series_resistance(resistances: Sequence[float]) -> float:
    """Return the resistance of layers one behind the other.

    Args:
        resistances: thermal resistances [m²·K/W] in any order, each not negative; none gives 0.

    Returns:
        total thermal resistance [m²·K/W].

    Raises:
        ValueError: when a resistance is negative or not finite.

    Example:
        >>> round(series_resistance([0.13, 2.5, 0.04]), 2)
        2.67

    Source: ISO 6946:2017, clause on homogeneous layers, read in textbook notes.
    """
    return math.fsum(not_negative("thermal resistance", resistance) for resistance in resistances)


def layer_resistance(layer: Layer) -> float:
    """Return the resistance of one layer whose parts lie side by side.

    Args:
        layer: (area fraction [-], thermal resistance [m²·K/W]) of each part; fractions add up to 1.

    Returns:
        thermal resistance [m²·K/W]; 0 when a part that has area has no resistance.

    Raises:
        ValueError: when fractions do not add up to 1 or a resistance is negative.

    Notes:
        1/R = Σ f/R.

    Example:
        Canadian 38 x 140 mm studs, 23 % wood:

        >>> round(layer_resistance([(0.23, 1.19), (0.77, 3.34)]), 2)
        2.36

    Source: ISO 6946:2017, lower limit, read in textbook notes; example after NBC note A-9.36.2.4.(1), memory.
    """
    _check_fractions([part for part, _ in layer])
    parts = [
        (part, not_negative("thermal resistance", resistance)) for part, resistance in layer if part > 0.0
    ]
    if any(resistance == 0.0 for _, resistance in parts):
        return 0.0
    return 1.0 / math.fsum(part / resistance for part, resistance in parts)


def isothermal_planes(layers: Sequence[Layer]) -> float:
    """Return the resistance of a section taking every plane between layers as one temperature.

    Args:
        layers: layers from inside to outside, films included, each as (area fraction [-], resistance
            [m²·K/W]).

    Returns:
        lower limit of the thermal resistance [m²·K/W].

    Raises:
        ValueError: when a layer's fractions do not add up to 1 or a resistance is negative.

    Example:
        >>> wall = [[(1.0, 0.13)], [(0.8, 3.0), (0.2, 1.0)], [(1.0, 0.04)]]
        >>> round(isothermal_planes(wall), 2)
        2.31

    Source: ISO 6946:2017, lower limit, read in textbook notes; ASHRAE Fundamentals ch. 27, read.
    """
    return math.fsum(layer_resistance(layer) for layer in layers)


def parallel_path(paths: Sequence[Path]) -> float:
    """Return the resistance of a section taking heat to run straight through, path by path.

    Args:
        paths: (area fraction [-], resistances [m²·K/W] of the whole path, films included); fractions add up
            to 1. Continuous insulation stands inside each path: adding it after averaging is another
            section, with another number.

    Returns:
        upper limit of the thermal resistance [m²·K/W].

    Raises:
        ValueError: when fractions do not add up to 1, or a path has no resistance.

    Notes:
        1/R = Σ f/R_path. Parts of like conductivity, as in timber framing; not for metal bridges.

    Example:
        >>> round(parallel_path([(0.75, [3.31]), (0.25, [1.81])]), 2)
        2.74

    Source: ISO 6946:2017, upper limit, read in textbook notes; ASHRAE Fundamentals ch. 27, read.
    """
    _check_fractions([part for part, _ in paths])
    return 1.0 / math.fsum(part / _path_resistance(resistances) for part, resistances in paths if part > 0.0)


def section_paths(layers: Sequence[Layer], *, aligned: bool = False) -> tuple[Path, ...]:
    """Return every way through a section of which several layers may be framed.

    Args:
        layers: layers from inside to outside, films included, each as (area fraction [-], resistance
            [m²·K/W]).
        aligned: whether the framed layers stand in line. False crosses them: every part meets every part,
            areas multiply. True lays the parts of each layer side by side in the order given, from one common
            edge, so parts in like position (framing last, say) overlap as far as their areas allow.

    Returns:
        paths for `parallel_path`, with area fractions that add up to 1.

    Raises:
        ValueError: when a layer's fractions do not add up to 1.

    Example:
        Studs crossed by battens of a service cavity give four paths, in line only three:

        >>> studs, battens = [(0.8, 3.0), (0.2, 1.0)], [(0.9, 0.18), (0.1, 0.4)]
        >>> [round(part, 2) for part, _ in section_paths([studs, battens])]
        [0.72, 0.08, 0.18, 0.02]
        >>> [round(part, 2) for part, _ in section_paths([studs, battens], aligned=True)]
        [0.8, 0.1, 0.1]

    Source: ISO 6946:2017, upper limit (areas of the sections a to q), read in textbook notes; the two
    couplings are the project's own reading of it.
    """
    for layer in layers:
        _check_fractions([part for part, _ in layer])
    if aligned:
        return _aligned_paths(layers)
    return tuple(
        (math.prod(part for part, _ in choice), tuple(resistance for _, resistance in choice))
        for choice in product(*layers)
        if all(part > 0.0 for part, _ in choice)
    )


def iso_6946_limits(paths: Sequence[Path], layers: Sequence[Layer]) -> ResistanceLimits:
    """Return the upper and lower limit of a section's resistance, their mean and its largest error.

    Args:
        paths: the section as paths, (area fraction [-], resistances [m²·K/W]), as from `section_paths`.
        layers: the same section as layers, (area fraction [-], resistance [m²·K/W]).

    Returns:
        the limits, with resistances in [m²·K/W]; `method_holds` says whether the mean may be used.

    Raises:
        ValueError: when the upper limit comes out below the lower one: the two describe different sections.

    Notes:
        R = (R_upper + R_lower)/2, error e = (R_upper - R_lower)/(2·R). Not for metal bridges, not for
        upper over lower above 1.5.

    Example:
        >>> wall = [[(1.0, 0.324)], [(0.875, 4.5), (0.125, 1.3846)], [(1.0, 0.154)]]
        >>> limits = iso_6946_limits(section_paths(wall), wall)
        >>> round(limits.upper, 2), round(limits.lower, 2), round(limits.max_relative_error, 3)
        (4.12, 3.99, 0.016)

    Source: ISO 6946:2017, combined method, read in textbook notes; error and 1.5 limit memory.
    """
    return combined_limits(parallel_path(paths), isothermal_planes(layers))


def combined_limits(upper: float, lower: float) -> ResistanceLimits:
    """Return the mean of two limits already worked out, and its largest error.

    Args:
        upper: upper limit of the thermal resistance [m²·K/W], as from `parallel_path`, above 0.
        lower: lower limit of the thermal resistance [m²·K/W], as from `isothermal_planes`, above 0.

    Returns:
        the limits, with resistances in [m²·K/W]; `method_holds` says whether the mean may be used.

    Raises:
        ValueError: when the upper limit lies below the lower one: the two describe different sections.

    Notes:
        R = (R_upper + R_lower)/2, error e = (R_upper - R_lower)/(2·R).

    Example:
        >>> combined_limits(3.2, 2.8).mean
        3.0

    Source: ISO 6946:2017, combined method, read in textbook notes; error memory.
    """
    if upper < lower * (1.0 - 1e-9):
        raise ValueError(f"upper limit {upper:.4g} is below lower limit {lower:.4g}: paths and layers differ")
    mean = (upper + lower) / 2.0
    return ResistanceLimits(upper, lower, mean, (upper - lower) / (2.0 * mean))


def heat_flux(resistance: float, inside: float, outside: float) -> float:
    """Return the heat that flows outward through a square metre.

    Args:
        resistance: thermal resistance from air to air, films included [m²·K/W], above 0.
        inside: indoor temperature [°C].
        outside: outdoor temperature [°C].

    Returns:
        heat flux [W/m²], negative when heat flows inward.

    Raises:
        ValueError: when the resistance is not above zero or a temperature is not finite.

    Example:
        >>> round(heat_flux(3.05, 20.0, -16.0), 1)
        11.8

    Source: definition of thermal resistance; example after a heat-transfer textbook, read.
    """
    difference = finite("indoor temperature", inside) - finite("outdoor temperature", outside)
    return difference / positive("thermal resistance", resistance)


def interface_temperatures(resistances: Sequence[float], inside: float, outside: float) -> tuple[float, ...]:
    """Return the temperature at both ends and at every interface of layers in series.

    Args:
        resistances: thermal resistances [m²·K/W] from inside to outside, both films included.
        inside: indoor air temperature [°C].
        outside: outdoor air temperature [°C].

    Returns:
        one more temperature than resistances [°C]: indoor air, the inside surface (behind the inside film),
        every interface, the outside surface, outdoor air.

    Raises:
        ValueError: when the resistances add up to nothing, or a value is negative or not finite.

    Example:
        >>> [round(t, 1) for t in interface_temperatures([0.13, 3.0, 0.04], 20.0, -5.0)]
        [20.0, 19.0, -4.7, -5.0]

    Source: ISO 13788:2012, clause on the temperature distribution, read in textbook notes.
    """
    total = positive("total thermal resistance", series_resistance(resistances))
    finite("indoor temperature", inside)
    finite("outdoor temperature", outside)
    passed = accumulate(resistances, initial=0.0)
    shares = [min(1.0, resistance / total) for resistance in passed]
    # The last share is exact by definition: rounding of the running sum must not move the outdoor air.
    shares[-1] = 1.0
    return tuple(inside * (1.0 - share) + outside * share for share in shares)


def temperature_factor(resistance: float, inside_film: float) -> float:
    """Return the temperature factor fRsi of a plane section without bridges.

    Args:
        resistance: thermal resistance from air to air, reckoned with the same inside film [m²·K/W], above 0.
        inside_film: internal surface resistance Rsi [m²·K/W], 0.25 for mould on opaque surfaces.

    Returns:
        temperature factor fRsi [-], 0 (as cold as outdoors) to 1 (as warm as indoors).

    Raises:
        ValueError: when the film is negative or larger than the whole resistance.

    Notes:
        fRsi = 1 - Rsi/R. Mixing a resistance reckoned with 0.13 and a film of 0.25 is only approximate.

    Example:
        >>> round(temperature_factor(1.12, 0.25), 3)
        0.777

    Source: ISO 13788:2012 and ISO 10211, definition of fRsi, read in textbook notes; the plane form follows.
    """
    not_negative("inside film", inside_film)
    if inside_film > positive("thermal resistance", resistance):
        raise ValueError("the inside film cannot exceed the resistance of the whole section")
    return 1.0 - inside_film / resistance


def surface_temperature(factor: float, inside: float, outside: float) -> float:
    """Return the inside surface temperature that a temperature factor gives.

    Args:
        factor: temperature factor fRsi [-], 0 to 1.
        inside: indoor air temperature [°C].
        outside: outdoor air temperature [°C].

    Returns:
        inside surface temperature [°C].

    Raises:
        ValueError: when the factor lies outside 0 to 1 or a temperature is not finite.

    Example:
        >>> round(surface_temperature(0.70, 20.0, -5.0), 2)
        12.5

    Source: DIN 4108-2, clause 6, read in textbook notes.
    """
    fraction("temperature factor", factor)
    return finite("outdoor temperature", outside) + factor * (finite("indoor temperature", inside) - outside)


def _check_fractions(parts: Sequence[float]) -> None:
    for part in parts:
        fraction("area fraction", part)
    total = math.fsum(parts)
    if abs(total - 1.0) > _FRACTION_TOLERANCE:
        raise ValueError(f"area fractions must add up to 1, not {total:.6g}")


def _path_resistance(resistances: Sequence[float]) -> float:
    return positive("thermal resistance of a path", series_resistance(resistances))


def _aligned_paths(layers: Sequence[Layer]) -> tuple[Path, ...]:
    """Lay the parts of every layer along one unit of width and cut it wherever any layer changes."""
    edges = [list(accumulate(part for part, _ in layer)) for layer in layers]
    inner = sorted(edge for layer_edges in edges for edge in layer_edges[:-1])
    cuts = [0.0, *inner, 1.0]
    paths: list[Path] = []
    for left, right in pairwise(cuts):
        # Edges that two layers share differ by rounding only; such slivers hold no area.
        if right - left <= 1e-12:
            continue
        middle = (left + right) / 2.0
        chosen = [
            _part_at(layer, layer_edges, middle) for layer, layer_edges in zip(layers, edges, strict=True)
        ]
        paths.append((right - left, tuple(chosen)))
    return tuple(paths)


def _part_at(layer: Layer, edges: Sequence[float], place: float) -> float:
    for (_, resistance), edge in zip(layer, edges, strict=True):
        if place < edge:
            return resistance
    return layer[-1][1]
