"""The monthly balance of thousands of sections or climates at once, each month cut where an interface dries."""

from __future__ import annotations

import math
from dataclasses import dataclass
from typing import TYPE_CHECKING, Any

from speccheck.physics.moisture_section import MOST_STRIPS, STRIP_RESISTANCE
from speccheck.physics.moisture_year import MONTH_SECONDS, TRACE
from speccheck.physics.psychrometrics import SATURATION_PRESSURE_AT_ZERO
from speccheck.physics.taut_string import IMPERMEABLE, NO_RESISTANCE
from speccheck.physics.taut_string_batch import taut_strings

if TYPE_CHECKING:
    import numpy as np
    from numpy.typing import ArrayLike, NDArray

__all__ = ["YearBatch", "year_batch"]

_CHUNK = 512
_OVER_WATER, _OVER_ICE = (17.269, 237.3), (21.875, 265.5)
_SAME_MOMENT = 1.0 + 1e-12


@dataclass(frozen=True, slots=True)
class YearBatch:
    """The first year of the monthly balance of many cases, one in each place.

    `counts`, strips of each layer, the same for all; `starting_month`; `peak` [kg/m²] of the wettest
    interface, its number `peak_interface` and `peak_month`; `dry_month`, in which the last interface runs
    dry, 0 where none was wet or one stays so; `residual` [kg/m²] at each interface after twelve months;
    `condenses` and `accumulates`: neither is *none*, the first alone *dries*.
    """

    counts: tuple[int, ...]
    starting_month: NDArray[np.int64]
    peak: NDArray[np.float64]
    peak_interface: NDArray[np.int64]
    peak_month: NDArray[np.int64]
    dry_month: NDArray[np.int64]
    residual: NDArray[np.float64]
    condenses: NDArray[np.bool_]
    accumulates: NDArray[np.bool_]


def year_batch(
    resistances: ArrayLike,
    sd: ArrayLike,
    inside_film: float,
    outside_film: float,
    inside_temperature: ArrayLike,
    inside_pressure: ArrayLike,
    outside_temperature: ArrayLike,
    outside_pressure: ArrayLike,
    trial_month: int = 10,
    trace: float = TRACE,
) -> YearBatch:
    """Return the first year of the monthly balance of many sections, many climates, or both.

    Args:
        resistances: thermal resistance of each layer from inside to outside [m²·K/W], a case in each row, or
            one row for all.
        sd: equivalent air layer thickness of each layer [m], 0 up to infinite, likewise.
        inside_film: inside surface resistance [m²·K/W].
        outside_film: outside surface resistance [m²·K/W].
        inside_temperature: twelve indoor temperatures [°C], a case in each row, or one row for all.
        inside_pressure: twelve indoor vapour pressures [Pa], likewise.
        outside_temperature: twelve outdoor temperatures [°C], likewise.
        outside_pressure: twelve outdoor vapour pressures [Pa], likewise.
        trial_month: month at which the search for the starting month begins, 1 to 12.
        trace: mass below which an interface counts as dry [kg/m²].

    Returns:
        what each case amounts to.

    Raises:
        ValueError: when shapes do not fit each other or a value lies outside its range.

    Notes:
        All cases have the strips that the thickest layer among them needs. With those strips
        `monthly_balance` gives the same to rounding: months are cut at the moment an interface dries, not
        stepped.

    Example:
        >>> outside = [-1.0, 0.0, 4.0, 9.0, 14.0, 17.0, 18.0, 18.0, 14.0, 9.0, 4.0, 1.0]
        >>> pressure = [478, 513, 634, 826, 1118, 1356, 1485, 1527, 1246, 952, 715, 578]
        >>> inside = ([20.0] * 12, [1300.0] * 12)
        >>> sd = [[0.1, 0.16, 3.0], [5.0, 0.16, 3.0]]
        >>> year = year_batch([0.05, 4.0, 0.06], sd, 0.13, 0.04, *inside, outside, pressure)
        >>> [round(float(mass), 2) for mass in year.peak], year.dry_month.tolist()
        ([6.21, 0.18], [0, 6])

    Source: ISO 13788:2012, clause 6, memory.
    """
    import numpy as np

    if not 1 <= trial_month <= 12 or not trace >= 0.0:
        raise ValueError(f"trial month {trial_month} or trace {trace} lies outside its range")
    wall = [_rows(name, values) for name, values in (("resistance", resistances), ("sd", sd))]
    weather = [
        _rows(name, values, 12)
        for name, values in (
            ("indoor temperature", inside_temperature),
            ("indoor vapour pressure", inside_pressure),
            ("outdoor temperature", outside_temperature),
            ("outdoor vapour pressure", outside_pressure),
        )
    ]
    _check(wall, weather, inside_film, outside_film)
    cases = max(len(rows) for rows in (*wall, *weather))
    strips = _Strips(wall[0], wall[1], inside_film, outside_film)
    parts = []
    for begin in range(0, cases, _CHUNK):
        piece = slice(begin, min(begin + _CHUNK, cases))
        size = piece.stop - begin
        lanes = [rows if len(rows) == 1 else rows[piece] for rows in (*strips.rows, *weather)]
        full = [np.broadcast_to(rows, (size, rows.shape[1])) for rows in lanes]
        parts.append(_Years(full, trial_month, trace).results())
    joined = [np.concatenate(columns) for columns in zip(*parts, strict=True)]
    return YearBatch(strips.counts, *joined)


