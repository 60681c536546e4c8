"""What moisture does to conductivity: the conversion for volume moisture, and the moisture a condensate means."""

import math

from speccheck.physics._bounds import not_negative, positive

__all__ = ["volume_moisture", "wet_conductivity"]

_WATER_DENSITY = 1000.0


def volume_moisture(mass: float, thickness: float) -> float:
    """Return the volume moisture content of a layer that takes up a mass of water evenly.

    Args:
        mass: water [kg/m²], not negative.
        thickness: thickness of the layer [m], above 0.

    Returns:
        moisture content by volume [m³/m³].

    Raises:
        ValueError: when an argument lies outside its range.

    Example:
        >>> volume_moisture(0.44, 0.04)
        0.011

    Source: definition; example after public lecture notes on thermal bridges of a technical university, read.
    """
    return not_negative("mass of water", mass) / (_WATER_DENSITY * positive("thickness", thickness))


def wet_conductivity(
    conductivity: float, factor: float, moisture: float, moisture_before: float = 0.0
) -> float:
    """Return the conductivity of a material at another moisture content.

    Args:
        conductivity: conductivity at the moisture content it was stated for [W/(m·K)], above 0.
        factor: conversion factor of the material for volume moisture [m³/m³], not negative; 4 for mineral
            wool and expanded polystyrene, 2.5 extruded polystyrene, 6 polyurethane.
        moisture: moisture content wanted [m³/m³], 0 to 1.
        moisture_before: moisture content it was stated for [m³/m³], 0 to 1.

    Returns:
        conductivity [W/(m·K)].

    Raises:
        ValueError: when an argument lies outside its range.

    Notes:
        lambda_2 = lambda_1·exp(f·(psi_2 - psi_1)), up to about 0.15 m³/m³ for most materials; beyond it
        overstates.

    Example:
        >>> round(wet_conductivity(0.04, 4.0, 0.011), 4)
        0.0418

    Source: ISO 10456:2007, conversion for volume moisture and factor 4, read in public lecture notes; other
    factors memory.
    """
    for value in (moisture, moisture_before):
        if not_negative("moisture content", value) > 1.0:
            raise ValueError(f"moisture content by volume must not exceed 1, not {value}")
    change = moisture - moisture_before
    return positive("conductivity", conductivity) * math.exp(not_negative("factor", factor) * change)
