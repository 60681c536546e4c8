"""Layers whose permeance follows their own humidity: the sd that agrees with the line it makes, by damped steps."""

from collections.abc import Callable, Mapping, Sequence
from dataclasses import dataclass
from typing import NamedTuple, TypeVar

from speccheck.physics._bounds import positive
from speccheck.physics.followed_section import FollowedSection, HumidityCurve
from speccheck.physics.moisture_section import MoistureSection, Profile, Strips
from speccheck.physics.moisture_year import (
    MONTH_SECONDS,
    TRACE,
    MoistureMonth,
    MoistureYear,
    run_year,
)
from speccheck.physics.monthly_balance import MonthlyClimate, month_of_spell
from speccheck.physics.taut_string import VapourLine, line_under
from speccheck.physics.vapour import permeance_at, sd_of
from speccheck.physics.wet_spell import WetSpell, through_spell

__all__ = [
    "MOST_ROUNDS",
    "TOLERANCE",
    "HumidityCurve",
    "LayerState",
    "SteadyState",
    "VariableYear",
    "curve_bounds",
    "followed_month",
    "followed_year",
    "gathers",
    "month_begun_dry",
    "steady_state",
    "variable_year",
]

TOLERANCE = 1.0e-4
"""How closely the humidity a layer is reckoned with must meet the one its line gives it [-], 0.01 % (ours)."""

MOST_ROUNDS = 200
"""Most rounds before a search is given up and said not to have settled (ours)."""

_FIRST_STEP, _SHORTEST_STEP = 0.7, 1.0e-3
_FIRST_GUESS = 0.5

_Found = TypeVar("_Found", VapourLine, WetSpell)


class LayerState(NamedTuple):
    """Where the search for one humidity-dependent layer ended.

    `layer`; `humidity` [-] it was reckoned with; `gap` [-], by how much its line gives it another; `sd` [m].
    """

    layer: int
    humidity: float
    gap: float
    sd: float


@dataclass(frozen=True, slots=True)
class SteadyState:
    """A section with humidity-dependent layers under one pair of climates.

    `strips` (at the sd found), `profile`, `line`, the `states` of the layers, how many `rounds` it took and
    whether it `converged`.
    """

    strips: Strips
    profile: Profile
    line: VapourLine
    states: tuple[LayerState, ...]
    rounds: int
    converged: bool


@dataclass(frozen=True, slots=True)
class VariableYear:
    """A monthly balance with humidity-dependent layers.

    `year`; for each of its months in the order run, the `states` of the layers and whether the month
    `converged`. A year with a month that did not is no result to rest on.
    """

    year: MoistureYear
    states: tuple[tuple[LayerState, ...], ...]
    converged: tuple[bool, ...]

    @property
    def settled(self) -> bool:
        """Whether every month converged."""
        return all(self.converged)


def curve_bounds(curve: HumidityCurve) -> tuple[float, float]:
    """Return the tightest and the most open state a curve knows.

    Args:
        curve: (relative humidity [-], permeance [kg/(m²·s·Pa)]) in rising order of humidity.

    Returns:
        largest and smallest sd [m]; a verdict that is the same at both does not rest on the curve.

    Raises:
        ValueError: when the curve is empty, or a point lies outside its range.

    Example:
        >>> [round(sd, 2) for sd in curve_bounds([(0.25, 50e-12), (0.80, 500e-12)])]
        [4.0, 0.4]

    Source: definition of sd.
    """
    _check(curve)
    permeances = [permeance for _, permeance in curve]
    return sd_of(min(permeances)), sd_of(max(permeances))


