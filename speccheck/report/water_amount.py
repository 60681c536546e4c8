"""Small amounts of water by month, short enough for a plot: in grams, or in ounces where US units alone are wanted."""

from speccheck.quantity import Kind, unit_named

__all__ = ["water_number", "water_unit"]


def water_unit(system: str = "both") -> str:
    """Return the unit that the numbers of ``water_number`` are in."""
    return "oz/ft²" if system == "us" else "g/m²"


def water_number(water: float, system: str = "both") -> str:
    """Return an amount of water [kg/m²] as a number in the unit of plots.

    Args:
        water: the amount, negative where it comes instead of going.
        system: units to show: ``both``, ``us`` or ``si``.

    Example:
        >>> water_number(0.0834), water_number(0.0834, "us"), water_number(-0.0002)
        ('83', '0.3', '0')
    """
    number = unit_named(water_unit(system), Kind.AREA_MASS).from_si(water)
    decimals = 0 if system != "us" or abs(number) >= 9.95 else 1 if abs(number) >= 0.095 else 2
    text = f"{number:.{decimals}f}"
    return text if float(text) else "0"
