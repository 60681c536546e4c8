"""The monthly balance of ISO 13788: condensation and drying at every interface through a year and on."""

import math
from collections.abc import Callable, Sequence
from dataclasses import dataclass, replace

from speccheck.physics._bounds import finite, not_negative
from speccheck.physics.moisture_section import (
    MoistureSection,
    Profile,
    Strips,
    profile_of,
    strips_of,
)
from speccheck.physics.moisture_year import (
    MONTH_SECONDS,
    TRACE,
    MoistureMonth,
    MoistureYear,
    run_year,
)
from speccheck.physics.wet_spell import WetSpell, through_spell

__all__ = [
    "LongRun",
    "MonthlyClimate",
    "drying_time",
    "long_run",
    "month_of",
    "month_of_spell",
    "monthly_balance",
    "profiles_of",
]


@dataclass(frozen=True, slots=True)
class MonthlyClimate:
    """Twelve monthly means of both climates, January first: temperatures [°C], vapour pressures [Pa]."""

    inside_temperature: tuple[float, ...]
    inside_pressure: tuple[float, ...]
    outside_temperature: tuple[float, ...]
    outside_pressure: tuple[float, ...]

    def __post_init__(self) -> None:
        """Refuse anything but four times twelve numbers."""
        for name in ("inside_temperature", "inside_pressure", "outside_temperature", "outside_pressure"):
            values = getattr(self, name)
            if len(values) != 12:
                raise ValueError(f"{name.replace('_', ' ')}: a year has twelve months, not {len(values)}")
            check = not_negative if name.endswith("pressure") else finite
            for value in values:
                check(name.replace("_", " "), value)


@dataclass(frozen=True, slots=True)
class LongRun:
    """Years of a moisture balance one after the other.

    `years` run; `residuals` [kg/m²], water at each interface at the end of each year; `yearly_gain` [kg/m²],
    what the last year added in all; `settled`, the first year that ends as it began, None where none does.
    """

    years: tuple[MoistureYear, ...]
    residuals: tuple[tuple[float, ...], ...]
    yearly_gain: float
    settled: int | None


def profiles_of(strips: Strips, climate: MonthlyClimate) -> tuple[Profile, ...]:
    """Return the twelve profiles of a section.

    Args:
        strips: the section.
        climate: both climates by month.

    Returns:
        temperatures, saturation and ceiling for each month, January first.

    Raises:
        ValueError: when a temperature lies outside the range of the saturation formula.

    Example:
        >>> from speccheck.physics.moisture_section import MoistureLayer
        >>> strips = strips_of(MoistureSection((MoistureLayer(1.0, 1.0),), 0.13, 0.04))
        >>> year = profiles_of(strips, MonthlyClimate((20.0,) * 12, (1168.0,) * 12, (0.0,) * 12, (500.0,) * 12))
        >>> round(year[0].temperatures[0], 1)
        17.8

    Source: ISO 13788:2012, clause 6, memory.
    """
    rows = zip(
        climate.inside_temperature,
        climate.outside_temperature,
        climate.inside_pressure,
        climate.outside_pressure,
        strict=True,
    )
    return tuple([profile_of(strips, *row) for row in rows])


def month_of(
    number: int, strips: Strips, profile: Profile, water: tuple[float, ...], seconds: float
) -> MoistureMonth:
    """Return one month of a section under its profile.

    Args:
        number: month, 1 is January.
        strips: the section.
        profile: temperatures, saturation and ceiling in that month.
        water: water at each interface when the month begins [kg/m²].
        seconds: length of the month [s].

    Returns:
        the month.

    Raises:
        ValueError: when numbers of interfaces differ.

    Example:
        >>> from speccheck.physics.moisture_section import MoistureLayer
        >>> layers = (MoistureLayer(0.05, 2.1), MoistureLayer(4.0, 0.16), MoistureLayer(0.06, 3.0))
        >>> strips = strips_of(MoistureSection(layers, 0.13, 0.04), counts=(1, 1, 1))
        >>> january = profile_of(strips, 20.0, -1.0, 1071.7, 477.7)
        >>> month = month_of(1, strips, january, (0.0,) * 4, 31 * 86400.0)
        >>> [round(mass, 3) for mass in month.water]
        [0.0, 0.0, 0.096, 0.0]

    Source: ISO 13788:2012, clause 6, memory.
    """
    return month_of_spell(
        number, profile, water, through_spell(strips.positions, profile.ceiling, water, seconds)
    )


