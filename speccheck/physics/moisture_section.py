"""A section as the moisture balances see it: layers with R and sd, cut into strips, between two surface films."""

import math
from collections.abc import Sequence
from dataclasses import dataclass
from itertools import accumulate
from typing import NamedTuple

from speccheck.physics._bounds import not_negative, positive
from speccheck.physics.psychrometrics import saturation_pressures
from speccheck.physics.taut_string import at_a_surface, positions_of

__all__ = [
    "MOST_STRIPS",
    "STRIP_RESISTANCE",
    "MoistureLayer",
    "MoistureSection",
    "Place",
    "Profile",
    "Strips",
    "profile_of",
    "strips_of",
]

STRIP_RESISTANCE = 0.25
"""The thermal resistance above which a layer is cut into strips [m²·K/W] (ISO 13788:2012, clause 6, memory)."""

MOST_STRIPS = 80
"""The most strips one layer is cut into: at 0.25 m²·K/W each, twenty of resistance."""


@dataclass(frozen=True, slots=True)
class MoistureLayer:
    """One layer: thermal `resistance` [m²·K/W], 0 and up; `sd` [m], 0 (no resistance) up to infinite."""

    resistance: float
    sd: float

    def __post_init__(self) -> None:
        """Refuse what no layer can be."""
        not_negative("thermal resistance", self.resistance)
        if math.isnan(self.sd) or self.sd < 0.0:
            raise ValueError(f"sd must not be negative, not {self.sd}")


@dataclass(frozen=True, slots=True)
class MoistureSection:
    """Layers from inside to outside between an inside and an outside surface film [m²·K/W]."""

    layers: tuple[MoistureLayer, ...]
    inside_film: float
    outside_film: float

    def __post_init__(self) -> None:
        """Refuse a section without layers or without any thermal resistance."""
        if not self.layers:
            raise ValueError("a section has at least one layer")
        not_negative("inside film", self.inside_film)
        not_negative("outside film", self.outside_film)
        within = math.fsum(layer.resistance for layer in self.layers)
        positive("total thermal resistance", within + self.inside_film + self.outside_film)


class Place(NamedTuple):
    """Where an interface lies: in `layer` (0 is the innermost) at `depth` [-], 0 its inner, 1 its outer face.

    Only the outside surface has depth 1; every other face between two layers belongs to the outer one.
    """

    layer: int
    depth: float


@dataclass(frozen=True, slots=True)
class Strips:
    """A section cut into strips: what about it does not change with the weather.

    For each interface, the inside surface first: `places`, `coolness` [-] (how far its temperature has come
    from the indoor to the outdoor one), `positions` [m] on the sd axis, and `at_surface`, whether nothing
    that resists vapour lies between it and the air.
    """

    places: tuple[Place, ...]
    coolness: tuple[float, ...]
    positions: tuple[float, ...]
    at_surface: tuple[bool, ...]

    def faces(self, layer: int) -> tuple[int, int]:
        """Return the numbers of the inner and the outer face of a layer."""
        numbers = [number for number, place in enumerate(self.places) if place.layer == layer]
        if not numbers:
            raise ValueError(f"there is no layer {layer}")
        last = numbers[-1]
        return numbers[0], last if self.places[last].depth == 1.0 else last + 1


class Profile(NamedTuple):
    """Strips under one pair of climates.

    For each interface: `temperatures` [°C], `saturation` [Pa], and `ceiling` [Pa], under which the vapour
    line hangs: saturation between the layers, infinite at a surface, the pressure of the air at the ends.
    """

    temperatures: tuple[float, ...]
    saturation: tuple[float, ...]
    ceiling: tuple[float, ...]

    def between(self, inside_pressure: float, outside_pressure: float) -> "Profile":
        """Return the profile at the same temperatures between other vapour pressures [Pa], not negative."""
        inside = not_negative("indoor vapour pressure", inside_pressure)
        outside = not_negative("outdoor vapour pressure", outside_pressure)
        return Profile(self.temperatures, self.saturation, (inside, *self.ceiling[1:-1], outside))


