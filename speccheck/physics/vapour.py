"""Steady vapour diffusion: permeance, sd, series, flux, retarder class and humidity-dependent layers."""

import math
from collections.abc import Sequence
from typing import Literal

from speccheck.physics._bounds import finite, fraction, not_negative, positive
from speccheck.physics._piecewise import between
from speccheck.physics.psychrometrics import ABSOLUTE_ZERO, GAS_CONSTANT_OF_VAPOUR

__all__ = [
    "DELTA_AIR",
    "US_PERM",
    "VapourClass",
    "flux",
    "permeance_at",
    "permeance_from_resistance_factor",
    "permeance_from_sd",
    "permeance_of",
    "sd_of",
    "series_permeance",
    "vapour_class",
    "vapour_resistance",
    "ventilation_permeance",
]

DELTA_AIR = 2.0e-10
"""Vapour permeability of still air [kg/(m·s·Pa)], the one convention of ISO 13788 and DIN 4108-3 (memory; it
reproduces published condensation rates and the pair 0.6 MN·s/g = 0.12 m, both read)."""

US_PERM = 57.2135e-12
"""One US perm, 1 grain/(h·ft²·inHg) with mercury at 0 °C [kg/(m²·s·Pa)] (definition, read)."""

VapourClass = Literal["I", "II", "III", "none"]
"""Vapour retarder class of the US model codes; "none" is above class III."""

_CLASS_BOUNDS: tuple[tuple[VapourClass, float], ...] = (("I", 0.1), ("II", 1.0), ("III", 10.0))
_SECONDS_PER_HOUR = 3600.0


def permeance_of(permeability: float, thickness: float) -> float:
    """Return the permeance of a homogeneous layer.

    Args:
        permeability: vapour permeability [kg/(m·s·Pa)], not negative.
        thickness: thickness [m], above 0.

    Returns:
        permeance [kg/(m²·s·Pa)].

    Raises:
        ValueError: when an argument lies outside its range.

    Notes:
        Homogeneous boards only: faced boards, films and coatings do not halve when doubled.

    Example:
        A board of 3 perm·inch, 8 inches thick, has 0.375 perm:

        >>> round(permeance_of(3 * US_PERM * 0.0254, 8 * 0.0254) / US_PERM, 3)
        0.375

    Source: definition (ISO 12572, ASTM E96), memory; example after two published trade pages, read.
    """
    return not_negative("vapour permeability", permeability) / positive("thickness", thickness)


def permeance_from_resistance_factor(resistance_factor: float, thickness: float) -> float:
    """Return the permeance of a layer stated by its vapour resistance factor mu.

    Args:
        resistance_factor: vapour resistance factor mu [-], at least 1.
        thickness: thickness [m], above 0.

    Returns:
        permeance [kg/(m²·s·Pa)].

    Raises:
        ValueError: when an argument lies outside its range.

    Notes:
        sd = mu·d and permeance = delta_air/sd, with the one delta_air of this module.

    Example:
        >>> round(permeance_from_resistance_factor(50.0, 0.019) * 1e12, 1)
        210.5

    Source: ISO 12572 and ISO 13788, definition of mu, read in textbook notes.
    """
    if finite("vapour resistance factor", resistance_factor) < 1.0:
        raise ValueError(f"vapour resistance factor must be at least 1 (still air), not {resistance_factor}")
    return permeance_from_sd(resistance_factor * positive("thickness", thickness))


def sd_of(permeance: float) -> float:
    """Return the thickness of still air that resists vapour as a layer does.

    Args:
        permeance: permeance [kg/(m²·s·Pa)], 0 (impermeable) up to infinite (no resistance).

    Returns:
        vapour diffusion-equivalent air layer thickness sd [m]; infinite for a permeance of 0.

    Raises:
        ValueError: when the permeance is negative or not a number.

    Example:
        >>> round(sd_of(US_PERM), 2)
        3.5

    Source: ISO 13788:2012, definition of sd, memory.
    """
    return DELTA_AIR * vapour_resistance(permeance)


def permeance_from_sd(sd: float) -> float:
    """Return the permeance of a layer stated by its equivalent air layer thickness.

    Args:
        sd: vapour diffusion-equivalent air layer thickness [m], 0 (no resistance) up to infinite.

    Returns:
        permeance [kg/(m²·s·Pa)]; infinite for an sd of 0, 0 for an infinite sd.

    Raises:
        ValueError: when the sd is negative or not a number.

    Example:
        >>> round(permeance_from_sd(2.0) * 1e12, 1)
        100.0

    Source: ISO 13788:2012, definition of sd, memory.
    """
    return DELTA_AIR * _inverse("sd", sd)


def vapour_resistance(permeance: float) -> float:
    """Return the vapour resistance of a layer.

    Args:
        permeance: permeance [kg/(m²·s·Pa)], 0 (impermeable) up to infinite (no resistance).

    Returns:
        vapour resistance [m²·s·Pa/kg]; infinite for a permeance of 0, 0 for an infinite permeance.

    Raises:
        ValueError: when the permeance is negative or not a number.

    Example:
        A membrane of sd 0.12 m has 0.6 MN·s/g:

        >>> round(vapour_resistance(permeance_from_sd(0.12)) / 1e9, 3)
        0.6

    Source: definition; example after a UK housing warranty standard, clause 6.2.13, read.
    """
    return _inverse("permeance", permeance)


