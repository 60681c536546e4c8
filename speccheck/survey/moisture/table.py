"""The year of moisture as a table: twelve months at the faces of the layers, for a report to show."""

from collections.abc import Sequence
from math import isfinite
from typing import NamedTuple

from speccheck.physics.moisture_year import MoistureMonth
from speccheck.physics.monthly_balance import MonthlyClimate
from speccheck.physics.surface_year import surface_year
from speccheck.survey.moisture.balance import MONTHS, Balance, place_words
from speccheck.survey.moisture.wood_face import WoodFace

__all__ = ["MonthRow", "YearTable", "year_table"]


class MonthRow(NamedTuple):
    """One month: at each face temperature [°C], relative humidity [-] and water [kg/m²] at its end."""

    month: str
    temperature: tuple[float, ...]
    humidity: tuple[float, ...]
    water: tuple[float, ...]


class YearTable(NamedTuple):
    """Twelve months in the order of the calendar.

    ``faces`` names the places, inside first, and ``places`` says of each in which layer of the path it lies (0 is the
    innermost) and how deep in it, 0 its inner and 1 its outer face. ``worst`` is the number of the face to look at
    first, ``path`` the path the table follows, ``method`` how the indoor climate came about. ``wood`` holds the faces
    of wood toward the cold, each by its own path; ``climate`` is what both climates are taken to be. ``start`` is the
    month in which the year begins, ``verdict`` what it amounts to, ``settled`` whether every month found its state.
    """

    assembly: str
    path: str
    method: str
    faces: tuple[str, ...]
    places: tuple[tuple[int, float], ...]
    worst: int
    months: tuple[MonthRow, ...]
    wood: tuple[WoodFace, ...] = ()
    climate: MonthlyClimate | None = None
    start: str = ""
    verdict: str = ""
    settled: bool = True

    @property
    def surface_factors(self) -> tuple[float | None, ...]:
        """Temperature factor fRsi that each month asks of the inside surface [-], for 80 % humidity there.

        None where a month is not colder outdoors than the rooms, or differs from them by less than a number can tell.
        """
        try:
            months = surface_year(self.climate).months if self.climate is not None else ()
        except ValueError:
            return (None,) * 12
        factors = [month.factor for month in months]
        return tuple([one if one is not None and isfinite(one) else None for one in factors])


def year_table(
    name: str,
    balance: Balance,
    method: str,
    worst: int | None,
    wood: tuple[WoodFace, ...] = (),
    climate: MonthlyClimate | None = None,
) -> YearTable:
    """Return the table of a balance; of the strips only the faces of layers and the worst place are shown.

    Where nothing condenses the face to look at first is the dampest of those behind the outer surface, which has the
    humidity of the open air and tells nothing of the section.
    """
    places = balance.strips.places
    shown = [n for n, place in enumerate(places) if place.depth in (0.0, 1.0) or n == worst]
    months = sorted(balance.year.months, key=lambda month: month.month)
    humidities = [month.humidities for month in months]
    return YearTable(
        assembly=name,
        path=balance.path.name,
        method=method,
        faces=tuple(place_words(balance, n) for n in shown),
        places=tuple((places[n].layer, places[n].depth) for n in shown),
        worst=shown.index(worst) if worst is not None else _dampest(humidities, shown[:-1] or shown),
        months=tuple([_row(*each, shown) for each in zip(months, humidities, strict=True)]),
        wood=wood,
        climate=climate,
        start=MONTHS[balance.year.starting_month - 1],
        verdict=balance.year.verdict,
        settled=balance.settled,
    )


def _row(month: MoistureMonth, humidities: Sequence[float], shown: Sequence[int]) -> MonthRow:
    return MonthRow(
        MONTHS[month.month - 1],
        tuple([month.temperatures[n] for n in shown]),
        tuple([min(humidities[n], 1.0) for n in shown]),
        tuple([month.water[n] for n in shown]),
    )


def _dampest(humidities: Sequence[Sequence[float]], shown: Sequence[int]) -> int:
    return max(range(len(shown)), key=lambda i: max([month[shown[i]] for month in humidities]))