def _rows(name: str, values: ArrayLike, columns: int | None = None) -> NDArray[np.float64]:
    import numpy as np

    rows = np.atleast_2d(np.asarray(values, dtype=np.float64))
    if rows.ndim != 2 or rows.size == 0 or (columns is not None and rows.shape[1] != columns):
        raise ValueError(f"{name} has the shape {rows.shape}")
    return rows


def _check(
    wall: list[NDArray[np.float64]],
    weather: list[NDArray[np.float64]],
    inside_film: float,
    outside_film: float,
) -> None:
    import numpy as np

    resistances, sd = wall
    lengths = {len(rows) for rows in (*wall, *weather)} - {1}
    if len(lengths) > 1 or resistances.shape[1] != sd.shape[1]:
        raise ValueError(
            f"cases do not match: {sorted(lengths)} rows, {resistances.shape[1]} and {sd.shape[1]} layers"
        )
    if not (np.isfinite(resistances).all() and (resistances >= 0.0).all() and (sd >= 0.0).all()):
        raise ValueError("resistances must be finite and not negative, sd not negative")
    if not (0.0 <= inside_film < math.inf and 0.0 <= outside_film < math.inf):
        raise ValueError(f"films must be finite and not negative, not {inside_film} and {outside_film}")
    if not (resistances.sum(axis=1) + inside_film + outside_film > 0.0).all():
        raise ValueError("a section without any thermal resistance has no temperatures")
    for temperature, pressure in (weather[:2], weather[2:]):
        if not (np.abs(temperature) <= 100.0).all():
            raise ValueError("temperatures must lie from -100 to 100 °C")
        if not (np.isfinite(pressure).all() and (pressure >= 0.0).all()):
            raise ValueError("vapour pressures must be finite and not negative")


class _Strips:
    """Sections cut into the same number of strips: coolness, positions and surfaces in rows."""

    def __init__(
        self,
        resistances: NDArray[np.float64],
        sd: NDArray[np.float64],
        inside_film: float,
        outside_film: float,
    ) -> None:
        import numpy as np

        needed = np.ceil(resistances.max(axis=0) / STRIP_RESISTANCE - 1e-9)
        counts = np.clip(needed, 1, MOST_STRIPS).astype(int)
        self.counts = tuple(int(count) for count in counts)
        strip_r = np.repeat(resistances / counts, counts, axis=1)
        strip_sd = np.repeat(sd / counts, counts, axis=1)
        passed = inside_film + _from_zero(strip_r)
        positions = _from_zero(np.clip(strip_sd, NO_RESISTANCE, IMPERMEABLE))
        from_outside = _from_zero(strip_sd[:, ::-1])[:, ::-1]
        surface = (_from_zero(strip_sd) < NO_RESISTANCE) | (from_outside < NO_RESISTANCE)
        self.rows = (passed / (passed[:, -1:] + outside_film), positions, surface)


