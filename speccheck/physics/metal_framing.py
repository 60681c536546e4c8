"""Metal framing: the correction-factor method of the codes, the zone method and the modified zone method."""

from collections.abc import Sequence
from dataclasses import dataclass

from speccheck.physics._bounds import finite, not_negative, positive
from speccheck.physics._piecewise import between
from speccheck.physics.heat import isothermal_planes, parallel_path, series_resistance

__all__ = [
    "STEEL_CONDUCTIVITY",
    "ZONE_METHOD_FACTOR",
    "ZONE_METHOD_LEAST_FINISH",
    "MetalStud",
    "correction_factor",
    "effective_cavity_resistance",
    "framed_transmittance",
    "modified_zone_resistance",
    "modified_zone_width",
    "zone_method_width",
]

STEEL_CONDUCTIVITY = 48.0
"""Conductivity of light-gauge steel [W/(m·K)] (ASHRAE Fundamentals ch. 27, example 5, read)."""

ZONE_METHOD_FACTOR = 2.0
"""Zone factor of the plain zone method [-] (ASHRAE Fundamentals ch. 27, read)."""

ZONE_METHOD_LEAST_FINISH = 0.0127
"""Least finish thickness in the zone method [m], for the air film over bare metal (handbook, read)."""


@dataclass(frozen=True, slots=True)
class MetalStud:
    """A C stud: `spacing`, `depth`, `flange` width, metal `thickness` [m] and `conductivity` [W/(m·K)]."""

    spacing: float
    depth: float
    flange: float
    thickness: float
    conductivity: float = STEEL_CONDUCTIVITY

    def __post_init__(self) -> None:
        """Refuse a stud that cannot exist."""
        for name in ("spacing", "depth", "flange", "thickness", "conductivity"):
            positive(f"stud {name}", getattr(self, name))
        if self.depth <= 2.0 * self.thickness:
            raise ValueError("a stud must be deeper than its two flanges are thick")
        if not self.thickness <= self.flange <= self.spacing:
            raise ValueError(
                "a stud's flange must be wider than its metal is thick and narrower than the spacing"
            )


def correction_factor(nominal: float, table: Sequence[tuple[float, float]]) -> float | None:
    """Return the correction factor of a cavity insulation, from the rows of one stud depth and spacing.

    Args:
        nominal: nominal thermal resistance of the cavity insulation [m²·K/W], not negative.
        table: (nominal resistance [m²·K/W], factor [-]) of one depth and spacing, rising in resistance.

    Returns:
        correction factor [-], linear between rows; None outside the table, where the factor is unknown.

    Raises:
        ValueError: when the table is empty or does not rise, a factor lies outside 0 to 1, or a value is
            negative.

    Example:
        3.5 in studs 16 in apart, in h·ft²·°F/Btu (any one unit of R serves):

        >>> round(correction_factor(14.0, [(13.0, 0.46), (15.0, 0.43)]), 3)
        0.445
        >>> correction_factor(21.0, [(13.0, 0.46), (15.0, 0.43)]) is None
        True

    Source: IECC table C402.1.4.1, memory (0.46 read); interpolation is common practice, no source.
    """
    for resistance, factor in table:
        not_negative("nominal resistance of a table row", resistance)
        if not 0.0 < finite("correction factor", factor) <= 1.0:
            raise ValueError(f"a correction factor must lie above 0 up to 1, not {factor}")
    return between(table, not_negative("nominal resistance", nominal))


def effective_cavity_resistance(nominal: float, table: Sequence[tuple[float, float]]) -> float | None:
    """Return the resistance of cavity insulation between metal studs after correction for the studs.

    Args:
        nominal: nominal thermal resistance of the cavity insulation [m²·K/W], not negative.
        table: (nominal resistance [m²·K/W], factor [-]) of one depth and spacing, rising in resistance.

    Returns:
        effective thermal resistance of the framed layer [m²·K/W]; None outside the table.

    Raises:
        ValueError: when the table is empty or does not rise, a factor lies outside 0 to 1, or a value is
            negative.

    Example:
        R-13 between 3.5 in studs 16 in apart is worth R-6:

        >>> round(effective_cavity_resistance(13.0, [(13.0, 0.46), (15.0, 0.43)]), 1)
        6.0

    Source: IECC C402.1.4.1 (2015 to 2021), memory; the 0.46 for R-13 read in a trade article.
    """
    factor = correction_factor(nominal, table)
    return None if factor is None else nominal * factor


def framed_transmittance(series: float, effective_cavity: float) -> float:
    """Return the thermal transmittance of a metal-framed section.

    Args:
        series: resistance of everything but the framed cavity: films, boards, continuous insulation [m²·K/W].
        effective_cavity: effective resistance of the framed cavity [m²·K/W], not negative.

    Returns:
        thermal transmittance [W/(m²·K)].

    Raises:
        ValueError: when a value is negative or both are 0.

    Notes:
        U = 1/(R_s + R_effective).

    Example:
        R-2.05 of boards and films, R-13 at R-6, R-7.5 continuous, in US units:

        >>> round(framed_transmittance(2.05 + 7.5, 6.0), 3)
        0.064

    Source: IECC C402.1.4.1, read in a state copy; ASHRAE 90.1 table A3.3 reproduces.
    """
    return 1.0 / positive("total thermal resistance", series_resistance([series, effective_cavity]))


