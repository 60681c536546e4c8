"""A section whose humidity-dependent layers change their sd: what stays as it is, worked out once for all rounds."""

import math
from bisect import bisect_left
from collections.abc import Mapping, Sequence
from dataclasses import replace
from itertools import accumulate, pairwise

from speccheck.physics.moisture_section import MoistureSection, Profile, Strips, profile_of, strips_of
from speccheck.physics.taut_string import IMPERMEABLE, NO_RESISTANCE
from speccheck.physics.vapour import DELTA_AIR, permeance_at, sd_of

__all__ = ["FollowedSection", "HumidityCurve"]

HumidityCurve = Sequence[tuple[float, float]]
"""(relative humidity [-], permeance [kg/(m²·s·Pa)]) in rising order of humidity; the permeance may fall as well."""

_SOME = 1.0
"""Any sd that is no surface [m]: a layer that has a curve always resists vapour."""

_FEW, _LEAST_FALL = 12, 0.5
_NEAR = 0.002
"""How near to where a line meets a bound the search for the room's pressure ends, in parts of that pressure."""


class FollowedSection:
    """A section and the curves of its humidity-dependent layers.

    The temperatures, and which interfaces lie at a surface, do not change with the sd of a layer that has a curve;
    only the places of the interfaces on the sd axis do. The profiles of a year are kept, so that a search over
    humidities indoors, or over rounds, pays for each pair of temperatures once.
    """

    def __init__(self, section: MoistureSection, curves: Mapping[int, HumidityCurve]) -> None:
        """Keep a section [see `MoistureSection`] and the curve of each layer by its number, 0 for the innermost.

        Raises:
            ValueError: when a curve belongs to no layer, is empty, or a point lies outside its range.
        """
        for layer, curve in curves.items():
            if not 0 <= layer < len(section.layers):
                raise ValueError(f"there is no layer {layer} for a curve")
            permeance_at(curve, 0.0)
        self.section = section
        self.layers = tuple(curves)
        self.only_opens = all(_only_rises(curve) for curve in curves.values())
        """Whether no layer gets tighter as it gets damper; more vapour in the rooms then nowhere means less water."""
        self._curves = {layer: _Curve(curve) for layer, curve in curves.items()}
        layers = [replace(one, sd=_SOME) if n in curves else one for n, one in enumerate(section.layers)]
        self.strips = strips_of(replace(section, layers=tuple(layers)))
        self.faces = {layer: self.strips.faces(layer) for layer in curves}
        self._widths = _widths(self.strips, section)
        followed = {place for inner, outer in self.faces.values() for place in range(inner, outer)}
        plain = [0.0 if place in followed else width for place, width in enumerate(self._widths)]
        self._plain = sum(plain)
        self._faces_in_order = tuple(sorted(self.faces.items()))
        self._plain_before = {layer: sum(plain[:inner]) for layer, (inner, _) in self._faces_in_order}
        self._held = {
            layer: (NO_RESISTANCE * (outer - inner), IMPERMEABLE * (outer - inner))
            for layer, (inner, outer) in self._faces_in_order
        }
        self._profiles: dict[tuple[float, float], Profile] = {}
        self._placed: tuple[tuple[float, ...], tuple[float, ...]] | None = None

    def sd(self, layer: int, humidity: float) -> float:
        """Return the sd [m] a layer has at its mean relative humidity [-]."""
        return self._curves[layer].sd(humidity)

    def positions(self, humidities: Mapping[int, float]) -> tuple[float, ...]:
        """Return the place of each interface on the sd axis [m] while the layers are at some humidities [-].

        The same tuple as before where no layer has another sd than before: beyond the ends of their curves none has.
        """
        sds = tuple([self._curves[layer].sd(humidity) for layer, humidity in humidities.items()])
        if self._placed is not None and self._placed[0] == sds:
            return self._placed[1]
        widths = self._widths
        for layer, sd in zip(humidities, sds, strict=True):
            inner, outer = self.faces[layer]
            count = outer - inner
            width = min(max(sd / count, NO_RESISTANCE), IMPERMEABLE)
            widths[inner:outer] = [width] * count
        places = tuple(accumulate(widths, initial=0.0))
        self._placed = sds, places
        return places

    def undisturbed(self, profile: Profile, first: float, tolerance: float) -> dict[int, float]:
        """Return the humidities [-] at which the layers would settle if nothing condensed, or near them.

        The line then runs straight from end to end, and only the faces of these layers matter: a fraction of the work
        that `positions` and a line under a ceiling are. A place to begin a search, found by secants from ``first``;
        where a few steps do not find it, what they came to.
        """
        saturation, inside, outside = profile.saturation, profile.ceiling[0], profile.ceiling[-1]
        # one row for each layer: this is the inner loop of every search, and most of its time
        rows = [
            (
                n,
                self._curves[layer].sd,
                self._plain_before[layer],
                *self._held[layer],
                saturation[a],
                saturation[b],
            )
            for n, (layer, (a, b)) in enumerate(self._faces_in_order)
        ]
        humidities = [first] * len(rows)
        lasts, last_gaps = humidities.copy(), [0.0] * len(rows)
        for _ in range(_FEW if rows else 0):
            ends, followed = [], 0.0
            for n, sd_at, plain, least, most, _, _ in rows:
                sd = min(max(sd_at(humidities[n]), least), most)
                ends.append((plain + followed, plain + followed + sd))
                followed += sd
            slope, widest = (outside - inside) / (self._plain + followed), 0.0
            for (n, _, _, _, _, saturated, saturated_other), (x, other) in zip(rows, ends, strict=True):
                inner, outer = (inside + slope * x) / saturated, (inside + slope * other) / saturated_other
                humidity = humidities[n]
                gap = ((inner if inner < 1.0 else 1.0) + (outer if outer < 1.0 else 1.0)) / 2.0 - humidity
                widest = max(widest, abs(gap))
                moved = humidity - lasts[n]
                fall = (last_gaps[n] - gap) / moved if moved != 0.0 else 1.0
                lasts[n], last_gaps[n] = humidity, gap
                humidities[n] = min(1.0, max(0.0, humidity + gap / max(fall, _LEAST_FALL)))
            if widest <= tolerance:
                break
        return {
            layer: humidity for (layer, _), humidity in zip(self._faces_in_order, humidities, strict=True)
        }

    def room_pressure(self, profile: Profile, bounds: Sequence[tuple[int, float]], tolerance: float) -> float:
        """Return the indoor vapour pressure [Pa] up to which an undisturbed line stays under some bounds, or near it.

        A bound is an interface, not the inside surface, and the pressure [Pa] there. The line is that of `undisturbed`,
        so this is a place to begin a search, not its end: where the profile's own indoor pressure is far from it and
        the layers change much on the way, it may be off.
        """
        if not bounds:
            return math.inf
        outside, humidities = profile.ceiling[-1], {}
        pressure, last, last_gap = profile.ceiling[0], 0.0, 0.0
        for turn in range(_FEW):
            if self.layers:
                humidities = self.undisturbed(profile.between(pressure, outside), 0.5, tolerance)
            places = self.positions(humidities)
            end = places[-1]
            found = min([(bound * end - outside * places[n]) / (end - places[n]) for n, bound in bounds])
            gap = found - pressure
            if not self.layers or abs(gap) <= _NEAR * abs(found):
                return found
            fall = 1.0 if turn == 0 or pressure == last else (last_gap - gap) / (pressure - last)
            last, last_gap = pressure, gap
            pressure = max(0.0, pressure + gap / max(fall, _LEAST_FALL))
        return pressure

    def strips_at(self, humidities: Mapping[int, float]) -> Strips:
        """Return the strips while the layers are at some humidities [-]."""
        return replace(self.strips, positions=tuple(self.positions(humidities)))

    def profile(
        self,
        inside_temperature: float,
        outside_temperature: float,
        inside_pressure: float,
        outside_pressure: float,
    ) -> Profile:
        """Return the profile between two climates [°C], [Pa], as `profile_of` does."""
        both = inside_temperature, outside_temperature
        known = self._profiles.get(both)
        if known is None:
            known = profile_of(self.strips, *both, inside_pressure, outside_pressure)
            self._profiles[both] = known
            return known
        return known.between(inside_pressure, outside_pressure)


