"""``python -m tests.benchmarks limits``: what an assembly's limits of humidity cost, beside its year of moisture."""

from __future__ import annotations

import gc
from pathlib import Path
from time import process_time
from typing import TYPE_CHECKING

from speccheck.document import load_bytes
from speccheck.survey import survey
from speccheck.uses.check import KNOWN
from tests.benchmarks.documents import sections
from tests.benchmarks.warm import written

if TYPE_CHECKING:
    from collections.abc import Sequence

__all__ = ["limits"]

_STUDIO = Path(__file__).parents[2] / "examples" / "studio" / "studio.yaml"
_YEAR = "moisture_verdict"
_LIMITS = (
    *("humidity_without_condensation", "humidity_drying_in_year", "outboard_r_to_add"),
    *("humidity_wood_bears", "humidity_surface_bears"),
)


def limits(count: int, rounds: int) -> None:
    """Print the time of each limit for an assembly, and of all as a ratio to one year by the monthly balance."""
    gc.set_threshold(1_000_000, 20, 20)  # as the command line has it
    for what, files in (
        ("the studio", [_STUDIO.read_bytes()]),
        (f"{count} sections", written(sections(count))),
    ):
        turns = [_once(files) for _ in range(rounds + 1)][1:]  # by the first all is read and compiled
        year, *each = (min(times) for times in zip(*turns, strict=True))
        print(f"{what}, best of {rounds}: a year {1000 * year:.2f} ms an assembly")
        for name, seconds in zip(_LIMITS, each, strict=True):
            print(f"  {name:<30} {1000 * seconds:7.2f} ms   {seconds / year:5.2f} years")
        print(f"  {'all limits':<30} {1000 * sum(each):7.2f} ms   {sum(each) / year:5.2f} years")


def _once(files: Sequence[bytes]) -> list[float]:
    """Return the seconds of the processor for the year and for each limit of an assembly that has them, in the mean."""
    times, assemblies = [0.0] * (1 + len(_LIMITS)), 0
    for file in files:
        document = load_bytes(file, "measured.yaml", KNOWN).document
        ledger = survey(document).ledger
        pages = [ledger.page("assembly", name) for name in document.assemblies]
        for number, name in enumerate((_YEAR, *_LIMITS)):
            start = process_time()
            known = [page.fact(f"assembly.{name}") for page in pages]
            times[number] += process_time() - start
            if name == _YEAR:
                assemblies += sum(fact is not None and fact.known for fact in known)
    return [seconds / assemblies for seconds in times]
