"""The condensing plane: how cold it is, what indoor humidity it bears, what insulation it needs outboard."""

from typing import NamedTuple

from speccheck.physics._bounds import finite, fraction, not_negative, positive
from speccheck.physics.psychrometrics import dew_point, saturation_pressure, vapour_pressure

__all__ = [
    "CondensingPlane",
    "CriticalHumidity",
    "condensing_plane",
    "critical_humidity",
    "outboard_share",
    "plane_temperature",
    "ratio_from_share",
    "required_outboard_resistance",
    "required_outboard_share",
    "share_from_ratio",
]


class CriticalHumidity(NamedTuple):
    """The indoor relative humidity [-] at which a plane reaches its dew point, and whether any would do.

    `value` lies from 0 to 1; `never_reached` is true when the plane is warmer than the room, so that even
    saturated indoor air stays above its dew point there and `value` is the cap of 1.
    """

    value: float
    never_reached: bool


class CondensingPlane(NamedTuple):
    """One plane under one pair of climates.

    `temperature` of the plane and `dew_point` of the indoor air [°C] (below 0 a frost point), `margin`
    between them [K] (negative when the plane is colder), `critical_humidity` of the room, and `freezing`:
    whether the plane is below 0 °C, so that what collects there is frost, which a thaw releases at once.
    """

    temperature: float
    dew_point: float
    margin: float
    critical_humidity: CriticalHumidity
    freezing: bool


def plane_temperature(inboard: float, outboard: float, inside: float, outside: float) -> float:
    """Return the temperature of the plane between two parts of a section.

    Args:
        inboard: thermal resistance from indoor air to the plane [m²·K/W], not negative.
        outboard: thermal resistance from the plane to outdoor air [m²·K/W], not negative.
        inside: indoor air temperature [°C].
        outside: outdoor air temperature [°C].

    Returns:
        temperature of the plane [°C].

    Raises:
        ValueError: when there is no resistance at all, or a value is negative or not finite.

    Example:
        R-11 in the cavity, R-7 of foam outboard, 70 °F in and 32 °F out give 46.8 °F:

        >>> round(plane_temperature(11.0, 7.0, 70.0, 32.0), 1)
        46.8

    Source: series resistance, definition; example after a trade-journal article, read.
    """
    share = outboard_share(inboard, outboard)
    return (
        finite("outdoor temperature", outside) * (1.0 - share) + finite("indoor temperature", inside) * share
    )


def outboard_share(inboard: float, outboard: float) -> float:
    """Return the share of a section's resistance that lies outboard of a plane.

    Args:
        inboard: thermal resistance inboard of the plane [m²·K/W], not negative.
        outboard: thermal resistance outboard of the plane [m²·K/W], not negative.

    Returns:
        outboard over total [-], 0 to 1.

    Raises:
        ValueError: when there is no resistance at all, or a value is negative or not finite.

    Example:
        >>> round(outboard_share(13.0, 5.0), 3)
        0.278

    Source: definition; example after IRC table R702.7(3), zone 5 over a 2x4 wall, read in part.
    """
    not_negative("inboard resistance", inboard)
    not_negative("outboard resistance", outboard)
    return outboard / positive("total thermal resistance", inboard + outboard)


def share_from_ratio(ratio: float) -> float:
    """Return the outboard share that an outboard-to-inboard ratio means.

    Args:
        ratio: outboard over inboard resistance [-], not negative.

    Returns:
        outboard over total resistance [-], 0 to below 1.

    Raises:
        ValueError: when the ratio is negative or not finite.

    Example:
        >>> round(share_from_ratio(0.20), 4)
        0.1667

    Source: NBC 9.25.5.2 speaks of the ratio, US practice of the share; arithmetic, table ratios memory.
    """
    return not_negative("outboard to inboard ratio", ratio) / (1.0 + ratio)


def ratio_from_share(share: float) -> float:
    """Return the outboard-to-inboard ratio that an outboard share means.

    Args:
        share: outboard over total resistance [-], 0 to below 1.

    Returns:
        outboard over inboard resistance [-].

    Raises:
        ValueError: when the share is negative, or 1 and above.

    Example:
        >>> round(ratio_from_share(0.2857), 2)
        0.4

    Source: NBC 9.25.5.2 speaks of the ratio, US practice of the share; arithmetic, table ratios memory.
    """
    if fraction("outboard share", share) == 1.0:
        raise ValueError("an outboard share of 1 leaves nothing inboard: the ratio has no bound")
    return share / (1.0 - share)