class _Curve:
    """A curve made ready to be read many times."""

    __slots__ = ("_permeances", "_places", "_sd")

    def __init__(self, curve: HumidityCurve) -> None:
        self._places = [humidity for humidity, _ in curve]
        self._permeances = [permeance for _, permeance in curve]
        self._sd = [sd_of(permeance) for permeance in self._permeances]

    def sd(self, humidity: float) -> float:
        """Return the sd [m] at a humidity [-]: straight lines between the points, the ends carried on."""
        places, permeances = self._places, self._permeances
        index = bisect_left(places, humidity)
        if index == len(places):
            return self._sd[-1]
        if index == 0 or places[index] == humidity:
            return self._sd[index]
        left, low = places[index - 1], permeances[index - 1]
        permeance = low + (permeances[index] - low) * (humidity - left) / (places[index] - left)
        # what `sd_of` gives, without its checks: the curve was checked when it was made ready
        return DELTA_AIR * (1.0 / permeance) if permeance > 0.0 else math.inf


def _only_rises(curve: HumidityCurve) -> bool:
    return all(low[1] <= high[1] for low, high in pairwise(curve))


def _widths(strips: Strips, section: MoistureSection) -> list[float]:
    """Return the sd of each strip [m], held as `positions_of` holds it."""
    counts = [0] * len(section.layers)
    for place in strips.places[:-1]:
        counts[place.layer] += 1
    widths: list[float] = []
    for layer, count in zip(section.layers, counts, strict=True):
        widths += [min(max(layer.sd / count, NO_RESISTANCE), IMPERMEABLE)] * count
    return widths
