"""Rule packs as a run uses them: light values made from the plain data of a verified pack."""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field
from pathlib import Path
from typing import Any, NamedTuple

__all__ = ["Band", "Pack", "PackError", "Parameter", "Rule", "Table", "pack_from_plain"]


class PackError(ValueError):
    """A pack that cannot be used; ``faults`` say where and why."""

    def __init__(self, pack: str, faults: list[str]) -> None:
        super().__init__(f"{pack}: " + "\n  ".join(faults))
        self.pack = pack
        self.faults = faults


class Parameter(NamedTuple):
    """A number of a rule, in SI units."""

    name: str
    kind: str
    value: float
    meaning: str = ""


class Table(NamedTuple):
    """Values by the key a fact (or two) gives; numbers in SI units, or lists of alternatives."""

    name: str
    by: str
    and_by: str
    kind: str
    rows: Mapping[str, Any]
    kinds: Mapping[str, str] = {}
    """Of options: the kind of each member."""

    @property
    def facts(self) -> tuple[str, ...]:
        """The facts that choose the row."""
        return (self.by, self.and_by) if self.and_by else (self.by,)

    def find(self, values: Mapping[str, Any]) -> Any:
        """Return the row for these facts, or None where there is none; ``5A`` falls back to ``5``."""
        keys = [_spellings(values.get(fact)) for fact in self.facts]
        if len(keys) == 1:
            return next((self.rows[k] for k in keys[0] if k in self.rows), None)
        return next(
            (self.rows[f"{a}/{b}"] for a in keys[0] for b in keys[1] if f"{a}/{b}" in self.rows), None
        )


def _spellings(key: Any) -> tuple[str, ...]:
    if isinstance(key, float):
        return (f"{key:g}",)
    text = str(key)
    return (text, text[:-1]) if len(text) > 1 and text[0].isdigit() and text[-1] in "ABC" else (text,)


class Band(NamedTuple):
    """One outcome among several when a rule does not hold."""

    when: str
    outcome: str
    says: str


class Rule(NamedTuple):
    """One rule of a pack."""

    id: str
    pack: str
    title: str
    status: str
    since: str
    looks_at: str
    holds: tuple[str, ...]
    consequence: str
    confidence: str
    why: str
    says: Mapping[str, str]
    do: tuple[str, ...]
    sources: tuple[str, ...]
    from_memory: bool
    applies: tuple[str, ...] = ()
    needs: tuple[str, ...] = ()
    parameters: tuple[Parameter, ...] = ()
    tables: tuple[Table, ...] = ()
    presumes_air_line: bool = False
    when_not: str = "caution"
    bands: tuple[Band, ...] = ()
    yields_to: tuple[str, ...] = ()
    measured: str = ""
    limit: str = ""
    sense: str = ""
    measured_where: str = ""
    limits: tuple[str, ...] = ()
    disputed: tuple[str, ...] = ()
    do_is: str = "choices"
    """What several entries of ``do`` are: ``choices``, of which one will do, or ``steps``, which belong together."""
    examples: tuple[Mapping[str, Any], ...] = ()
    spelled: tuple[Sequence[Any], ...] = ()
    """Of each of the expressions, its strict spelling as plain data (``speccheck.judgement.spelled``)."""

    @property
    def expressions(self) -> tuple[str, ...]:
        """Every expression of the rule, in the order in which they are spelled."""
        more = (self.measured_where, *(band.when for band in self.bands), self.limit)
        return (*self.applies, *self.holds, *(source for source in more if source))


@dataclass(frozen=True, slots=True, eq=False)
class Pack:
    """A verified rule pack.

    Attributes:
        read_from: the file whose YAML it was read from; none where a compiled copy stood for it. A pack that was read
            runs its examples before it may speak (``speccheck.uses.trial``).
    """

    id: str
    title: str
    edition: str
    jurisdiction: str
    adopt: str
    about: str
    rules: tuple[Rule, ...]
    starts: Mapping[str, Any] = field(default_factory=dict, compare=False)
    read_from: Path | None = None


_TUPLES = (
    "applies",
    "holds",
    "do",
    "sources",
    "needs",
    "limits",
    "disputed",
    "yields_to",
    "examples",
    "spelled",
)


def _rule(plain: Mapping[str, Any], pack: str) -> Rule:
    given = {name.replace("-", "_"): value for name, value in plain.items()}
    for name in _TUPLES:
        if name in given:
            given[name] = tuple(given[name])
    given["parameters"] = tuple(Parameter(**p) for p in given.get("parameters", ()))
    given["tables"] = tuple(Table(**t) for t in given.get("tables", ()))
    given["bands"] = tuple(Band(**b) for b in given.get("bands", ()))
    return Rule(pack=pack, **given)


def pack_from_plain(plain: Mapping[str, Any], read_from: Path | None = None) -> Pack:
    """Return a pack from the plain data that ``speccheck.judgement.compilation`` makes of a pack file."""
    return Pack(
        id=plain["id"],
        title=plain["title"],
        edition=plain["edition"],
        jurisdiction=plain["jurisdiction"],
        adopt=plain["adopt"],
        about=plain["about"],
        rules=tuple(_rule(rule, plain["id"]) for rule in plain["rules"]),
        starts=plain["starts"],
        read_from=read_from,
    )
