"""Hatching by drafting convention: which sign stands for which material, and the patterns that draw them.

The signs are those in common use on building sections (common practice, no source): crossed diagonals for rigid
insulation, a looped line for batts and fill, grain for timber, dots for gypsum, paired diagonals for brick, stones in
concrete, close diagonals for metal, a heavy broken line for sheets, blank for air.
"""

from collections.abc import Sequence
from math import pi, sin

__all__ = ["HATCHES", "hatch_of", "hatch_patterns", "looped", "patterned"]

HATCHES = {
    "batt": "batt or fill insulation",
    "rigid": "rigid insulation",
    "foam": "sprayed or foamed insulation",
    "timber": "timber",
    "panel": "wood panel",
    "gypsum": "gypsum or cement board",
    "brick": "brick or block",
    "concrete": "concrete",
    "render": "render, plaster or screed",
    "stone": "stone or tile",
    "metal": "metal",
    "glass": "glass",
    "plastic": "plastic",
    "sheet": "sheet or membrane",
    "coating": "coating",
    "air": "air",
    "earth": "earth",
    "gravel": "gravel",
    "other": "material without a sign",
}
"""Each sign and what it stands for."""

_GROUPS = {
    "insulation": "batt", "wood": "panel", "gypsum": "gypsum", "masonry": "brick", "membranes": "sheet",
    "coatings": "coating", "air": "air", "soil": "earth", "cladding": "other", "roof-covering": "stone",
    "metal-glass-plastic": "metal",
}  # fmt: skip

_WORDS: tuple[tuple[tuple[str, ...], str], ...] = (
    (("spray-foam", "gap-foam"), "foam"),
    (
        (
            "eps", "xps", "polyiso", "phenolic", "-fibre-board", "mineral-wool-board", "glass-fibre-board",
            "underlay-board", "cork", "cellular-glass", "perlite", "vacuum",
        ),
        "rigid",
    ),
    (("asphalt",), "sheet"),
    (("softwood", "hardwood", "laminated-timber", "bevel", "cedar", "wood-shingle"), "timber"),
    (("wood-siding",), "panel"),
    (("granite", "limestone", "sandstone", "slate", "marble", "tile", "stone", "terracotta"), "stone"),
    (("concrete", "mortar"), "concrete"),
    (("stucco", "render", "plaster", "screed"), "render"),
    (("brick", "block", "adobe"), "brick"),
    (("metal", "steel", "aluminium", "copper", "zinc", "lead"), "metal"),
    (("glass-spandrel",), "glass"),
    (("vinyl", "pvc"), "plastic"),
    (("fibre-cement", "cement-board"), "gypsum"),
    (("gravel",), "gravel"),
)  # fmt: skip
"""Words in a material id that tell its sign more closely, the first that fits; the group decides otherwise."""

_BY_WORD = ("insulation", "wood", "masonry", "cladding", "roof-covering", "metal-glass-plastic", "soil")


def hatch_of(material: str, group: str) -> str:
    """Return the sign of a material.

    Args:
        material: its id in the material table.
        group: its group there; empty or ``other`` where the tables do not know it.

    Example:
        >>> hatch_of("mineral-wool-batt", "insulation"), hatch_of("xps", "insulation"), hatch_of("osb", "wood")
        ('batt', 'rigid', 'panel')
    """
    if material == "glass":
        return "glass"
    if group in _BY_WORD:
        for words, sign in _WORDS:
            if any(word in material for word in words):
                return sign
    return _GROUPS.get(group, "other")


_DOT = '<circle cx="{}" cy="{}" r="{}"/>'


def _dots(*dots: tuple[float, float, float]) -> str:
    return f'<g class="dot">{"".join(_DOT.format(*dot) for dot in dots)}</g>'


def _stones(*stones: tuple[float, float, float, float]) -> str:
    return "".join(f'<ellipse cx="{x}" cy="{y}" rx="{rx}" ry="{ry}"/>' for x, y, rx, ry in stones)


def _strokes(path: str) -> str:
    return f'<path d="{path}"/>'


_PATTERNS = {
    "rigid": (9, 9, _strokes("M0 0L9 9M9 0L0 9")),
    "foam": (10, 10, _stones((3, 3, 1.8, 1.8), (7.6, 7, 1.3, 1.3), (8, 2, 0.8, 0.8))),
    "timber": (7, 26, _strokes("M1.5 0C3 8 .5 18 1.5 26M5 0C4 7 6.5 17 5 26")),
    "panel": (4, 12, _strokes("M1 0V9M3 4V12M3 0V1")),
    "gypsum": (9, 9, _dots((2, 2, 0.7), (6.5, 5, 0.7), (3, 7.6, 0.5))),
    "brick": (8, 8, _strokes("M-2 2L2 -2M-2 10L10 -2M6 10L10 6M.6 10.6L10.6 .6")),
    "concrete": (
        22,
        22,
        _strokes("M4 4l4 1l-3 3zM15 12l4 -2l0 4z")
        + _dots((13, 4, 0.8), (5, 15, 0.8), (18, 19, 0.8), (10, 10, 0.7), (19, 5, 0.6)),
    ),
    "render": (6, 6, _dots((1.5, 1.5, 0.6), (4.5, 4, 0.6))),
    "stone": (18, 18, _strokes("M0 5L18 1M0 14L18 10M0 9L7 7")),
    "metal": (3, 3, _strokes("M0 3L3 0")),
    "glass": (14, 14, _strokes("M2 8L8 2M5 9L9 5")),
    "plastic": (10, 10, _strokes("M0 10L10 0M2.4 10L10 2.4")),
    "earth": (16, 16, _strokes("M0 6L6 0M0 9L9 0M0 12L12 0M8 16L16 8M11 16L16 11")),
    "gravel": (16, 14, _stones((4, 4, 3.2, 2.4), (12, 6, 2.6, 3), (6, 11, 3.4, 2))),
    "wet": (5, 5, _strokes("M0 0L5 5")),
}
"""Width, height and marks of each pattern."""


def hatch_patterns() -> str:
    """Return the definitions of all patterns, once for a page."""
    made = "".join(
        f'<pattern id="h-{name}" width="{w}" height="{h}" patternUnits="userSpaceOnUse">'
        f'<rect width="{w}" height="{h}" class="ground"/><g class="hatch">{marks}</g></pattern>'
        for name, (w, h, marks) in _PATTERNS.items()
    )
    return f'<svg class="patterns" aria-hidden="true" focusable="false" width="0" height="0"><defs>{made}</defs></svg>'


def patterned(sign: str) -> bool:
    """Is the sign drawn by a pattern (others are drawn by hand, or left blank)?"""
    return sign in _PATTERNS


def looped(width: float, length: float) -> Sequence[tuple[float, float]]:
    """Return the looped line of batt insulation over a layer: places in depth (to width) and across (to length)."""
    pitch = min(max(width * 0.35, 5.0), 20.0)
    turns = max(round(length / pitch), 1)
    pitch = length / turns
    steps = 20
    points = []
    for step in range(turns * steps + 1):
        angle = 2 * pi * step / steps
        across = pitch * angle / (2 * pi) + 0.22 * pitch * sin(2 * angle)
        points.append((width / 2 + (width / 2 - 0.8) * sin(angle), min(max(across, 0.0), length)))
    return points
