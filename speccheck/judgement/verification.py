"""Verification of a pack beyond its form: expressions type-check, sentences name known facts, rules are told apart.

Examples are run elsewhere (``speccheck.uses.examples``), since running one takes the whole street.
"""

import re
from collections.abc import Callable, Iterator, Mapping
from functools import partial
from typing import Any, NamedTuple

from speccheck.judgement import expression as cel
from speccheck.judgement.compilation import compile_pack
from speccheck.judgement.expression import ExpressionError, ValueType
from speccheck.judgement.pack import Pack, PackError, Rule, pack_from_plain
from speccheck.judgement.reading import declared_for, table_name
from speccheck.judgement.sentence import SentenceError, check_sentence
from speccheck.judgement.spelled import spelled
from speccheck.judgement.wording import FILTERS
from speccheck.survey.vocabulary import VOCABULARY

__all__ = ["verify_pack", "verify_rules"]

_ORDERING = re.compile(r"\{%[^%]*[<>][^%]*%\}")


def verify_pack(written: Mapping[str, Any], name: str = "pack") -> dict[str, Any]:
    """Return the plain form of a pack after checking everything but its examples.

    Raises:
        PackError: with all faults, each beginning with the rule it lies in.
    """
    plain = compile_pack(written, name)
    pack = pack_from_plain(plain)
    verify_rules(pack)
    for rule, entry in zip(pack.rules, plain["rules"], strict=True):
        entry["spelled"] = _spelled(rule)
    return plain


def verify_rules(pack: Pack) -> None:
    """Check the rules of a pack; raises PackError with all faults."""
    faults = [fault for rule in pack.rules for fault in _faults(rule)]
    ids = [rule.id for rule in pack.rules]
    faults += [f"{id_}: two rules have this id" for id_ in sorted({i for i in ids if ids.count(i) > 1})]
    if faults:
        raise PackError(pack.id, faults)


def _faults(rule: Rule) -> Iterator[str]:
    declared = declared_for(rule.looks_at, [rule])
    yield from _expression_faults(rule, declared)
    yield from _sentence_faults(rule, declared)
    yield from _name_faults(rule, declared)
    if bool(rule.measured) != bool(rule.limit) or bool(rule.measured) != bool(rule.sense):
        yield f"{rule.id}: `measured`, `limit` and `sense` go together"
    if "pass" not in rule.says:
        yield f"{rule.id}.says: the sentence for `pass` is missing"
    if rule.when_not in ("outside", "caution") and "warn" not in rule.says and not rule.bands:
        yield f"{rule.id}.says: the sentence for `warn` is missing"
    if rule.when_not in ("ask", "refer") and rule.when_not not in rule.says:
        yield f"{rule.id}.says: the sentence for `{rule.when_not}` is missing"


class _Wanted(NamedTuple):
    """One expression of a rule: where it stands, what it must give, what it may name."""

    place: str
    source: str
    result: ValueType
    names: Mapping[str, ValueType]


def _wanted(rule: Rule, declared: Mapping[str, ValueType]) -> Iterator[_Wanted]:
    """Yield the expressions of a rule in the order of ``Rule.expressions``."""
    # whether a rule applies is told before its parameters and tables are looked up
    facts_only = declared_for(rule.looks_at, ())
    for i, source in enumerate(rule.applies):
        yield _Wanted(f"applies[{i}]", source, ValueType.truth, facts_only)
    for i, source in enumerate(rule.holds):
        yield _Wanted(f"holds[{i}]", source, ValueType.truth, declared)
    if rule.measured_where:
        yield _Wanted("measured-where", rule.measured_where, ValueType.truth, declared)
    for i, band in enumerate(rule.bands):
        yield _Wanted(f"bands[{i}].when", band.when, ValueType.truth, declared)
    if rule.limit:
        yield _Wanted("limit", rule.limit, ValueType.number, declared)


def _spelled(rule: Rule) -> list[list[Any]]:
    declared = declared_for(rule.looks_at, [rule])
    return [spelled(source, names, result).plain() for _, source, result, names in _wanted(rule, declared)]


def _expression_faults(rule: Rule, declared: Mapping[str, ValueType]) -> Iterator[str]:
    for place, source, result, names in _wanted(rule, declared):
        try:
            cel.compile(source, names, result)
        except ExpressionError as error:
            yield f"{rule.id}.{place}: column {error.column}: {error.what}"


def _sentence_faults(rule: Rule, declared: Mapping[str, ValueType]) -> Iterator[str]:
    sentences = [(f"says.{level}", text) for level, text in rule.says.items()]
    sentences += [(f"bands[{i}].says", band.says) for i, band in enumerate(rule.bands)]
    sentences += [(f"do[{i}]", text) for i, text in enumerate(rule.do)]
    check: Callable[[str], object] = partial(check_sentence, names=tuple(declared), filters=tuple(FILTERS))
    for place, text in sentences:
        if _ORDERING.search(text):
            yield f"{rule.id}.{place}: values reach a sentence as words; < and > would compare words"
        try:
            check(text)
        except SentenceError as error:
            yield f"{rule.id}.{place}: {error.what}"


def _name_faults(rule: Rule, declared: Mapping[str, ValueType]) -> Iterator[str]:
    for name in rule.needs:
        if name not in declared:
            yield f"{rule.id}.needs: {name} is no fact seen from {rule.looks_at}"
    if rule.measured and declared.get(rule.measured) is not ValueType.number:
        yield f"{rule.id}.measured: {rule.measured} is no number seen from {rule.looks_at}"
    for table in rule.tables:
        for fact in table.facts:
            if fact not in VOCABULARY or fact not in declared:
                yield f"{rule.id}.tables.{table.name}: {fact} is no fact seen from {rule.looks_at}"
        if not table_name(table):
            yield f"{rule.id}.tables: a table without a name"