def month_of_spell(number: int, profile: Profile, water: tuple[float, ...], spell: WetSpell) -> MoistureMonth:
    """Return one month of a section from the spell that its weather is.

    Args:
        number: month, 1 is January.
        profile: temperatures and saturation in that month.
        water: water at each interface when the month begins [kg/m²].
        spell: what the month does to the water.

    Returns:
        the month.

    Example:
        >>> profile = Profile((20.0, 0.0), (2337.0, 610.5), (1168.0, 500.0))
        >>> spell = through_spell([0.0, 1.0], profile.ceiling, [0.0, 0.0], 86400.0)
        >>> month_of_spell(1, profile, (0.0, 0.0), spell).pressures
        (1168.0, 500.0)

    Source: ISO 13788:2012, clause 6, memory.
    """
    # a month that begins dry gains what it ends with, and most do
    change = (
        [after - before for after, before in zip(spell.water, water, strict=True)]
        if any(water)
        else spell.water
    )
    return MoistureMonth(
        number,
        profile.temperatures,
        profile.saturation,
        spell.pressures,
        spell.water,
        tuple(change),
        spell.peak,
        spell.inflow,
        spell.outflow,
        spell.dried,
    )


def monthly_balance(
    section: MoistureSection,
    climate: MonthlyClimate,
    trial_month: int = 10,
    trace: float = TRACE,
    counts: Sequence[int] | None = None,
) -> MoistureYear:
    """Return the first year of the monthly balance of a section.

    Args:
        section: layers and films; for heat flow across a wall the standard takes 0.13 m²·K/W inside (0.10
            upwards, 0.17 downwards) and 0.04 outside. Leave out what lies outboard of a well ventilated
            cavity.
        climate: both climates by month.
        trial_month: month at which the search for the starting month begins, 1 to 12.
        trace: mass below which an interface counts as dry [kg/m²].
        counts: strips of each layer; by thermal resistance where absent.

    Returns:
        twelve months from the starting month, and what they amount to. The interfaces are those of
        `strips_of(section, counts)`.

    Raises:
        ValueError: when an argument lies outside its range.

    Notes:
        Steady diffusion only: no storage, rain, sun, air movement or liquid flow, and constant properties. A
        passed balance is no proof of a dry section; where those matter the method does not hold.

    Example:
        >>> from speccheck.physics.moisture_section import MoistureLayer
        >>> layers = (MoistureLayer(0.05, 0.1), MoistureLayer(4.0, 0.16), MoistureLayer(0.06, 3.0))
        >>> outside = (-1.0, 0.0, 4.0, 9.0, 14.0, 17.0, 18.0, 18.0, 14.0, 9.0, 4.0, 1.0)
        >>> pressures = (478, 513, 634, 826, 1118, 1356, 1485, 1527, 1246, 952, 715, 578)
        >>> climate = MonthlyClimate((20.0,) * 12, (1300.0,) * 12, outside, pressures)
        >>> year = monthly_balance(MoistureSection(layers, 0.13, 0.04), climate)
        >>> year.verdict, year.starting_month, year.dry_month, round(year.peak.peak, 1)
        ('accumulates', 10, None, 6.2)

    Source: ISO 13788:2012, clause 6, memory.
    """
    strips = strips_of(section, counts)
    return run_year(_months(strips, climate), len(strips.positions), trial_month, trace)


