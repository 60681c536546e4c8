"""Which months are the coldest or the warmest, and the mean of a quantity over some months."""

from collections.abc import Sequence

__all__ = ["coldest_months", "mean_over", "warmest_months", "winter_mean"]


def _ranked(temperature: Sequence[float], count: int, warm: bool) -> tuple[int, ...]:
    if len(temperature) != 12:
        raise ValueError(f"a year has twelve months, not {len(temperature)}")
    if not 1 <= count <= 12:
        raise ValueError(f"{count} months cannot be picked out of twelve")
    by_warmth = sorted(range(12), key=lambda month: -temperature[month] if warm else temperature[month])
    return tuple(sorted(month + 1 for month in by_warmth[:count]))


def coldest_months(temperature: Sequence[float], count: int = 1) -> tuple[int, ...]:
    """Return the months with the lowest mean temperature, in calendar order.

    Args:
        temperature: [°C or K], twelve monthly means, January first.
        count: how many months, 1 to 12.

    Returns:
        month numbers, 1 for January. Of two equal months the earlier one is taken.

    Raises:
        ValueError: where there are not twelve values or the count is out of range.

    Example:
        >>> coldest_months([-4.7, -2.5, 3.8, 9.9, 15.3, 21.1, 24.1, 21.8, 18.1, 11.0, 4.7, -3.7], 3)
        (1, 2, 12)

    Source: definition, no source needed.
    """
    return _ranked(temperature, count, warm=False)


def warmest_months(temperature: Sequence[float], count: int = 1) -> tuple[int, ...]:
    """Return the months with the highest mean temperature, in calendar order.

    Args:
        temperature: [°C or K], twelve monthly means, January first.
        count: how many months, 1 to 12.

    Returns:
        month numbers, 1 for January. Of two equal months the earlier one is taken.

    Raises:
        ValueError: where there are not twelve values or the count is out of range.

    Example:
        >>> warmest_months([-4.7, -2.5, 3.8, 9.9, 15.3, 21.1, 24.1, 21.8, 18.1, 11.0, 4.7, -3.7])
        (7,)

    Source: definition, no source needed.
    """
    return _ranked(temperature, count, warm=True)


def mean_over(months: Sequence[int], values: Sequence[float]) -> float:
    """Return the mean of a monthly quantity over some months, each month weighing the same.

    Args:
        months: month numbers, 1 to 12, at least one.
        values: [any unit], twelve of them, January first.

    Returns:
        the mean [unit of the values].

    Raises:
        ValueError: where there is no month, a number is no month, or there are not twelve values.

    Example:
        >>> mean_over((1, 2, 12), [300, 330, 0, 0, 0, 0, 0, 0, 0, 0, 0, 360])
        330.0

    Source: definition, no source needed.
    """
    if len(values) != 12:
        raise ValueError(f"a year has twelve months, not {len(values)}")
    if not months or not all(1 <= month <= 12 for month in months):
        raise ValueError(f"{tuple(months)} are no months")
    return sum(values[month - 1] for month in months) / len(months)


def winter_mean(temperature: Sequence[float]) -> float:
    """Return the mean temperature of the three coldest months.

    Args:
        temperature: [°C or K], twelve monthly means, January first.

    Returns:
        the mean [unit of the temperatures].

    Raises:
        ValueError: where there are not twelve values.

    Notes:
        common choice for the condensing temperature of sheathing in winter; the cold nights are colder.

    Example:
        >>> winter_mean([-4, -2, 4, 10, 15, 21, 24, 22, 18, 11, 5, -3])
        -3.0

    Source: mean of the three coldest months as winter temperature, common practice, no source.
    """
    return mean_over(coldest_months(temperature, 3), temperature)
