"""The form of the files of ``rules/construction``; imported where ``speccheck.tables.schema`` is."""

from typing import Annotated, Final, Literal

from pydantic import Field

from speccheck.tables.schema import Id, NotNegative, Positive, Provenance, TablePart

__all__ = ["CONSTRUCTION_FILES"]

HeatFlow = Literal["up", "horizontal", "down"]
Rating = Literal["good", "primer", "clamp", "poor", "incompatible"]
Share = Annotated[float, Field(gt=0, lt=1)]


class FilmRecord(Provenance):
    """One surface film; r-value h·ft²·°F/Btu or rsi m²·K/W."""

    convention: Id
    side: Literal["interior", "exterior", "exterior-sheltered"]
    surface: Id | None = None
    heat_flow: HeatFlow | None = None
    emittance: Share | None = None
    season: Literal["winter", "summer"] | None = None
    r_value: Positive | None = None
    rsi: Positive | None = None


class FilmsFile(TablePart):
    """``films.yaml``."""

    films: tuple[FilmRecord, ...]
    differences: str


class AirLayerTable(Provenance):
    """Thickness mm and resistance m²·K/W by direction of heat flow."""

    convention: Id
    columns: tuple[Literal["thickness", "up", "horizontal", "down"], ...]
    points: tuple[tuple[NotNegative, NotNegative, NotNegative, NotNegative], ...]
    emittance: str | None = None
    least_thickness: Positive | None = None


class AirLayerFormula(Provenance):
    """The formula, in words."""

    text: str
    largest_thickness: Positive


class VentilationLimits(Provenance):
    """Opening areas, mm² for each metre or m²."""

    unventilated_up_to: Positive
    well_ventilated_from: Positive


class Emittances(Provenance):
    """Effective emittance of an air layer."""

    formula: str
    ordinary: Share
    clean_foil: Share
    aged_foil: tuple[Share, Share]


class AirSpaceRow(TablePart):
    """One row: mean temperature and difference °F, one r-value for each emittance."""

    heat_flow: HeatFlow
    thickness: Positive
    mean_temperature: float
    difference: Positive
    r_values: tuple[Positive, ...]


class AirSpaces(Provenance):
    """Plane air spaces by effective emittance."""

    emittances: tuple[Share, ...]
    rows: tuple[AirSpaceRow, ...]


class AirLayersFile(TablePart):
    """``air-layers.yaml``."""

    tables: tuple[AirLayerTable, ...]
    formula: AirLayerFormula
    ventilation: VentilationLimits
    effective_emittance: Emittances
    ashrae_air_spaces: AirSpaces


class FractionRecord(Provenance):
    """The share of an assembly that is framing; spacing mm."""

    convention: Id
    assembly: Literal["wall", "floor", "ceiling", "roof"]
    construction: Id
    spacing: Positive | None = None
    fraction: Share
    low: Share | None = None
    high: Share | None = None


class LumberRecord(Provenance):
    """Resistance of lumber for each mm, m²·K/W."""

    nbc_rsi_per_mm: Positive


class UsLumberRecord(Provenance):
    """Depth mm and r-value of a stud."""

    r_values: tuple[tuple[Positive, Positive], ...]


class FramingFile(TablePart):
    """``framing.yaml``."""

    fractions: tuple[FractionRecord, ...]
    lumber: LumberRecord
    us_lumber: UsLumberRecord


class MetalRow(Provenance):
    """Depth and spacing mm; cavity-r and effective-r h·ft²·°F/Btu."""

    depth: Positive
    spacing: Positive
    cavity_r: NotNegative
    factor: Share | None = None
    effective_r: Positive


class MetalFamily(TablePart):
    """The rows of one family of codes."""

    family: Literal["iecc", "ashrae-90.1"]
    title: str
    spacing_rule: str
    rows: tuple[MetalRow, ...]


class MetalWeights(Provenance):
    """Weights of the isothermal-plane (k1) and parallel-path (k2) resistance."""

    spacing_below: Positive | None = None
    spacing_from: Positive | None = None
    insulating_sheathing: bool | None = None
    k1: Share
    k2: Share


