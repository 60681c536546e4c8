"""The moisture that leaking indoor air leaves at a cold plane: what a drying reserve is kept for."""

from collections.abc import Sequence

from speccheck.physics._bounds import finite, fraction, not_negative
from speccheck.physics.air_leakage import air_density, flow_at_pressure
from speccheck.physics.moisture_year import MONTH_SECONDS
from speccheck.physics.monthly_balance import MonthlyClimate
from speccheck.physics.psychrometrics import (
    ABSOLUTE_ZERO,
    GAS_CONSTANT_OF_VAPOUR,
    saturation_pressure,
)

__all__ = ["convective_deposit", "convective_year", "stack_pressure"]

_GRAVITY = 9.81
_TEST_PRESSURE = 50.0


def stack_pressure(inside_temperature: float, outside_temperature: float, height: float) -> float:
    """Return the pressure by which warm indoor air presses outward above the neutral plane of a house.

    Args:
        inside_temperature: indoor temperature [°C], -50 to 60.
        outside_temperature: outdoor temperature [°C], -50 to 60.
        height: height above the neutral plane [m], not negative; half the height of the heated space for its
            ceiling, where leaks are spread evenly.

    Returns:
        pressure difference, indoors less outdoors [Pa]; negative where it is warmer outside.

    Raises:
        ValueError: when an argument lies outside its range.

    Notes:
        dp = g·h·(rho_e - rho_i). Wind and fans come on top.

    Example:
        >>> round(stack_pressure(20.0, 0.0, 5.0), 1)
        4.5

    Source: hydrostatics, textbook knowledge, memory.
    """
    lift = air_density(outside_temperature) - air_density(inside_temperature)
    return _GRAVITY * not_negative("height", height) * lift


def convective_deposit(
    air_permeability: float,
    pressure: float,
    plane_temperature: float,
    inside_temperature: float,
    inside_pressure: float,
    seconds: float,
    share: float = 1.0,
    exponent: float = 0.65,
) -> float:
    """Return the water that outward leaking indoor air leaves at a cold plane.

    Args:
        air_permeability: leakage at 50 Pa through a square metre of the section [m³/(s·m²)], not negative.
        pressure: pressure difference that drives the air outward [Pa]; at or below 0 there is no deposit.
        plane_temperature: temperature of the plane that the air passes [°C], -100 to 100.
        inside_temperature: indoor temperature [°C], above absolute zero.
        inside_pressure: vapour pressure of the indoor air [Pa], not negative.
        seconds: how long [s], not negative.
        share: share of the leaking air that passes the plane and leaves it saturated [-], 0 to 1; 1 bounds
            it from above.
        exponent: flow exponent [-], 0.5 to 1.0.

    Returns:
        deposit [kg/m²]; 0 where the plane is warmer than the dew point of the indoor air.

    Raises:
        ValueError: when an argument lies outside its range.

    Notes:
        m = share·q(dp)·(p_i - p_sat(plane))/(R_v·T_i)·t. Air through short, wide gaps warms the plane and
        passes without leaving its water; published work on timber roofs puts the share that matters at a few
        per cent of what the whole building leaks (memory, low confidence). Nothing here says where leaks are.

    Example:
        3 m³/(h·m²) at 50 Pa, 2 Pa outward, a plane at 0 °C, a month: 1.1 kg/m² if all of it met the plane.

        >>> round(convective_deposit(3.0 / 3600, 2.0, 0.0, 20.0, 1168.0, 30 * 86400.0), 2)
        1.1

    Source: mass balance with the ideal gas law, textbook knowledge, memory; no source for a calibrated share.
    """
    excess = not_negative("indoor vapour pressure", inside_pressure) - saturation_pressure(plane_temperature)
    not_negative("length of time", seconds)
    fraction("share", share)
    if finite("driving pressure", pressure) <= 0.0 or excess <= 0.0:
        return 0.0
    flow = flow_at_pressure(air_permeability, _TEST_PRESSURE, pressure, exponent)
    concentration = excess / (GAS_CONSTANT_OF_VAPOUR * (inside_temperature - ABSOLUTE_ZERO))
    return share * flow * concentration * seconds


def convective_year(
    air_permeability: float,
    height: float,
    climate: MonthlyClimate,
    plane_temperatures: Sequence[float],
    share: float = 1.0,
    exponent: float = 0.65,
) -> tuple[float, ...]:
    """Return the water that leaking indoor air leaves at a plane in each month, driven by the stack effect.

    Args:
        air_permeability: leakage at 50 Pa through a square metre of the section [m³/(s·m²)], not negative.
        height: height of the section above the neutral plane [m], not negative.
        climate: both climates by month.
        plane_temperatures: temperature of the plane in each month [°C], January first.
        share: share of the leaking air that passes the plane and leaves it saturated [-], 0 to 1.
        exponent: flow exponent [-], 0.5 to 1.0.

    Returns:
        deposit of each month [kg/m²], January first; their sum is what a drying reserve has to cover.

    Raises:
        ValueError: when there are not twelve plane temperatures, or an argument lies outside its range.

    Notes:
        What the same leaks carry away in warm months is not counted.

    Example:
        >>> climate = MonthlyClimate((20.0,) * 12, (1168.0,) * 12, (0.0,) * 6 + (20.0,) * 6, (500.0,) * 12)
        >>> deposits = convective_year(3.0 / 3600, 2.5, climate, (1.0,) * 6 + (20.0,) * 6, share=0.05)
        >>> [round(1000 * deposit) for deposit in deposits]
        [56, 51, 56, 54, 56, 54, 0, 0, 0, 0, 0, 0]

    Source: mass balance with the ideal gas law, textbook knowledge, memory; no source for a calibrated share.
    """
    if len(plane_temperatures) != 12:
        raise ValueError(f"a year has twelve months, not {len(plane_temperatures)}")
    return tuple(
        [
            convective_deposit(
                air_permeability,
                stack_pressure(climate.inside_temperature[month], climate.outside_temperature[month], height),
                plane,
                climate.inside_temperature[month],
                climate.inside_pressure[month],
                MONTH_SECONDS[month],
                share,
                exponent,
            )
            for month, plane in enumerate(plane_temperatures)
        ]
    )