def steady_state(
    section: MoistureSection,
    curves: Mapping[int, HumidityCurve],
    inside_temperature: float,
    outside_temperature: float,
    inside_pressure: float,
    outside_pressure: float,
    tolerance: float = TOLERANCE,
    most_rounds: int = MOST_ROUNDS,
) -> SteadyState:
    """Return a section with humidity-dependent layers under one pair of climates.

    Args:
        section: layers and films; the sd of a layer that has a curve is not used.
        curves: curve (relative humidity [-], permeance [kg/(m²·s·Pa)]) of each humidity-dependent layer by its
            number, 0 for the innermost.
        inside_temperature: indoor temperature [°C].
        outside_temperature: outdoor temperature [°C].
        inside_pressure: vapour pressure of the indoor air [Pa].
        outside_pressure: vapour pressure of the outdoor air [Pa].
        tolerance: gap between assumed and found humidity at which the search ends [-], above 0.
        most_rounds: most rounds, at least 1.

    Returns:
        the line and what it rests on.

    Raises:
        ValueError: when an argument lies outside its range, or a curve belongs to no layer.

    Notes:
        The humidity of a layer is the mean of its two faces. Each round goes part of the way to the humidity
        found; the part is halved for a layer that overshoots and grows for one that does not. A section may
        have more than one steady state; this finds the one reached from 50 %, at first as if nothing condensed.

    Example:
        A membrane that opens at high humidity, inside of insulation and a tight skin:

        >>> from speccheck.physics.moisture_section import MoistureLayer
        >>> layers = (MoistureLayer(0.0, 0.0), MoistureLayer(4.0, 0.2), MoistureLayer(0.0, 50.0))
        >>> curve = [(0.25, 40e-12), (0.60, 60e-12), (0.85, 700e-12)]
        >>> state = steady_state(MoistureSection(layers, 0.13, 0.04), {0: curve}, 20.0, -5.0, 1168.0, 321.0)
        >>> state.converged, round(state.states[0].humidity, 2), round(state.states[0].sd, 2)
        (True, 0.36, 4.31)

    Source: ISO 13788:2012 takes constant properties, memory; curve at the layer's mean humidity, common
    practice, no source.
    """
    followed = FollowedSection(section, curves)
    profile = followed.profile(inside_temperature, outside_temperature, inside_pressure, outside_pressure)
    search = _Search(followed, profile, positive("tolerance", tolerance), _rounds(most_rounds))
    line = search.settle(lambda positions: line_under(positions, profile.ceiling))
    strips = followed.strips_at(search.humidity)
    return SteadyState(strips, profile, line, search.states(), search.rounds, search.converged)


def variable_year(
    section: MoistureSection,
    curves: Mapping[int, HumidityCurve],
    climate: MonthlyClimate,
    trial_month: int = 10,
    trace: float = TRACE,
    tolerance: float = TOLERANCE,
    most_rounds: int = MOST_ROUNDS,
) -> VariableYear:
    """Return the first year of the monthly balance of a section with humidity-dependent layers.

    Args:
        section: layers and films; the sd of a layer that has a curve is not used.
        curves: curve (relative humidity [-], permeance [kg/(m²·s·Pa)]) of each humidity-dependent layer by its
            number, 0 for the innermost.
        climate: both climates by month.
        trial_month: month at which the search for the starting month begins, 1 to 12.
        trace: mass below which an interface counts as dry [kg/m²].
        tolerance: gap between assumed and found humidity at which the search ends [-], above 0.
        most_rounds: most rounds for one month, at least 1.

    Returns:
        the year, and for each month the state of the layers and whether it converged.

    Raises:
        ValueError: when an argument lies outside its range, or a curve belongs to no layer.

    Notes:
        A layer keeps one sd through a month: that which agrees with its mean humidity over the month, with
        the water the month began with in place.

    Example:
        >>> from speccheck.physics.moisture_section import MoistureLayer
        >>> layers = (MoistureLayer(0.0, 0.0), MoistureLayer(4.0, 0.2), MoistureLayer(0.1, 5.0))
        >>> outside = (-5.0, -3.0, 2.0, 8.0, 14.0, 18.0, 20.0, 19.0, 14.0, 8.0, 3.0, -2.0)
        >>> pressures = (350, 400, 550, 750, 1050, 1400, 1600, 1550, 1200, 850, 600, 450)
        >>> climate = MonthlyClimate((20.0,) * 12, (1200.0,) * 12, outside, pressures)
        >>> curve = [(0.25, 40e-12), (0.60, 60e-12), (0.85, 700e-12)]
        >>> found = variable_year(MoistureSection(layers, 0.13, 0.04), {0: curve}, climate)
        >>> found.settled, found.year.verdict
        (True, 'dries')

    Source: ISO 13788:2012, clause 6, for the year, memory; curve at the layer's mean humidity, common practice,
    no source.
    """
    followed = FollowedSection(section, curves)
    return followed_year(followed, climate, trial_month, trace, tolerance, most_rounds)


