"""The indoor climate of a moisture balance: by humidity class, by daily-mean model, by set-point or as measured."""

from collections.abc import Sequence
from dataclasses import dataclass
from typing import Literal

from speccheck.physics._bounds import finite, fraction, not_negative
from speccheck.physics._piecewise import between
from speccheck.physics.psychrometrics import saturation_pressure, vapour_pressure

__all__ = [
    "CLASS_EXCESS",
    "CLASS_MARGIN",
    "HumidityClass",
    "IndoorMonth",
    "Occupancy",
    "by_daily_mean",
    "by_humidity_class",
    "by_set_point",
    "excess_pressure",
    "measured",
]

HumidityClass = Literal[1, 2, 3, 4, 5]
"""1 storage; 2 offices, dwellings of usual occupancy with ventilation; 3 buildings whose occupancy is not known;
4 sports halls, kitchens, canteens; 5 laundries, breweries, pools."""

Occupancy = Literal["normal", "high"]
"""Occupancy of the daily-mean model."""

CLASS_EXCESS: dict[int, float] = {1: 270.0, 2: 540.0, 3: 810.0, 4: 1080.0}
"""Upper limit of the vapour pressure excess of a humidity class [Pa], up to 0 °C outside. Class 5 has none: it is
declared (ISO 13788:2012, annex A, memory)."""

CLASS_MARGIN = 1.10
"""Safety factor on the excess of a humidity class [-] (ISO 13788:2012, memory)."""

_NO_EXCESS_FROM = 20.0
_INDOOR_TEMPERATURE = ((10.0, 20.0), (20.0, 25.0))
_INDOOR_HUMIDITY: dict[Occupancy, tuple[tuple[float, float], ...]] = {
    "normal": ((-10.0, 0.30), (20.0, 0.60)),
    "high": ((-10.0, 0.40), (20.0, 0.70)),
}


@dataclass(frozen=True, slots=True)
class IndoorMonth:
    """The indoor air of one month: `temperature` [°C], vapour `pressure` [Pa], and whether it was `capped`.

    Capped air would by the model hold more vapour than it can at its temperature and is taken as saturated:
    the model is out of its depth there, as a humidity class is in a warm, humid month.
    """

    temperature: float
    pressure: float
    capped: bool


def excess_pressure(
    outside_temperature: float, humidity_class: HumidityClass, declared: float | None = None
) -> float:
    """Return by how much the indoor vapour pressure exceeds the outdoor one, without the safety factor.

    Args:
        outside_temperature: mean outdoor temperature of the month [°C].
        humidity_class: 1 to 5.
        declared: excess up to 0 °C outside [Pa], not negative; needed for class 5, and in its place for any.

    Returns:
        excess [Pa]: the upper limit of the class up to 0 °C outside, falling in a straight line to 0 at
        20 °C.

    Raises:
        ValueError: when there is no such class, or class 5 comes without its excess.

    Example:
        >>> excess_pressure(-5.0, 2), excess_pressure(10.0, 3), excess_pressure(24.0, 4)
        (540.0, 405.0, 0.0)

    Source: ISO 13788:2012, annex A, humidity classes of a maritime climate, memory.
    """
    full = CLASS_EXCESS.get(humidity_class) if declared is None else not_negative("excess", declared)
    if full is None:
        raise ValueError(f"humidity class {humidity_class} has no excess of its own: declare it [Pa]")
    share = (_NO_EXCESS_FROM - finite("outdoor temperature", outside_temperature)) / _NO_EXCESS_FROM
    return full * min(1.0, max(0.0, share))


def by_humidity_class(
    outside_temperature: float,
    outside_pressure: float,
    humidity_class: HumidityClass,
    inside_temperature: float = 20.0,
    margin: float = CLASS_MARGIN,
    declared: float | None = None,
) -> IndoorMonth:
    """Return the indoor air of a month by humidity class.

    Args:
        outside_temperature: mean outdoor temperature of the month [°C].
        outside_pressure: mean outdoor vapour pressure of the month [Pa], not negative.
        humidity_class: 1 to 5.
        inside_temperature: indoor temperature [°C].
        margin: safety factor on the excess [-], 1 and up.
        declared: excess up to 0 °C outside [Pa]; needed for class 5.

    Returns:
        temperature, vapour pressure, capped or not.

    Raises:
        ValueError: when an argument lies outside its range.

    Notes:
        p_i = p_e + 1.10·excess. A model of heated, ventilated, not cooled buildings in a maritime climate.

    Example:
        >>> round(by_humidity_class(-1.0, 477.7, 2).pressure, 1)
        1071.7

    Source: ISO 13788:2012, clause on internal humidity and annex A, memory; the factor 1.10 medium confidence.
    """
    if finite("margin", margin) < 1.0:
        raise ValueError(f"the margin must be at least 1, not {margin}")
    excess = margin * excess_pressure(outside_temperature, humidity_class, declared)
    return _held(inside_temperature, not_negative("outdoor vapour pressure", outside_pressure) + excess)


