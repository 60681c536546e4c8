"""The months in which a face is damp enough and warm enough for mould, and the longest run of them."""

from collections.abc import Sequence
from dataclasses import dataclass

from speccheck.physics._bounds import fraction

__all__ = ["COLDEST_FOR_MOULD", "DAMP_HUMIDITY", "WARMEST_FOR_MOULD", "DampMonths", "damp_months"]

DAMP_HUMIDITY = 0.80
"""Mean relative humidity of thirty days from which a face counts as damp [-] (ASHRAE 160-2009, read in an abstract)."""

COLDEST_FOR_MOULD = 5.0
"""Temperature below which mould hardly grows [°C] (ASHRAE 160-2009, read in an abstract)."""

WARMEST_FOR_MOULD = 40.0
"""Temperature above which the criterion does not count [°C] (ASHRAE 160-2009, read in an abstract)."""

_SLACK = 1e-9


@dataclass(frozen=True, slots=True)
class DampMonths:
    """How many of twelve months count, and how many of them follow one another; December runs on into January."""

    count: int
    longest_run: int


def damp_months(
    temperatures: Sequence[float],
    humidities: Sequence[float],
    damp: float = DAMP_HUMIDITY,
    coldest: float = COLDEST_FOR_MOULD,
    warmest: float = WARMEST_FOR_MOULD,
) -> DampMonths:
    """Return how many months a face is damp while it is warm, and the longest run of them.

    Args:
        temperatures: monthly mean temperature at the face [°C], January first.
        humidities: monthly mean relative humidity there [-], not negative; above 1 counts as 1.
        damp: humidity from which a month counts [-], 0 to 1.
        coldest: temperature from which a month counts [°C].
        warmest: temperature up to which a month counts [°C].

    Returns:
        number of months and longest run, both 0 to 12.

    Raises:
        ValueError: when there are not twelve months of each, or the humidity lies outside its range.

    Notes:
        The criterion asks for the mean of any thirty days; here it is held against calendar months, which smooth the
        peaks. It was given up in 2016 for an index of mould growth because walls that stay sound in the field do
        not meet it: it says where to look further.

    Example:
        Damp from October to February, and too cold from December on:

        >>> cold = [-1.0, 0.0, 4.0, 9.0, 14.0, 17.0, 18.0, 18.0, 14.0, 9.0, 6.0, 1.0]
        >>> damp_months(cold, [0.9, 0.9, 0.7, 0.6, 0.6, 0.6, 0.6, 0.6, 0.7, 0.8, 0.85, 0.9])
        DampMonths(count=2, longest_run=2)

    Source: ASHRAE 160-2009, criterion of thirty days, read in an abstract on its replacement.
    """
    if not len(temperatures) == len(humidities) == 12:
        raise ValueError(f"a year has twelve months, not {len(temperatures)} and {len(humidities)}")
    least = fraction("humidity", damp) - _SLACK
    counts = [
        humidity >= least and coldest <= temperature <= warmest
        for temperature, humidity in zip(temperatures, humidities, strict=True)
    ]
    longest = run = 0
    for month in (*counts, *counts):
        run = run + 1 if month else 0
        longest = max(longest, run)
    return DampMonths(sum(counts), min(longest, 12))
