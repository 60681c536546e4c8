"""Moist air: saturation, dew point, relative humidity and vapour concentration."""

import math
from collections.abc import Sequence

from speccheck.physics._bounds import finite, fraction, not_negative, positive

__all__ = [
    "ABSOLUTE_ZERO",
    "GAS_CONSTANT_OF_VAPOUR",
    "SATURATION_PRESSURE_AT_ZERO",
    "dew_point",
    "relative_humidity",
    "saturation_pressure",
    "saturation_pressures",
    "vapour_concentration",
    "vapour_pressure",
]

SATURATION_PRESSURE_AT_ZERO = 610.5
"""Saturation pressure at 0 °C [Pa], where the branches over ice and over water meet (ISO 13788, memory)."""

GAS_CONSTANT_OF_VAPOUR = 461.5
"""Gas constant of water vapour [J/(kg·K)] (ISO 13788, memory)."""

ABSOLUTE_ZERO = -273.15
"""Absolute zero [°C]."""

_OVER_WATER = (17.269, 237.3)
_OVER_ICE = (21.875, 265.5)
_COLDEST, _WARMEST = -100.0, 100.0


def saturation_pressure(temperature: float) -> float:
    """Return the saturation vapour pressure over water, or over ice below 0 °C.

    Args:
        temperature: temperature [°C], -100 to 100.

    Returns:
        saturation vapour pressure [Pa].

    Raises:
        ValueError: when the temperature lies outside the range.

    Notes:
        p = 610.5·exp(17.269·t/(237.3 + t)) from 0 °C up, p = 610.5·exp(21.875·t/(265.5 + t)) below.
        Against the IAPWS formulations the constants are within 0.2 % from 0 °C to 50 °C, 0.6 % down to -20 °C
        and 2 % down to -40 °C.

    Example:
        >>> round(saturation_pressure(20.0))
        2337
        >>> round(saturation_pressure(-10.0), 1)
        259.3

    Source: ISO 13788:2012, annex E, memory; reproduces a published DIN 4108-3 table (read) within 0.3 %.
    """
    if not _COLDEST <= finite("temperature", temperature) <= _WARMEST:
        raise ValueError(f"temperature must lie from {_COLDEST:g} to {_WARMEST:g} °C, not {temperature}")
    slope, offset = _OVER_WATER if temperature >= 0.0 else _OVER_ICE
    return SATURATION_PRESSURE_AT_ZERO * math.exp(slope * temperature / (offset + temperature))


def saturation_pressures(temperatures: Sequence[float]) -> tuple[float, ...]:
    """Return the saturation vapour pressure at each of some temperatures.

    Args:
        temperatures: temperatures [°C], -100 to 100.

    Returns:
        saturation vapour pressures [Pa].

    Raises:
        ValueError: when a temperature lies outside the range.

    Notes:
        `saturation_pressure` for the interfaces of a section, which the loops over months ask for by the
        thousand: the same numbers to the last digit, checked once for all.

    Example:
        >>> [round(pressure) for pressure in saturation_pressures([20.0, -10.0])]
        [2337, 259]

    Source: ISO 13788:2012, annex E, memory.
    """
    # a number that is none is neither below nor above: the sum catches it
    if not (math.isfinite(sum(temperatures)) and min(temperatures, default=0.0) >= _COLDEST):
        return tuple([saturation_pressure(temperature) for temperature in temperatures])
    if max(temperatures, default=0.0) > _WARMEST:
        return tuple([saturation_pressure(temperature) for temperature in temperatures])
    exp, (water, water_offset), (ice, ice_offset) = math.exp, _OVER_WATER, _OVER_ICE
    return tuple(
        [
            SATURATION_PRESSURE_AT_ZERO
            * exp(water * t / (water_offset + t) if t >= 0.0 else ice * t / (ice_offset + t))
            for t in temperatures
        ]
    )


def dew_point(vapour_pressure: float) -> float:
    """Return the temperature at which air of this vapour pressure is saturated; below 0 °C the frost point.

    Args:
        vapour_pressure: partial pressure of water vapour [Pa], above 0, up to saturation at 100 °C.

    Returns:
        dew point, or frost point when below 0 [°C].

    Raises:
        ValueError: when the pressure is not above zero or lies outside the range of the saturation formula.

    Notes:
        The exact inverse of `saturation_pressure`, on the same two branches.

    Example:
        >>> round(dew_point(0.5 * saturation_pressure(20.0)), 1)
        9.3

    Source: ISO 13788:2012, annex E, memory.
    """
    ratio = math.log(positive("vapour pressure", vapour_pressure) / SATURATION_PRESSURE_AT_ZERO)
    slope, offset = _OVER_WATER if ratio >= 0.0 else _OVER_ICE
    temperature = offset * ratio / (slope - ratio) if ratio < slope else math.inf
    # A hair of slack keeps the inverse total: saturation at the very end of the range must come back.
    if not _COLDEST - 1e-6 <= temperature <= _WARMEST + 1e-6:
        raise ValueError(f"vapour pressure {vapour_pressure} Pa has no dew point from -100 to 100 °C")
    return temperature


def vapour_pressure(temperature: float, relative_humidity: float) -> float:
    """Return the vapour pressure of air at a temperature and relative humidity.

    Args:
        temperature: air temperature [°C], -100 to 100.
        relative_humidity: relative humidity [-], 0 to 1.

    Returns:
        partial pressure of water vapour [Pa].

    Raises:
        ValueError: when an argument lies outside its range.

    Example:
        >>> round(vapour_pressure(20.0, 0.5))
        1168

    Source: definition of relative humidity; 1168 Pa is the indoor block climate of DIN 4108-3, read.
    """
    return fraction("relative humidity", relative_humidity) * saturation_pressure(temperature)


def relative_humidity(temperature: float, vapour_pressure: float) -> float:
    """Return the relative humidity that a vapour pressure means at a temperature.

    Args:
        temperature: air or surface temperature [°C], -100 to 100.
        vapour_pressure: partial pressure of water vapour [Pa], not negative.

    Returns:
        relative humidity [-]; above 1 means that vapour would condense at this temperature.

    Raises:
        ValueError: when an argument lies outside its range.

    Example:
        >>> round(relative_humidity(12.6, vapour_pressure(20.0, 0.5)), 2)
        0.8

    Source: definition of relative humidity; 12.6 °C with 80 % is the DIN 4108-2 surface condition, read.
    """
    return not_negative("vapour pressure", vapour_pressure) / saturation_pressure(temperature)


def vapour_concentration(temperature: float, vapour_pressure: float) -> float:
    """Return the mass of water vapour in a volume of air.

    Args:
        temperature: air temperature [°C], -100 to 100.
        vapour_pressure: partial pressure of water vapour [Pa], not negative.

    Returns:
        vapour concentration [kg/m³].

    Raises:
        ValueError: when an argument lies outside its range.

    Notes:
        v = p/(R_v·T) with R_v = 461.5 J/(kg·K).

    Example:
        >>> round(1000 * vapour_concentration(20.0, 2339.0), 1)
        17.3

    Source: ideal gas law with the constant of ISO 13788:2012, memory; agrees with the table of a Danish
    moisture guideline (SBi 224, annex A), read.
    """
    if not _COLDEST <= finite("temperature", temperature) <= _WARMEST:
        raise ValueError(f"temperature must lie from {_COLDEST:g} to {_WARMEST:g} °C, not {temperature}")
    pressure = not_negative("vapour pressure", vapour_pressure)
    return pressure / (GAS_CONSTANT_OF_VAPOUR * (temperature - ABSOLUTE_ZERO))
