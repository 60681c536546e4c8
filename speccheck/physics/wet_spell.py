"""Water at the interfaces of a section through a spell of steady weather, dried-out interfaces let go in time."""

import math
from collections.abc import Sequence
from typing import NamedTuple

from speccheck.physics.taut_string import VapourLine, line_under

__all__ = ["WetSpell", "through_spell"]

_SAME_MOMENT = 1.0 + 1e-12


class WetSpell(NamedTuple):
    """What a spell of steady weather does to the water in a section.

    For each interface: `water` at the end and the highest `peak` on the way [kg/m²], `pressures` [Pa] as the
    mean over the spell. `inflow` [kg/m²] came from the indoor air, `outflow` went to the outdoor air; their
    difference is what the section gained. `dried` interfaces ran dry, at the `moments` [s].
    """

    water: tuple[float, ...]
    peak: tuple[float, ...]
    pressures: tuple[float, ...]
    inflow: float
    outflow: float
    dried: tuple[int, ...]
    moments: tuple[float, ...]


def through_spell(
    positions: Sequence[float], ceiling: Sequence[float], water: Sequence[float], seconds: float
) -> WetSpell:
    """Return the water at the interfaces after a spell of steady weather.

    Args:
        positions: rising positions of the interfaces on the sd axis [m].
        ceiling: saturation pressure at each interface, at the ends the pressure of the air [Pa].
        water: water at each interface when the spell begins [kg/m²], not negative, none at the surfaces.
        seconds: length of the spell [s], above 0.

    Returns:
        water, its peaks, mean pressures, in- and outflow, and what dried when.

    Raises:
        ValueError: when the numbers of interfaces differ or the spell has no length.

    Notes:
        An interface that holds water is held at saturation. Where one runs dry the spell is cut at that
        moment and goes on with the rest. Letting a dry interface go lowers the line everywhere, so nothing
        new begins to condense, the dry one cannot touch again, and there are no more cuts than interfaces.

    Example:
        A gram, drying at 0.1 mg/(m²·s) to either side, is gone after 5000 s:

        >>> spell = through_spell([0.0, 1.0, 2.0], [0.0, 500.0, 0.0], [0.0, 1.0e-3, 0.0], 6000.0)
        >>> spell.water[1], spell.dried, [round(moment) for moment in spell.moments]
        (0.0, (1,), [5000])

    Source: ISO 13788:2012, clause 6, drying within a month, memory.
    """
    if not len(positions) == len(ceiling) == len(water):
        raise ValueError("positions, saturation pressures and water must be given for the same interfaces")
    if not seconds > 0.0:
        raise ValueError(f"a spell has a length above zero, not {seconds} s")
    pins = [number for number, mass in enumerate(water) if mass > 0.0] if any(water) else []
    line = line_under(positions, ceiling, pins)
    if not line.contacts:
        return _dry_spell(line, seconds)
    if not any(_dries(water[n], rate, seconds) for n, rate in zip(line.contacts, line.rates, strict=True)):
        return _steady_spell(line, water, seconds)
    account = _Account(list(water), seconds)
    bounds = list(ceiling)
    while True:
        account.advance(line)
        if account.left <= 0.0:
            break
        for number in account.dried:
            # By the argument above this bounds nothing any more; rounding must not say otherwise.
            bounds[number] = math.inf
        pins = [number for number, mass in enumerate(account.water) if mass > 0.0]
        line = line_under(positions, bounds, pins)
    return account.closed()


def _dries(mass: float, rate: float, seconds: float) -> bool:
    """Does the water [kg/m²] at a contact go within a spell, at this rate [kg/(m²·s)]?"""
    return rate < 0.0 < mass and mass / -rate <= seconds * _SAME_MOMENT


def _dry_spell(line: VapourLine, seconds: float) -> WetSpell:
    """Return a spell in which no interface is or becomes wet, as most are: there is no account to keep."""
    none = (0.0,) * len(line.pressures)
    inflow, outflow = 0.0 + line.inflow * seconds, 0.0 + line.outflow * seconds  # no flow is 0, never -0
    return WetSpell(none, none, line.pressures, inflow, outflow, (), ())


def _steady_spell(line: VapourLine, water: Sequence[float], seconds: float) -> WetSpell:
    """Return a spell in which no interface runs dry: its line stays as it is to the end."""
    after, peak = list(water), list(water)
    for number, rate in zip(line.contacts, line.rates, strict=True):
        after[number] += rate * seconds
        peak[number] = max(peak[number], after[number])
    inflow, outflow = 0.0 + line.inflow * seconds, 0.0 + line.outflow * seconds
    return WetSpell(tuple(after), tuple(peak), line.pressures, inflow, outflow, (), ())


class _Account:
    """The running account of one spell."""

    def __init__(self, water: list[float], seconds: float) -> None:
        self.water, self.peak, self.left, self.length = water, list(water), seconds, seconds
        self.pressures = [0.0] * len(water)
        self.inflow = self.outflow = 0.0
        self.dried: list[int] = []
        self.moments: list[float] = []

    def advance(self, line: VapourLine) -> None:
        """Go on with one line until an interface runs dry or the spell ends."""
        drying = [
            (self.water[number] / -rate, number)
            for number, rate in zip(line.contacts, line.rates, strict=True)
            if rate < 0.0 < self.water[number]
        ]
        step = min([moment for moment, _ in drying], default=self.left)
        whole = step >= self.left
        step = min(step, self.left)
        for number, rate in zip(line.contacts, line.rates, strict=True):
            self.water[number] += rate * step
            self.peak[number] = max(self.peak[number], self.water[number])
        self.left = 0.0 if whole else self.left - step
        for moment, number in drying:
            if moment <= step * _SAME_MOMENT:
                self.water[number] = 0.0
                self.dried.append(number)
                self.moments.append(self.length - self.left)
        self.inflow += line.inflow * step
        self.outflow += line.outflow * step
        if step == self.length:
            self.pressures = list(line.pressures)
        else:
            share = step / self.length
            self.pressures = [p + share * q for p, q in zip(self.pressures, line.pressures, strict=True)]

    def closed(self) -> WetSpell:
        """Return the account as a result."""
        return WetSpell(
            water=tuple(self.water),
            peak=tuple(self.peak),
            pressures=tuple(self.pressures),
            inflow=self.inflow,
            outflow=self.outflow,
            dried=tuple(self.dried),
            moments=tuple(self.moments),
        )