class _Years:
    """Twelve months of a chunk of cases."""

    def __init__(self, lanes: list[NDArray[np.float64]], trial: int, trace: float) -> None:
        import numpy as np

        coolness, self.positions, surface, inside_t, inside_p, outside_t, outside_p = lanes
        temperatures = inside_t[:, :, None] + (outside_t - inside_t)[:, :, None] * coolness[:, None, :]
        ceiling = np.where(surface[:, None, :], np.inf, _saturation(temperatures))
        ceiling[:, :, 0], ceiling[:, :, -1] = inside_p, outside_p
        self.ceiling, self.trace = ceiling, trace
        self.cases, _, self.interfaces = ceiling.shape
        gains = self._gains_when_dry()
        self.start = _starting_months(np.any(gains > trace, axis=2), trial)
        self.wets = np.any(gains > 0.0, axis=2)
        self.water = np.zeros((self.cases, self.interfaces))
        self.peak = np.zeros_like(self.water)
        self.peak_step = np.zeros(self.water.shape, dtype=int)
        self.wet_step = np.full(self.water.shape, -1)

    def _gains_when_dry(self) -> NDArray[np.float64]:
        import numpy as np

        places = np.repeat(self.positions, 12, axis=0)
        lines = taut_strings(places, self.ceiling.reshape(-1, self.interfaces))
        rates = lines.rates.reshape(self.ceiling.shape)
        gains: NDArray[np.float64] = rates * np.array(MONTH_SECONDS)[None, :, None]
        return gains

    def results(self) -> tuple[NDArray[Any], ...]:
        """Run the year and return the columns of the result."""
        import numpy as np

        for step in range(12):
            self._month(step)
        lane = np.arange(self.cases)
        wettest = np.argmax(self.peak, axis=1)
        wet = self.peak > self.trace
        accumulates = np.any(self.water > self.trace, axis=1)
        condenses = np.any(wet, axis=1)
        last_wet = np.where(wet, self.wet_step, -1).max(axis=1)
        dry_month = np.where(condenses & ~accumulates, self._calendar(last_wet), 0)
        peak_month = self._calendar(self.peak_step[lane, wettest])
        return (
            self.start + 1,
            np.where(condenses, self.peak[lane, wettest], 0.0),
            np.where(condenses, wettest, 0),
            np.where(condenses, peak_month, 0),
            dry_month,
            self.water,
            condenses,
            accumulates,
        )

    def _calendar(self, step: NDArray[np.int64]) -> NDArray[np.int64]:
        return (self.start + step) % 12 + 1

    def _month(self, step: int) -> None:
        """Carry every case that holds or gathers water through its month of this step."""
        import numpy as np

        month = (self.start + step) % 12
        lane = np.arange(self.cases)
        rows = lane[(self.water > 0.0).any(axis=1) | self.wets[lane, month]]
        left = np.array(MONTH_SECONDS)[month[rows]]
        bounds = self.ceiling[rows, month[rows]]
        highest = self.water[rows]
        everyone, top = rows, highest.copy()
        place = np.arange(len(rows))
        while rows.size:
            water = self.water[rows]
            lines = taut_strings(self.positions[rows], bounds, water > 0.0)
            water, left, dried = _advance(water, lines.rates, left)
            self.water[rows] = water
            top[place] = np.maximum(top[place], water)
            on = left > 0.0
            bounds = np.where(dried, np.inf, bounds)[on]
            rows, left, place = rows[on], left[on], place[on]
        higher = top > self.peak[everyone]
        self.peak_step[everyone] = np.where(higher, step, self.peak_step[everyone])
        self.peak[everyone] = np.maximum(self.peak[everyone], top)
        self.wet_step[everyone] = np.where(top > self.trace, step, self.wet_step[everyone])


def _advance(
    water: NDArray[np.float64], rates: NDArray[np.float64], left: NDArray[np.float64]
) -> tuple[NDArray[np.float64], NDArray[np.float64], NDArray[np.bool_]]:
    """Return water, time left and what ran dry after the first drying moment or the end of the month."""
    import numpy as np

    drying = (rates < 0.0) & (water > 0.0)
    moments = np.divide(water, -rates, out=np.full(water.shape, np.inf), where=drying)
    first = moments.min(axis=1)
    step = np.minimum(first, left)
    dried = drying & (moments <= (step * _SAME_MOMENT)[:, None])
    after = np.where(dried, 0.0, water + rates * step[:, None])
    return after, np.where(first >= left, 0.0, left - step), dried


def _starting_months(wets: NDArray[np.bool_], trial: int) -> NDArray[np.int64]:
    """Return the month, 0 for January, that each case begins with."""
    import numpy as np

    turned = np.roll(wets, 1 - trial, axis=1)
    forward = np.argmax(turned, axis=1)
    back = (12 - np.argmax(~turned[:, ::-1], axis=1)) % 12
    back = np.where(turned.all(axis=1), 0, back)
    found: NDArray[np.int64] = (trial - 1 + np.where(turned[:, 0], back, forward)) % 12
    return found


def _saturation(temperatures: NDArray[np.float64]) -> NDArray[np.float64]:
    """Return saturation pressures by the formulae of `saturation_pressure`."""
    import numpy as np

    water = temperatures >= 0.0
    slope, offset = (
        np.where(water, _OVER_WATER[0], _OVER_ICE[0]),
        np.where(water, _OVER_WATER[1], _OVER_ICE[1]),
    )
    pressures: NDArray[np.float64] = SATURATION_PRESSURE_AT_ZERO * np.exp(
        slope * temperatures / (offset + temperatures)
    )
    return pressures


def _from_zero(steps: NDArray[np.float64]) -> NDArray[np.float64]:
    import numpy as np

    return np.concatenate([np.zeros((len(steps), 1)), np.cumsum(steps, axis=1)], axis=1)
