"""The paths vapour takes through an assembly: through the insulation and, where wood frames it, through the member."""

from collections.abc import Mapping, Sequence
from typing import NamedTuple

from speccheck.physics.humidity_dependent import HumidityCurve
from speccheck.physics.moisture_section import MoistureLayer, MoistureSection
from speccheck.physics.vapour import sd_of
from speccheck.quantity import Kind, parse
from speccheck.survey.build_up import Slice
from speccheck.survey.fact import Fact, Gap
from speccheck.survey.section import Section
from speccheck.tables.materials import material

__all__ = ["AIR_LAYER_SD", "MoisturePath", "curves_of", "paths_of"]

AIR_LAYER_SD = 0.01
"""The sd of an air layer [m], whatever its depth: ISO 13788:2012, 4.4 (memory)."""

_TIGHTEST = 1.0e6
_OPENS_BY = 2.0
"""A table curve is followed where its ends differ by this factor: below it the curve decides nothing."""


class MoisturePath(NamedTuple):
    """One path: its name, the slices it crosses, the facts it rests on, and what keeps it from being reckoned."""

    name: str
    slices: tuple[Slice, ...]
    resistances: tuple[Fact, ...]
    member_sd: Mapping[int, float]
    main: int

    @property
    def facts(self) -> tuple[Fact, ...]:
        """Everything the path rests on by its usual cups."""
        permeances = (self.cup(i) for i, piece in enumerate(self.slices) if self._by_cup(i, piece))
        return (*self.resistances, *permeances)

    @property
    def missing(self) -> tuple[Gap, ...]:
        """The questions that must be answered first."""
        return tuple(dict.fromkeys(gap for fact in self.facts for gap in fact.missing))

    def _by_cup(self, index: int, piece: Slice) -> bool:
        return not piece.is_air and index not in self.member_sd

    def cup(self, index: int, wanted: str | None = None) -> Fact:
        """Return the permeance of a slice by a cup, or by the other where that one is not shown.

        Without a wish it is the dry cup inboard of the main insulation, where vapour wets in winter, and the wet cup
        from there outward, where the assembly dries.
        """
        page = self.slices[index].page
        first = wanted or ("dry" if index < self.main else "wet")
        own, other = page[f"permeance_{first}"], page[f"permeance_{'wet' if first == 'dry' else 'dry'}"]
        if own.known or not other.known:
            return own
        words = f"{other.name[-3:]} cup of {page.place} stands in for its {first} cup in the moisture balance"
        return other._replace(assumed=(*other.assumed, f"{words}, since that is not shown"))

    def not_shown(self, wanted: str) -> list[Gap]:
        """Return the questions for a cup of the layers of which only the other is shown."""
        return [
            gap
            for index, piece in enumerate(self.slices)
            if self._by_cup(index, piece)
            for gap in piece.page[f"permeance_{wanted}"].missing
        ]

    def section(
        self, films: tuple[float, float], wanted: str | None = None, spread: float = 1.0
    ) -> MoistureSection:
        """Return the section between two films [m²·K/W], by the usual cups or by one cup throughout.

        Where that one cup is not shown the other stands in for it, by the factor ``spread`` more open for the wet cup
        and tighter for the dry one.
        """
        layers = tuple(self._layer(index, piece, wanted, spread) for index, piece in enumerate(self.slices))
        return MoistureSection(layers, *films)

    def _layer(self, index: int, piece: Slice, wanted: str | None, spread: float) -> MoistureLayer:
        resistance = self.resistances[index].value
        if index in self.member_sd:
            sd = self.member_sd[index]
        elif piece.is_air:
            sd = AIR_LAYER_SD
        else:
            permeance = self.cup(index, wanted).value
            if wanted and isinstance(permeance, float) and not piece.page[f"permeance_{wanted}"].known:
                permeance = permeance * spread if wanted == "wet" else permeance / spread
            sd = sd_of(permeance) if isinstance(permeance, float) and permeance > 0 else _TIGHTEST
        return MoistureLayer(resistance if isinstance(resistance, float) else 0.0, sd)


def paths_of(section: Section) -> list[MoisturePath]:
    """Return the paths through an assembly, that through the insulation first."""
    if section.main is None:
        return []
    slices = tuple(section.slices[: section.beyond])
    plain = MoisturePath("insulation", slices, tuple(p.page["resistance"] for p in slices), {}, section.main)
    member = _through_members(slices, section.main)
    return [plain, member] if member is not None else [plain]


def _through_members(slices: Sequence[Slice], main: int) -> MoisturePath | None:
    """Return the path through wooden members, or None where there are none or their depth is not known."""
    wood = material("softwood")
    member_sd: dict[int, float] = {}
    resistances = []
    for index, piece in enumerate(slices):
        framing = piece.framing
        thickness = piece.page["thickness"].value
        if framing is None or framing.material == "steel" or wood is None or not isinstance(thickness, float):
            resistances.append(piece.page["resistance"])
            continue
        value = wood.row_for(thickness).permeance("dry")
        if value is None or "member_resistance" not in piece.page:
            resistances.append(piece.page["resistance"])
            continue
        member_sd[index] = sd_of(value.value)
        resistances.append(piece.page["member_resistance"])
    return MoisturePath("framing", tuple(slices), tuple(resistances), member_sd, main) if member_sd else None


def curves_of(path: MoisturePath) -> dict[int, HumidityCurve]:
    """Return the permeance curves of the layers that follow their humidity: declared ones, else those of the table."""
    curves: dict[int, HumidityCurve] = {}
    for index, piece in enumerate(path.slices):
        curve = None if index in path.member_sd else (_declared(piece) or _of_table(piece))
        if curve is not None:
            curves[index] = curve
    return curves


def _declared(piece: Slice) -> HumidityCurve | None:
    for holder in (piece.layer, piece.product):
        cups = holder.permeance if holder is not None else None
        if cups is None:
            continue
        # what the layer states holds alone: the curve of its product is then of another permeance
        points = [(parse(rh, Kind.FRACTION).value, value.value) for rh, value in (cups.curve or {}).items()]
        return tuple(sorted(points)) or None
    return None


def _of_table(piece: Slice) -> HumidityCurve | None:
    """Return the table's curve where the layer takes its permeance from the table and the curve opens in earnest."""
    if piece.page["permeance_declared"].value is True or piece.row is None:
        return None
    curve = piece.row.rh_curve
    if curve is None:
        return None
    permeances = [permeance for _, permeance in curve.points]
    return curve.points if max(permeances) >= _OPENS_BY * min(permeances) else None
