"""The form of the JSON report, published as a schema; runs do not import it."""

from typing import Any, Literal

from pydantic import BaseModel, ConfigDict, Field

__all__ = ["FactForm", "FindingForm", "ReportForm"]

Value = float | bool | str | list[str] | None
Severity = Literal["outside", "caution", "refer", "ask", "held-back", "waived", "pass"]
Path = list[str | int]


class _Form(BaseModel):
    model_config = ConfigDict(extra="forbid", alias_generator=lambda n: n.replace("_", "-"))


class LimitForm(_Form):
    """What was observed and the limit it was held against, in SI units of the kind."""

    fact: str
    kind: str
    observed: float
    limit: float
    sense: Literal["at-least", "at-most"]
    margin: float = Field(description="Positive where the limit is kept.")
    low: float | None
    high: float | None
    turns_within_range: bool = Field(
        description="The limit lies inside the range of the table values observed rests on."
    )


class GoodForForm(_Form):
    """The winter humidity indoors at which verdicts turn; null where one is not known or matters not to the finding."""

    humidity_without_condensation: float | None = Field(
        description="Up to this humidity [1] nothing condenses by diffusion in any month."
    )
    humidity_drying_in_year: float | None = Field(
        description="Up to this humidity [1] what condenses dries within the year."
    )
    critical_indoor_humidity: float | None = Field(
        description="Above this humidity [1] room air meets its dew point at the condensing plane, at the winter mean."
    )
    humidity_surface_bears: float | None = Field(
        description="Up to this humidity [1] no month has 80 % at the inside surface."
    )
    humidity_wood_bears: float | None = Field(
        description="Up to this humidity [1] wood toward the cold stays within what its material bears."
    )
    outboard_resistance_to_add: float | None = Field(
        description="Resistance [m²·K/W], open to vapour, that added outboard ends condensation; null where none is "
        "needed or none helps."
    )


class FindingForm(_Form):
    """One rule at one place. Rule and place together identify it from run to run."""

    rule: str
    pack: str
    level: Literal["pass", "warn", "ask", "refer", "waived", "not-applicable"]
    strength: Literal["outside", "caution"] | None
    severity: Severity = Field(description="Level and strength in one word; counts go by it.")
    title: str
    subject: str
    place: str
    path: Path
    line: int | None
    column: int | None
    reason: str
    measured: LimitForm | None
    observed: dict[str, Value]
    good_for: GoodForForm | None = Field(
        description="Only of findings that rest on the monthly balance, the condensing plane or the inside surface."
    )
    consequence: Literal["durability", "energy", "health", "paperwork"]
    confidence: Literal["high", "medium", "low"]
    why: str
    do: list[str]
    do_is: Literal["choices", "steps"] | None = Field(
        description="Of several entries under do: choices, of which one will do; steps, which belong together."
    )
    sources: list[str]
    from_memory: bool
    disputed: list[str]
    assumed: list[str]
    questions: list[str]
    withheld: bool = Field(description="Holds, but no pass is given while the air line is not shown closed.")
    waiver: str | None


class WaitingForm(_Form):
    """A rule at a place that waits for an answer."""

    rule: str
    place: str


class QuestionForm(_Form):
    """One question, the most telling first."""

    question: str
    place: str
    wanted: str
    path: Path
    waiting: list[WaitingForm]


class PackForm(_Form):
    """A pack that was in force."""

    id: str
    edition: str
    title: str


class InputForm(_Form):
    """A fact another one rests on."""

    place: str
    name: str


class FactForm(_Form):
    """One fact, in SI units of its kind."""

    place: str
    name: str
    kind: str
    value: Value
    origin: Literal["declared", "product", "table", "computed", "assumed", "unknown", "inapplicable"]
    low: float | None
    high: float | None
    method: str | None
    source: str | None
    inputs: list[InputForm]
    assumed: list[str]
    missing: list[str]


class MoveForm(_Form):
    """How a rule at a place came out in the baseline and now."""

    rule: str
    place: str
    trend: Literal["new", "worse", "unsure", "better", "gone"]
    counts: bool = Field(description="It is one that the exit status may go by.")
    before: Severity | None
    after: Severity | None
    margin_before: float | None
    margin_after: float | None


