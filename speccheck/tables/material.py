"""A material family of the tables: its rows, and the row that fits a declared layer."""

from dataclasses import dataclass, field
from functools import cached_property
from math import log
from typing import Literal, NamedTuple

from speccheck.tables.value import Statement, TableValue, spanning

__all__ = ["Air", "Cup", "Curve", "Material", "MoistureLimit", "OtherSchool", "Row", "RowAt", "Vapour"]

Cup = Literal["dry", "wet"]

# A nominal size and the size on a drawing differ by rounding (11 mm and 7/16 in): within this it is the same.
_SAME_SIZE = 0.05


class Curve(NamedTuple):
    """A property that follows the humidity.

    Attributes:
        points: pairs of relative humidity [1] and the property, humidity rising.
        source, how, confidence, note: as for a table value.
    """

    points: tuple[tuple[float, float], ...]
    source: tuple[str, ...]
    how: str
    confidence: str
    note: str | None = None


class OtherSchool(NamedTuple):
    """The resistance factors of the European tables, kept beside a cup value and never mixed with it.

    Attributes:
        mu_dry, mu_wet: water vapour resistance factor [1] on a basis of 2.0e-10 kg/(m·s·Pa) for air.
    """

    mu_dry: TableValue
    mu_wet: TableValue


class Vapour(NamedTuple):
    """How a row lets vapour through.

    Attributes:
        basis: ``permeance`` (cup tests) or ``mu`` (resistance factors); the two schools do not mix in one
            assembly.
        thickness: thickness [m] the values hold at, or None for a thing without one.
        dry_cup, wet_cup: permeance [kg/(m²·s·Pa)] at that thickness.
        scales_with_thickness: false when a facer, a film or the joints govern.
        rh_curve: mean relative humidity [1] and permeance [kg/(m²·s·Pa)] at that thickness.
        other_school: what the other school says.
    """

    basis: str
    thickness: float | None
    dry_cup: TableValue
    wet_cup: TableValue | None
    scales_with_thickness: bool
    rh_curve: Curve | None
    other_school: OtherSchool | None


class Air(NamedTuple):
    """How a row lets air through.

    Attributes:
        permeance: flow [m³/(s·m²)] at 75 Pa, or None when only the statement is known.
        impermeable: whether the material stays within 0.02 L/(s·m²) at 75 Pa; the joints decide in a
            building.
        minimum_thickness: thickness [m] from which that statement holds, or None.
    """

    permeance: TableValue | None
    impermeable: Statement
    minimum_thickness: float | None


class MoistureLimit(NamedTuple):
    """The moisture a material bears, by trade or literature.

    Attributes:
        criterion: the limit in words.
        limit, caution, decay_above: moisture content [kg/kg of dry mass], or None.
    """

    criterion: str
    limit: float | None
    caution: float | None
    decay_above: float | None
    source: tuple[str, ...]
    how: str
    confidence: str


class Row(NamedTuple):
    """One product size or product class of a family, in SI units.

    Attributes:
        id: name of the row; equal to the family's when it has a single row.
        type: the product class the row stands for (``type II``, ``No. 15``), or None.
        thickness: nominal thickness [m], or None.
        density, conductivity, specific_heat: [kg/m³], [W/(m·K)], [J/(kg·K)], or None.
        thermal_resistance: resistance [m²·K/W] at ``resistance_thickness`` [m], or None.
        resistance_scales: false when the resistance belongs to the product as installed, whatever its
            thickness.
        labelled: the resistance [m²·K/W] on the label where it differs from what the row gives.
        vapour, air, moisture_limit: see there.
        sorption: relative humidity [1] and moisture content [kg/kg].
        water_absorption: coefficient [kg/(m²·√s)].
        uv_exposure: exposure borne before covering [d].
    """

    id: str
    type: str | None
    thickness: float | None
    density: TableValue | None
    conductivity: TableValue | None
    thermal_resistance: TableValue | None
    resistance_thickness: float | None
    resistance_scales: bool
    labelled: float | None
    specific_heat: TableValue | None
    vapour: Vapour | None
    air: Air | None
    moisture_limit: MoistureLimit | None
    sorption: Curve | None
    water_absorption: TableValue | None
    uv_exposure: TableValue | None
    note: str | None

    def resistance_at(self, thickness: float | None) -> TableValue | None:
        """Return the thermal resistance [m²·K/W] at a thickness [m], or None when the table does not say."""
        fixed = self.thermal_resistance
        if fixed is not None and (not self.resistance_scales or thickness is None):
            return fixed
        if thickness is None:
            return None
        if fixed is not None and self.resistance_thickness is not None:
            return fixed.scaled(_factor(thickness, self.resistance_thickness))
        if self.conductivity is None:
            return None
        return _over(thickness, self.conductivity)

    def permeance_at(self, thickness: float | None, cup: Cup) -> TableValue | None:
        """Return the permeance [kg/(m²·s·Pa)] at a thickness [m] by dry or wet cup, or None when unknown."""
        if self.vapour is None:
            return None
        value = self.vapour.dry_cup if cup == "dry" else self.vapour.wet_cup
        return None if value is None else value.scaled(self._vapour_factor(thickness))

    def rh_curve_at(self, thickness: float | None) -> Curve | None:
        """Return mean relative humidity [1] and permeance [kg/(m²·s·Pa)] at a thickness [m], or None."""
        curve = self.vapour.rh_curve if self.vapour else None
        if curve is None:
            return None
        factor = self._vapour_factor(thickness)
        points = tuple((humidity, permeance * factor) for humidity, permeance in curve.points)
        return Curve(points, curve.source, curve.how, curve.confidence, curve.note)

    @property
    def follows_thickness(self) -> bool:
        """Whether any value of the row changes with the thickness of the layer."""
        thermal = self.thermal_resistance is not None or self.conductivity is not None
        return (thermal and self.resistance_scales) or (
            self.vapour is not None and self.vapour.scales_with_thickness
        )

    def _vapour_factor(self, thickness: float | None) -> float:
        vapour = self.vapour
        if (
            vapour is None
            or thickness is None
            or vapour.thickness is None
            or not vapour.scales_with_thickness
        ):
            return 1.0
        return 1.0 / _factor(thickness, vapour.thickness)


