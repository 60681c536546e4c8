"""The warmth an inside surface needs against mould in each month of the year, and the month that governs."""

from dataclasses import dataclass

from speccheck.physics.monthly_balance import MonthlyClimate
from speccheck.physics.surface import MOULD_HUMIDITY, minimum_surface_temperature, required_temperature_factor

__all__ = ["SurfaceMonth", "SurfaceYear", "surface_year"]


@dataclass(frozen=True, slots=True)
class SurfaceMonth:
    """What one month asks of the inside surface.

    `month` (1 is January), `factor` fRsi [-] that keeps it at the critical humidity, None where it is not
    colder outside than inside; `temperature` [°C] the surface then has at least.
    """

    month: int
    factor: float | None
    temperature: float


@dataclass(frozen=True, slots=True)
class SurfaceYear:
    """Twelve months, January first, and the one that `governs`: None where no month is colder outside."""

    months: tuple[SurfaceMonth, ...]
    governs: SurfaceMonth | None


def surface_year(climate: MonthlyClimate, critical_humidity: float = MOULD_HUMIDITY) -> SurfaceYear:
    """Return the temperature factor fRsi that each month asks of the inside surface.

    Args:
        climate: both climates by month, with the safety margin of the humidity class or set-point in it.
        critical_humidity: critical relative humidity at the surface [-], above 0 up to 1.

    Returns:
        twelve months and the one with the highest factor.

    Raises:
        ValueError: when an argument lies outside its range.

    Notes:
        A factor above 1 means that the indoor air itself is too humid; none at or below 0 asks for anything.
        The element has to exceed the governing factor everywhere, corners included.

    Example:
        >>> outside = (-1.0,) * 3 + (18.0,) * 6 + (21.0,) * 3
        >>> year = surface_year(MonthlyClimate((20.0,) * 12, (1071.7,) * 12, outside, (500.0,) * 12))
        >>> year.governs.month, round(year.governs.factor, 3), year.months[11].factor
        (1, 0.586, None)

    Source: ISO 13788:2012, clause 5, read in textbook notes.
    """
    months = []
    for month in range(12):
        inside, outside = climate.inside_temperature[month], climate.outside_temperature[month]
        pressure = climate.inside_pressure[month]
        least = minimum_surface_temperature(pressure, critical_humidity)
        factor = (
            required_temperature_factor(inside, outside, pressure, critical_humidity)
            if outside < inside
            else None
        )
        months.append(SurfaceMonth(month + 1, factor, least))
    cold = [month for month in months if month.factor is not None]
    return SurfaceYear(tuple(months), max(cold, key=lambda month: month.factor or 0.0, default=None))
