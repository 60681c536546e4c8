"""The permeance of a cup: as it is stated, else read from a declared curve at the mean humidity of that cup."""

from collections.abc import Mapping
from typing import NamedTuple

from speccheck.document.product import CupValues
from speccheck.quantity import Kind, Quantity
from speccheck.quantity.parse import parse

__all__ = ["CUP_HUMIDITY", "REACH", "CupValue", "cup_value", "opens_with_humidity"]

CUP_HUMIDITY = {"dry": 0.25, "wet": 0.75}
"""Mean relative humidity of the specimen [-]: dry cup between 0 and 50 %, wet cup between 50 and 100 %."""

REACH = 0.05
"""How far a curve may end short of that humidity [-] and its last point still stand: common practice, no source."""

_SOURCE = "ASTM E96, procedures A (0 and 50 % RH) and B (50 and 100 % RH), means 25 and 75 % RH (memory)"


class CupValue(NamedTuple):
    """The permeance by one cup [kg/(m²·s·Pa)]; method and source say how it was read where it was not stated."""

    value: float
    method: str = ""
    source: str = ""


def cup_value(cups: CupValues, cup: str) -> CupValue | None:
    """Return the permeance by a cup: as stated, else from the curve where it reaches the cup's mean humidity.

    Args:
        cups: what a product or a layer states.
        cup: ``dry`` or ``wet``.

    Returns:
        the permeance, or None where neither the cup is stated nor a curve reaches it.

    Notes:
        Straight lines between the points of the curve. Where it begins or ends at most 5 % RH short of the cup's
        mean humidity, its end point stands; a curve is never extended further.

    Source: ASTM E96, procedures A and B at 23 °C; memory. Reading of the curve: common practice, no source.
    """
    stated = cups.dry_cup if cup == "dry" else cups.wet_cup
    if stated is not None:
        return CupValue(stated.value)
    return _from_curve(cups, cup) if cups.curve else None


def _from_curve(cups: CupValues, cup: str) -> CupValue | None:
    # only a declared curve needs it
    from speccheck.physics.vapour import permeance_at

    points = _points(cups.curve or {})
    humidity = CUP_HUMIDITY[cup]
    first, last = points[0][0], points[-1][0]
    if not first - REACH <= humidity + 1e-9 or not humidity - 1e-9 <= last + REACH:
        return None
    at = min(max(humidity, first), last)
    method = f"computed from the declared curve at {at * 100:.4g} % RH"
    if at == humidity:
        method += f", the mean humidity of the {cup} cup"
    else:
        method += f", its end nearest to the {humidity:.0%} mean of the {cup} cup"
    return CupValue(permeance_at(points, at), method, _SOURCE)


def _points(curve: Mapping[str, Quantity]) -> list[tuple[float, float]]:
    """Return humidity [-] and permeance [kg/(m²·s·Pa)] of each point, driest first."""
    return sorted((parse(text, Kind.FRACTION).value, permeance.value) for text, permeance in curve.items())


def opens_with_humidity(curve: Mapping[str, Quantity]) -> bool:
    """Tell whether a declared curve ends more open than it begins; its points may stand in any order."""
    points = _points(curve)
    return points[-1][1] > points[0][1]