def followed_year(
    followed: FollowedSection,
    climate: MonthlyClimate,
    trial_month: int = 10,
    trace: float = TRACE,
    tolerance: float = TOLERANCE,
    most_rounds: int = MOST_ROUNDS,
    water: Sequence[float] | None = None,
) -> VariableYear:
    """Return `variable_year` of a section made ready once for many years, as a search over climates wants it.

    Args:
        followed: the section and its curves.
        climate: both climates by month.
        trial_month: month at which the search for the starting month begins, 1 to 12.
        trace: mass below which an interface counts as dry [kg/m²].
        tolerance: gap between assumed and found humidity at which the search ends [-], above 0.
        most_rounds: most rounds for one month, at least 1.
        water: water at each interface at the beginning [kg/m²]; the year then begins with the trial month itself.

    Returns:
        the year, and for each month the state of the layers and whether it converged.

    Raises:
        ValueError: when an argument lies outside its range.

    Example:
        >>> from speccheck.physics.moisture_section import MoistureLayer
        >>> section = MoistureSection((MoistureLayer(0.0, 0.0), MoistureLayer(4.0, 0.2)), 0.13, 0.04)
        >>> climate = MonthlyClimate((20.0,) * 12, (1200.0,) * 12, (0.0,) * 12, (500.0,) * 12)
        >>> followed_year(FollowedSection(section, {0: [(0.5, 60e-12)]}), climate).settled
        True

    Source: ISO 13788:2012, clause 6, for the year, memory.
    """
    positive("tolerance", tolerance)
    _rounds(most_rounds)
    notes: dict[int, tuple[tuple[LayerState, ...], bool]] = {}

    def run_month(number: int, water: tuple[float, ...]) -> MoistureMonth:
        month, search = _month(followed, climate, number, water, tolerance, most_rounds)
        # A month may be tried dry before it is run wet: the run that counts is the last one.
        notes[number] = search.states(), search.converged
        return month

    year = run_year(run_month, len(followed.strips.positions), trial_month, trace, water)
    found = [notes[month.month] for month in year.months]
    return VariableYear(year, tuple([states for states, _ in found]), tuple([done for _, done in found]))


def gathers(
    followed: FollowedSection,
    climate: MonthlyClimate,
    number: int,
    trace: float = TRACE,
    tolerance: float = TOLERANCE,
    most_rounds: int = MOST_ROUNDS,
) -> bool:
    """Tell whether water gathers anywhere in a section in a month that begins dry.

    Args:
        followed: the section and its curves.
        climate: both climates by month.
        number: month, 1 is January.
        trace: mass below which an interface counts as dry [kg/m²].
        tolerance: gap between assumed and found humidity at which the search ends [-], above 0.
        most_rounds: most rounds, at least 1.

    Returns:
        whether more than a trace gathers. A year in which no month does is a year without condensation but for
        traces that add up; a search for the humidity at which condensation begins asks month by month.

    Raises:
        ValueError: when an argument lies outside its range.

    Example:
        >>> from speccheck.physics.moisture_section import MoistureLayer
        >>> layers = (MoistureLayer(0.0, 0.1), MoistureLayer(4.0, 0.2), MoistureLayer(0.1, 50.0))
        >>> section = FollowedSection(MoistureSection(layers, 0.13, 0.04), {})
        >>> climate = MonthlyClimate((20.0,) * 12, (1200.0,) * 12, (0.0,) * 6 + (20.0,) * 6, (500.0,) * 12)
        >>> gathers(section, climate, 1), gathers(section, climate, 7)
        (True, False)

    Source: ISO 13788:2012, clause 6, memory.
    """
    return max(month_begun_dry(followed, climate, number, tolerance, most_rounds).water) > trace


def month_begun_dry(
    followed: FollowedSection,
    climate: MonthlyClimate,
    number: int,
    tolerance: float = TOLERANCE,
    most_rounds: int = MOST_ROUNDS,
) -> MoistureMonth:
    """Return one month of a section with no water in it when the month begins.

    Args:
        followed: the section and its curves.
        climate: both climates by month.
        number: month, 1 is January.
        tolerance: gap between assumed and found humidity at which the search ends [-], above 0.
        most_rounds: most rounds, at least 1.

    Returns:
        the month; in a year in which nothing condenses every month is such a one.

    Raises:
        ValueError: when an argument lies outside its range.

    Example:
        >>> from speccheck.physics.moisture_section import MoistureLayer
        >>> section = FollowedSection(MoistureSection((MoistureLayer(1.0, 1.0),), 0.13, 0.04), {})
        >>> climate = MonthlyClimate((20.0,) * 12, (1200.0,) * 12, (0.0,) * 12, (500.0,) * 12)
        >>> month_begun_dry(section, climate, 1).pressures[0]
        1200.0

    Source: ISO 13788:2012, clause 6, memory.
    """
    dry = (0.0,) * len(followed.strips.positions)
    return followed_month(followed, climate, number, dry, tolerance, most_rounds)


