"""A section whose humidity-dependent layers change their sd: what stays as it is, worked out once for all rounds."""

from bisect import bisect_left
from collections.abc import Mapping, Sequence
from dataclasses import replace
from itertools import accumulate

from speccheck.physics.moisture_section import MoistureSection, Profile, Strips, profile_of, strips_of
from speccheck.physics.taut_string import IMPERMEABLE, NO_RESISTANCE
from speccheck.physics.vapour import permeance_at, sd_of

__all__ = ["FollowedSection", "HumidityCurve"]

HumidityCurve = Sequence[tuple[float, float]]
"""(relative humidity [-], permeance [kg/(m²·s·Pa)]) in rising order of humidity; the permeance may fall as well."""

_SOME = 1.0
"""Any sd that is no surface [m]: a layer that has a curve always resists vapour."""

_FEW, _LEAST_FALL = 12, 0.5


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
        self._curves = {layer: _Curve(curve) for layer, curve in curves.items()}
        layers = [replace(one, sd=_SOME) if n in curves else one for n, one in enumerate(section.layers)]
        self.strips = strips_of(replace(section, layers=tuple(layers)))
        self.faces = {layer: self.strips.faces(layer) for layer in curves}
        self._widths = _widths(self.strips, section)
        followed = {place for inner, outer in self.faces.values() for place in range(inner, outer)}
        plain = [0.0 if place in followed else width for place, width in enumerate(self._widths)]
        self._plain = sum(plain)
        self._plain_before = {layer: sum(plain[:inner]) for layer, (inner, _) in sorted(self.faces.items())}
        self._profiles: dict[tuple[float, float], Profile] = {}

    def sd(self, layer: int, humidity: float) -> float:
        """Return the sd [m] a layer has at its mean relative humidity [-]."""
        return self._curves[layer].sd(humidity)

    def positions(self, humidities: Mapping[int, float]) -> list[float]:
        """Return the place of each interface on the sd axis [m] while the layers are at some humidities [-]."""
        widths = self._widths
        for layer, humidity in humidities.items():
            inner, outer = self.faces[layer]
            count = outer - inner
            width = min(max(self._curves[layer].sd(humidity) / count, NO_RESISTANCE), IMPERMEABLE)
            widths[inner:outer] = [width] * count
        return list(accumulate(widths, initial=0.0))

    def undisturbed(self, profile: Profile, first: float, tolerance: float) -> dict[int, float]:
        """Return the humidities [-] at which the layers would settle if nothing condensed, or near them.

        The line then runs straight from end to end, and only the faces of these layers matter: a fraction of the work
        that `positions` and a line under a ceiling are. A place to begin a search, found by secants from ``first``;
        where a few steps do not find it, what they came to.
        """
        saturation, inside, outside = profile.saturation, profile.ceiling[0], profile.ceiling[-1]
        if not self.layers:
            return {}
        humidities = dict.fromkeys(self._plain_before, first)
        before: dict[int, tuple[float, float]] = {}
        for _ in range(_FEW):
            ends, whole = self._ends(humidities)
            slope, widest = (outside - inside) / whole, 0.0
            for layer, places in ends.items():
                inner, outer = (
                    min(1.0, (inside + slope * x) / saturation[n])
                    for x, n in zip(places, self.faces[layer], strict=True)
                )
                humidity = humidities[layer]
                gap = (inner + outer) / 2.0 - humidity
                widest = max(widest, abs(gap))
                last, last_gap = before.get(layer, (humidity, gap))
                fall = (last_gap - gap) / (humidity - last) if humidity != last else 1.0
                before[layer] = humidity, gap
                humidities[layer] = min(1.0, max(0.0, humidity + gap / max(fall, _LEAST_FALL)))
            if widest <= tolerance:
                break
        return humidities

    def _ends(self, humidities: Mapping[int, float]) -> tuple[dict[int, tuple[float, float]], float]:
        """Return where the faces of the followed layers lie on the sd axis [m], and where it ends."""
        ends, followed = {}, 0.0
        for layer, plain in self._plain_before.items():
            inner, outer = self.faces[layer]
            least, most = NO_RESISTANCE * (outer - inner), IMPERMEABLE * (outer - inner)
            sd = min(max(self._curves[layer].sd(humidities[layer]), least), most)
            ends[layer] = (plain + followed, plain + followed + sd)
            followed += sd
        return ends, self._plain + followed

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
        return sd_of(low + (permeances[index] - low) * (humidity - left) / (places[index] - left))


def _widths(strips: Strips, section: MoistureSection) -> list[float]:
    """Return the sd of each strip [m], held as `positions_of` holds it."""
    counts = [0] * len(section.layers)
    for place in strips.places[:-1]:
        counts[place.layer] += 1
    widths: list[float] = []
    for layer, count in zip(section.layers, counts, strict=True):
        widths += [min(max(layer.sd / count, NO_RESISTANCE), IMPERMEABLE)] * count
    return widths
