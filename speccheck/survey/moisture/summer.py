"""The summer case of a cooled building: outdoor dew point against the first tight layer from outside."""

from collections.abc import Sequence
from typing import Any

from speccheck.physics.vapour import US_PERM
from speccheck.survey.build_up import Slice
from speccheck.survey.fact import Gap, Origin
from speccheck.survey.moisture.case import Case

__all__ = ["COOLED_TO", "enter_summer"]

COOLED_TO = 24.0
"""Room temperature of a cooled building in summer [°C], where it is not declared cooler: common practice, no source."""


def enter_summer(case: Case) -> tuple[Gap, ...] | None:
    """Enter by how much the first tight layer from outside stays above the outdoor dew point in cooled rooms."""
    retarder = case.page["interior_retarder"]
    if retarder.inapplicable:
        return None
    slices = case.section.slices[: case.section.beyond]
    names = {piece.words: index for index, piece in enumerate(slices)}
    index = _first_tight(slices, names.get(str(retarder.value)))
    outdoor, dew = case.climate["warmest_month_temperature"], case.climate["summer_dew_point"]
    missing = tuple(dict.fromkeys((*retarder.missing, *outdoor.missing, *dew.missing)))
    if missing or index is None:
        return missing
    inner = [case.page["film_inside"], *(piece.page["resistance"] for piece in slices[: index + 1])]
    whole = [*inner, *(piece.page["resistance"] for piece in slices[index + 1 :]), case.page["film_outside"]]
    missing = tuple(dict.fromkeys(gap for fact in whole for gap in fact.missing))
    if missing:
        return missing
    count, inside = len(inner), case.project["indoor_temperature"]
    stated = case.project["cooled"].value is True and inside.origin is Origin.DECLARED
    rooms = min(COOLED_TO, inside.value) if stated and isinstance(inside.value, float) else COOLED_TO

    whence = "as declared" if rooms < COOLED_TO else "common practice, no source"

    def margin(outside: float, dew_point: float, *given: Any) -> float:
        resistances = given[
            : len(whole)
        ]  # behind them stand the plane and the rooms, which are told by themselves
        share: float = sum(resistances[:count]) / sum(resistances)
        return rooms + share * (outside - rooms) - dew_point

    outboard = slices[index].words != retarder.value
    case.page.compute(
        "summer_plane",
        lambda *_: slices[index].words,
        [retarder, *((slices[index].page["permeance_wet"],) if outboard else ())],
        method="first layer from outside of 1 perm or less by its wet cup, else the tightest inboard of the insulation",
    )
    case.page.compute(
        "summer_margin",
        margin,
        [outdoor, dew, *whole, case.page["summer_plane"], *((inside,) if stated else ())],
        method=f"outer face of that layer at the mean of the warmest month, rooms at {rooms:g} °C ({whence}), less "
        "the mean outdoor dew point of the three warmest months",
    )
    return None


def _first_tight(slices: Sequence[Slice], retarder: int | None) -> int | None:
    """Return the first tight layer that vapour from outdoors meets, outboard of the retarder or that itself."""
    if retarder is None:
        return None
    for index in range(len(slices) - 1, retarder, -1):
        # the air that reaches it is humid: a board that opens when damp is not tight
        permeance = slices[index].page["permeance_wet"].value
        if isinstance(permeance, float) and permeance <= US_PERM:
            return index
    return retarder