def followed_month(
    followed: FollowedSection,
    climate: MonthlyClimate,
    number: int,
    water: tuple[float, ...],
    tolerance: float = TOLERANCE,
    most_rounds: int = MOST_ROUNDS,
) -> MoistureMonth:
    """Return one month of a section, as `followed_year` runs it.

    Args:
        followed: the section and its curves.
        climate: both climates by month.
        number: month, 1 is January.
        water: water at each interface when the month begins [kg/m²].
        tolerance: gap between assumed and found humidity at which the search ends [-], above 0.
        most_rounds: most rounds, at least 1.

    Returns:
        the month.

    Raises:
        ValueError: when an argument lies outside its range.

    Example:
        >>> from speccheck.physics.moisture_section import MoistureLayer
        >>> layers = (MoistureLayer(1.0, 1.0), MoistureLayer(0.0, 1.0))
        >>> section = FollowedSection(MoistureSection(layers, 0.13, 0.04), {})
        >>> climate = MonthlyClimate((20.0,) * 12, (400.0,) * 12, (0.0,) * 12, (400.0,) * 12)
        >>> wet = tuple([1.0 if place.layer == 1 and place.depth == 0.0 else 0.0 for place in section.strips.places])
        >>> month = followed_month(section, climate, 1, wet)
        >>> 0.0 < sum(month.water) < 1.0
        True

    Source: ISO 13788:2012, clause 6, memory.
    """
    return _month(followed, climate, number, water, positive("tolerance", tolerance), _rounds(most_rounds))[0]


def _month(
    followed: FollowedSection,
    climate: MonthlyClimate,
    number: int,
    water: tuple[float, ...],
    tolerance: float,
    most_rounds: int,
) -> "tuple[MoistureMonth, _Search]":
    profile = followed.profile(*_climate(climate, number))
    seconds = MONTH_SECONDS[number - 1]
    search = _Search(followed, profile, tolerance, most_rounds)
    spell = search.settle(lambda positions: through_spell(positions, profile.ceiling, water, seconds))
    return month_of_spell(number, profile, water, spell), search


class _Search:
    """The damped search for humidities that agree with the line they make."""

    def __init__(
        self, followed: FollowedSection, profile: Profile, tolerance: float, most_rounds: int
    ) -> None:
        self.followed = followed
        self.tolerance, self.most_rounds = tolerance, most_rounds
        # most months end where they would if nothing condensed
        self.humidity = followed.undisturbed(profile, _FIRST_GUESS, tolerance / 2.0)
        self.gap = dict.fromkeys(followed.layers, 0.0)
        self.step = dict.fromkeys(followed.layers, _FIRST_STEP)
        self.rounds, self.converged = 0, False
        saturation = profile.saturation
        self._faces = [
            (layer, inner, outer, saturation[inner], saturation[outer])
            for layer, (inner, outer) in ((layer, followed.faces[layer]) for layer in self.humidity)
        ]

    def settle(self, run: Callable[[Sequence[float]], _Found]) -> _Found:
        """Run until every layer's humidity agrees with its line, or the rounds are spent."""
        places = self.followed.positions(self.humidity)
        found = run(places)
        while True:
            self.rounds += 1
            gaps = self._gaps(found.pressures)
            self.converged = max(map(abs, gaps.values()), default=0.0) <= self.tolerance
            if self.converged or self.rounds >= self.most_rounds:
                self.gap = gaps
                return found
            self._move(gaps)
            before, places = places, self.followed.positions(self.humidity)
            # the same places stand for another humidity beyond the end of a curve: the line is the same too
            if places is not before:
                found = run(places)

    def states(self) -> tuple[LayerState, ...]:
        """Return where each layer ended."""
        return tuple(
            [
                LayerState(
                    layer,
                    self.humidity[layer],
                    self.gap[layer],
                    self.followed.sd(layer, self.humidity[layer]),
                )
                for layer in sorted(self.humidity)
            ]
        )

    def _gaps(self, pressures: Sequence[float]) -> dict[int, float]:
        """Return by how much the line gives each layer another humidity [-] than it is reckoned with."""
        gaps = {}
        for layer, inner, outer, saturated, saturated_other in self._faces:
            both = min(1.0, pressures[inner] / saturated) + min(1.0, pressures[outer] / saturated_other)
            gaps[layer] = both / 2.0 - self.humidity[layer]
        return gaps

    def _move(self, gaps: Mapping[int, float]) -> None:
        for layer, gap in gaps.items():
            if gap * self.gap[layer] < 0.0:
                self.step[layer] = max(_SHORTEST_STEP, self.step[layer] / 2.0)
            else:
                self.step[layer] = min(1.0, self.step[layer] * 1.2)
            self.humidity[layer] += self.step[layer] * gap
            self.gap[layer] = gap


def _rounds(most: int) -> int:
    if most < 1:
        raise ValueError(f"there must be at least one round, not {most}")
    return most


def _check(curve: HumidityCurve) -> None:
    """Refuse a curve that cannot be read, before any search."""
    permeance_at(curve, 0.0)


def _climate(climate: MonthlyClimate, number: int) -> tuple[float, float, float, float]:
    month = number - 1
    return (
        climate.inside_temperature[month],
        climate.outside_temperature[month],
        climate.inside_pressure[month],
        climate.outside_pressure[month],
    )