@dataclass(frozen=True)
class RowAt:
    """A row taken for a layer, at the thickness of the layer; what it gives there is worked out once.

    Attributes:
        row: the row.
        thickness: thickness [m] the values are given for, or None for a thing without one.
        rivals: other rows that fit what was declared as well; their values widen the ranges.
        note: what was assumed or scaled, in words, or None.
    """

    row: Row
    thickness: float | None
    rivals: tuple[Row, ...] = ()
    note: str | None = None

    @cached_property
    def thermal_resistance(self) -> TableValue | None:
        """Thermal resistance [m²·K/W] at the thickness, or None when the table does not say."""
        value = self.row.resistance_at(self.thickness)
        return value and spanning(value, (rival.resistance_at(self.thickness) for rival in self.rivals))

    def permeance(self, cup: Cup) -> TableValue | None:
        """Return the permeance [kg/(m²·s·Pa)] at the thickness by dry or wet cup, or None when unknown."""
        return self._dry if cup == "dry" else self._wet

    @cached_property
    def _dry(self) -> TableValue | None:
        return self._spanning_permeance("dry")

    @cached_property
    def _wet(self) -> TableValue | None:
        return self._spanning_permeance("wet")

    def _spanning_permeance(self, cup: Cup) -> TableValue | None:
        value = self.row.permeance_at(self.thickness, cup)
        return value and spanning(value, (rival.permeance_at(self.thickness, cup) for rival in self.rivals))

    @property
    def rh_curve(self) -> Curve | None:
        """Mean relative humidity [1] and permeance [kg/(m²·s·Pa)] at the thickness, or None."""
        return self.row.rh_curve_at(self.thickness)

    @property
    def air_permeance(self) -> TableValue | None:
        """Air permeance [m³/(s·m²)] at 75 Pa as tested; the table does not scale it with thickness."""
        return self.row.air.permeance if self.row.air else None

    @property
    def air_impermeable(self) -> bool | None:
        """Whether the material keeps 0.02 L/(s·m²) at 75 Pa; None when the table cannot say at this size."""
        air = self.row.air
        if air is None:
            return None
        stated = bool(air.impermeable.value)
        needed = air.minimum_thickness
        if needed is None and self.row.vapour is not None and self.row.vapour.scales_with_thickness:
            needed = self.row.thickness
        thin = (
            needed is not None and self.thickness is not None and self.thickness < needed * (1 - _SAME_SIZE)
        )
        return None if stated and thin else stated