class Remark(Provenance):
    """A fact in words."""

    text: str


class MetalFramingFile(TablePart):
    """``metal-framing.yaml``."""

    families: tuple[MetalFamily, ...]
    residential_2024: Remark
    nbc_weights: tuple[MetalWeights, ...]


class Substrate(TablePart):
    """What a seal is made to, and the families that count as it."""

    title: str
    materials: tuple[Id, ...]


class MeansRecord(Provenance):
    """A means of sealing; lowest-temperature °C."""

    id: Id
    title: str
    lowest_temperature: float
    temperature_note: str
    ratings: dict[Id, Rating]


class NotSealRecord(Provenance):
    """Words that stand where a seal is wanted and name none."""

    id: Id
    title: str
    words: Annotated[tuple[Id, ...], Field(min_length=1)]


class AidRecord(Provenance):
    """Words for what a rating wants besides the means."""

    id: Literal["primer", "clamp", "other"]
    words: Annotated[tuple[Id, ...], Field(min_length=1)]


class LapRecord(Provenance):
    """A minimum lap, length mm."""

    id: Id
    title: str
    length: Positive | None = None


class ExposureRecord(Provenance):
    """Days before covering."""

    id: Id
    title: str
    days: Positive
    low: Positive | None = None
    high: Positive | None = None


class FactRecord(Provenance):
    """A fact of compatibility, in words."""

    fact: str


class SealingFile(TablePart):
    """``sealing.yaml``."""

    substrates: dict[Id, Substrate]
    means: tuple[MeansRecord, ...]
    not_seals: tuple[NotSealRecord, ...]
    aids: tuple[AidRecord, ...]
    minimum_laps: tuple[LapRecord, ...]
    uv_exposure: tuple[ExposureRecord, ...]
    compatibility: tuple[FactRecord, ...]


class RateRecord(Provenance):
    """Air changes per hour behind a cladding."""

    id: Id
    title: str
    low: NotNegative
    high: NotNegative


class EquivalentRecord(Provenance):
    """US perm that a ventilated cladding amounts to."""

    id: Id
    title: str
    permeance: Positive
    low: Positive
    high: Positive


class RoofSpaceRecord(Provenance):
    """Resistance of a roof space, m²·K/W."""

    id: Id
    title: str
    rsi: Positive


class AtticRecord(Provenance):
    """Air changes per hour of a vented attic."""

    air_changes: tuple[Positive, Positive]


class CavitiesFile(TablePart):
    """``ventilated-cavities.yaml``."""

    equivalent_permeance_formula: Remark
    air_changes: tuple[RateRecord, ...]
    equivalent_permeance: tuple[EquivalentRecord, ...]
    roof_spaces: tuple[RoofSpaceRecord, ...]
    vented_attic: AtticRecord


Side = Annotated[str, Field(pattern=r"^[a-z][a-z-]*\.[a-z][a-z-]*$")]


class JunctionRecord(Provenance):
    """A kind of junction in words; sides as kind.side."""

    id: Id
    title: str
    also: tuple[Id, ...] = ()
    joins: Annotated[tuple[Side, ...], Field(min_length=1)]
    expected: bool = False
    hollow: bool = False
    over: tuple[Side, Side] | None = None
    air: str
    water: str | None = None
    vapour: str | None = None
    thermal: str | None = None
    usual: Annotated[tuple[str, ...], Field(min_length=1)]
    mistakes: Annotated[tuple[str, ...], Field(min_length=1)]
    question: Annotated[str, Field(pattern=r"\?$")]


class JunctionsFile(TablePart):
    """``junctions.yaml``."""

    junctions: tuple[JunctionRecord, ...]


CONSTRUCTION_FILES: Final[dict[str, type[TablePart]]] = {
    "air-layers": AirLayersFile,
    "films": FilmsFile,
    "framing": FramingFile,
    "junctions": JunctionsFile,
    "metal-framing": MetalFramingFile,
    "sealing": SealingFile,
    "ventilated-cavities": CavitiesFile,
}
"""File name below ``rules/construction``, without ``.yaml``, and its form."""
