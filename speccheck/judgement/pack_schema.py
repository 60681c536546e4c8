"""The form of a rule pack as its author writes it.

These models are read when a pack is compiled, when a stranger's pack is loaded and when the schema is published;
a run on shipped packs does not import them.
"""

from typing import Annotated, Any, Literal

from pydantic import BaseModel, ConfigDict, Field, StringConstraints

__all__ = ["Band", "Example", "PackFile", "Parameter", "Remedy", "RuleEntry", "Source", "SourceRef", "Table"]

RuleId = Annotated[str, StringConstraints(pattern=r"^[a-z][a-z0-9-]*(\.[a-z0-9][a-z0-9-]*)+$", max_length=80)]
PackId = Annotated[
    str, StringConstraints(pattern=r"^[a-z0-9][a-z0-9-]*(/[a-z0-9][a-z0-9.-]*)+$", max_length=80)
]
Slug = Annotated[str, StringConstraints(pattern=r"^[a-z][a-z0-9_]*$", max_length=40)]
Expression = Annotated[str, StringConstraints(min_length=1, max_length=500)]
Sentence = Annotated[str, StringConstraints(min_length=3, max_length=1000)]
Scalar = str | float | int
How = Literal["read", "memory", "mixed", "computed"]
Subject = Literal[
    "project", "assembly", "layer", "junction", "opening", "penetration", "product", "waiver", "edition"
]
Level = Literal["pass", "warn", "ask", "refer", "not-applicable", "waived"]
Outcome = Literal["outside", "caution", "ask", "refer"]


class Form(BaseModel):
    """Base of the pack models: closed keys in kebab-case."""

    model_config = ConfigDict(extra="forbid", frozen=True, alias_generator=lambda n: n.replace("_", "-"))


class Source(Form):
    """A published standard, code, handbook or data set that rules of the pack lean on."""

    title: Sentence
    how: How = Field(description="read: seen in the text; memory: recalled; computed: worked out here.")
    note: Sentence | None = None


class SourceRef(Form):
    """Where in a source a rule's figure stands."""

    source: Slug = Field(description="Id of a source of the pack, or common_practice.")
    locator: Sentence | None = Field(
        None, description="Clause, table or page. Not wanted for common practice."
    )
    how: How | None = Field(None, description="How this figure is known, where it differs from the source.")


class Parameter(Form):
    """A number of the rule that a local pack may amend."""

    value: Scalar = Field(description="A quantity with its unit, or a plain number where kind is number.")
    kind: str = Field(description="Kind of quantity, as in the fact vocabulary.")
    meaning: Sentence | None = None


class Table(Form):
    """A value looked up by a fact, most often the climate zone."""

    by: str = Field(description="The fact that chooses the row, such as climate.zone_2021.")
    and_by: str | None = Field(None, description="A second fact; rows are then keyed `first/second`.")
    kind: str = Field(description="Kind of quantity of a row, or options for lists of alternatives.")
    kinds: dict[Slug, str] | None = Field(None, description="Of options: the kind of each member.")
    rows: dict[str, Scalar | list[dict[str, Scalar]]] = Field(
        description="Key to value. A zone such as 5A falls back to 5 where 5A has no row of its own."
    )


class Band(Form):
    """One outcome among several when the rule does not hold; the first whose condition is true is taken."""

    when: Expression
    outcome: Outcome
    says: Sentence


class Remedy(Form):
    """What would mend it, in words."""

    text: Sentence


class Expectation(Form):
    """What an example must give."""

    level: Level
    place: str = Field(description="Place of the finding, such as `wall.sheathing` or `project`.")
    strength: Literal["outside", "caution"] | None = None


class Example(Form):
    """A document that shows the rule at work; run as a test."""

    name: Sentence
    start: Slug | None = Field(None, description="A start document of the pack to change.")
    change: dict[str, Any] = Field(
        default_factory=dict, description="Document path to new value; null takes the entry away."
    )
    document: dict[str, Any] | None = Field(
        None, description="A whole document in place of start and change."
    )
    expect: Expectation


class RuleEntry(Form):
    """One rule."""

    id: RuleId
    title: Sentence
    status: Literal["preview", "stable", "deprecated"]
    since: Annotated[str, StringConstraints(pattern=r"^\d+\.\d+$")]
    looks_at: Subject
    applies: Expression | tuple[Expression, ...] = Field(
        (), description="When the rule has something to say: one condition, or several that must all be true."
    )
    needs: tuple[str, ...] = Field((), description="Facts that must be known besides those `holds` names.")
    parameters: dict[Slug, Parameter] = Field(default_factory=dict)
    tables: dict[Slug, Table] = Field(default_factory=dict)
    holds: Expression | tuple[Expression, ...] = Field(
        description="The condition that should be true; of several, any one is enough."
    )
    presumes_air_line: bool = Field(
        False, description="No pass is given while the air barrier is not shown to be closed."
    )
    when_not: Outcome = Field(
        "caution",
        description="outside: a published limit is passed; caution: a risky or disputed band; ask; refer.",
    )
    bands: tuple[Band, ...] = ()
    yields_to: tuple[RuleId, ...] = Field(
        (), description="Rules that say the same with more authority: where one warns, this one is silent."
    )
    measured: str | None = Field(None, description="The fact held against the limit.")
    limit: Expression | None = Field(
        None, description="The limit: a number in terms of facts, parameters, tables."
    )
    sense: Literal["at-least", "at-most"] | None = None
    measured_where: Expression | None = Field(
        None, description="Where the fact and its limit tell the outcome; elsewhere they are not shown."
    )
    consequence: Literal["durability", "energy", "health", "paperwork"]
    confidence: Literal["high", "medium", "low"]
    says: dict[Literal["pass", "warn", "ask", "refer"], Sentence]
    why: Annotated[str, StringConstraints(min_length=20, max_length=2000)]
    do: Annotated[tuple[Sentence | Remedy, ...], Field(min_length=1, max_length=8)]
    do_is: Literal["choices", "steps"] = Field(
        "choices",
        description="Of several entries under `do`: choices, of which one will do; steps, which belong together.",
    )
    limits: Annotated[tuple[Sentence, ...], Field(min_length=1, description="Known misses and false alarms.")]
    disputed: dict[Literal["one-side", "other-side"], Sentence] | None = None
    sources: Annotated[tuple[SourceRef, ...], Field(min_length=1)]
    examples: Annotated[tuple[Example, ...], Field(min_length=2)]


class PackFile(Form):
    """A rule pack."""

    pack: PackId
    title: Sentence
    edition: str
    jurisdiction: Sentence
    adopt: str | None = Field(
        None, description="Of a code pack: the name by which a project adopts it. Absent: always on."
    )
    about: Sentence
    sources: dict[Slug, Source] = Field(default_factory=dict)
    starts: dict[Slug, dict[str, Any]] = Field(
        default_factory=dict, description="Documents that examples start from."
    )
    rules: Annotated[tuple[RuleEntry, ...], Field(min_length=1)]
