"""``python -m tests.benchmarks.moisture``: the moisture core beside a linear program and a textbook procedure.

The same sections and climates go through all three in one run; only the vapour line differs, the walk through the year is
the same. Then how long one wall takes, thousands of its variants at once, and one wall at every station. No test asserts
on it. Needs numpy and scipy.
"""

from __future__ import annotations

import csv
from argparse import ArgumentParser
from dataclasses import replace
from itertools import pairwise
from random import Random
from typing import TYPE_CHECKING, Any

import numpy as np
from scipy.optimize import linprog

from speccheck.physics.indoor_climate import by_humidity_class
from speccheck.physics.moisture_section import MoistureLayer, MoistureSection, Profile, Strips, strips_of
from speccheck.physics.moisture_year import MONTH_SECONDS
from speccheck.physics.monthly_balance import MonthlyClimate, monthly_balance, profiles_of
from speccheck.physics.psychrometrics import saturation_pressure
from speccheck.physics.taut_string import taut_string
from speccheck.physics.vapour import DELTA_AIR
from speccheck.physics.year_batch import year_batch
from speccheck.shelf import rules_folder
from tests.benchmarks.clock import best_of

if TYPE_CHECKING:
    from collections.abc import Callable, Iterator, Sequence

    Line = Callable[[Sequence[float], Sequence[float], Sequence[int]], Iterator[tuple[int, float]]]

__all__ = ["moisture"]

_SEED = 20260115
_MEAN = (-1.0, 0.0, 4.0, 9.0, 14.0, 17.0, 18.0, 18.0, 14.0, 9.0, 4.0, 1.0)
_HUMIDITY = (0.85, 0.84, 0.78, 0.72, 0.70, 0.70, 0.72, 0.74, 0.78, 0.83, 0.88, 0.88)
# Lining, retarder, service space, insulation, sheathing, outer insulation, membrane, cladding: R and sd.
_WALL = ((0.05, 0.1), (0.0, 2.0), (0.18, 0.01), (4.0, 0.16), (0.1, 1.5), (1.0, 0.5), (0.0, 0.1), (0.06, 1.0))
# A thick wall of many like layers around a damp room: several neighbouring planes are wet at once.
_DAMP = ((0.08, 0.05),) * 60


def ours(
    positions: Sequence[float], ceiling: Sequence[float], pins: Sequence[int]
) -> Iterator[tuple[int, float]]:
    """Give contacts and rates by the taut string."""
    return _bends(taut_string(positions, ceiling, pins), positions, ceiling)


def textbook(
    positions: Sequence[float], ceiling: Sequence[float], pins: Sequence[int]
) -> Iterator[tuple[int, float]]:
    """Give contacts and rates as one draws them: try every further point until no other lies under the line."""
    last, at, points = len(positions) - 1, 0, [0]
    while at < last:
        stop = min([pin for pin in pins if pin > at], default=last)
        for target in range(stop, at, -1):
            slope = (ceiling[target] - ceiling[at]) / (positions[target] - positions[at])
            if all(
                ceiling[at] + slope * (positions[j] - positions[at]) <= ceiling[j] * (1.0 + 1e-12)
                for j in range(at + 1, stop + 1)
            ):
                break
        at = target
        points.append(at)
    return _bends(points, positions, ceiling)


def linear_program(
    positions: Sequence[float], ceiling: Sequence[float], pins: Sequence[int]
) -> Iterator[tuple[int, float]]:
    """Give contacts and rates by HiGHS: the highest convex line under the ceiling."""
    count = len(positions)
    widths = np.diff(positions)
    rows = []
    for j in range(1, count - 1):
        if j not in pins:
            share = widths[j] / (widths[j - 1] + widths[j])
            row = np.zeros(count)
            row[j], row[j - 1], row[j + 1] = 1.0, -share, share - 1.0
            rows.append(row)
    fixed = {0, count - 1, *pins}
    bounds = [(p / 1000.0, p / 1000.0) if j in fixed else (None, p / 1000.0) for j, p in enumerate(ceiling)]
    found = linprog(
        -np.ones(count),
        A_ub=np.array(rows) if rows else None,
        b_ub=np.zeros(len(rows)) if rows else None,
        bounds=bounds,
        method="highs",
        options={"primal_feasibility_tolerance": 1e-10, "dual_feasibility_tolerance": 1e-10},
    )
    heights = [1000.0 * value for value in found.x]
    touching = [j for j in range(count) if j in fixed or heights[j] > ceiling[j] - 1e-4]
    return _bends(touching, positions, heights)


