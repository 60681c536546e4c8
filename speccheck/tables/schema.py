"""The form of a material file, and the parts that every table file shares.

Imported by the rebuild command, by tests and by the generation of the published schemas; never while a
document is checked. Numbers carry the unit that the description of their field names.
"""

from typing import Annotated, Any, Literal, Self

from pydantic import BaseModel, ConfigDict, Field, model_validator

__all__ = [
    "Id",
    "MaterialFile",
    "NotNegative",
    "Positive",
    "Provenance",
    "Ranged",
    "SourcesFile",
    "TablePart",
    "json_schema",
]

Id = Annotated[str, Field(pattern=r"^[a-z0-9]+(-[a-z0-9]+)*$")]
Positive = Annotated[float, Field(gt=0, allow_inf_nan=False)]
NotNegative = Annotated[float, Field(ge=0, allow_inf_nan=False)]
How = Literal["read", "memory", "mixed", "derived"]
Confidence = Literal["high", "medium", "low"]


class TablePart(BaseModel):
    """Any part of a table file: kebab-case keys, no key that is not known."""

    model_config = ConfigDict(
        alias_generator=lambda name: name.replace("_", "-"), extra="forbid", frozen=True, strict=False
    )


class Provenance(TablePart):
    """Where a value comes from; nobody writes a value without it."""

    source: Annotated[tuple[Id, ...], Field(min_length=1, description="Ids in sources.yaml.")]
    how: How = Field(description="read = seen in the source; memory = recalled; mixed; derived = computed.")
    confidence: Confidence
    given: str | None = Field(None, description="The figure as the source gives it.")
    note: str | None = None


class Ranged(Provenance):
    """A value with the range it usually lies in."""

    value: NotNegative
    low: NotNegative | None = None
    high: NotNegative | None = None

    @model_validator(mode="after")
    def _inside(self) -> Self:
        if (self.low is None) != (self.high is None):
            raise ValueError("give both low and high, or neither")
        if self.low is not None and self.high is not None and not self.low <= self.value <= self.high:
            raise ValueError(f"value {self.value} lies outside {self.low} to {self.high}")
        return self


class Stated(Provenance):
    """A yes or no."""

    value: bool


class Combustibility(Provenance):
    """A sort by use of ASTM E136 and the building codes; not a fire rating."""

    value: Literal["noncombustible", "limited", "combustible"]


class WoodKind(Provenance):
    """Solid wood, or a panel made of it, which bears less added moisture."""

    value: Literal["wood", "panel"]


class Resistance(Ranged):
    """Thermal resistance, h·ft²·°F/Btu."""

    at: Positive | None = Field(
        None, description="Thickness the resistance is for, mm; the row's when absent."
    )
    scales_with_thickness: bool = True


class RhCurve(Provenance):
    """Permeance by mean relative humidity."""

    points: Annotated[tuple[tuple[float, NotNegative], ...], Field(min_length=2)] = Field(
        description="Mean relative humidity %, permeance US perm at the thickness of the vapour values."
    )


class OtherSchool(Provenance):
    """Resistance factors kept beside a cup value."""

    mu_dry: Positive
    mu_wet: Positive


class VapourRecord(Provenance):
    """Permeance by dry and wet cup, or resistance factors."""

    basis: Literal["permeance", "mu"]
    at: Positive | None = Field(None, description="Thickness the values hold at, mm.")
    dry_cup: NotNegative = Field(description="US perm with basis permeance; resistance factor with basis mu.")
    wet_cup: NotNegative | None = Field(None, description="As dry-cup.")
    low: NotNegative = Field(description="Usual range, US perm at that thickness, whatever the basis.")
    high: NotNegative
    range_covers: Literal["dry-cup"] | None = Field(
        None, description="When the range leaves out the wet cup."
    )
    scales_with_thickness: bool = Field(description="False when a facer, a film or the joints govern.")
    rh_curve: RhCurve | None = None
    other_school: OtherSchool | None = None

    @model_validator(mode="after")
    def _thickness(self) -> Self:
        if self.at is None and (self.basis == "mu" or self.scales_with_thickness):
            raise ValueError("a value that depends on thickness needs `at`")
        return self


