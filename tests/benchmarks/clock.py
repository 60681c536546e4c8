"""Timing: whole processes started in turns, and a function called until its time settles."""

from __future__ import annotations

import os
import subprocess
from contextlib import contextmanager
from statistics import median
from tempfile import TemporaryDirectory
from time import perf_counter, process_time
from typing import TYPE_CHECKING, NamedTuple

if TYPE_CHECKING:
    from collections.abc import Callable, Iterator, Mapping, Sequence

__all__ = ["Time", "as_installed", "best_of", "in_turns"]


class Time(NamedTuple):
    """Medians of some runs of a process [s]: on the clock, and of the processor."""

    wall: float
    processor: float


@contextmanager
def as_installed() -> Iterator[dict[str, str]]:
    """Yield an environment that keeps byte code, as an installed package has it, in a folder of its own."""
    with TemporaryDirectory() as folder:
        environment = {key: value for key, value in os.environ.items() if key != "PYTHONDONTWRITEBYTECODE"}
        yield environment | {"PYTHONPYCACHEPREFIX": folder}


def in_turns(
    commands: Mapping[str, Sequence[str]], rounds: int, environment: Mapping[str, str]
) -> dict[str, Time]:
    """Return the median times of each command; they run in turns, so that drift falls on all alike.

    A first round warms the file cache and the byte code, and is not counted.
    """
    times: dict[str, list[Time]] = {name: [] for name in commands}
    for turn in range(rounds + 1):
        for name, command in commands.items():
            taken = _run(command, environment)
            if turn:
                times[name].append(taken)
    return {name: Time(*map(median, zip(*taken, strict=True))) for name, taken in times.items()}


def _run(command: Sequence[str], environment: Mapping[str, str]) -> Time:
    nowhere = subprocess.DEVNULL
    start = perf_counter()
    process = subprocess.Popen(command, stdout=nowhere, stderr=nowhere, env=dict(environment))
    _, status, used = os.wait4(process.pid, 0)
    wall = perf_counter() - start
    process.returncode = os.waitstatus_to_exitcode(status)
    return Time(wall, used.ru_utime + used.ru_stime)


def best_of(rounds: int, call: Callable[[], object]) -> float:
    """Return the least processor time [s] of some calls: what else runs on the machine only ever adds."""
    times = []
    for _ in range(rounds):
        start = process_time()
        call()
        times.append(process_time() - start)
    return min(times)
