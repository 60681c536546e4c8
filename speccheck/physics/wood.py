"""Wood and water: moisture content in balance with the air, and what a mass of condensate adds to it."""

import math

from speccheck.physics._bounds import finite, fraction, not_negative, positive

__all__ = [
    "PANEL_GAIN_LIMIT",
    "WOOD_GAIN_LIMIT",
    "equilibrium_moisture_content",
    "humidity_for_moisture_content",
    "moisture_gain",
]

WOOD_GAIN_LIMIT = 0.05
"""Most moisture that condensate may add to wood [kg/kg of dry wood] (DIN 4108-3:2018, 5.2.2, read in textbook
notes)."""

PANEL_GAIN_LIMIT = 0.03
"""Most moisture that condensate may add to wood-based panels [kg/kg of dry panel]; not for wood-wool boards (DIN
4108-3:2018, 5.2.2, read in textbook notes)."""

_COLDEST, _WARMEST = -40.0, 100.0


def equilibrium_moisture_content(temperature: float, relative_humidity: float) -> float:
    """Return the moisture content that wood takes on in air of lasting temperature and humidity.

    Args:
        temperature: temperature [°C], -40 to 100.
        relative_humidity: relative humidity [-], 0 to 1.

    Returns:
        moisture content [kg/kg of dry wood].

    Raises:
        ValueError: when an argument lies outside its range.

    Notes:
        Hailwood-Horrobin equation with two hydrates, M = 1800/W·[Kh/(1-Kh) + (K1·Kh + 2·K1·K2·K²h²)/
        (1 + K1·Kh + K1·K2·K²h²)] in percent. The table behind it runs from -1 °C to 132 °C and 5 % to 95 %;
        beyond is carried on. A mean of species and of first drying: measured wood lies up to two points off,
        and panels lie one to three points lower. Above 95 % liquid water in the pores adds what is not here.

    Example:
        70 °F and 65 %, the middle of the handbook's table, give 12.0 %:

        >>> round(100 * equilibrium_moisture_content(21.1, 0.65), 1)
        12.0

    Source: Wood Handbook FPL-GTR-190 (2010), chapter 4, the constants in °C read in a public package that names
    FPL-RN-0268; within 0.06 points of the cells of table 4-2.
    """
    if not _COLDEST <= finite("temperature", temperature) <= _WARMEST:
        raise ValueError(f"temperature must lie from {_COLDEST:g} to {_WARMEST:g} °C, not {temperature}")
    weight = 349.0 + 1.29 * temperature + 0.0135 * temperature**2
    activity = 0.805 + 0.000736 * temperature - 2.73e-6 * temperature**2
    first = 6.27 - 0.00938 * temperature - 0.000303 * temperature**2
    second = 1.91 + 0.0407 * temperature - 0.000293 * temperature**2
    dissolved = activity * fraction("relative humidity", relative_humidity)
    one, two = first * dissolved, first * second * dissolved**2
    return 18.0 / weight * (dissolved / (1.0 - dissolved) + (one + 2.0 * two) / (1.0 + one + two))


def humidity_for_moisture_content(temperature: float, moisture_content: float) -> float | None:
    """Return the lasting relative humidity at which wood takes on a moisture content.

    Args:
        temperature: temperature [°C], -40 to 100.
        moisture_content: moisture content [kg/kg of dry wood], not negative.

    Returns:
        relative humidity [-], exact to 1e-9; None where even saturated air does not bring it there.

    Raises:
        ValueError: when an argument lies outside its range.

    Example:
        >>> round(humidity_for_moisture_content(21.1, 0.19), 2)
        0.87

    Source: inverse of the equation of the Wood Handbook, arithmetic.
    """
    wanted = not_negative("moisture content", moisture_content)
    if equilibrium_moisture_content(temperature, 1.0) < wanted:
        return None
    low, high = 0.0, 1.0
    while high - low > 1e-9:
        middle = (low + high) / 2.0
        if equilibrium_moisture_content(temperature, middle) < wanted:
            low = middle
        else:
            high = middle
    return high


def moisture_gain(mass: float, thickness: float, density: float) -> float:
    """Return by how much a mass of water raises the moisture content of a board that takes it all up.

    Args:
        mass: water [kg/m²], not negative.
        thickness: thickness of the board, or of the part of it that takes up the water [m], above 0.
        density: dry density of the board [kg/m³], above 0.

    Returns:
        rise of the moisture content [kg/kg of dry board]; infinite where the board weighs next to nothing.

    Raises:
        ValueError: when an argument lies outside its range.

    Example:
        0.27 kg/m² in a particleboard of 19 mm and 700 kg/m³ are 2.0 %:

        >>> round(100 * moisture_gain(0.27, 0.019, 700.0), 1)
        2.0

    Source: definition; example after a building-physics textbook, section 13.2.5, read.
    """
    dry = positive("thickness", thickness) * positive("dry density", density)
    return not_negative("mass of water", mass) / dry if dry > 0.0 else math.inf