def long_run(
    section: MoistureSection,
    climate: MonthlyClimate,
    years: int = 10,
    trial_month: int = 10,
    trace: float = TRACE,
) -> LongRun:
    """Return year after year of the monthly balance until a year ends as it began.

    Args:
        section: layers and films.
        climate: both climates by month, the same every year.
        years: most years to run, 1 to 100.
        trial_month: month at which the search for the starting month begins, 1 to 12.
        trace: mass below which an interface counts as dry, and change below which a year ends as it began
            [kg/m²].

    Returns:
        the years, what each leaves, what the last added, and the first that settled.

    Raises:
        ValueError: when an argument lies outside its range.

    Example:
        >>> from speccheck.physics.moisture_section import MoistureLayer
        >>> section = MoistureSection((MoistureLayer(4.0, 0.5), MoistureLayer(0.0, 100.0)), 0.10, 0.04)
        >>> climate = MonthlyClimate((20.0,) * 12, (1300.0,) * 12, (5.0,) * 12, (700.0,) * 12)
        >>> run = long_run(section, climate, 3)
        >>> len(run.years), run.settled, run.yearly_gain > 0.0
        (3, None, True)

    Source: ISO 13788:2012, clause 6, gives one year, memory; the years after it are its plain continuation.
    """
    if not 1 <= years <= 100:
        raise ValueError(f"years must be 1 to 100, not {years}")
    strips = strips_of(section)
    run_month = _months(strips, climate)
    year = run_year(run_month, len(strips.positions), trial_month, trace)
    found, settled = [year], None
    before: tuple[float, ...] = (0.0,) * len(strips.positions)
    while settled is None:
        if max(abs(end - begin) for end, begin in zip(year.water, before, strict=True)) <= trace:
            settled = len(found)
        elif len(found) == years:
            break
        else:
            before = year.water
            year = run_year(run_month, len(strips.positions), year.starting_month, trace, before)
            found.append(year)
    return LongRun(
        years=tuple(found),
        residuals=tuple([one.water for one in found]),
        yearly_gain=math.fsum(year.water) - math.fsum(before),
        settled=settled,
    )


def drying_time(
    section: MoistureSection,
    climate: MonthlyClimate,
    layer: int,
    mass: float = 1.0,
    start_month: int = 10,
    years: int = 10,
    trace: float = TRACE,
) -> float | None:
    """Return how long water in the middle of a layer takes to be gone from the whole section.

    Args:
        section: layers and films.
        climate: both climates by month, the same every year.
        layer: number of the wet layer, 0 for the innermost.
        mass: water placed in the middle of the layer [kg/m²], above 0.
        start_month: month at whose beginning it lies there, 1 to 12.
        years: longest time looked at [years], 1 to 100.
        trace: mass below which the section counts as dry [kg/m²].

    Returns:
        months until the end of the first in which no interface holds more than a trace; None where water is
        left after those years.

    Raises:
        ValueError: when an argument lies outside its range, or the middle of the layer is no place for water
            because nothing that resists vapour lies between it and the air.

    Notes:
        Water that leaves the layer and condenses elsewhere in the section still counts.

    Example:
        >>> from speccheck.physics.moisture_section import MoistureLayer
        >>> layers = (MoistureLayer(0.1, 1.0), MoistureLayer(2.0, 0.1), MoistureLayer(0.1, 1.0))
        >>> climate = MonthlyClimate((20.0,) * 12, (1000.0,) * 12, (15.0,) * 12, (1000.0,) * 12)
        >>> drying_time(MoistureSection(layers, 0.13, 0.04), climate, 1)
        2

    Source: ISO 13788:2012, clause 7, 1 kg/m² for up to ten years, memory.
    """
    if not 0 <= layer < len(section.layers):
        raise ValueError(f"there is no layer {layer}")
    if not 1 <= years <= 100 or not 1 <= start_month <= 12:
        raise ValueError(f"years must be 1 to 100 and the month 1 to 12, not {years} and {start_month}")
    if not finite("mass", mass) > 0.0:
        raise ValueError(f"the water placed must be above zero, not {mass}")
    strips, middle = _halved(section, layer)
    if strips.at_surface[middle]:
        raise ValueError(f"layer {layer} is open to the air: no water can be enclosed in it")
    run_month = _months(strips, climate)
    water = tuple([mass if number == middle else 0.0 for number in range(len(strips.positions))])
    for step in range(12 * years):
        water = run_month((start_month + step - 1) % 12 + 1, water).water
        if max(water) <= trace:
            return step + 1
    return None


def _months(strips: Strips, climate: MonthlyClimate) -> Callable[[int, tuple[float, ...]], MoistureMonth]:
    profiles = profiles_of(strips, climate)

    def run_month(number: int, water: tuple[float, ...]) -> MoistureMonth:
        return month_of(number, strips, profiles[number - 1], water, MONTH_SECONDS[number - 1])

    return run_month


def _halved(section: MoistureSection, layer: int) -> tuple[Strips, int]:
    """Return the strips of a section whose layer is two halves, and the number of the plane between them."""
    whole = section.layers[layer]
    half = replace(whole, resistance=whole.resistance / 2.0, sd=whole.sd / 2.0)
    layers = (*section.layers[:layer], half, half, *section.layers[layer + 1 :])
    strips = strips_of(replace(section, layers=layers))
    return strips, strips.faces(layer)[1]