@dataclass(frozen=True, slots=True)
class Material:
    """A generic material family.

    Attributes:
        id, title: name in documents, name for people.
        also: other names that mean the same.
        group: which table file holds it.
        facing: what faces the board (``foil``, ``paper``...), or None.
        combustibility: ``noncombustible``, ``limited`` or ``combustible``: a sort, not a fire rating.
        moisture_sensitive, reservoir: statements, or None where the table does not say. A reservoir cladding
            takes up rain.
        takes_up_water: whether water that condenses beside it is taken up, or None where the table does not say.
        wood_kind: ``wood`` (solid) or ``panel``, or None where it is no wood.
        rows: the sizes and classes it comes in.
        default: id of the row to take when nothing tells the rows apart.
        note: what a reader should know, or None.
        cross_checks: comparisons of two sources, as written in the table.
    """

    id: str
    title: str
    also: tuple[str, ...]
    group: str
    facing: str | None
    combustibility: Statement | None
    moisture_sensitive: Statement | None
    reservoir: Statement | None
    takes_up_water: Statement | None
    wood_kind: Statement | None
    rows: tuple[Row, ...]
    default: str | None = None
    note: str | None = None
    cross_checks: tuple[dict[str, str | bool], ...] = field(default=(), compare=False)

    @property
    def humidity_dependent(self) -> bool:
        """Whether the table knows how the permeance follows the humidity."""
        return any(row.vapour is not None and row.vapour.rh_curve is not None for row in self.rows)

    def row_for(self, thickness: float | None = None, thermal_resistance: float | None = None) -> RowAt:
        """Return the row that fits a layer best, at the thickness of the layer.

        A labelled resistance narrows the rows first, then the thickness does. Rows that fit equally well stay
        as rivals and widen the ranges; the family's default is taken among them, and the note says so.

        Args:
            thickness: thickness of the layer [m], above 0, or None when not shown.
            thermal_resistance: declared resistance [m²·K/W], above 0, or None.

        Raises:
            ValueError: when a thickness or a resistance is not above 0.
        """
        for name, given in (("thickness", thickness), ("thermal resistance", thermal_resistance)):
            if given is not None and not given > 0:
                raise ValueError(f"{name} must be above 0, not {given}")
        fitting, told_by_label = _by_resistance(self.rows, thickness, thermal_resistance)
        fitting = _by_thickness(fitting, thickness, told_by_label)
        row = next((one for one in fitting if one.id == self.default), fitting[0])
        rivals = tuple(one for one in fitting if one is not row)
        at = row.thickness if thickness is None else thickness
        notes = (_chosen_note(row, rivals), _size_note(row, thickness))
        return RowAt(row, at, rivals, "; ".join(note for note in notes if note) or None)

    def permeance(self, thickness: float | None, cup: Cup) -> TableValue | None:
        """Return the permeance [kg/(m²·s·Pa)] of a layer of this material, thickness in [m]."""
        return self.row_for(thickness).permeance(cup)


def _factor(thickness: float, nominal: float) -> float:
    ratio = thickness / nominal
    return 1.0 if abs(ratio - 1.0) <= _SAME_SIZE else ratio


def _over(thickness: float, conductivity: TableValue) -> TableValue:
    """Return thickness over conductivity; the range turns round."""
    low, high = conductivity.low, conductivity.high
    return TableValue(
        thickness / conductivity.value,
        None if high is None else thickness / high,
        None if low is None else thickness / low,
        conductivity.source,
        conductivity.how,
        conductivity.confidence,
        conductivity.note,
    )


def _by_resistance(
    rows: tuple[Row, ...], thickness: float | None, wanted: float | None
) -> tuple[tuple[Row, ...], bool]:
    """Keep the rows whose label or resistance meets the declared one; all rows when none does."""
    if wanted is None:
        return tuple(row for row in rows if row.labelled is None) or rows, False
    gaps = [(_label_gap(row, thickness, wanted), row) for row in rows]
    best = min(gap for gap, _ in gaps)
    if best > _SAME_SIZE:
        return _by_resistance(rows, thickness, None)
    return tuple(row for gap, row in gaps if gap <= best + 0.001), True


def _label_gap(row: Row, thickness: float | None, wanted: float) -> float:
    at_thickness = row.resistance_at(thickness)
    nominal = row.thermal_resistance
    known = (row.labelled, nominal and nominal.value, at_thickness and at_thickness.value)
    return min((abs(log(value / wanted)) for value in known if value), default=float("inf"))


def _by_thickness(rows: tuple[Row, ...], thickness: float | None, told: bool) -> tuple[Row, ...]:
    """Keep the rows of the nearest size; classes of a board that comes in every size stay together."""
    classes = all(row.type and row.vapour and row.vapour.scales_with_thickness for row in rows)
    if thickness is None or (classes and not told):
        return rows
    gaps = [(abs(log(thickness / row.thickness)) if row.thickness else float("inf"), row) for row in rows]
    best = min(gap for gap, _ in gaps)
    return tuple(row for gap, row in gaps if gap <= best + 0.001)


def _chosen_note(row: Row, rivals: tuple[Row, ...]) -> str | None:
    if not rivals:
        return None
    taken = row.type or row.id
    others = ", ".join(rival.type or rival.id for rival in rivals)
    return f"{taken} is taken; the range takes in {others}"


def _size_note(row: Row, thickness: float | None) -> str | None:
    if row.thickness is None:
        return None
    nominal = f"{row.thickness * 1000:.4g} mm"
    if thickness is None:
        return f"thickness not given: {nominal} is taken" if row.follows_thickness else None
    if abs(thickness / row.thickness - 1.0) <= _SAME_SIZE:
        return None
    size = f"{thickness * 1000:.4g} mm"
    if row.vapour is not None and not row.vapour.scales_with_thickness:
        return f"the table row is for {nominal}; permeance kept at {size}, a facer, film or joints govern it"
    return f"the table row is for {nominal}; values scaled to {size}"
