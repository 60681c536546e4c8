"""A year of months, begun where water first gathers: what lies where, when it is gone, or that it stays."""

from collections.abc import Callable, Sequence
from dataclasses import dataclass
from typing import Literal, NamedTuple

__all__ = [
    "MONTH_SECONDS",
    "TRACE",
    "InterfaceWater",
    "MoistureMonth",
    "MoistureYear",
    "YearVerdict",
    "run_year",
]

MONTH_SECONDS = tuple(86400.0 * days for days in (31, 28, 31, 30, 31, 30, 31, 31, 30, 31, 30, 31))
"""Length of each month [s], January first; February has 28 days (ISO 13788:2012, memory)."""

TRACE = 1.0e-5
"""The mass of water below which an interface counts as dry [kg/m²]: a film of a hundredth of a micrometre. It
decides words only; masses are carried on to the last digit (our convention, no source)."""

YearVerdict = Literal["none", "dries", "accumulates"]
"""No condensation in any month; condensation that is gone within the year; water left after twelve months."""


class MoistureMonth(NamedTuple):
    """One month of a moisture balance.

    `month` (1 is January). For each interface, the inside surface first: `temperatures` [°C], `saturation`
    and mean `pressures` [Pa], `water` at the end, its `change` over the month and its `peak` [kg/m²].
    `inflow` from the indoor air and `outflow` to the outdoor air [kg/m²]; `dried`, interfaces that ran dry.
    """

    month: int
    temperatures: tuple[float, ...]
    saturation: tuple[float, ...]
    pressures: tuple[float, ...]
    water: tuple[float, ...]
    change: tuple[float, ...]
    peak: tuple[float, ...]
    inflow: float
    outflow: float
    dried: tuple[int, ...]

    @property
    def humidities(self) -> tuple[float, ...]:
        """Mean relative humidity at each interface [-]; at a surface it may exceed 1."""
        return tuple([p / s for p, s in zip(self.pressures, self.saturation, strict=True)])


@dataclass(frozen=True, slots=True)
class InterfaceWater:
    """What one interface holds over the year.

    `interface`; its `peak` [kg/m²] and the month of it; `dry_month`, in which it runs dry for the last time,
    None when it does not; `residual` [kg/m²] after twelve months.
    """

    interface: int
    peak: float
    peak_month: int
    dry_month: int | None
    residual: float


@dataclass(frozen=True, slots=True)
class MoistureYear:
    """Twelve months of a moisture balance and what they amount to.

    `months` in the order run, from the `starting_month`; `verdict`; `wet`, the interfaces that held more than
    a trace, the wettest first; `dry_month`, in which the last of them runs dry, None when none was wet or one
    stays so.
    """

    months: tuple[MoistureMonth, ...]
    starting_month: int
    verdict: YearVerdict
    wet: tuple[InterfaceWater, ...]
    dry_month: int | None

    @property
    def peak(self) -> InterfaceWater | None:
        """The wettest interface, None when none was wet."""
        return self.wet[0] if self.wet else None

    @property
    def water(self) -> tuple[float, ...]:
        """Water at each interface after twelve months [kg/m²]."""
        return self.months[-1].water


def run_year(
    run_month: Callable[[int, tuple[float, ...]], MoistureMonth],
    interfaces: int,
    trial_month: int = 10,
    trace: float = TRACE,
    water: Sequence[float] | None = None,
) -> MoistureYear:
    """Return twelve months from the month in which water first gathers.

    Args:
        run_month: gives the month of a number (1 is January) begun with the water [kg/m²] it is handed.
        interfaces: how many interfaces there are, both surfaces included.
        trial_month: month at which the search for the starting month begins, 1 to 12.
        trace: mass below which an interface counts as dry [kg/m²], not negative.
        water: water at each interface at the beginning [kg/m²]; the year then begins with the trial month
            itself. None at all where absent.

    Returns:
        months, starting month, verdict, and what each wet interface holds.

    Raises:
        ValueError: when the trial month is none.

    Notes:
        From a trial month that stays dry the search goes forward to the first month with condensation, from
        one that does not it goes back to the first of an unbroken run. Where every month condenses the year
        begins with the trial month.

    Example:
        >>> def month(number, water):
        ...     mass = water[1] + (0.01 if number in (12, 1, 2) else -min(0.02, water[1]))
        ...     row, top = (0.0, mass, 0.0), (0.0, max(water[1], mass), 0.0)
        ...     return MoistureMonth(number, row, row, row, row, row, top, 0.0, 0.0, ())
        >>> year = run_year(month, 3)
        >>> year.starting_month, year.verdict, year.peak.peak_month, year.dry_month
        (12, 'dries', 2, 4)

    Source: ISO 13788:2012, clause 6, starting month and end of the year, memory.
    """
    if not 1 <= trial_month <= 12:
        raise ValueError(f"{trial_month} is no month")
    dry = (0.0,) * interfaces
    fresh: dict[int, MoistureMonth] = {}

    def begun_dry(month: int) -> MoistureMonth:
        if month not in fresh:
            fresh[month] = run_month(month, dry)
        return fresh[month]

    def wets(month: int) -> bool:
        return max(begun_dry(month).water) > trace

    start = trial_month if water is not None else _starting_month(wets, trial_month)
    held = dry if water is None else tuple(water)
    months = []
    for step in range(12):
        number = (start + step - 1) % 12 + 1
        month = run_month(number, held) if any(held) else begun_dry(number)
        months.append(month)
        held = month.water
    return _summed_up(tuple(months), trace)


def _starting_month(wets: Callable[[int], bool], trial: int) -> int:
    months = [(trial + step - 1) % 12 + 1 for step in range(12)]
    if not wets(trial):
        return next((month for month in months[1:] if wets(month)), trial)
    start = trial
    for month in reversed(months[1:]):
        if not wets(month):
            return start
        start = month
    return trial


def _summed_up(months: tuple[MoistureMonth, ...], trace: float) -> MoistureYear:
    count = len(months[0].water)
    highest = [max(month.peak[number] for month in months) for number in range(count)]
    wet = [_interface(months, number, trace) for number in range(count) if highest[number] > trace]
    wet.sort(key=lambda interface: -interface.peak)
    verdict: YearVerdict = "none"
    if wet:
        verdict = "accumulates" if any(one.residual > trace for one in wet) else "dries"
    return MoistureYear(
        months=months,
        starting_month=months[0].month,
        verdict=verdict,
        wet=tuple(wet),
        dry_month=_last_to_dry(months, wet) if verdict == "dries" else None,
    )


def _interface(months: tuple[MoistureMonth, ...], number: int, trace: float) -> InterfaceWater:
    peaks = [month.peak[number] for month in months]
    top = peaks.index(max(peaks))
    residual = months[-1].water[number]
    dry_month = None
    if residual <= trace:
        last_wet = max(step for step, month in enumerate(months) if month.peak[number] > trace)
        dry_month = months[last_wet].month
    return InterfaceWater(number, peaks[top], months[top].month, dry_month, residual)


def _last_to_dry(months: tuple[MoistureMonth, ...], wet: Sequence[InterfaceWater]) -> int | None:
    order = [month.month for month in months]
    return max((one.dry_month for one in wet if one.dry_month), key=order.index, default=None)
