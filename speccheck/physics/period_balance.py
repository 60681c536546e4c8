"""The two-season period balance of DIN 4108-3: what condenses in 90 winter days, what 90 summer days could dry."""

import math
from collections.abc import Sequence
from dataclasses import dataclass
from itertools import pairwise

from speccheck.physics._bounds import finite, not_negative, positive
from speccheck.physics.moisture_section import (
    MoistureLayer,
    MoistureSection,
    Profile,
    Strips,
    profile_of,
    strips_of,
)
from speccheck.physics.taut_string import line_under, vapour_line

__all__ = [
    "CONDENSATE_LIMIT",
    "CONDENSATE_LIMIT_NON_CAPILLARY",
    "PERIOD_INSIDE_FILM",
    "PERIOD_OUTSIDE_FILM",
    "ROOF_PERIODS",
    "WALL_PERIODS",
    "CondensationPlane",
    "PeriodBalance",
    "PeriodClimate",
    "evaporable_from",
    "period_balance",
]

PERIOD_INSIDE_FILM = 0.25
"""Inside surface resistance of the period balance [m²·K/W], whatever the direction of heat flow (DIN 4108-3:2014
and 2018, annex A, read in textbook notes)."""

PERIOD_OUTSIDE_FILM = 0.04
"""Outside surface resistance [m²·K/W]; 0.08 behind a ventilated cladding, 0 against the ground (DIN 4108-3, read
in handbook notes)."""

CONDENSATE_LIMIT = 1.0
"""Most condensate of a roof, wall or ceiling [kg/m²] (DIN 4108-3:2018, 5.2.2, read in textbook notes)."""

CONDENSATE_LIMIT_NON_CAPILLARY = 0.5
"""Most condensate beside a layer that takes up no water: metal, foil, normal concrete, foam, mineral wool [kg/m²]
(DIN 4108-3:2018, 5.2.2, read in textbook notes)."""

_NINETY_DAYS = 7_776_000.0


@dataclass(frozen=True, slots=True)
class PeriodClimate:
    """The block climate of a period balance.

    Condensation period: `inside_temperature`, `outside_temperature` [°C], `inside_pressure`,
    `outside_pressure` [Pa], `condensation_seconds` [s]. Evaporation period, without any temperature gradient:
    `evaporation_inside`, `evaporation_outside` and the saturation `plane_saturation` at the wet planes [Pa],
    `evaporation_seconds` [s].
    """

    inside_temperature: float = 20.0
    outside_temperature: float = -5.0
    inside_pressure: float = 1168.0
    outside_pressure: float = 321.0
    condensation_seconds: float = _NINETY_DAYS
    evaporation_inside: float = 1200.0
    evaporation_outside: float = 1200.0
    plane_saturation: float = 1700.0
    evaporation_seconds: float = _NINETY_DAYS

    def __post_init__(self) -> None:
        """Refuse temperatures, pressures and lengths that cannot be."""
        finite("indoor temperature", self.inside_temperature)
        finite("outdoor temperature", self.outside_temperature)
        for name in ("inside_pressure", "outside_pressure", "evaporation_inside", "evaporation_outside"):
            not_negative(name.replace("_", " "), getattr(self, name))
        for name in ("plane_saturation", "condensation_seconds", "evaporation_seconds"):
            positive(name.replace("_", " "), getattr(self, name))


WALL_PERIODS = PeriodClimate()
"""Walls, ceilings under unheated attics, and roofs shaded or ventilated over the insulation: 1700 Pa at the planes
(DIN 4108-3:2014 and 2018, annex A, read in textbook notes; the shaded roof memory)."""

ROOF_PERIODS = PeriodClimate(plane_saturation=2000.0)
"""Roofs that the sun warms: 2000 Pa at the planes (DIN 4108-3:2014 and 2018, annex A, read in textbook notes)."""