def zone_method_width(flange: float, finish: float) -> float:
    """Return the width that a metal stud disturbs, by the plain zone method.

    Args:
        flange: width of the metal at its widest point [m], above 0.
        finish: shortest distance from the metal to the surface of the section [m], not negative.

    Returns:
        width of the zone [m].

    Raises:
        ValueError: when an argument lies outside its range.

    Notes:
        W = m + 2·d with d at least 12.7 mm (half an inch).

    Example:
        A 1.25 in stud behind half an inch of board:

        >>> round(zone_method_width(1.25 * 0.0254, 0.0127) / 0.0254, 2)
        2.25

    Source: ASHRAE Fundamentals ch. 27, zone method, read; the least distance read in an energy handbook,
    9.3.3.
    """
    depth = max(ZONE_METHOD_LEAST_FINISH, not_negative("finish thickness", finish))
    return modified_zone_width(flange, depth, ZONE_METHOD_FACTOR)


def modified_zone_width(flange: float, finish: float, zone_factor: float) -> float:
    """Return the width that a metal stud disturbs, by the modified zone method.

    Args:
        flange: width of the stud's flange [m], above 0.
        finish: thickness of all layers on the thicker side of the stud, continuous insulation included [m].
        zone_factor: zone factor [-] read from the chart of the method.

    Returns:
        width of the zone [m].

    Raises:
        ValueError: when an argument lies outside its range, or the width comes out at 0 or below.

    Notes:
        W = L + z_f·Σd. The zone factor depends on the ratio of the sheathing's resistivity to the cavity
        insulation's, on stud depth and on finish thickness; its chart is a drawing that the project does not
        hold, so the factor is asked for and never assumed. A factor of 2 is the plain zone method, 0 the
        parallel path.

    Example:
        >>> round(modified_zone_width(0.038, 0.051, 1.71), 3)
        0.125

    Source: ASHRAE Fundamentals 2021 ch. 27, example 5, read.
    """
    width = positive("flange", flange) + finite("zone factor", zone_factor) * not_negative("finish", finish)
    return positive("width of the zone", width)


def modified_zone_resistance(
    stud: MetalStud, zone_width: float, cavity: float, outboard: float, inboard: float
) -> float:
    """Return the resistance of a wall framed with metal studs, from the zone that the studs disturb.

    Args:
        stud: the stud, with its spacing, depth, flange, metal thickness [m] and conductivity [W/(m·K)].
        zone_width: width that one stud disturbs [m], above 0; wider than the spacing counts as the spacing.
        cavity: resistance of the insulation as it fills the full stud depth [m²·K/W], above 0.
        outboard: resistance of everything outboard of the studs, film included [m²·K/W], not negative.
        inboard: resistance of everything inboard of the studs, film included [m²·K/W], not negative.

    Returns:
        thermal resistance of the wall from air to air [m²·K/W], without plates, corners and openings.

    Raises:
        ValueError: when an argument lies outside its range.

    Notes:
        Inside the zone the web and the two flanges each lie side by side with insulation, as isothermal
        planes; zone and undisturbed cavity then lie side by side as parallel paths. For light-gauge C studs
        with solid webs in insulated cavities 90 to 150 mm deep (validity in part memory); not for metal
        sheathing, slotted webs or girts. Its authors found it within 2 % of finite differences for over 200
        walls. It is a clear-wall value: with the plain zone width it lies 5 to 17 % above the code tables for
        3.5 in studs and 20 to 50 % above them for 6 and 8 in studs, so where a code table speaks, the table
        goes first.

    Example:
        The handbook's wall: 89 mm studs 406 mm apart, 51 mm of sheathing outboard:

        >>> stud = MetalStud(spacing=0.406, depth=0.089, flange=0.038, thickness=0.001)
        >>> round(modified_zone_resistance(stud, 0.125, 0.089 * 23.92, 1.47, 0.043), 2)
        2.71

    Source: ASHRAE Fundamentals 2021 ch. 27, modified zone method, example 5, read.
    """
    positive("cavity resistance", cavity)
    width = min(positive("width of the zone", zone_width), stud.spacing)
    resistivity = cavity / stud.depth
    web = _beside_metal(stud, width, stud.thickness, stud.depth - 2.0 * stud.thickness, resistivity)
    flange = _beside_metal(stud, width, stud.flange, stud.thickness, resistivity)
    zone = isothermal_planes([[(1.0, outboard)], flange, web, flange, [(1.0, inboard)]])
    share = width / stud.spacing
    return parallel_path([(share, [zone]), (1.0 - share, [outboard, cavity, inboard])])


def _beside_metal(
    stud: MetalStud, width: float, metal: float, depth: float, resistivity: float
) -> list[tuple[float, float]]:
    """Return one slice of the zone: metal of some width beside insulation."""
    # A negative zone factor can make the zone narrower than the flange: the flange then fills it.
    share = min(1.0, metal / width)
    return [(share, depth / stud.conductivity), (1.0 - share, depth * resistivity)]
