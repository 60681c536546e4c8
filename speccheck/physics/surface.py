"""The inside surface: its humidity, the warmth it needs against mould, the humidity a room may have."""

from speccheck.physics._bounds import finite, positive
from speccheck.physics.heat import surface_temperature
from speccheck.physics.psychrometrics import dew_point, relative_humidity, saturation_pressure

__all__ = [
    "MOULD_HUMIDITY",
    "highest_indoor_humidity",
    "minimum_surface_temperature",
    "required_temperature_factor",
    "surface_humidity",
]

MOULD_HUMIDITY = 0.8
"""Relative humidity at a surface above which mould is to be reckoned with [-] (ISO 13788, read)."""


def surface_humidity(surface: float, indoor_vapour_pressure: float) -> float:
    """Return the relative humidity of indoor air where it touches a surface.

    Args:
        surface: surface temperature [°C], -100 to 100.
        indoor_vapour_pressure: vapour pressure of the indoor air [Pa], not negative.

    Returns:
        relative humidity at the surface [-]; 1 and above means surface condensation.

    Raises:
        ValueError: when an argument lies outside its range.

    Example:
        >>> round(surface_humidity(12.5, 1168.5), 3)
        0.807

    Source: ISO 13788:2012, clause on the critical surface humidity, read in textbook notes.
    """
    return relative_humidity(surface, indoor_vapour_pressure)


def minimum_surface_temperature(
    indoor_vapour_pressure: float, critical_humidity: float = MOULD_HUMIDITY
) -> float:
    """Return the lowest surface temperature at which the surface stays at or below a critical humidity.

    Args:
        indoor_vapour_pressure: vapour pressure of the indoor air [Pa], above 0.
        critical_humidity: critical relative humidity at the surface [-], above 0 up to 1: 0.8 mould,
            0.6 corrosion, 1.0 surface condensation.

    Returns:
        lowest surface temperature [°C].

    Raises:
        ValueError: when an argument lies outside its range.

    Notes:
        p_sat(t_min) = p_i/phi_critical.

    Example:
        >>> round(minimum_surface_temperature(1168.5), 1)
        12.6

    Source: ISO 13788:2012, clause 5, read in textbook notes; 0.6 and 1.0 memory.
    """
    if positive("critical humidity", critical_humidity) > 1.0:
        raise ValueError(f"critical humidity must not exceed 1, not {critical_humidity}")
    return dew_point(indoor_vapour_pressure / critical_humidity)


def required_temperature_factor(
    inside: float, outside: float, indoor_vapour_pressure: float, critical_humidity: float = MOULD_HUMIDITY
) -> float:
    """Return the temperature factor fRsi that keeps a surface at or below a critical humidity.

    Args:
        inside: indoor air temperature [°C], above the outdoor temperature.
        outside: outdoor air temperature [°C].
        indoor_vapour_pressure: vapour pressure of the indoor air [Pa], above 0.
        critical_humidity: critical relative humidity at the surface [-], above 0 up to 1.

    Returns:
        least temperature factor [-]; 0 or below when even a surface as cold as outdoors would do, above 1
        when no insulation suffices because the indoor air itself exceeds the critical humidity.

    Raises:
        ValueError: when it is not colder outside than inside, or an argument lies outside its range.

    Example:
        >>> round(required_temperature_factor(20.0, -5.0, 1168.5), 3)
        0.705

    Source: ISO 13788:2012, clause 5, read in textbook notes; 0.705 is what DIN 4108-2 rounds to 0.70.
    """
    if finite("outdoor temperature", outside) >= finite("indoor temperature", inside):
        raise ValueError("the temperature factor needs a colder outside: it must be below the inside")
    least = minimum_surface_temperature(indoor_vapour_pressure, critical_humidity)
    return (least - outside) / (inside - outside)


def highest_indoor_humidity(
    factor: float, inside: float, outside: float, critical_humidity: float = MOULD_HUMIDITY
) -> float:
    """Return the highest indoor relative humidity at which a surface stays at or below a critical humidity.

    Args:
        factor: temperature factor fRsi of the surface [-], 0 to 1.
        inside: indoor air temperature [°C], -100 to 100.
        outside: outdoor air temperature [°C], -100 to 100.
        critical_humidity: critical relative humidity at the surface [-], above 0 up to 1.

    Returns:
        highest indoor relative humidity [-], capped at 1.

    Raises:
        ValueError: when an argument lies outside its range.

    Example:
        >>> round(highest_indoor_humidity(0.56, 20.0, -5.0), 2)
        0.39

    Source: ISO 13788:2012, clause 5 solved for the room, read in textbook notes.
    """
    if positive("critical humidity", critical_humidity) > 1.0:
        raise ValueError(f"critical humidity must not exceed 1, not {critical_humidity}")
    surface = surface_temperature(factor, inside, outside)
    return min(1.0, critical_humidity * saturation_pressure(surface) / saturation_pressure(inside))
