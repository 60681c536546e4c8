"""The summer case of a cooled building: outdoor dew point against the first tight layer from outside."""

from speccheck.survey.fact import Gap, Origin
from speccheck.survey.moisture.case import Case

__all__ = ["COOLED_TO", "enter_summer"]

COOLED_TO = 24.0
"""Room temperature of a cooled building in summer [°C], where it is not declared cooler: common practice, no source."""


def enter_summer(case: Case) -> tuple[Gap, ...] | None:
    """Enter by how much the inside retarder stays above the outdoor dew point while the rooms are cooled."""
    retarder = case.page["interior_retarder"]
    if retarder.inapplicable:
        return None
    names = {piece.words: index for index, piece in enumerate(case.section.slices)}
    index = names.get(str(retarder.value))
    outdoor, dew = case.climate["warmest_month_temperature"], case.climate["summer_dew_point"]
    missing = tuple(dict.fromkeys((*retarder.missing, *outdoor.missing, *dew.missing)))
    if missing or index is None:
        return missing
    slices = case.section.slices[: case.section.beyond]
    inner = [case.page["film_inside"], *(piece.page["resistance"] for piece in slices[: index + 1])]
    whole = [*inner, *(piece.page["resistance"] for piece in slices[index + 1 :]), case.page["film_outside"]]
    missing = tuple(dict.fromkeys(gap for fact in whole for gap in fact.missing))
    if missing:
        return missing
    count, inside = len(inner), case.project["indoor_temperature"]
    stated = case.project["cooled"].value is True and inside.origin is Origin.DECLARED
    rooms = min(COOLED_TO, inside.value) if stated and isinstance(inside.value, float) else COOLED_TO

    whence = "as declared" if rooms < COOLED_TO else "common practice, no source"

    def margin(outside: float, dew_point: float, *given: float) -> float:
        resistances = given[: len(whole)]
        share = sum(resistances[:count]) / sum(resistances)
        return rooms + share * (outside - rooms) - dew_point

    case.page.copy("summer_plane", retarder, method="the tightest layer inboard of the insulation")
    case.page.compute(
        "summer_margin",
        margin,
        [outdoor, dew, *whole, *((inside,) if stated else ())],
        method=f"outer face of that layer at the mean of the warmest month, rooms at {rooms:g} °C ({whence}), less "
        "the mean outdoor dew point of the three warmest months",
    )
    return None
