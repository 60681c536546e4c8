"""Corrections to a thermal transmittance for air gaps, mechanical fasteners and water on an inverted roof."""

import math
from typing import Literal

from speccheck.physics._bounds import not_negative, positive

__all__ = ["NEGLIGIBLE_SHARE", "air_gap_correction", "fastener_correction", "inverted_roof_correction"]

NEGLIGIBLE_SHARE = 0.03
"""Share of the transmittance below which the corrections together may be left out [-] (ISO 6946, read)."""

_GAP_LEVELS = {0: 0.0, 1: 0.01, 2: 0.04}


def air_gap_correction(level: Literal[0, 1, 2], insulation: float, total: float) -> float:
    """Return what air gaps in an insulation layer add to the transmittance.

    Args:
        level: 0 no gap runs through the insulation [-]; 1 gaps run from its warm to its cold face; 2 gaps
            with air circulating on its warm side.
        insulation: thermal resistance of the layer that has the gaps [m²·K/W], not negative.
        total: thermal resistance of the section, bridges left out [m²·K/W], above 0.

    Returns:
        addition to the transmittance [W/(m²·K)].

    Raises:
        ValueError: when the level is unknown or the layer exceeds the section.

    Notes:
        dU = dU''·(R_1/R_total)², dU'' = 0, 0.01 or 0.04.

    Example:
        >>> round(air_gap_correction(2, 4.0, 4.27), 4)
        0.0351

    Source: ISO 6946:2017, annex F, memory.
    """
    if level not in _GAP_LEVELS:
        raise ValueError(f"air gap level must be 0, 1 or 2, not {level}")
    return _GAP_LEVELS[level] * _share(insulation, total) ** 2


def fastener_correction(
    conductivity: float,
    diameter: float,
    number: float,
    insulation_thickness: float,
    penetrated: float,
    total: float,
    penetrated_thickness: float | None = None,
) -> float:
    """Return what metal fasteners through an insulation layer add to the transmittance.

    Args:
        conductivity: thermal conductivity of the fastener [W/(m·K)], above 0.
        diameter: diameter of the fastener [m], above 0.
        number: number of fasteners per area [1/m²], not negative.
        insulation_thickness: thickness of the insulation layer [m], above 0.
        penetrated: thermal resistance of the insulation that the fastener penetrates [m²·K/W].
        total: thermal resistance of the section, bridges left out [m²·K/W], above 0.
        penetrated_thickness: length of the fastener in the insulation when it is recessed [m]; None when it
            runs through the whole layer.

    Returns:
        addition to the transmittance [W/(m²·K)].

    Raises:
        ValueError: when an argument lies outside its range.

    Notes:
        dU = alpha·lambda·A·n/d_0·(R_1/R_total)², alpha = 0.8, or 0.8·d_1/d_0 when recessed. Not for ties
        across an empty cavity, for a fastener below 1 W/(m·K), nor where both ends touch metal sheets.

    Example:
        >>> round(fastener_correction(50.0, 0.0048, 5.0, 0.14, 4.0, 4.27), 4)
        0.0227

    Source: ISO 6946:2017, annex F, memory.
    """
    positive("insulation thickness", insulation_thickness)
    length = insulation_thickness if penetrated_thickness is None else penetrated_thickness
    if positive("penetrated thickness", length) > insulation_thickness:
        raise ValueError("a fastener cannot penetrate more than the whole insulation")
    alpha = 0.8 * length / insulation_thickness
    area = math.pi * positive("diameter", diameter) ** 2 / 4.0
    conductance = positive("conductivity", conductivity) * area * not_negative("number", number)
    return alpha * conductance / insulation_thickness * _share(penetrated, total) ** 2


def inverted_roof_correction(precipitation: float, drainage: float, insulation: float, total: float) -> float:
    """Return what rain running below the insulation of an inverted roof adds to the transmittance.

    Args:
        precipitation: mean precipitation in the heating season [mm/day], not negative.
        drainage: drainage and joint factor f·x [W·day/(m²·K·mm)], 0.04 for one layer with butt joints under
            an open covering.
        insulation: thermal resistance of the insulation above the membrane [m²·K/W], not negative.
        total: thermal resistance of the section [m²·K/W], above 0.

    Returns:
        addition to the transmittance [W/(m²·K)].

    Raises:
        ValueError: when an argument lies outside its range.

    Notes:
        dU = p·f·x·(R_1/R_total)².

    Example:
        >>> round(inverted_roof_correction(2.0, 0.04, 4.0, 4.27), 3)
        0.07

    Source: ISO 6946:2017, annex F, memory.
    """
    cooled = not_negative("precipitation", precipitation) * not_negative("drainage factor", drainage)
    return cooled * _share(insulation, total) ** 2


def _share(part: float, total: float) -> float:
    if not_negative("insulation resistance", part) > positive("total thermal resistance", total):
        raise ValueError("an insulation layer cannot resist more than the whole section")
    return part / total
