"""What the judgement rests on: the table of inputs with the origin of each, and the methods behind what is computed."""

from collections.abc import Iterator
from typing import NamedTuple

from speccheck.judgement.wording import word
from speccheck.survey import Fact, Origin, Surveyed
from speccheck.survey.vocabulary import VOCABULARY

__all__ = ["InputGroup", "InputRow", "Inputs", "Method", "inputs_of", "methods"]

_GIVEN = (Origin.DECLARED, Origin.PRODUCT, Origin.TABLE, Origin.ASSUMED)
_KEPT_TRUTHS = (
    "project.cooled", "project.humidified", "opening.sill_pan", "opening.drained", "penetration.hot",
)  # fmt: skip
_LEFT_OUT = (
    "layer.id", "layer.position", "layer.group", "layer.side", "layer.resistance_usual_high", "layer.sealed",
    "assembly.groups", "assembly.layer_count", "product.properties_stated", "product.evidence_properties",
    "project.adopted_not_held", "climate.other_zones",
)  # fmt: skip


class InputRow(NamedTuple):
    """One input in words; ``source`` is its number in the list of sources, 0 where there is none."""

    name: str
    value: str
    origin: str
    source: int


class InputGroup(NamedTuple):
    """The inputs at one place."""

    place: str
    subject: str
    rows: tuple[InputRow, ...]


class Inputs(NamedTuple):
    """All inputs by place, and the sources they name by number, the first is 1."""

    groups: tuple[InputGroup, ...]
    sources: tuple[str, ...]


class Method(NamedTuple):
    """How a computed figure is worked out, and by whom."""

    name: str
    method: str
    source: str


def inputs_of(surveyed: Surveyed, system: str = "both") -> Inputs:
    """Return every value that was given (declared, on a data sheet, from a table, assumed), by place.

    Args:
        surveyed: the facts.
        system: units to show: ``both``, ``us`` or ``si``.
    """
    groups = []
    numbers: dict[str, int] = {}
    for page in surveyed.ledger:
        if page.subject == "waiver":
            continue
        rows = tuple(_row(fact, numbers, system) for fact in page.facts.values() if _is_input(fact))
        if rows:
            groups.append(InputGroup(page.place, page.subject, rows))
    return Inputs(tuple(groups), tuple(numbers))


def _is_input(fact: Fact) -> bool:
    declared = VOCABULARY.get(fact.name)
    if declared is None or fact.value is None or fact.value == () or fact.origin not in _GIVEN:
        return False
    if fact.name in _LEFT_OUT or fact.name.endswith("_count"):
        return False
    return declared.type != "truth" or fact.name in _KEPT_TRUTHS


def _row(fact: Fact, numbers: dict[str, int], system: str) -> InputRow:
    kind = VOCABULARY[fact.name].kind
    assert fact.value is not None
    value = word(fact.value, kind, system)
    if fact.low is not None and fact.high is not None and fact.low != fact.high:
        value += f", range {word(fact.low, kind, system)} to {word(fact.high, kind, system)}"
    number = numbers.setdefault(fact.source, len(numbers) + 1) if fact.source else 0
    return InputRow(_name(fact), value, fact.origin.value, number)


def _name(fact: Fact) -> str:
    return fact.name.partition(".")[2].replace("_", " ")


def methods(surveyed: Surveyed) -> list[Method]:
    """Return how each computed figure is worked out that has a published method, each method once."""
    found: dict[tuple[str, str], str] = {}
    for fact in _computed(surveyed):
        key = (fact.method, fact.source)
        found.setdefault(key, _name(fact))
    return [Method(name, method, source) for (method, source), name in found.items()]


def _computed(surveyed: Surveyed) -> Iterator[Fact]:
    """Yield the computed facts a rule or this page has asked for; the rest is not worked out for a list of methods."""
    return (
        fact
        for page in surveyed.ledger
        for fact in page.facts.values()
        if fact.origin is Origin.COMPUTED and fact.method and fact.source and fact.value is not None
    )
