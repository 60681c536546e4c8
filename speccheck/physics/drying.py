"""How well a section can dry: what a wet interface would give to the air on either side, and what is in reserve."""

import math
from collections.abc import Sequence
from dataclasses import dataclass

from speccheck.physics._bounds import not_negative
from speccheck.physics.moisture_section import MoistureSection, Profile, Strips, strips_of
from speccheck.physics.moisture_year import MONTH_SECONDS
from speccheck.physics.monthly_balance import MonthlyClimate, profiles_of
from speccheck.physics.taut_string import line_under
from speccheck.physics.vapour import DELTA_AIR

__all__ = [
    "RESERVE_ROOF",
    "RESERVE_WALL",
    "DryingMonth",
    "DryingPotential",
    "drying_month",
    "drying_potential",
    "drying_reserve",
    "potential_at",
]

RESERVE_ROOF = 0.250
"""Drying reserve of timber roofs [kg/(m²·a)] (DIN 68800-2:2012 and 2022, 5.2.4, read in textbook notes)."""

RESERVE_WALL = 0.100
"""Drying reserve of timber walls and ceilings [kg/(m²·a)] (DIN 68800-2:2012 and 2022, 5.2.4, memory)."""


@dataclass(frozen=True, slots=True)
class DryingMonth:
    """What would leave an interface in one month if it were wet throughout [kg/m²].

    `inward` reaches the indoor air and `outward` the outdoor air; negative where vapour arrives at the interface
    from that side instead. `moved` leaves the interface and condenses at another place of the section: it is no
    drying. Never negative.
    """

    inward: float
    outward: float
    moved: float

    @property
    def net(self) -> float:
        """What reaches either air less what arrives from it [kg/m²]; negative when the interface would gather water."""
        return self.inward + self.outward

    @property
    def leaves(self) -> float:
        """All that leaves the interface less what arrives [kg/m²], wherever it goes."""
        return self.inward + self.outward + self.moved


@dataclass(frozen=True, slots=True)
class DryingPotential:
    """Twelve months of an interface that is wet throughout, January first, and their sums [kg/(m²·a)].

    `inward` and `outward` sum the months in which vapour reaches that air, `net` the months in which the
    interface dries: what a dry season could take, not what the year leaves. `moved` condenses elsewhere.
    """

    interface: int
    months: tuple[DryingMonth, ...]

    @property
    def inward(self) -> float:
        """What reaches the indoor air over the months in which there is any [kg/(m²·a)]."""
        return math.fsum(max(0.0, month.inward) for month in self.months)

    @property
    def outward(self) -> float:
        """What reaches the outdoor air over the months in which there is any [kg/(m²·a)]."""
        return math.fsum(max(0.0, month.outward) for month in self.months)

    @property
    def moved(self) -> float:
        """What condenses at another place of the section [kg/(m²·a)]."""
        return math.fsum(month.moved for month in self.months)

    @property
    def net(self) -> float:
        """Drying over the months in which the interface dries at all [kg/(m²·a)]."""
        return math.fsum(max(0.0, month.net) for month in self.months)


def drying_month(strips: Strips, profile: Profile, interface: int, seconds: float) -> DryingMonth:
    """Return what would leave an interface in a spell of steady weather if it were wet throughout.

    Args:
        strips: the section.
        profile: its temperatures and pressures.
        interface: number of the interface, between two layers.
        seconds: length of the spell [s].

    Returns:
        what would reach the air inside and outside, and what would condense elsewhere.

    Raises:
        ValueError: when nothing that resists vapour lies between the interface and the air.

    Notes:
        The interface is held at saturation, all others are dry at first. On its way vapour may meet a colder
        place, where it condenses; the air gets what passes the last such place. Under a tight skin most of what
        leaves the interface stays beneath the skin. Where vapour comes from the air and condenses before it
        reaches the interface, that side neither dries nor wets it.

    Example:
        A plane at 20 °C between sd 1 m inside and 2 m outside, air at half saturation on both sides:

        >>> from speccheck.physics.moisture_section import MoistureLayer, profile_of
        >>> strips = strips_of(MoistureSection((MoistureLayer(0.1, 1.0), MoistureLayer(0.1, 2.0)), 0.13, 0.04))
        >>> month = drying_month(strips, profile_of(strips, 20.0, 20.0, 1168.5, 1168.5), 1, 30 * 86400.0)
        >>> round(1000 * month.inward), round(1000 * month.outward), month.moved
        (606, 303, 0.0)

    Source: ISO 13788:2012, clause 6, evaporation from a wet interface, memory.
    """
    if strips.at_surface[interface]:
        raise ValueError(f"interface {interface} lies at a surface: nothing limits its drying")
    line = line_under(strips.positions, profile.ceiling, (interface,))
    flow = DELTA_AIR * seconds
    inside = flow * _fall(strips, line.pressures, interface, interface - 1)
    outside = flow * _fall(strips, line.pressures, interface, interface + 1)
    inward = _arriving(inside, -line.inflow * seconds)
    outward = _arriving(outside, line.outflow * seconds)
    # Where nothing condenses on the way the two differ by rounding alone.
    moved = max(0.0, inside - inward) + max(0.0, outside - outward) if len(line.contacts) > 1 else 0.0
    return DryingMonth(inward, outward, moved)


