"""Air leakage: flow at another pressure, air changes and permeability, leakage areas and air density."""

import math

from speccheck.physics._bounds import finite, fraction, not_negative, positive
from speccheck.physics.psychrometrics import ABSOLUTE_ZERO

__all__ = [
    "DRY_AIR_DENSITY",
    "STANDARD_PRESSURE",
    "air_change_rate",
    "air_changes_from_air_permeability",
    "air_density",
    "air_permeability",
    "air_permeability_from_air_changes",
    "flow_at_pressure",
    "leakage_area",
    "leakage_flow",
    "stagnation_pressure",
]

STANDARD_PRESSURE = 101325.0
"""Standard atmospheric pressure [Pa]."""

DRY_AIR_DENSITY = 1.2041
"""Density of dry air at 20 °C and 101325 Pa [kg/m³] (ideal gas, memory)."""

_GAS_CONSTANT_OF_AIR = 287.055
_VAPOUR_DEFICIT = 0.37802
_SECONDS_PER_HOUR = 3600.0


def flow_at_pressure(flow: float, pressure: float, target: float, exponent: float = 0.65) -> float:
    """Return the flow that a leak measured at one pressure difference passes at another.

    Args:
        flow: air flow at the first pressure difference [m³/s or m³/(s·m²)], not negative.
        pressure: pressure difference of that flow [Pa], above 0.
        target: pressure difference wanted [Pa], not negative.
        exponent: flow exponent n [-], 0.5 (orifice) to 1.0 (laminar crack); 0.65 where none is measured.

    Returns:
        air flow at the target, in the unit given.

    Raises:
        ValueError: when an argument lies outside its range.

    Notes:
        q = C·dp^n. Carrying a value measured at 75 Pa to 4 Pa by an assumed exponent is a screening figure
        only.

    Example:
        0.02 L/(s·m²) at 75 Pa is 0.0154 at 50 Pa:

        >>> round(flow_at_pressure(0.02, 75.0, 50.0), 4)
        0.0154

    Source: ASTM E779 and ISO 9972, power law, read; default exponent memory.
    """
    if not 0.5 <= finite("flow exponent", exponent) <= 1.0:
        raise ValueError(f"flow exponent must lie from 0.5 to 1, not {exponent}")
    ratio = not_negative("target pressure", target) / positive("pressure", pressure)
    return not_negative("air flow", flow) * float(ratio**exponent)


def air_change_rate(flow: float, volume: float) -> float:
    """Return the hourly air changes that a flow means.

    Args:
        flow: air flow [m³/s], not negative.
        volume: internal volume [m³], above 0.

    Returns:
        air changes [1/h].

    Raises:
        ValueError: when an argument lies outside its range.

    Example:
        >>> round(air_change_rate(0.572, 300.0), 2)
        6.86

    Source: ISO 9972:2015, n50, memory.
    """
    return not_negative("air flow", flow) * _SECONDS_PER_HOUR / positive("volume", volume)


def air_permeability(flow: float, envelope_area: float) -> float:
    """Return the air permeability of an envelope: flow per area.

    Args:
        flow: air flow [m³/s], not negative.
        envelope_area: area of the pressure boundary [m²], above 0.

    Returns:
        air permeability at the pressure of the flow [m³/(s·m²)].

    Raises:
        ValueError: when an argument lies outside its range.

    Example:
        >>> round(1000 * air_permeability(0.4, 400.0), 2)
        1.0

    Source: ISO 9972:2015, specific leakage of the envelope, memory; the Canadian NLR50 is the same figure,
    read.
    """
    return not_negative("air flow", flow) / positive("envelope area", envelope_area)


def air_permeability_from_air_changes(air_changes: float, volume: float, envelope_area: float) -> float:
    """Return the air permeability of an envelope known by its air changes at the same pressure.

    Args:
        air_changes: air changes at the test pressure [1/h], not negative.
        volume: internal volume [m³], above 0.
        envelope_area: area of the pressure boundary [m²], above 0.

    Returns:
        air permeability at the same pressure [m³/(s·m²)].

    Raises:
        ValueError: when an argument lies outside its range.

    Notes:
        The two figures do not convert without the geometry.

    Example:
        3 air changes in 500 m³ inside 450 m²:

        >>> round(1000 * air_permeability_from_air_changes(3.0, 500.0, 450.0), 3)
        0.926

    Source: ISO 9972:2015, n50 and q50 of the envelope, memory.
    """
    flow = not_negative("air changes", air_changes) * positive("volume", volume) / _SECONDS_PER_HOUR
    return air_permeability(flow, envelope_area)


def air_changes_from_air_permeability(permeability: float, volume: float, envelope_area: float) -> float:
    """Return the air changes of an enclosure known by its air permeability at the same pressure.

    Args:
        permeability: air permeability at the test pressure [m³/(s·m²)], not negative.
        volume: internal volume [m³], above 0.
        envelope_area: area of the pressure boundary [m²], above 0.

    Returns:
        air changes at the same pressure [1/h].

    Raises:
        ValueError: when an argument lies outside its range.

    Example:
        >>> round(air_changes_from_air_permeability(0.926e-3, 500.0, 450.0), 2)
        3.0

    Source: ISO 9972:2015, n50 and q50 of the envelope, memory.
    """
    flow = not_negative("air permeability", permeability) * positive("envelope area", envelope_area)
    return air_change_rate(flow, volume)


