"""Entering the indoor humidities up to which the inside surface and the wood in an assembly stay dry enough."""

from speccheck.physics.surface_year import surface_year
from speccheck.survey.fact import Gap
from speccheck.survey.moisture.balance import balances_of, prepared
from speccheck.survey.moisture.case import MONTHLY_BALANCE, Case
from speccheck.survey.moisture.climate import Year
from speccheck.survey.moisture.limits import STEPS, by_step, greatest
from speccheck.survey.moisture.wood_face import WoodFace, wood_faces

__all__ = ["enter_surface_limit", "enter_wood_limit"]

_SURFACE_SOURCE = "ISO 13788:2012, 5 (read in textbook notes)"


def enter_surface_limit(case: Case) -> tuple[Gap, ...] | None:
    """Enter the winter humidity indoors up to which no month asks for a warmer surface than the plain section has."""
    year = case.year
    if not isinstance(year, Year):
        return year
    own, at = case.page.fact("assembly.frsi"), by_step(year)
    if own is None or not isinstance(own.value, float):
        return own.missing if own is not None else None
    factor = own.value

    def holds(step: int) -> bool:
        try:
            governs = surface_year(at(step)).governs
        except (
            ValueError
        ):  # near saturation in a room near boiling no surface can be told, and none is warm enough
            return False
        return governs is None or governs.factor is None or governs.factor <= factor

    limit = greatest(holds, 0, STEPS)
    method = "bisection on the winter humidity indoors, 80 % at the surface in no month, to 0.4 %"
    case.enter("humidity_surface_bears", limit / STEPS, (own, *year.facts), method, _SURFACE_SOURCE)
    return None


def enter_wood_limit(case: Case) -> tuple[Gap, ...] | None:
    """Enter the winter humidity indoors up to which sheathing and framing stay within what their material bears."""
    year = case.year
    if not isinstance(year, Year):
        return year
    paths, at = [prepared(path, case.films) for path in case.paths], by_step(year)
    faces: tuple[WoodFace, ...] = ()

    def holds(step: int) -> bool:
        nonlocal faces
        faces = tuple(face for face in wood_faces(case.section, balances_of(paths, at(step))) if face.limit)
        return all(_stays_within(face) for face in faces)

    limit = STEPS if holds(STEPS) else greatest(holds, 0, STEPS)  # much wood bears any humidity
    if not faces:
        case.page.inapplicable(
            "humidity_wood_bears", "no wood toward the cold whose table names what it bears"
        )
        return None
    words = " and the ".join(face.words for face in faces)
    method = f"bisection on the winter humidity indoors, moisture content at the {words} by month, to 0.4 %"
    facts = case.rests_on(year.facts)
    case.enter("humidity_wood_bears", limit / STEPS, facts, method, MONTHLY_BALANCE)
    return None


def _stays_within(face: WoodFace) -> bool:
    most = face.limit.limit if face.limit is not None else None
    return most is None or all(content is None or content <= most for content in face.moisture)