def critical_humidity(plane: float, inside: float) -> CriticalHumidity:
    """Return the indoor relative humidity at which a plane reaches the dew point of the indoor air.

    Args:
        plane: temperature of the plane [°C], -100 to 100.
        inside: indoor air temperature [°C], -100 to 100.

    Returns:
        critical indoor relative humidity [-], capped at 1, with a word on whether the cap bites.

    Raises:
        ValueError: when a temperature lies outside the range of the saturation formula.

    Notes:
        phi = p_sat(plane)/p_sat(inside), with saturation over ice when the plane is below 0 °C.

    Example:
        >>> round(critical_humidity(4.3, 21.0).value, 2)
        0.33

    Source: ASHRAE Fundamentals 2021 ch. 27, example 7 (prints 34 % from 831/2476 Pa), read.
    """
    ratio = saturation_pressure(plane) / saturation_pressure(inside)
    return CriticalHumidity(min(1.0, ratio), ratio > 1.0)


def required_outboard_share(dew_point: float, inside: float, outside: float) -> float:
    """Return the least outboard share of resistance that keeps a plane at or above a dew point.

    Args:
        dew_point: dew point of the indoor air [°C], not above the indoor temperature.
        inside: indoor air temperature [°C], above the outdoor temperature.
        outside: outdoor air temperature [°C].

    Returns:
        outboard over total resistance [-], 0 when outdoors is already warmer than the dew point, up to 1.

    Raises:
        ValueError: when it is not colder outside than inside, or the dew point exceeds the indoor
            temperature.

    Notes:
        share = (t_dew - t_out)/(t_in - t_out).

    Example:
        >>> round(required_outboard_share(9.3, 20.0, 0.0), 3)
        0.465

    Source: series resistance solved for the share; common practice, read in a trade-journal article.
    """
    if finite("outdoor temperature", outside) >= finite("indoor temperature", inside):
        raise ValueError("the outboard share is a winter question: it must be colder outside than inside")
    if finite("dew point", dew_point) > inside:
        raise ValueError("the dew point of indoor air cannot exceed its temperature")
    return max(0.0, (dew_point - outside) / (inside - outside))


def required_outboard_resistance(inboard: float, dew_point: float, inside: float, outside: float) -> float:
    """Return the least resistance outboard of a plane that keeps it at or above a dew point.

    Args:
        inboard: thermal resistance from indoor air to the plane [m²·K/W], not negative.
        dew_point: dew point of the indoor air [°C], below the indoor temperature.
        inside: indoor air temperature [°C], above the outdoor temperature.
        outside: outdoor air temperature [°C].

    Returns:
        outboard thermal resistance [m²·K/W].

    Raises:
        ValueError: when the air is saturated (no resistance suffices), or a value lies outside its range.

    Example:
        Behind R-11, 70 °F at 50 % against 32 °F needs R-10.5 (any one unit of R and of temperature will do):

        >>> round(required_outboard_resistance(11.0, 50.53, 70.0, 32.0), 1)
        10.5

    Source: series resistance solved for the outboard part; example after a trade-journal article, read.
    """
    share = required_outboard_share(dew_point, inside, outside)
    return not_negative("inboard resistance", inboard) * ratio_from_share(share)


def condensing_plane(
    inboard: float, outboard: float, inside: float, outside: float, relative_humidity: float
) -> CondensingPlane:
    """Return what a plane amounts to under one indoor and outdoor climate.

    Args:
        inboard: thermal resistance from indoor air to the plane [m²·K/W], not negative.
        outboard: thermal resistance from the plane to outdoor air [m²·K/W], not negative.
        inside: indoor air temperature [°C].
        outside: outdoor air temperature [°C].
        relative_humidity: indoor relative humidity [-], above 0 up to 1.

    Returns:
        plane temperature [°C], indoor dew point [°C], margin [K], critical indoor humidity [-], freezing or
        not.

    Raises:
        ValueError: when a value lies outside its range, or the indoor air holds no vapour at all.

    Example:
        >>> plane = condensing_plane(3.54, 1.14, 21.0, -1.0, 0.35)
        >>> round(plane.temperature, 1), round(plane.margin, 1), plane.freezing
        (4.4, -0.6, False)

    Source: ASHRAE Fundamentals 2021 ch. 27, example 7, read.
    """
    temperature = plane_temperature(inboard, outboard, inside, outside)
    dew = dew_point(vapour_pressure(inside, relative_humidity))
    return CondensingPlane(
        temperature=temperature,
        dew_point=dew,
        margin=temperature - dew,
        critical_humidity=critical_humidity(temperature, inside),
        freezing=temperature < 0.0,
    )