@dataclass(frozen=True, slots=True)
class CondensationPlane:
    """A plane, or a zone between two interfaces, where water gathers in the condensation period.

    `first` and `last` number the interfaces (the same for a plane) of `strips_of`; `rate` [kg/(m²·s)] and
    `condensed` [kg/m²] over the period; `position` [m] on the sd axis from which it dries, the middle of a
    zone; `drying_rate` [kg/(m²·s)] while every plane is wet; `drying_time` [s] at that rate, infinite at a
    rate of 0.
    """

    first: int
    last: int
    rate: float
    condensed: float
    position: float
    drying_rate: float
    drying_time: float


@dataclass(frozen=True, slots=True)
class PeriodBalance:
    """The two-season balance of a section.

    `strips` and `winter`, the profile of the condensation period; `pressures` [Pa] of its vapour line;
    `planes` from inside to outside; `condensed` and `evaporable` [kg/m²] in all. Where nothing condenses,
    `evaporable` is that of the interface nearest to condensing, `governing`; it is None where the section has
    no interface that could hold water. Where something condenses `governing` is the wettest plane's.
    """

    strips: Strips
    winter: Profile
    pressures: tuple[float, ...]
    planes: tuple[CondensationPlane, ...]
    condensed: float
    evaporable: float | None
    governing: int | None

    @property
    def dries(self) -> bool:
        """Whether all that condenses could evaporate in the same year."""
        return not self.planes or (self.evaporable is not None and self.condensed <= self.evaporable)

    @property
    def reserve(self) -> float | None:
        """What more could evaporate than condenses [kg/(m²·a)], None where no interface could hold water."""
        return None if self.evaporable is None else self.evaporable - self.condensed


def period_balance(
    layers: Sequence[MoistureLayer],
    climate: PeriodClimate = WALL_PERIODS,
    inside_film: float = PERIOD_INSIDE_FILM,
    outside_film: float = PERIOD_OUTSIDE_FILM,
    counts: Sequence[int] | None = None,
) -> PeriodBalance:
    """Return the two-season period balance of a section.

    Args:
        layers: layers from inside to outside, without those outboard of a ventilated cavity.
        climate: block climate; `WALL_PERIODS` or `ROOF_PERIODS` as a rule.
        inside_film: inside surface resistance [m²·K/W].
        outside_film: outside surface resistance [m²·K/W].
        counts: strips of each layer; by thermal resistance where absent, so that a zone inside a layer is
            found.

    Returns:
        planes, masses and profile.

    Raises:
        ValueError: when an argument lies outside its range.

    Notes:
        Neighbouring strips that both touch saturation are one zone, which dries from its middle. Planes dry
        at `plane_saturation` all; the one that is dry first is let go and the others dry both ways for the
        rest of the period, the last of them to its end, beyond its own water: what is evaporable is a
        potential. For dwellings and the like in the climate of Germany, neither humidified nor cooled; not
        for green or gravelled timber roofs, pools, cold stores.

    Example:
        >>> wall = [MoistureLayer(0.15, 0.95), MoistureLayer(0.0, 2.0), MoistureLayer(4.0, 0.16)]
        >>> wall.append(MoistureLayer(0.15, 1.9))
        >>> balance = period_balance(wall)
        >>> round(balance.condensed, 2), round(balance.evaporable, 2), balance.dries
        (0.27, 0.66, True)

    Source: DIN 4108-3:2014 and 2018, annex A, read in textbook notes; sequence of planes read there, its algebra
    completed here; example after the same textbook, section 13.2.5, read.
    """
    strips = strips_of(MoistureSection(tuple(layers), inside_film, outside_film), counts)
    winter = profile_of(
        strips,
        climate.inside_temperature,
        climate.outside_temperature,
        climate.inside_pressure,
        climate.outside_pressure,
    )
    line = line_under(strips.positions, winter.ceiling)
    zones = _zones(strips, winter, line.contacts)
    rates = dict(zip(line.contacts, line.rates, strict=True))
    places = [(strips.positions[first] + strips.positions[last]) / 2.0 for first, last in zones]
    drying = _drying_rates(places, strips.positions[-1], climate)
    planes = []
    for (first, last), place, drying_rate in zip(zones, places, drying, strict=True):
        rate = math.fsum(rates[number] for number in range(first, last + 1))
        mass = rate * climate.condensation_seconds
        time = mass / drying_rate if drying_rate > 0.0 else math.inf
        planes.append(CondensationPlane(first, last, rate, mass, place, drying_rate, time))
    governing = _governing(strips, winter, line.pressures, planes)
    if planes:
        evaporable: float | None = _evaporable(planes, strips.positions[-1], climate)
    elif governing is not None:
        evaporable = evaporable_from(strips, governing, climate)
    else:
        evaporable = None
    condensed = math.fsum(plane.condensed for plane in planes)
    return PeriodBalance(strips, winter, line.pressures, tuple(planes), condensed, evaporable, governing)


