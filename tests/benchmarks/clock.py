"""Timing: whole processes started in turns, and a function called until its time settles."""

from __future__ import annotations

import subprocess
from statistics import median
from time import perf_counter
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from collections.abc import Callable, Mapping, Sequence

__all__ = ["best_of", "in_turns"]


def in_turns(commands: Mapping[str, Sequence[str]], rounds: int) -> dict[str, float]:
    """Return the median wall time [s] of each command; they run in turns, so that drift falls on all alike.

    A first round warms the file cache and the byte code, and is not counted.
    """
    times: dict[str, list[float]] = {name: [] for name in commands}
    for turn in range(rounds + 1):
        for name, command in commands.items():
            start = perf_counter()
            subprocess.run(command, stdout=subprocess.DEVNULL, stderr=subprocess.DEVNULL, check=False)
            if turn:
                times[name].append(perf_counter() - start)
    return {name: median(values) for name, values in times.items()}


def best_of(rounds: int, call: Callable[[], object]) -> float:
    """Return the shortest wall time [s] of some calls: what else runs on the machine only ever adds."""
    times = []
    for _ in range(rounds):
        start = perf_counter()
        call()
        times.append(perf_counter() - start)
    return min(times)