def strips_of(section: MoistureSection, counts: Sequence[int] | None = None) -> Strips:
    """Return a section cut into strips of equal thermal resistance.

    Args:
        section: layers and films.
        counts: strips of each layer; where absent, as many as keep each strip at or below
            `STRIP_RESISTANCE`, `MOST_STRIPS` at most.

    Returns:
        places, coolness and positions of the interfaces.

    Raises:
        ValueError: when there is not one count, of 1 at least, for each layer.

    Example:
        >>> wall = MoistureSection((MoistureLayer(0.05, 0.1), MoistureLayer(1.0, 0.2)), 0.13, 0.04)
        >>> [(place.layer, place.depth) for place in strips_of(wall).places]
        [(0, 0.0), (1, 0.0), (1, 0.25), (1, 0.5), (1, 0.75), (1, 1.0)]

    Source: ISO 13788:2012, clause 6, strips for layers above 0.25 m²·K/W, memory.
    """
    if counts is None:
        counts = [_count(layer.resistance) for layer in section.layers]
    if len(counts) != len(section.layers) or min(counts) < 1:
        raise ValueError(
            f"{len(section.layers)} layers need as many counts of 1 and more, not {tuple(counts)}"
        )
    places, resistances, sd = [], [section.inside_film], []
    for number, (layer, count) in enumerate(zip(section.layers, counts, strict=True)):
        places += [Place(number, strip / count) for strip in range(count)]
        resistances += [layer.resistance / count] * count
        sd += [layer.sd / count] * count
    places.append(Place(len(section.layers) - 1, 1.0))
    passed = list(accumulate(resistances))
    total = passed[-1] + section.outside_film
    return Strips(
        places=tuple(places),
        coolness=tuple([resistance / total for resistance in passed]),
        positions=positions_of(sd),
        at_surface=at_a_surface(sd),
    )


def profile_of(
    strips: Strips,
    inside_temperature: float,
    outside_temperature: float,
    inside_pressure: float,
    outside_pressure: float,
) -> Profile:
    """Return temperatures, saturation and ceiling of a section under one pair of climates.

    Args:
        strips: the section.
        inside_temperature: indoor temperature [°C], -100 to 100.
        outside_temperature: outdoor temperature [°C], -100 to 100.
        inside_pressure: vapour pressure of the indoor air [Pa], not negative.
        outside_pressure: vapour pressure of the outdoor air [Pa], not negative.

    Returns:
        the profile.

    Raises:
        ValueError: when an argument lies outside its range.

    Example:
        >>> wall = MoistureSection((MoistureLayer(0.05, 0.1), MoistureLayer(0.2, 2.0)), 0.13, 0.04)
        >>> profile = profile_of(strips_of(wall), 20.0, 0.0, 1168.0, 500.0)
        >>> [round(t, 1) for t in profile.temperatures], [round(p) for p in profile.ceiling]
        ([13.8, 11.4, 1.9], [1168, 1350, 500])

    Source: series resistance and ISO 13788:2012, annex E, memory.
    """
    reach = outside_temperature - inside_temperature
    temperatures = [inside_temperature + reach * share for share in strips.coolness]
    saturation = saturation_pressures(temperatures)
    ceiling = [
        math.inf if free else pressure for free, pressure in zip(strips.at_surface, saturation, strict=True)
    ]
    ceiling[0] = not_negative("indoor vapour pressure", inside_pressure)
    ceiling[-1] = not_negative("outdoor vapour pressure", outside_pressure)
    return Profile(tuple(temperatures), saturation, tuple(ceiling))


def _count(resistance: float) -> int:
    # A hair of slack: a layer of exactly 4.0 gives 16 strips whatever its last digit.
    return max(1, min(MOST_STRIPS, math.ceil(resistance / STRIP_RESISTANCE - 1e-9)))
