"""Air layers: resistance of still air between two faces, and what ventilation leaves of it."""

from typing import Literal, NamedTuple

from speccheck.physics._bounds import not_negative, positive
from speccheck.physics.psychrometrics import ABSOLUTE_ZERO

__all__ = [
    "EXTERNAL_FILM",
    "STEFAN_BOLTZMANN",
    "HeatFlow",
    "Ventilation",
    "VentilationTreatment",
    "air_layer_resistance",
    "convective_coefficient",
    "effective_emittance",
    "radiative_coefficient",
    "slightly_ventilated_resistance",
    "still_air_film",
    "ventilation_treatment",
]

HeatFlow = Literal["up", "horizontal", "down"]
"""Direction of heat flow; horizontal serves up to 30° from it."""

Ventilation = Literal["unventilated", "slightly", "well"]
"""How far outdoor air moves through a layer."""

STEFAN_BOLTZMANN = 5.67e-8
"""Stefan-Boltzmann constant [W/(m²·K⁴)]."""

EXTERNAL_FILM = 0.04
"""External surface resistance Rse [m²·K/W] (ISO 6946, read)."""

_STILL_AIR_FILM: dict[HeatFlow, float] = {"up": 0.10, "horizontal": 0.13, "down": 0.17}
_AIR_CONDUCTIVITY = 0.025
_DEEPEST = 0.3
_SMALL_DIFFERENCE = 5.0
_UNVENTILATED_UP_TO = 500e-6
_WELL_VENTILATED_FROM = 1500e-6


class VentilationTreatment(NamedTuple):
    """What the openings of an air layer mean for the heat calculation.

    `state` of the layer; `unventilated_weight` [-] of the resistance reckoned as if the air were still, the
    rest going to the resistance reckoned as if the layer were well ventilated; `drop_outboard`: leave out the
    air layer and all outside it; `sheltered_film` [m²·K/W]: the external film of the well ventilated
    reckoning, that of still air, since the air behind a cladding is out of the wind.
    """

    state: Ventilation
    unventilated_weight: float
    drop_outboard: bool
    sheltered_film: float


def still_air_film(direction: HeatFlow) -> float:
    """Return the surface resistance in still air: indoors, or behind a ventilated cladding.

    Args:
        direction: direction of heat flow, "up", "horizontal" or "down".

    Returns:
        surface resistance [m²·K/W].

    Raises:
        ValueError: when the direction is none of the three.

    Example:
        >>> still_air_film("horizontal")
        0.13

    Source: ISO 6946:2017, table of surface resistances, read in textbook notes; use behind cladding memory.
    """
    return _STILL_AIR_FILM[_known(direction)]


def effective_emittance(first: float, second: float) -> float:
    """Return the emittance of two parallel faces taken together.

    Args:
        first: hemispherical emittance of one face [-], above 0 up to 1.
        second: hemispherical emittance of the other face [-], above 0 up to 1.

    Returns:
        effective emittance [-].

    Raises:
        ValueError: when an emittance is not above 0, or above 1.

    Notes:
        1/E = 1/e1 + 1/e2 - 1.

    Example:
        Two ordinary faces, and one clean bright foil against an ordinary face:

        >>> round(effective_emittance(0.9, 0.9), 2), round(effective_emittance(0.05, 0.9), 2)
        (0.82, 0.05)

    Source: ISO 6946:2017, annex on airspaces, memory; ASHRAE Fundamentals ch. 26, memory.
    """
    for emittance in (first, second):
        if positive("emittance", emittance) > 1.0:
            raise ValueError(f"emittance must not exceed 1, not {emittance}")
    return 1.0 / (1.0 / first + 1.0 / second - 1.0)


def radiative_coefficient(mean_temperature: float, emittance: float) -> float:
    """Return the heat transfer coefficient by radiation across an air layer.

    Args:
        mean_temperature: mean temperature of the two faces [°C], above absolute zero.
        emittance: effective emittance of the two faces [-], above 0 up to 1.

    Returns:
        radiative coefficient [W/(m²·K)].

    Raises:
        ValueError: when an argument lies outside its range.

    Notes:
        h_r = 4·E·sigma·T³.

    Example:
        >>> round(radiative_coefficient(10.0, 1.0), 1), round(radiative_coefficient(20.0, 1.0), 1)
        (5.1, 5.7)

    Source: ISO 6946:2017, annex on airspaces, memory.
    """
    if positive("effective emittance", emittance) > 1.0:
        raise ValueError(f"effective emittance must not exceed 1, not {emittance}")
    kelvin = positive("absolute temperature", mean_temperature - ABSOLUTE_ZERO)
    return float(4.0 * emittance * STEFAN_BOLTZMANN * kelvin**3)