def _bends(
    points: Sequence[int], positions: Sequence[float], heights: Sequence[float]
) -> Iterator[tuple[int, float]]:
    slopes = [(heights[b] - heights[a]) / (positions[b] - positions[a]) for a, b in pairwise(points)]
    bends = [DELTA_AIR * (after - before) for before, after in pairwise(slopes)]
    return zip(points[1:-1], bends, strict=True)


def walk(line: Line, strips: Strips, profiles: Sequence[Profile], start: int) -> list[float]:
    """Return the highest mass of each interface in the year from a month, months cut where one dries."""
    water, peak = [0.0] * len(strips.positions), [0.0] * len(strips.positions)
    for step in range(12):
        month = (start - 1 + step) % 12
        left = MONTH_SECONDS[month]
        for _ in range(len(water)):
            pins = [j for j, mass in enumerate(water) if mass > 0.0]
            rates = [
                (j, g) for j, g in line(strips.positions, profiles[month].ceiling, pins) if abs(g) > 1e-15
            ]
            drying = {j: water[j] / -rate for j, rate in rates if rate < 0.0 < water[j]}
            now = min([left, *drying.values()])
            for j, rate in rates:
                gone = drying.get(j, left + 1.0) <= now * (1.0 + 1e-12)
                water[j] = 0.0 if gone else max(0.0, water[j] + rate * now)
                peak[j] = max(peak[j], water[j])
            left -= now
            if left <= 0.0:
                break
    return peak


def _climate(outside: Sequence[float], pressures: Sequence[float], humidity_class: Any = 2) -> MonthlyClimate:
    rooms = [by_humidity_class(t, p, humidity_class) for t, p in zip(outside, pressures, strict=True)]
    return MonthlyClimate(
        (20.0,) * 12, tuple([room.pressure for room in rooms]), tuple(outside), tuple(pressures)
    )


def _reference(shift: float = 0.0, humidity_class: Any = 2) -> MonthlyClimate:
    outside = [mean + shift for mean in _MEAN]
    air = [rh * saturation_pressure(t) for rh, t in zip(_HUMIDITY, outside, strict=True)]
    return _climate(outside, air, humidity_class)


def _walls(
    count: int, wall: Sequence[tuple[float, float]], damp: bool
) -> list[tuple[MoistureSection, MonthlyClimate]]:
    random = Random(_SEED)
    cases = []
    for _ in range(count):
        layers = tuple(
            MoistureLayer(r * random.uniform(0.7, 1.3), sd * 10.0 ** random.uniform(-0.7, 0.7))
            for r, sd in wall
        )
        climate = _reference(random.uniform(-8.0, 4.0), random.choice((1, 2, 3, 4)))
        if damp:
            room = 0.9 * saturation_pressure(20.0)
            climate = replace(climate, inside_pressure=(room,) * 12)
        cases.append((MoistureSection(layers, 0.13, 0.04), climate))
    return cases


def _three_ways(count: int, rounds: int, wall: Sequence[tuple[float, float]], damp: bool = False) -> None:
    cases = []
    for section, climate in _walls(count, wall, damp):
        strips = strips_of(section)
        start = monthly_balance(section, climate).starting_month
        cases.append((strips, profiles_of(strips, climate), start))
    ways: dict[str, Line] = {"ours": ours, "textbook": textbook, "linear program": linear_program}
    peaks = {name: [walk(line, *case) for case in cases] for name, line in ways.items()}
    times = {
        name: best_of(
            1 if name == "linear program" else rounds, lambda line=line: [walk(line, *c) for c in cases]
        )
        for name, line in ways.items()
    }
    print(
        f"one year of {count} walls of {len(wall)} layers, the same profiles, best of {rounds} (linear program: 1)"
    )
    for name, seconds in times.items():
        gap = max(
            abs(a - b)
            for one, other in zip(peaks["ours"], peaks[name], strict=True)
            for a, b in zip(one, other, strict=True)
        )
        print(
            f"  {name:<16} {1000 * seconds / count:9.3f} ms a wall  {seconds / times['ours']:8.1f} × ours"
            f"   largest difference of a peak {1000 * gap:.4f} g/m²"
        )


