"""The monthly balance of an assembly: each path run, the worse one kept, and what the two cups would change."""

from collections.abc import Sequence
from typing import NamedTuple

from speccheck.physics.humidity_dependent import variable_year
from speccheck.physics.moisture_section import MoistureSection, Strips, strips_of
from speccheck.physics.moisture_year import MoistureYear
from speccheck.physics.monthly_balance import MonthlyClimate, monthly_balance
from speccheck.survey.moisture.path import MoisturePath, curves_of

__all__ = [
    "MONTHS",
    "Balance",
    "balance_of",
    "balances_of",
    "bounds_of",
    "place_words",
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
        peak = self.year.peak
        return (_RANK[self.year.verdict], peak.peak if peak else 0.0)


def balance_of(path: MoisturePath, films: tuple[float, float], climate: MonthlyClimate) -> Balance:
    """Return the balance of a path; layers with a curve follow it at their own mean humidity."""
    section = path.section(films)
    curves = curves_of(path)
    if curves:
        found = variable_year(section, curves, climate)
        return Balance(path, section, strips_of(section), found.year, found.settled, curved=True)
    return Balance(
        path, section, strips_of(section), monthly_balance(section, climate), settled=True, curved=False
    )


def balances_of(
    paths: Sequence[MoisturePath], films: tuple[float, float], climate: MonthlyClimate
) -> list[Balance]:
    """Return the balance of each path, that through the insulation first.

    The path through the framing follows its curves only where by its usual cups it is the worse one: following them
    costs ten times as much, and a path that is not the worse is not shown.
    """
    first = balance_of(paths[0], films, climate)
    found = [first]
    for path in paths[1:]:
        section = path.section(films)
        plain = Balance(
            path, section, strips_of(section), monthly_balance(section, climate), settled=True, curved=False
        )
        found.append(balance_of(path, films, climate) if plain.rank > first.rank else plain)
    return found


def bounds_of(
    paths: Sequence[MoisturePath], films: tuple[float, float], climate: MonthlyClimate
) -> tuple[str, str]:
    """Return the verdicts by dry cup throughout and by wet cup throughout, each by the worse of the paths."""
    dry, wet = (
        worse_verdict([path.section(films, cup) for path in paths], climate) for cup in ("dry", "wet")
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