def convective_coefficient(thickness: float, direction: HeatFlow, difference: float = 5.0) -> float:
    """Return the heat transfer coefficient by conduction and convection across an air layer.

    Args:
        thickness: thickness in the direction of heat flow [m], above 0 up to 0.3.
        direction: direction of heat flow, "up", "horizontal" or "down".
        difference: temperature difference across the layer [K], not negative; up to 5 K it makes no
            difference.

    Returns:
        convective coefficient [W/(m²·K)].

    Raises:
        ValueError: when an argument lies outside its range.

    Notes:
        The larger of 0.025/d and, up to 5 K: 1.25 horizontal, 1.95 up, 0.12·d^-0.44 down; above 5 K:
        0.73·dT^(1/3), 1.14·dT^(1/3), 0.09·dT^0.187·d^-0.44.

    Example:
        >>> convective_coefficient(0.025, "horizontal")
        1.25

    Source: ISO 6946:2017, annex on airspaces, memory; reproduces the read table of the standard.
    """
    if positive("air layer thickness", thickness) > _DEEPEST:
        raise ValueError(f"an air layer thicker than {_DEEPEST} m is a room, not a layer: {thickness} m")
    large = not_negative("temperature difference", difference) > _SMALL_DIFFERENCE
    still = _AIR_CONDUCTIVITY / thickness
    if _known(direction) == "down":
        shape = thickness**-0.44
        moving = 0.09 * difference**0.187 * shape if large else 0.12 * shape
    elif direction == "up":
        moving = 1.14 * difference ** (1.0 / 3.0) if large else 1.95
    else:
        moving = 0.73 * difference ** (1.0 / 3.0) if large else 1.25
    return float(max(still, moving))


def air_layer_resistance(
    thickness: float,
    direction: HeatFlow,
    emittance: float = 0.82,
    mean_temperature: float = 10.0,
    difference: float = 5.0,
) -> float:
    """Return the thermal resistance of an unventilated air layer.

    Args:
        thickness: thickness in the direction of heat flow [m], 0 up to 0.3.
        direction: direction of heat flow, "up", "horizontal" or "down".
        emittance: effective emittance of the two faces [-]; 0.82 is two ordinary building faces.
        mean_temperature: mean temperature of the layer [°C].
        difference: temperature difference across the layer [K].

    Returns:
        thermal resistance [m²·K/W]; 0 for a layer without thickness.

    Raises:
        ValueError: when an argument lies outside its range.

    Notes:
        R = 1/(h_a + h_r). For a layer bounded by two parallel faces across the heat flow, thinner than a
        tenth of its width and height, without air exchange with the room.

    Example:
        >>> round(air_layer_resistance(0.025, "horizontal"), 2)
        0.18

    Source: ISO 6946:2017, annex on airspaces, memory; reproduces the read table of the standard.
    """
    if thickness == 0.0:
        return 0.0
    moved = convective_coefficient(thickness, direction, difference)
    return 1.0 / (moved + radiative_coefficient(mean_temperature, emittance))


def ventilation_treatment(opening_area: float, direction: HeatFlow = "horizontal") -> VentilationTreatment:
    """Return how an air layer with openings to outdoors counts.

    Args:
        opening_area: openings to outdoors, not negative: [m²/m] per length of a vertical layer, [m²/m²] per
            surface of a horizontal one.
        direction: direction of heat flow, for the still-air film: "up", "horizontal" or "down".

    Returns:
        the state, the weight [-], whether to drop what lies outboard, and the sheltered film [m²·K/W].

    Raises:
        ValueError: when the area is negative or not finite.

    Notes:
        Up to 500 mm²/m unventilated; from 1500 mm²/m well ventilated: the layer and all outside it drop out
        and the external film becomes the still-air one; between, weight (1500 mm²/m - A)/(1000 mm²/m).

    Example:
        >>> treatment = ventilation_treatment(1000e-6)
        >>> treatment.state, round(treatment.unventilated_weight, 6), treatment.drop_outboard
        ('slightly', 0.5, False)

    Source: ISO 6946:2017, clause on airspaces, memory.
    """
    area = not_negative("opening area", opening_area)
    film = still_air_film(direction)
    if area <= _UNVENTILATED_UP_TO:
        return VentilationTreatment("unventilated", 1.0, False, film)
    if area >= _WELL_VENTILATED_FROM:
        return VentilationTreatment("well", 0.0, True, film)
    weight = (_WELL_VENTILATED_FROM - area) / (_WELL_VENTILATED_FROM - _UNVENTILATED_UP_TO)
    return VentilationTreatment("slightly", weight, False, film)


def slightly_ventilated_resistance(opening_area: float, unventilated: float, well_ventilated: float) -> float:
    """Return the total resistance of a section whose air layer is open to outdoors to some degree.

    Args:
        opening_area: openings to outdoors [m²/m] or [m²/m²] as for `ventilation_treatment`, not negative.
        unventilated: total resistance reckoned as if the air layer were still [m²·K/W], not negative.
        well_ventilated: total resistance without the layer and all outside it, with the still-air film
            [m²·K/W].

    Returns:
        total thermal resistance [m²·K/W].

    Raises:
        ValueError: when a value is negative or not finite.

    Notes:
        R = w·R_unventilated + (1 - w)·R_well with the weight of `ventilation_treatment`; at both ends it is
        the plain value, so this serves any opening area.

    Example:
        >>> round(slightly_ventilated_resistance(750e-6, 3.0, 2.6), 6)
        2.9

    Source: ISO 6946:2017, clause on slightly ventilated airspaces, memory.
    """
    weight = ventilation_treatment(opening_area).unventilated_weight
    still = not_negative("unventilated resistance", unventilated)
    return weight * still + (1.0 - weight) * not_negative("well ventilated resistance", well_ventilated)


def _known(direction: HeatFlow) -> HeatFlow:
    if direction not in _STILL_AIR_FILM:
        raise ValueError(f'direction of heat flow must be "up", "horizontal" or "down", not {direction!r}')
    return direction
