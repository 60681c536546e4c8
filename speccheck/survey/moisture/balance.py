"""The monthly balance of an assembly: each path run, the worse one kept, and what the two cups would change."""

from collections.abc import Sequence
from dataclasses import replace
from functools import cached_property
from typing import NamedTuple

from speccheck.physics.followed_section import FollowedSection
from speccheck.physics.humidity_dependent import followed_year
from speccheck.physics.moisture_section import MoistureLayer, MoistureSection, Strips
from speccheck.physics.moisture_year import MoistureYear
from speccheck.physics.monthly_balance import MonthlyClimate, monthly_balance
from speccheck.survey.moisture.path import MoisturePath, curves_of

__all__ = [
    "MONTHS",
    "Balance",
    "Prepared",
    "balances_of",
    "bounds_of",
    "place_words",
    "prepared",
    "rank_of",
    "worse_of",
    "worse_verdict",
]

MONTHS = (
    "January", "February", "March", "April", "May", "June", "July", "August", "September", "October", "November",
    "December",
)  # fmt: skip
_RANK = {"none": 0, "dries": 1, "accumulates": 2}


class Balance(NamedTuple):
    """One path through the year."""

    path: MoisturePath
    section: MoistureSection
    strips: Strips
    year: MoistureYear
    settled: bool
    curved: bool

    @property
    def rank(self) -> tuple[int, float]:
        """How bad it is: by verdict, then by the water at its peak."""
        return rank_of(self.year)


class Prepared:
    """One path made ready for many years: by its usual cups alone, and following its curves where it has any.

    What a year gave is kept: several rooms ask for the same.
    """

    def __init__(self, path: MoisturePath, section: MoistureSection) -> None:
        self.path, self.section = path, section
        self._balances: dict[tuple[bool, MonthlyClimate], Balance] = {}

    @cached_property
    def plain(self) -> FollowedSection:
        """The section by its usual cups."""
        return FollowedSection(self.section, {})

    @cached_property
    def followed(self) -> FollowedSection | None:
        """The section with its curves; None where no layer has one."""
        curves = curves_of(self.path)
        return FollowedSection(self.section, curves) if curves else None

    def balance(self, climate: MonthlyClimate) -> Balance:
        """Return the balance in a year; layers with a curve follow it at their own mean humidity."""
        return self._run(self.followed or self.plain, climate)

    def stayed_dry(self, climate: MonthlyClimate) -> bool:
        """Tell whether the balance in a year was asked for, and showed no water whatever in any month."""
        known = self._balances.get((self.followed is not None, climate))
        return known is not None and not any(any(month.peak) for month in known.year.months)

    def plain_balance(self, climate: MonthlyClimate) -> Balance:
        """Return the balance in a year, by the usual cups."""
        return self._run(self.plain, climate)

    def _run(self, section: FollowedSection, climate: MonthlyClimate) -> Balance:
        curved = section is self.followed
        known = self._balances.get((curved, climate))
        if known is None:
            found = followed_year(section, climate)
            known = Balance(self.path, self.section, section.strips, found.year, found.settled, curved)
            self._balances[curved, climate] = known
        return known


def rank_of(year: MoistureYear) -> tuple[int, float]:
    """Return how bad a year is: by verdict, then by the water at its peak [kg/m²]."""
    peak = year.peak
    return (_RANK[year.verdict], peak.peak if peak else 0.0)


def prepared(path: MoisturePath, films: tuple[float, float], more: float = 0.0) -> Prepared:
    """Return a path between two films [m²·K/W], with more resistance [m²·K/W] outboard of all, open to vapour."""
    section = path.section(films)
    if more:
        section = replace(section, layers=(*section.layers, MoistureLayer(more, 0.0)))
    return Prepared(path, section)


def balances_of(paths: Sequence[Prepared], climate: MonthlyClimate) -> list[Balance]:
    """Return the balance of each path, that through the insulation first.

    The path through the framing follows its curves only where by its usual cups it is the worse one: following them
    costs four times as much, and a path that is not the worse is not shown.
    """
    first = paths[0].balance(climate)
    found = [first]
    for path in paths[1:]:
        plain = path.plain_balance(climate)
        found.append(path.balance(climate) if path.followed and plain.rank > first.rank else plain)
    return found


def bounds_of(
    paths: Sequence[MoisturePath],
    films: tuple[float, float],
    climate: MonthlyClimate,
    spread: float = 1.0,
) -> tuple[str, str]:
    """Return the verdicts by dry cup throughout and by wet cup throughout, each by the worse of the paths.

    A cup that is not shown is taken to differ from the other by the factor ``spread``.
    """
    dry, wet = (
        worse_verdict([path.section(films, cup, spread) for path in paths], climate) for cup in ("dry", "wet")
    )
    return dry, wet


def worse_verdict(sections: Sequence[MoistureSection], climate: MonthlyClimate) -> str:
    """Return the worse of the verdicts on some sections in the same year."""
    return max((monthly_balance(section, climate).verdict for section in sections), key=_RANK.__getitem__)


def worse_of(balances: Sequence[Balance]) -> Balance:
    """Return the worse of some balances; the first where they are alike."""
    return max(balances, key=lambda balance: balance.rank)


def place_words(balance: Balance, interface: int) -> str:
    """Return where an interface lies, in words."""
    place = balance.strips.places[interface]
    piece = balance.path.slices[place.layer]
    if place.depth == 0.0:
        return f"inner face of {piece.words}"
    return f"outer face of {piece.words}" if place.depth == 1.0 else f"inside {piece.words}"