def by_daily_mean(
    outside_temperature: float, occupancy: Occupancy = "normal", humidity_margin: float = 0.05
) -> IndoorMonth:
    """Return the indoor air of a dwelling or office by its outdoor daily mean temperature.

    Args:
        outside_temperature: mean outdoor temperature [°C].
        occupancy: "normal" or "high".
        humidity_margin: added relative humidity [-], 0 to 0.3; 0.05 is usual in design.

    Returns:
        temperature, vapour pressure, never capped.

    Raises:
        ValueError: when an argument lies outside its range.

    Notes:
        20 °C up to 10 °C outside, rising to 25 °C at 20 °C. Relative humidity 0.30 (0.40) at -10 °C outside,
        rising to 0.60 (0.70) at 20 °C. ISO 13788:2012 has the same shape; its end points for normal
        occupancy are remembered as 0.35 and 0.65, which is this line with the margin.

    Example:
        >>> month = by_daily_mean(5.0, "normal", 0.0)
        >>> month.temperature, round(month.pressure / saturation_pressure(20.0), 2)
        (20.0, 0.45)

    Source: EN 15026:2007, annex C, memory; ISO 13788:2012, annex A, end points memory, low confidence.
    """
    if not 0.0 <= finite("humidity margin", humidity_margin) <= 0.3:
        raise ValueError(f"the humidity margin must lie from 0 to 0.3, not {humidity_margin}")
    if occupancy not in _INDOOR_HUMIDITY:
        raise ValueError(f"occupancy is normal or high, not {occupancy}")
    outside = finite("outdoor temperature", outside_temperature)
    temperature = _held_between(_INDOOR_TEMPERATURE, outside)
    humidity = _held_between(_INDOOR_HUMIDITY[occupancy], outside) + humidity_margin
    return IndoorMonth(temperature, humidity * saturation_pressure(temperature), capped=False)


def by_set_point(temperature: float, relative_humidity: float, humidity_margin: float = 0.0) -> IndoorMonth:
    """Return the indoor air of a room held at a set-point.

    Args:
        temperature: indoor temperature [°C].
        relative_humidity: indoor relative humidity [-], 0 to 1.
        humidity_margin: added relative humidity [-], not negative; ISO 13788 takes 0.05 for the surface
            check.

    Returns:
        temperature, vapour pressure, capped where the margin lifts it above saturation.

    Raises:
        ValueError: when an argument lies outside its range.

    Example:
        >>> round(by_set_point(21.1, 0.35).pressure)
        875

    Source: definition of relative humidity; margin ISO 13788:2012, memory.
    """
    margin = not_negative("humidity margin", humidity_margin)
    wanted = vapour_pressure(temperature, relative_humidity) + margin * saturation_pressure(temperature)
    return _held(temperature, wanted)


def measured(temperatures: Sequence[float], humidities: Sequence[float]) -> tuple[IndoorMonth, ...]:
    """Return the indoor air of twelve months from monthly means.

    Args:
        temperatures: twelve mean indoor temperatures [°C], January first.
        humidities: twelve mean relative humidities [-], 0 to 1, January first.

    Returns:
        twelve months.

    Raises:
        ValueError: when there are not twelve of each, or a value lies outside its range.

    Example:
        >>> round(measured([20.0] * 12, [0.5] * 12)[6].pressure)
        1168

    Source: definition of relative humidity.
    """
    if len(temperatures) != 12 or len(humidities) != 12:
        raise ValueError(f"a year has twelve months, not {len(temperatures)} and {len(humidities)}")
    for humidity in humidities:
        fraction("relative humidity", humidity)
    pairs = zip(temperatures, humidities, strict=True)
    return tuple([_held(temperature, vapour_pressure(temperature, rh)) for temperature, rh in pairs])


def _held(temperature: float, pressure: float) -> IndoorMonth:
    most = saturation_pressure(temperature)
    return IndoorMonth(temperature, min(pressure, most), capped=pressure > most)


def _held_between(line: Sequence[tuple[float, float]], at: float) -> float:
    """Read a line at a place, holding its end values beyond the ends."""
    value = between(line, min(max(at, line[0][0]), line[-1][0]))
    assert value is not None
    return value
