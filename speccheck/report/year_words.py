"""What a year of drying and of damp wood amounts to, in one sentence each."""

from speccheck.judgement.wording import word
from speccheck.survey import Surveyed
from speccheck.survey.moisture.drying_year import DryingYear
from speccheck.survey.moisture.table import YearTable
from speccheck.survey.moisture.wood_face import WoodFace
from speccheck.survey.profile import layer_pages

__all__ = ["drying_words", "drying_years", "wood_words", "wood_words_of"]


def drying_years(surveyed: Surveyed, assembly: str) -> tuple[DryingYear, ...]:
    """Return what the layers of an assembly could dry, inside first; asked for here, where it was not before.

    Args:
        surveyed: the facts.
        assembly: its name in the document.

    Returns:
        a table for the condensing plane and for each layer that moisture harms; none where there is no balance.
    """
    surveyed.ledger.page("assembly", assembly).fact("assembly.drying_net")
    tables = (page.table for page in layer_pages(surveyed, assembly))
    return tuple(table for table in tables if isinstance(table, DryingYear))


def drying_words(table: DryingYear, system: str = "both") -> str:
    """Say in which month most would dry from a wet face, and how much to either side.

    Args:
        table: twelve months of one face.
        system: units to show: ``both``, ``us`` or ``si``.
    """
    best = table.best
    if best.net <= 0.0:
        return f"Wet, the {table.face} could dry in no month"
    sides = ", ".join(
        f"{word(abs(amount), 'area-mass', system)} {way if amount >= 0.0 else back}"
        for amount, way, back in (
            (best.inward, "inward", "coming from inside"),
            (best.outward, "outward", "coming from outside"),
        )
    )
    return f"Wet, the {table.face} could dry at best in {best.month}: {sides}"


def wood_words(table: YearTable) -> str:
    """Say how damp that face of wood gets which comes nearest to what it bears; empty where there is none.

    Args:
        table: the year of one assembly.
    """
    told = [(_reserve(face), face) for face in table.wood if any(m is not None for m in face.moisture)]
    if not told:
        return ""
    return f"Wood takes on {wood_words_of(min(told, key=lambda one: one[0])[1], table)}"


def wood_words_of(face: WoodFace, table: YearTable) -> str:
    """Say how damp one face of wood gets, when, and what it bears."""
    most, month = max((m, n) for n, m in enumerate(face.moisture) if m is not None)
    limit = face.limit.limit if face.limit is not None else None
    bears = "" if limit is None else f"; it bears {word(limit, 'fraction')}"
    return f"at most {word(most, 'fraction')} by mass, in {table.months[month].month}, at the {face.words}{bears}"


def _reserve(face: WoodFace) -> float:
    """Return what a face could still take on up to what it bears [kg/kg]; of one that bears nothing known, no end."""
    limit = face.limit.limit if face.limit is not None else None
    return float("inf") if limit is None else limit - max(m for m in face.moisture if m is not None)
