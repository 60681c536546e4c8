"""The parts of a section: main insulation, condensing plane, cavity behind the cladding, inboard and outboard.

Definitions, used everywhere:

* The *main insulation* is the insulation layer with the greatest resistance among those that let air through; where
  none does, the insulation layer with the greatest resistance. Where insulation lies between the assembly's framing,
  only that is looked at: however thick the insulation outside the framing, the plane to watch is behind the studs.
* The *condensing plane* is the inner face of the first layer that moving room air cannot pass, outboard of the main
  insulation; where the insulation is itself air-impermeable, the inner face of the first such layer met from inside
  after the lining. Outdoor air moves in a cavity that is vented, ventilated or not declared, so room air meets no plane
  beyond it: where nothing before such a cavity stops air, the plane is the inner face of the outermost layer before it,
  the last that room air can meet; there is none where that layer is the main insulation itself.
* The *cavity* is the outermost air layer outboard of the main insulation. Layers outside a ventilated one are *beyond*:
  they take no part in the vapour path, nor, where it is well ventilated, in the thermal resistance.
"""

from collections.abc import Sequence
from typing import NamedTuple

from speccheck.physics.air_layer import ventilation_treatment
from speccheck.survey.build_up import Slice
from speccheck.survey.fact import Gap

__all__ = ["Section", "section"]

_STILL = ("none", "drained")
"""Ventilation of a cavity in which outdoor air does not move as such."""


class Section(NamedTuple):
    """Indices into the slices; None where there is no such part. ``unsure`` says what keeps a part from being told."""

    slices: Sequence[Slice]
    main: int | None
    plane: int | None
    cavity: int | None
    unsure: tuple[Gap, ...] = ()

    @property
    def beyond(self) -> int:
        """Index of the first slice that lies outside a ventilated cavity; the count of slices where there is none."""
        if self.cavity is not None and self.ventilation == "ventilated":
            return self.cavity
        return len(self.slices)

    @property
    def ventilation(self) -> str | None:
        """Ventilation declared for the cavity, or None where there is no cavity or it is not declared."""
        layer = self.slices[self.cavity].layer if self.cavity is not None else None
        return layer.ventilation if layer else None

    @property
    def inboard(self) -> Sequence[Slice]:
        """Slices inboard of the main insulation."""
        return self.slices[: self.main] if self.main is not None else ()

    @property
    def outboard(self) -> Sequence[Slice]:
        """Slices outboard of the main insulation up to the ventilated cavity."""
        return self.slices[self.main + 1 : self.beyond] if self.main is not None else ()

    @property
    def wooden_sheathing(self) -> int | None:
        """Index of the wood toward the cold: the first outboard of the main insulation, else a plane of wood."""
        if self.main is None:
            return None
        outboard = range(self.main + 1, self.beyond)
        plane = (self.plane,) if self.plane is not None and self.plane < self.main else ()
        return next((index for index in (*outboard, *plane) if self.slices[index].group == "wood"), None)

    def side(self, index: int) -> str:
        """Say where a slice lies."""
        if index >= self.beyond:
            return "beyond"
        if self.main is None:
            return "inboard"
        return "insulation" if index == self.main else "inboard" if index < self.main else "outboard"


def section(slices: Sequence[Slice]) -> Section:
    """Find the parts of a section; the slices carry their layer facts already."""
    insulation = [i for i, piece in enumerate(slices) if piece.is_insulation]
    framed = [i for i in insulation if _between_framing(slices[i])]
    pool = framed or insulation
    unsure = tuple(gap for i in pool for gap in slices[i].page["air_impermeable"].missing)
    open_ = [i for i in pool if slices[i].page["air_impermeable"].value is False]
    main = _thickest(slices, open_ or pool)
    cavity = _cavity(slices, main)
    if main is None:
        return Section(slices, None, None, cavity)
    if unsure and not open_:
        return Section(slices, main, None, cavity, unsure)
    plane = _plane_before(slices, main, cavity) if open_ else _first_tight(slices)
    return Section(slices, main, plane, cavity, () if open_ else unsure)


def _between_framing(piece: Slice) -> bool:
    """Does it lie between the assembly's own framing (not between battens of its own, as in a service cavity)?"""
    return piece.layer is not None and piece.layer.framed and piece.framing is not None


def _thickest(slices: Sequence[Slice], indices: Sequence[int]) -> int | None:
    def resistance(index: int) -> float:
        value = slices[index].page["resistance"].value
        return value if isinstance(value, float) else 0.0

    return max(indices, key=resistance, default=None)


def _cavity(slices: Sequence[Slice], main: int | None) -> int | None:
    start = 0 if main is None else main + 1
    return max((i for i in range(start, len(slices)) if slices[i].is_air), default=None)


def _plane_before(slices: Sequence[Slice], main: int, cavity: int | None) -> int | None:
    """Return the first layer outboard of the main insulation that stops air, or the last before outdoor air."""
    if cavity is None or not _outdoor_air_in(slices[cavity]):
        return _first_solid(slices, main + 1, len(slices))
    solid = _first_solid(slices, main + 1, cavity)
    last = max(index for index in range(main, cavity) if not slices[index].is_air)
    return solid if solid is not None else last if last > main else None


def _outdoor_air_in(cavity: Slice) -> bool:
    """Does outdoor air move in it? Not declared, it does, as for heat."""
    layer = cavity.layer
    if layer is not None and layer.ventilation is None and layer.vent_area is not None:
        return ventilation_treatment(layer.vent_area.value).unventilated_weight < 1.0
    return layer is None or layer.ventilation not in _STILL


def _first_solid(slices: Sequence[Slice], start: int, end: int) -> int | None:
    """Return the first layer from ``start`` to ``end`` that is neither air nor an insulation air can pass."""
    for index in range(start, end):
        piece = slices[index]
        porous = piece.is_insulation and piece.page["air_impermeable"].value is not True
        if not piece.is_air and not porous:
            return index
    return None


def _first_tight(slices: Sequence[Slice]) -> int | None:
    """Return the first layer after the lining and its air space that stops air, at the latest the insulation."""
    for index, piece in enumerate(slices):
        if piece.is_insulation or (index > 0 and _behind_lining(slices, index)):
            return index
    return None


def _behind_lining(slices: Sequence[Slice], index: int) -> bool:
    tight = slices[index].page["air_impermeable"].value is True
    return tight and any(piece.is_air for piece in slices[:index])