def series_permeance(permeances: Sequence[float]) -> float:
    """Return the permeance of layers one behind the other.

    Args:
        permeances: permeances [kg/(m²·s·Pa)]; 0 is impermeable, infinite has no resistance; none gives
            infinite.

    Returns:
        permeance of the whole [kg/(m²·s·Pa)], never above the least of them.

    Raises:
        ValueError: when a permeance is negative or not a number.

    Notes:
        1/W = Σ 1/W_layer.

    Example:
        Two class III layers of 2.3 and 1.5 perm are class II together:

        >>> round(series_permeance([2.3 * US_PERM, 1.5 * US_PERM]) / US_PERM, 3)
        0.908

    Source: ASTM E96 practice, series resistance, memory; example after a published trade answer, read.
    """
    return _inverse("vapour resistance", math.fsum(vapour_resistance(permeance) for permeance in permeances))


def flux(permeance: float, pressure_from: float, pressure_to: float) -> float:
    """Return the vapour that diffuses through a square metre of a layer.

    Args:
        permeance: permeance [kg/(m²·s·Pa)], not negative and finite.
        pressure_from: vapour pressure on the side reckoned from [Pa], not negative.
        pressure_to: vapour pressure on the other side [Pa], not negative.

    Returns:
        vapour flux [kg/(m²·s)], negative when it runs the other way.

    Raises:
        ValueError: when an argument is negative or not finite.

    Example:
        Gypsum board of 2.86e-9 kg/(m²·s·Pa), 24 m², one day, 20 °C and 60 % to dry air:

        >>> round(flux(2.86e-9, 0.6 * 2339.0, 0.0) * 24 * 86400, 2)
        8.32

    Source: ISO 13788:2012, diffusion equation, memory; example after a heat-transfer textbook, memory in
    part.
    """
    not_negative("vapour pressure", pressure_from)
    not_negative("vapour pressure", pressure_to)
    return not_negative("permeance", permeance) * (pressure_from - pressure_to)


def vapour_class(permeance: float) -> VapourClass:
    """Return the vapour retarder class of a dry-cup permeance.

    Args:
        permeance: dry-cup permeance (ASTM E96, desiccant method) [kg/(m²·s·Pa)], not negative.

    Returns:
        "I" up to 0.1 perm, "II" above 0.1 up to 1.0 perm, "III" above 1.0 up to 10 perm, "none" above.

    Raises:
        ValueError: when the permeance is negative or not a number.

    Notes:
        The upper bounds belong to the tighter class. A relative slack of 1e-9 keeps a value written as
        exactly 1 perm in class II whatever unit it was written in.

    Example:
        >>> vapour_class(0.06 * US_PERM), vapour_class(1.0 * US_PERM), vapour_class(60e-12)
        ('I', 'II', 'III')

    Source: International Residential Code, R202 definition and R702.7, read.
    """
    if math.isnan(permeance) or permeance < 0.0:
        raise ValueError(f"permeance must not be negative, not {permeance}")
    for name, bound in _CLASS_BOUNDS:
        if permeance <= bound * US_PERM * (1.0 + 1e-9):
            return name
    return "none"


def permeance_at(curve: Sequence[tuple[float, float]], relative_humidity: float) -> float:
    """Return the permeance of a humidity-dependent layer at its mean relative humidity.

    Args:
        curve: (relative humidity [-], permeance [kg/(m²·s·Pa)]) in rising order of humidity.
        relative_humidity: mean relative humidity of the layer [-], 0 to 1.

    Returns:
        permeance [kg/(m²·s·Pa)].

    Raises:
        ValueError: when the curve is empty or does not rise in humidity, or a value lies outside its range.

    Notes:
        Straight lines between the points. Below the first and above the last point the end value stands: a
        curve is never extended. Near the wet end this understates how far a variable layer opens.

    Example:
        >>> curve = [(0.25, 50e-12), (0.50, 90e-12), (0.80, 480e-12)]
        >>> round(permeance_at(curve, 0.65) * 1e12), round(permeance_at(curve, 0.95) * 1e12)
        (285, 480)

    Source: common practice, no source: linear reading of cup-test points (memory).
    """
    fraction("relative humidity", relative_humidity)
    for humidity, permeance in curve:
        fraction("relative humidity of a curve point", humidity)
        not_negative("permeance of a curve point", permeance)
    found = between(curve, relative_humidity)
    if found is not None:
        return found
    return curve[0][1] if relative_humidity < curve[0][0] else curve[-1][1]


def ventilation_permeance(depth: float, air_changes: float, temperature: float) -> float:
    """Return the permeance that outdoor air, flushing a cavity, is worth beside the cladding.

    Args:
        depth: cavity depth [m], not negative.
        air_changes: air changes of the cavity with outdoor air [1/h], not negative.
        temperature: cavity air temperature [°C], above absolute zero.

    Returns:
        equivalent permeance in parallel with the cladding [kg/(m²·s·Pa)].

    Raises:
        ValueError: when an argument lies outside its range.

    Notes:
        W = q/(R_v·T), q = depth·air_changes/3600. An upper bound: cavity air is not fully mixed.

    Example:
        >>> round(ventilation_permeance(0.025, 10.0, 10.0) * 1e12)
        531

    Source: ideal gas law; ASHRAE Fundamentals 2021 ch. 27, equivalent permeance 1/Z = m·0.62/p, read.
    """
    not_negative("air changes", air_changes)
    kelvin = positive("absolute temperature", temperature - ABSOLUTE_ZERO)
    flow = not_negative("cavity depth", depth) * air_changes / _SECONDS_PER_HOUR
    return flow / (GAS_CONSTANT_OF_VAPOUR * kelvin)


def _inverse(name: str, value: float) -> float:
    if math.isnan(value) or value < 0.0:
        raise ValueError(f"{name} must not be negative, not {value}")
    return math.inf if value == 0.0 else 1.0 / value
