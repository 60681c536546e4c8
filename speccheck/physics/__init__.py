"""Pure functions for heat, vapour and air: numbers in, numbers out, no documents and no rules."""

from speccheck.physics import (
    air_layer,
    air_leakage,
    climate_means,
    condensing_plane,
    heat,
    metal_framing,
    psychrometrics,
    surface,
    transmittance_corrections,
    vapour,
)

__all__ = [
    "air_layer",
    "air_leakage",
    "climate_means",
    "condensing_plane",
    "heat",
    "metal_framing",
    "psychrometrics",
    "surface",
    "transmittance_corrections",
    "vapour",
]
