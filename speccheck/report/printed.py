"""How many digits of a number a machine is given."""

__all__ = ["printed"]


def printed(value: float) -> float:
    """Return a number as printed: ten significant digits, so that machines agree on the bytes.

    Example:
        >>> printed(2.0 / 3.0)
        0.6666666667
    """
    return float(f"{value:.10g}")