class AirRecord(Provenance):
    """Air permeance of the material; the joints decide in a building."""

    permeance: NotNegative | None = Field(None, description="L/(s·m²) at 75 Pa.")
    air_impermeable: bool = Field(description="At most 0.02 L/(s·m²) at 75 Pa.")
    minimum_thickness: Positive | None = Field(None, description="Thickness from which that holds, mm.")


class WaterRecord(Provenance):
    """Uptake of liquid water, kg/(m²·√s)."""

    coefficient: NotNegative | None = None
    low: NotNegative | None = None
    high: NotNegative | None = None


class MoistureLimitRecord(Provenance):
    """What moisture the material bears; moisture contents in % of dry mass."""

    criterion: str
    moisture_content_limit: Positive | None = None
    moisture_content_caution: Positive | None = None
    decay_above: Positive | None = None


class SorptionRecord(Provenance):
    """Relative humidity % and moisture content % of dry mass."""

    points: Annotated[tuple[tuple[float, NotNegative], ...], Field(min_length=2)]


class CrossCheck(TablePart):
    """Two sources compared."""

    property: str
    first: str
    second: str
    verdict: str
    both_read: bool
    note: str | None = None


class RowValues(TablePart):
    """The values that a row gives, or a family for all its rows."""

    thickness: Positive | None = Field(None, description="Nominal thickness, mm.")
    core: bool = False
    density: Ranged | None = Field(None, description="kg/m³")
    conductivity: Ranged | None = Field(None, description="W/(m·K)")
    r_value: Resistance | None = Field(None, description="h·ft²·°F/Btu")
    specific_heat: Ranged | None = Field(None, description="J/(kg·K)")
    vapour: VapourRecord | None = None
    air: AirRecord | None = None
    water_absorption: WaterRecord | None = None
    uv_exposure: Ranged | None = Field(None, description="days")
    moisture_limit: MoistureLimitRecord | None = None
    sorption: SorptionRecord | None = None
    note: str | None = None


class RowRecord(RowValues):
    """One size or class."""

    id: Id
    class_: str | None = Field(None, alias="class", description="Product class: type II, No. 15.")
    labelled: Positive | None = Field(
        None, description="R on the label, h·ft²·°F/Btu, where the row gives another."
    )


class FamilyRecord(RowValues):
    """A generic family."""

    id: Id
    title: str
    also: tuple[Id, ...] = ()
    facing: Id | None = None
    default: Id | None = Field(None, description="Row to take when nothing tells the rows apart.")
    combustibility: Combustibility
    moisture_sensitive: Stated | None = None
    reservoir: Stated | None = None
    cups_agree: Stated | None = Field(
        None, description="Does one permeance serve for both cups, since the material takes up no moisture?"
    )
    takes_up_water: Stated | None = Field(
        None, description="Does it take up water that condenses beside it, in the sense of DIN 4108-3?"
    )
    wood_kind: WoodKind | None = Field(None, description="Of wood: solid, or a panel of it.")
    cross_checks: tuple[CrossCheck, ...] = ()
    rows: Annotated[tuple[RowRecord, ...], Field(min_length=2)] | None = None

    @model_validator(mode="after")
    def _default_is_a_row(self) -> Self:
        if self.default is not None and self.default not in {row.id for row in self.rows or ()}:
            raise ValueError(f"the default {self.default} is no row of {self.id}")
        return self


class MaterialFile(TablePart):
    """A file of ``rules/materials`` other than ``sources.yaml``."""

    group: Id
    about: str
    materials: Annotated[tuple[FamilyRecord, ...], Field(min_length=1)]


class SourceRecord(TablePart):
    """One source: what it is, and whether it was seen."""

    title: str
    how: How
    note: str | None = None


class SourcesFile(TablePart):
    """``rules/materials/sources.yaml``."""

    sources: dict[Id, SourceRecord]


def json_schema() -> dict[str, Any]:
    """Return the JSON Schema of a material file."""
    return MaterialFile.model_json_schema(by_alias=True)