def _one_wall(rounds: int) -> None:
    section = MoistureSection(tuple(MoistureLayer(*layer) for layer in _WALL), 0.13, 0.04)
    for name, humidity_class in (("dry", 1), ("condensing", 4)):
        climate = _reference(-4.0, humidity_class)
        year = monthly_balance(section, climate)
        seconds = (
            best_of(rounds, lambda climate=climate: [monthly_balance(section, climate) for _ in range(50)])
            / 50
        )
        print(
            f"  eight layers, a {name} year ({year.verdict}), strips and temperatures included"
            f" {1000 * seconds:6.3f} ms   (target: under 1 ms)"
        )


def _variants(count: int, rounds: int) -> None:
    random = np.random.default_rng(_SEED)
    layers = np.array(_WALL)
    resistances = layers[:, 0] * random.uniform(0.7, 1.3, (count, len(layers)))
    sd = layers[:, 1] * 10.0 ** random.uniform(-0.7, 0.7, (count, len(layers)))
    outside = np.array(_MEAN) + random.uniform(-8.0, 4.0, (count, 1))
    air = np.array(_HUMIDITY) * np.vectorize(saturation_pressure)(outside)
    room = air + 1.1 * random.uniform(270.0, 1080.0, (count, 1)) * np.clip((20.0 - outside) / 20.0, 0.0, 1.0)

    def run() -> Any:
        return year_batch(resistances, sd, 0.13, 0.04, [20.0] * 12, room, outside, air)

    found = run()
    print(
        f"  {count} variants of one wall, a year each           {best_of(rounds, run):6.2f} s   (target: under 2 s)"
        f"   {100 * found.condenses.mean():.0f} % condense, {100 * found.accumulates.mean():.0f} % keep water"
    )


def _stations(rounds: int) -> None:
    with (rules_folder() / "climate" / "monthly.csv").open(encoding="utf-8", newline="") as file:
        rows = [[float(cell) for cell in row[1:]] for row in list(csv.reader(file))[1:]]
    outside, air = np.array(rows)[:, :12], np.array(rows)[:, 12:]
    layers = np.array(_WALL)

    def run() -> Any:
        room = np.array(
            [_climate(t, p).inside_pressure for t, p in zip(outside.tolist(), air.tolist(), strict=True)]
        )
        return year_batch(layers[:, 0], layers[:, 1], 0.13, 0.04, [20.0] * 12, room, outside, air)

    found = run()
    print(
        f"  one wall at {len(rows)} stations, indoor climate included   {best_of(rounds, run):6.2f} s   (target: under 1 s)"
        f"   {100 * found.condenses.mean():.0f} % condense, {100 * found.accumulates.mean():.0f} % keep water"
    )


def moisture(walls: int, variants: int, rounds: int) -> None:
    """Print the comparison and the speeds."""
    _three_ways(walls, rounds, _WALL)
    _three_ways(max(1, walls // 8), rounds, _DAMP, damp=True)
    print(f"speed, best of {rounds}")
    _one_wall(rounds)
    _variants(variants, rounds)
    _stations(rounds)


def main() -> None:
    """Run with the numbers asked for."""
    parser = ArgumentParser(prog="python -m tests.benchmarks.moisture", description=__doc__)
    parser.add_argument("--walls", type=int, default=40, help="walls that go all three ways (default 40)")
    parser.add_argument("--variants", type=int, default=10_000, help="variants of one wall (default 10000)")
    parser.add_argument("--rounds", type=int, default=5, help="the best of so many is shown (default 5)")
    options = parser.parse_args()
    moisture(options.walls, options.variants, options.rounds)


if __name__ == "__main__":
    main()