def _fall(strips: Strips, pressures: Sequence[float], here: int, there: int) -> float:
    """Return the fall of vapour pressure from an interface to its neighbour, over the sd between [Pa/m]."""
    return (pressures[here] - pressures[there]) / abs(strips.positions[there] - strips.positions[here])


def _arriving(leaving: float, at_the_air: float) -> float:
    """Return how much of what leaves toward one side arrives in the air there; negative where it comes from there."""
    return leaving if leaving < 0.0 else min(max(at_the_air, 0.0), leaving)


def drying_potential(section: MoistureSection, climate: MonthlyClimate, interface: int) -> DryingPotential:
    """Return what would leave an interface in each month of the year if it were wet throughout.

    Args:
        section: layers and films.
        climate: both climates by month.
        interface: number of the interface of `strips_of(section)`.

    Returns:
        twelve months and their sums.

    Raises:
        ValueError: when there is no such interface, or it lies at a surface.

    Example:
        >>> from speccheck.physics.moisture_section import MoistureLayer
        >>> section = MoistureSection((MoistureLayer(0.1, 1.0), MoistureLayer(0.1, 2.0)), 0.13, 0.04)
        >>> still = MonthlyClimate((20.0,) * 12, (1168.5,) * 12, (20.0,) * 12, (1168.5,) * 12)
        >>> potential = drying_potential(section, still, 1)
        >>> round(potential.inward / potential.outward, 3), round(potential.net, 1)
        (2.0, 11.1)

    Source: ISO 13788:2012, clause 6, evaporation from a wet interface, memory.
    """
    strips = strips_of(section)
    return potential_at(strips, profiles_of(strips, climate), interface)


def potential_at(strips: Strips, profiles: Sequence[Profile], interface: int) -> DryingPotential:
    """Return what would leave an interface in each month if it were wet throughout, from profiles at hand.

    Args:
        strips: the section.
        profiles: its profile in each month, January first.
        interface: number of the interface, between two layers.

    Returns:
        twelve months and their sums.

    Raises:
        ValueError: when there is no such interface, it lies at a surface, or there are not twelve profiles.

    Notes:
        `drying_potential` for several interfaces of one section, whose profiles are the same.

    Example:
        >>> from speccheck.physics.moisture_section import MoistureLayer, profile_of
        >>> strips = strips_of(MoistureSection((MoistureLayer(0.1, 1.0), MoistureLayer(0.1, 2.0)), 0.13, 0.04))
        >>> potential = potential_at(strips, [profile_of(strips, 20.0, 20.0, 1168.5, 1168.5)] * 12, 1)
        >>> round(potential.inward / potential.outward, 3)
        2.0

    Source: ISO 13788:2012, clause 6, evaporation from a wet interface, memory.
    """
    if not 0 <= interface < len(strips.positions):
        raise ValueError(f"there is no interface {interface}")
    months = zip(profiles, MONTH_SECONDS, strict=True)
    return DryingPotential(
        interface, tuple([drying_month(strips, profile, interface, seconds) for profile, seconds in months])
    )


def drying_reserve(condensed: float, evaporable: float, convective: float = 0.0) -> float:
    """Return what more a section could dry in a year than is meant to get wet in it.

    Args:
        condensed: condensate of the year by diffusion [kg/m²], not negative.
        evaporable: what could evaporate in the year [kg/m²].
        convective: moisture that air leakage brings [kg/m²], not negative; 0 where the reserve is held
            against the fixed allowance of the standard, which stands for it.

    Returns:
        reserve [kg/(m²·a)], negative where the section gains.

    Raises:
        ValueError: when a mass is negative or not finite.

    Example:
        >>> round(drying_reserve(0.27, 0.66), 2)
        0.39

    Source: DIN 68800-2:2012 and 2022, 5.2.4, with the masses of DIN 4108-3, read in textbook notes.
    """
    if not math.isfinite(evaporable):
        raise ValueError(f"what could evaporate must be a finite number, not {evaporable}")
    return (
        evaporable - not_negative("condensate", condensed) - not_negative("convective moisture", convective)
    )
