"""The rooms of a place at each step of humidity, for the searches of limits: shared by its assemblies."""

from functools import lru_cache
from math import inf

from speccheck.physics.monthly_balance import MonthlyClimate
from speccheck.physics.psychrometrics import saturation_pressures
from speccheck.physics.surface_year import surface_year
from speccheck.survey.moisture.climate import Year, indoor_at

__all__ = ["STEPS", "Rooms", "rooms_of"]

STEPS = 256
"""Steps of humidity from dry to saturated air: a limit is told to 0.4 %."""

_PLACES = 4


class Rooms:
    """The climates of a year by the winter humidity indoors, in steps; each is worked out once.

    ``saturated`` is the vapour pressure of saturated rooms by month [Pa].
    """

    def __init__(self, year: Year) -> None:
        self.saturated = saturation_pressures(year.climate.inside_temperature)
        self._year = year
        self._climates: dict[int, MonthlyClimate] = {}
        self._factors: dict[int, float] = {}

    def at(self, step: int) -> MonthlyClimate:
        """Return both climates at a step of humidity."""
        if step not in self._climates:
            self._climates[step] = indoor_at(self._year, step / STEPS)
        return self._climates[step]

    def surface_factor(self, step: int) -> float:
        """Return the temperature factor fRsi [-] that the governing month asks of a surface; -inf where none does."""
        if step not in self._factors:
            self._factors[step] = self._surface_factor(step)
        return self._factors[step]

    def _surface_factor(self, step: int) -> float:
        try:
            governs = surface_year(self.at(step)).governs
        except ValueError:
            return inf  # near saturation in a room near boiling no surface can be told: none is warm enough
        return -inf if governs is None or governs.factor is None else governs.factor


def rooms_of(year: Year) -> Rooms:
    """Return the rooms of a year. What they hold in it does not matter: only their temperatures and the weather do."""
    climate = year.climate
    return _rooms(
        climate.inside_temperature, climate.outside_temperature, climate.outside_pressure, year.dried
    )


@lru_cache(maxsize=_PLACES)
def _rooms(
    inside: tuple[float, ...], outside: tuple[float, ...], pressure: tuple[float, ...], dried: bool
) -> Rooms:
    return Rooms(Year(MonthlyClimate(inside, pressure, outside, pressure), "", (), dried))