def leakage_area(
    flow: float, pressure: float, discharge_coefficient: float = 1.0, density: float = DRY_AIR_DENSITY
) -> float:
    """Return the area of the single hole that would pass a flow.

    Args:
        flow: air flow [m³/s], not negative.
        pressure: pressure difference of that flow [Pa], above 0.
        discharge_coefficient: discharge coefficient [-], above 0 up to 1: 1.0 for the ELA at 4 Pa, 0.611 for
            the Canadian EqLA at 10 Pa.
        density: air density [kg/m³], above 0.

    Returns:
        leakage area [m²].

    Raises:
        ValueError: when an argument lies outside its range.

    Notes:
        A = q/(Cd·sqrt(2·dp/rho)). ELA and EqLA of one building differ by about 1.9: never compare them bare.

    Example:
        >>> round(leakage_area(0.1108, 4.0, density=1.2) * 1e4)
        429

    Source: ASTM E779 (4 Pa, Cd 1) and CAN/CGSB-149.10 (10 Pa, Cd 0.611), memory.
    """
    return not_negative("air flow", flow) / leakage_flow(1.0, pressure, discharge_coefficient, density)


def leakage_flow(
    area: float, pressure: float, discharge_coefficient: float = 1.0, density: float = DRY_AIR_DENSITY
) -> float:
    """Return the flow that a sharp hole passes.

    Args:
        area: area of the hole [m²], not negative.
        pressure: pressure difference [Pa], above 0.
        discharge_coefficient: discharge coefficient [-], above 0 up to 1; 1 is an upper bound.
        density: air density [kg/m³], above 0.

    Returns:
        air flow [m³/s].

    Raises:
        ValueError: when an argument lies outside its range.

    Notes:
        q = Cd·A·sqrt(2·dp/rho).

    Example:
        A hole of one square inch at 4 Pa, Cd 0.6, passes a litre a second:

        >>> round(1000 * leakage_flow(0.0254**2, 4.0, 0.6), 1)
        1.0

    Source: orifice equation, textbook knowledge, memory.
    """
    if positive("discharge coefficient", discharge_coefficient) > 1.0:
        raise ValueError(f"discharge coefficient must not exceed 1, not {discharge_coefficient}")
    speed = math.sqrt(2.0 * positive("pressure", pressure) / positive("air density", density))
    return discharge_coefficient * not_negative("area", area) * speed


def stagnation_pressure(speed: float, density: float = DRY_AIR_DENSITY) -> float:
    """Return the pressure that wind builds up where it is brought to rest.

    Args:
        speed: wind speed [m/s], not negative.
        density: air density [kg/m³], above 0.

    Returns:
        stagnation pressure [Pa]; times the difference of two pressure coefficients it is the difference
        across.

    Raises:
        ValueError: when an argument lies outside its range.

    Example:
        >>> round(stagnation_pressure(5.0, 1.25), 1)
        15.6

    Source: Bernoulli's equation; example after university course notes on building physics, read.
    """
    return 0.5 * positive("air density", density) * not_negative("wind speed", speed) ** 2


def air_density(
    temperature: float, relative_humidity: float = 0.5, barometric_pressure: float = STANDARD_PRESSURE
) -> float:
    """Return the density of moist air for correcting test flows.

    Args:
        temperature: air temperature [°C], -50 to 60.
        relative_humidity: relative humidity [-], 0 to 1; 0.5 where it is not measured.
        barometric_pressure: barometric pressure [Pa], above 0.

    Returns:
        air density [kg/m³].

    Raises:
        ValueError: when an argument lies outside its range.

    Notes:
        rho = (p - 0.37802·p_v)/(287.055·T), p_v = phi·exp(59.484085 - 6790.4985/T - 5.02802·ln T). The vapour
        term is over water even below 0 °C, as the test standard has it; for density the gap does not matter.

    Example:
        >>> round(air_density(20.0), 4)
        1.1988

    Source: EN 13829 and ISO 9972 annex as given in a UK airtightness testing standard, vapour term read,
    density equation memory.
    """
    if not -50.0 <= finite("temperature", temperature) <= 60.0:
        raise ValueError(f"temperature must lie from -50 to 60 °C, not {temperature}")
    kelvin = temperature - ABSOLUTE_ZERO
    saturated = math.exp(59.484085 - 6790.4985 / kelvin - 5.02802 * math.log(kelvin))
    vapour = fraction("relative humidity", relative_humidity) * saturated
    dry = positive("barometric pressure", barometric_pressure) - _VAPOUR_DEFICIT * vapour
    return dry / (_GAS_CONSTANT_OF_AIR * kelvin)