def evaporable_from(strips: Strips, interface: int, climate: PeriodClimate = WALL_PERIODS) -> float:
    """Return what could evaporate in the evaporation period from one interface, were it wet throughout.

    Args:
        strips: the section.
        interface: number of the interface, between two layers.
        climate: block climate.

    Returns:
        evaporable mass [kg/m²]; negative where the air on both sides would bring more than it takes.

    Raises:
        ValueError: when the interface is a surface, or nothing that resists vapour lies between it and the
            air.

    Example:
        >>> layers = (MoistureLayer(0.1, 3.11), MoistureLayer(0.1, 1.9))
        >>> strips = strips_of(MoistureSection(layers, 0.25, 0.04))
        >>> round(evaporable_from(strips, 1), 3)
        0.659

    Source: DIN 4108-3:2014 and 2018, annex A, read in textbook notes.
    """
    if not 0 < interface < len(strips.positions) - 1 or strips.at_surface[interface]:
        raise ValueError(f"interface {interface} lies at a surface: nothing limits its drying")
    rates = _drying_rates([strips.positions[interface]], strips.positions[-1], climate)
    return rates[0] * climate.evaporation_seconds


def _drying_rates(places: Sequence[float], whole: float, climate: PeriodClimate) -> list[float]:
    """Return the rates at which planes at these positions dry while all of them are wet."""
    if not places:
        return []
    edges = [0.0, *places, whole]
    line = vapour_line(
        [right - left for left, right in pairwise(edges)],
        [climate.plane_saturation] * len(edges),
        climate.evaporation_inside,
        climate.evaporation_outside,
        wet=range(1, len(edges) - 1),
    )
    return [-rate for rate in line.rates]


def _evaporable(planes: Sequence[CondensationPlane], whole: float, climate: PeriodClimate) -> float:
    left, total = climate.evaporation_seconds, 0.0
    wet = [(plane.position, plane.condensed) for plane in planes]
    while True:
        rates = _drying_rates([place for place, _ in wet], whole, climate)
        pairs = zip(wet, rates, strict=True)
        times = [mass / rate if rate > 0.0 else math.inf for (_, mass), rate in pairs]
        step = left if len(wet) == 1 else min(left, *times)
        total += math.fsum(rates) * step
        left -= step
        if left <= 0.0:
            return total
        rest = zip(wet, rates, times, strict=True)
        wet = [(place, mass - rate * step) for (place, mass), rate, time in rest if time > step]
        if not wet:
            # The last ones were dry at one moment: the outermost place goes on as the potential.
            wet = [(planes[-1].position, 0.0)]


def _zones(strips: Strips, winter: Profile, contacts: Sequence[int]) -> list[tuple[int, int]]:
    """Join contacts at both faces of one strip whose saturation curve sags below the straight line."""
    zones: list[tuple[int, int]] = []
    for number in contacts:
        joined = zones and zones[-1][1] == number - 1
        if joined and strips.coolness[number] != strips.coolness[number - 1]:
            zones[-1] = (zones[-1][0], number)
        else:
            zones.append((number, number))
    return zones


def _governing(
    strips: Strips, winter: Profile, pressures: Sequence[float], planes: Sequence[CondensationPlane]
) -> int | None:
    if planes:
        return max(planes, key=lambda plane: plane.condensed).last
    inner = [number for number, free in enumerate(strips.at_surface) if not free]
    return max(inner, key=lambda number: pressures[number] / winter.saturation[number], default=None)