class AgainstForm(_Form):
    """A document held against a baseline. What is not among the moves is as it was."""

    file: str
    document: str | None = Field(description="The document of the baseline; null for a document new to it.")
    slack: float = Field(description="Share of the limit by which a margin may move and count as unchanged.")
    trends: dict[Literal["new", "worse", "unsure", "same", "better", "gone"], int]
    moves: list[MoveForm]


class MonthForm(_Form):
    """One month at each face: temperature [°C], relative humidity [1], water at its end [kg/m²]."""

    month: str
    temperature: list[float]
    humidity: list[float]
    water: list[float]


class WoodForm(_Form):
    """A face of wood toward the cold through the year, January first."""

    role: Literal["sheathing", "framing"]
    face: str
    limit: float | None = Field(
        description="Moisture content [kg/kg] the material bears; null where none is known."
    )
    temperature: list[float] = Field(description="By month [°C].")
    humidity: list[float] = Field(description="Relative humidity by month [1].")
    moisture: list[float | None] = Field(
        description="Moisture content in balance with the air there by month [kg/kg]; null where it has no figure."
    )


class DryingForm(_Form):
    """What a layer could dry if its inner face were wet all year, January first."""

    layer: str
    face: str
    is_plane: bool = Field(description="The face is the condensing plane.")
    inward: list[float] = Field(
        description="By month what would reach the indoor air [kg/m²]; negative where vapour comes from it instead."
    )
    outward: list[float] = Field(
        description="By month what would reach the outdoor air [kg/m²]; negative where vapour comes from it instead."
    )
    moved: list[float] = Field(description="By month what would condense elsewhere in the assembly [kg/m²].")
    net: list[float] = Field(description="inward and outward together [kg/m²].")


class ClimateForm(_Form):
    """Monthly means of both climates, January first: temperatures [°C], vapour pressures [Pa]."""

    inside_temperature: list[float]
    inside_pressure: list[float]
    outside_temperature: list[float]
    outside_pressure: list[float]


class MoistureForm(_Form):
    """The year of moisture of one assembly, where a rule has asked for its balance."""

    assembly: str
    path: Literal["insulation", "framing"]
    indoors: str
    verdict: Literal["none", "dries", "accumulates"]
    settled: bool = Field(
        description="Whether every month found a state for the layers that follow their humidity."
    )
    starting_month: str = Field(
        description="Month in which the year begins: that in which water first gathers."
    )
    climate: ClimateForm | None
    faces: list[str]
    worst: int = Field(description="Number of the face to look at first, from 0.")
    months: list[MonthForm]
    wood: list[WoodForm]
    surface_factor: float | None = Field(
        description="Temperature factor fRsi of the plain section [1]; null where it is not known."
    )
    surface_factors: list[float | None] = Field(
        description="fRsi that each month asks for [1], January first, for 80 % humidity at the inside surface; "
        "null where no factor can be asked for."
    )
    drying: list[DryingForm] = Field(description="The condensing plane and the layers that moisture harms.")


class AssemblyForm(_Form):
    """An assembly of the document."""

    place: str = Field(description="Its key, by which findings name it.")
    name: str | None = Field(description="What the document calls it beside its key.")


class DocumentForm(_Form):
    """The report on one document."""

    file: str
    project: str | None
    assemblies: list[AssemblyForm]
    verdict: Severity
    counts: dict[Severity, int]
    packs: list[PackForm]
    editions_not_held: list[str]
    findings: list[FindingForm]
    questions: list[QuestionForm]
    assumed: list[str]
    cautions: list[str]
    moisture: list[MoistureForm] | None = Field(
        default=None, description="Only where a rule asked for a balance."
    )
    facts: list[FactForm] | None = Field(default=None, description="Only where asked for.")
    baseline: AgainstForm | None = Field(default=None, description="Only where one was given.")


class ProblemForm(_Form):
    """What keeps a document from being read."""

    line: int | None
    column: int | None
    path: Path
    what: str
    expected: str | None
    do: str | None


class UnreadForm(_Form):
    """A document that could not be read."""

    file: str
    problems: list[ProblemForm]


class ReportForm(_Form):
    """A speccheck report."""

    speccheck_report: Literal[1]
    version: str
    verdict: Severity | Literal["unread"]
    counts: dict[Severity, int]
    deferral: str
    conventions: list[str]
    documents: list[DocumentForm]
    unread: list[UnreadForm]


def json_schema() -> dict[str, Any]:
    """Return the JSON Schema of the report."""
    return ReportForm.model_json_schema(by_alias=True)
