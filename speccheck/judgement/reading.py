"""Reading rules: their expressions compiled once for each set of packs, their names sorted by what they are."""

import re
from collections.abc import Iterable, Mapping, Sequence
from functools import lru_cache

from speccheck.judgement import expression as cel
from speccheck.judgement.expression import Expression, ValueType
from speccheck.judgement.pack import Band, Pack, Rule, Table
from speccheck.judgement.spelled import spelled_from_plain
from speccheck.survey.vocabulary import VOCABULARY, names_seen_from

__all__ = ["Reader", "declared_for", "table_name"]

_NAME = re.compile(r"\b[a-z]+\.[a-z0-9_]+")


_TABLE_TYPES = {"options": ValueType.options, "text": ValueType.text}


def table_name(table: Table) -> str:
    """Return the name by which expressions call a table: ``options.x`` for alternatives, else ``table.x``."""
    return f"options.{table.name}" if table.kind == "options" else f"table.{table.name}"


def declared_for(looks_at: str, rules: Iterable[Rule]) -> dict[str, ValueType]:
    """Return the types of all names an expression of these rules may use when it looks at ``looks_at``."""
    declared = {name: ValueType(fact.type) for name, fact in names_seen_from(looks_at).items()}
    for rule in rules:
        declared.update({f"parameter.{p.name}": ValueType.number for p in rule.parameters})
        for table in rule.tables:
            declared[table_name(table)] = _TABLE_TYPES.get(table.kind, ValueType.number)
    return declared


class Reader:
    """Compiled expressions of a set of packs; made once and kept."""

    def __init__(self) -> None:
        self._compiled: dict[tuple[str, str, str], Expression] = {}
        self._holds: dict[str, tuple[Expression, ...]] = {}
        self._needs: dict[str, frozenset[str]] = {}
        self._named: dict[str, tuple[str, ...]] = {}
        self._shown: dict[str, tuple[str, ...]] = {}
        self._kinds: dict[str, Mapping[str, str]] = {}

    @staticmethod
    def of(packs: Sequence[Pack]) -> "Reader":
        """Return the reader of these packs."""
        return _reader(tuple(packs))

    table_name = staticmethod(table_name)

    def expression(self, rule: Rule, source: str, result: ValueType = ValueType.truth) -> Expression:
        """Return one expression of a rule, compiled."""
        # a parameter is a number in every rule and facts are the same to all, but a table is the rule's own
        key = (rule.looks_at, source, rule.id if "table." in source else "")
        found = self._compiled.get(key)
        if found is None:
            found = self._compiled[key] = self._ready(rule, source, result)
        return found

    @staticmethod
    def _ready(rule: Rule, source: str, result: ValueType) -> Expression:
        strict = dict(zip(rule.expressions, rule.spelled, strict=False)).get(source)
        if strict is not None:
            return cel.ready(source, spelled_from_plain(strict), result)
        return cel.compile(source, declared_for(rule.looks_at, [rule]), result)

    def holds(self, rule: Rule) -> tuple[Expression, ...]:
        """Return the conditions of which one should be true."""
        found = self._holds.get(rule.id)
        if found is None:
            found = self._holds[rule.id] = tuple(self.expression(rule, source) for source in rule.holds)
        return found

    def measured_where(self, rule: Rule) -> Expression | None:
        """Return the condition under which measured and limit tell the outcome."""
        return self.expression(rule, rule.measured_where) if rule.measured_where else None

    def bands(self, rule: Rule) -> Iterable[tuple[Band, Expression]]:
        """Yield the bands of a rule with their conditions."""
        return ((band, self.expression(rule, band.when)) for band in rule.bands)

    def limit(self, rule: Rule) -> Expression | None:
        """Return the limit the measured fact is held against."""
        return self.expression(rule, rule.limit, ValueType.number) if rule.limit else None

    def needs(self, rule: Rule) -> frozenset[str]:
        """Return the facts that must be known before any condition is read."""
        found = self._needs.get(rule.id)
        if found is None:
            found = self._needs[rule.id] = frozenset(rule.needs)
        return found

    def named(self, rule: Rule) -> tuple[str, ...]:
        """Return every fact a rule needs once it applies; what bands and sentences name is fetched with them."""
        found = self._named.get(rule.id)
        if found is None:
            texts = (rule.limit, rule.measured_where)
            names = {name for text in texts for name in _NAME.findall(text)} | set(self.shown(rule))
            found = self._named[rule.id] = tuple(sorted(name for name in names if name in VOCABULARY))
        return found

    @staticmethod
    @lru_cache(maxsize=2048)
    def names_in(text: str) -> tuple[str, ...]:
        """Return the facts a sentence names."""
        return tuple([name for name in _NAME.findall(text) if name in VOCABULARY]) if "{" in text else ()

    def shown(self, rule: Rule) -> tuple[str, ...]:
        """Return the facts a finding of the rule rests on, in a fixed order."""
        found = self._shown.get(rule.id)
        if found is None:
            names = set(self.needs(rule)) | ({rule.measured} if rule.measured else set())
            names |= {name for e in self.holds(rule) for name in e.names if name in VOCABULARY}
            names |= {fact for table in rule.tables for fact in table.facts}
            found = self._shown[rule.id] = tuple(sorted(names))
        return found

    def kinds(self, rule: Rule) -> Mapping[str, str]:
        """Return the kind of each name the sentences of the rule may use."""
        found = self._kinds.get(rule.id)
        if found is None:
            kinds = dict(_fact_kinds(rule.looks_at))
            kinds.update({f"parameter.{p.name}": p.kind for p in rule.parameters})
            for table in rule.tables:
                name = table_name(table)
                kinds[name] = table.kind
                kinds.update({f"{name}.{member}": kind for member, kind in table.kinds.items()})
            found = self._kinds[rule.id] = kinds
        return found


@lru_cache(maxsize=16)
def _fact_kinds(looks_at: str) -> Mapping[str, str]:
    return {name: fact.kind for name, fact in names_seen_from(looks_at).items()}


@lru_cache(maxsize=32)
def _reader(packs: tuple[Pack, ...]) -> Reader:
    del packs  # within a set of packs, and only there, the id of a rule tells it from every other
    return Reader()
