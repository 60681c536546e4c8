"""From a pack as written to plain data a run can use: form checked, quantities in SI, sources spelled out."""

from collections.abc import Mapping
from typing import Any

from pydantic import ValidationError

from speccheck.judgement.pack import PackError
from speccheck.judgement.pack_schema import PackFile, RuleEntry, Source, SourceRef, Table
from speccheck.quantity import Kind, QuantityError, parse

__all__ = ["COMMON_PRACTICE", "compile_pack"]

COMMON_PRACTICE = "common practice, no source"
_PLAIN_KINDS = ("number", "text")


def compile_pack(written: Mapping[str, Any], name: str = "pack") -> dict[str, Any]:
    """Return the plain form of a pack.

    Args:
        written: what the YAML of the pack holds.
        name: what to call the pack in an error when it does not name itself.

    Raises:
        PackError: when the form is wrong, a quantity cannot be read, or a source is missing.
    """
    try:
        pack = PackFile.model_validate(written)
    except ValidationError as error:
        told = [f"{'.'.join(map(str, e['loc'])) or 'pack'}: {e['msg']}" for e in error.errors()]
        raise PackError(
            str(written.get("pack", name)) if isinstance(written, Mapping) else name, told
        ) from None
    faults: list[str] = []
    rules = [_rule(rule, pack.sources, faults) for rule in pack.rules]
    if faults:
        raise PackError(pack.pack, faults)
    return {
        "id": pack.pack,
        "title": pack.title,
        "edition": pack.edition,
        "jurisdiction": pack.jurisdiction,
        "adopt": pack.adopt or "",
        "about": pack.about,
        "starts": dict(pack.starts),
        "rules": rules,
    }


def _rule(rule: RuleEntry, sources: Mapping[str, Source], faults: list[str]) -> dict[str, Any]:
    plain = rule.model_dump(by_alias=True, exclude_defaults=True, mode="json")
    plain["applies"] = [rule.applies] if isinstance(rule.applies, str) else list(rule.applies)
    plain["holds"] = [rule.holds] if isinstance(rule.holds, str) else list(rule.holds)
    plain["do"] = [step if isinstance(step, str) else step.text for step in rule.do]
    plain["sources"] = [_source_line(ref, sources, rule.id, faults) for ref in rule.sources]
    plain["from-memory"] = any(_known_from_memory(ref, sources) for ref in rule.sources)
    plain["parameters"] = [
        {
            "name": name,
            "kind": p.kind,
            "value": _number(p.value, p.kind, f"{rule.id}.parameters.{name}", faults),
            "meaning": p.meaning or "",
        }
        for name, p in rule.parameters.items()
    ]
    plain["tables"] = [_table(name, table, rule.id, faults) for name, table in rule.tables.items()]
    if rule.disputed:
        plain["disputed"] = [
            rule.disputed[side] for side in ("one-side", "other-side") if side in rule.disputed
        ]
    return plain


def _known_from_memory(ref: SourceRef, sources: Mapping[str, Source]) -> bool:
    source = sources.get(ref.source)
    return (ref.how or (source.how if source else "")) == "memory"


def _source_line(ref: SourceRef, sources: Mapping[str, Source], rule: str, faults: list[str]) -> str:
    if ref.source == "common_practice":
        return COMMON_PRACTICE
    source = sources.get(ref.source)
    if source is None:
        faults.append(f"{rule}: no source {ref.source!r} in the pack's sources")
        return ""
    if ref.locator is None:
        faults.append(f"{rule}: source {ref.source!r} without a locator (clause, table or page)")
        return ""
    how = ref.how or source.how
    known = {"memory": " (from memory)", "mixed": " (partly from memory)", "computed": " (computed)"}.get(
        how, ""
    )
    return f"{source.title}, {ref.locator}{known}"


def _table(name: str, table: Table, rule: str, faults: list[str]) -> dict[str, Any]:
    place = f"{rule}.tables.{name}"
    rows: dict[str, Any] = {}
    for key, row in table.rows.items():
        if isinstance(row, list):
            kinds = table.kinds or {}
            rows[key] = [
                {
                    k: _number(v, kinds.get(k, table.kind), f"{place}[{key}].{k}", faults)
                    for k, v in option.items()
                }
                for option in row
            ]
        elif table.kind == "text":
            rows[key] = str(row)
        else:
            rows[key] = _number(row, table.kind, f"{place}[{key}]", faults)
    plain = {"name": name, "by": table.by, "and_by": table.and_by or "", "kind": table.kind, "rows": rows}
    return {**plain, "kinds": table.kinds} if table.kinds else plain


def _number(value: str | float, kind: str, place: str, faults: list[str]) -> float:
    if kind in _PLAIN_KINDS:
        if isinstance(value, str):
            faults.append(f"{place}: {value!r} where a plain number is expected")
            return 0.0
        return float(value)
    try:
        return parse(value, Kind(kind)).value
    except (QuantityError, ValueError) as error:
        faults.append(f"{place}: {error}")
        return 0.0
