"""Pages that explain: a rule, a fact, a material, a pack, and the lists of each."""

from collections.abc import Sequence
from typing import Any

from speccheck.judgement.pack import Pack, Rule, Table
from speccheck.judgement.wording import word, word_options
from speccheck.report.general_words import general_words
from speccheck.report.layout import Sheet
from speccheck.report.remedies import heading
from speccheck.survey.vocabulary import VOCABULARY, Declared
from speccheck.tables.material import Material, Row
from speccheck.tables.materials import source_title
from speccheck.tables.value import TableValue

__all__ = [
    "fact_page",
    "facts_list",
    "material_page",
    "materials_list",
    "pack_page",
    "packs_list",
    "rule_page",
    "rules_list",
]

_OUTCOME = {
    "outside": "warn, outside a published limit",
    "caution": "warn, caution",
    "ask": "ask",
    "refer": "refer",
}


def rule_page(rule: Rule, pack: Pack, width: int = 80, system: str = "both") -> str:
    """Return the page of a rule: the same headings for every rule."""
    sheet = Sheet(width)
    sheet.heading(f"{rule.id}: {rule.title}")
    sheet.wrap(f"{pack.title} ({pack.id}, edition {pack.edition}); {rule.status} since {rule.since}.")
    _section(sheet, "Why", [general_words(rule.why, rule, system)])
    sheet.heading("What it looks at")
    sheet.wrap(f"each {rule.looks_at}" if rule.looks_at != "project" else "the project", 2)
    for condition in rule.applies:
        sheet.wrap(condition, 2, "where  ")
    sheet.heading("What should hold")
    for number, condition in enumerate(rule.holds):
        sheet.wrap(condition, 2, "or  " if number else "")
    _limits_of(sheet, rule, system)
    sheet.heading("When it does not hold")
    for band in rule.bands:
        sheet.wrap(f"{_OUTCOME[band.outcome]}, where {band.when}", 2, "- ")
    sheet.wrap(f"{_OUTCOME[rule.when_not]}{', otherwise' if rule.bands else ''}", 2, "- ")
    sheet.wrap(f"At stake: {rule.consequence}. Confidence in the rule: {rule.confidence}.", 2)
    remedies = [general_words(remedy, rule, system) for remedy in rule.do]
    _section(sheet, heading(remedies, rule.do_is), remedies, numbered=rule.do_is == "steps")
    _section(sheet, "Known limits", [general_words(limit, rule, system) for limit in rule.limits])
    if rule.disputed:
        _section(sheet, "Disputed", rule.disputed)
    _section(sheet, "Source", rule.sources)
    _section(
        sheet,
        "Examples",
        [f"{e['name']}: {e['expect']['level']} at {e['expect']['place']}" for e in rule.examples],
    )
    return sheet.text()


def _section(sheet: Sheet, title: str, lines: Sequence[str], *, numbered: bool = False) -> None:
    if lines:
        sheet.heading(title)
        for number, line in enumerate(lines, 1):
            mark = f"{number}. " if numbered else "- "
            sheet.wrap(line, 2, mark if len(lines) > 1 else "")


def _limits_of(sheet: Sheet, rule: Rule, system: str) -> None:
    for parameter in rule.parameters:
        meaning = f"  {parameter.meaning}" if parameter.meaning else ""
        sheet.wrap(
            f"{word(parameter.value, parameter.kind, system)}{meaning}", 2, f"parameter.{parameter.name} = "
        )
    for table in rule.tables:
        prefix = "options" if table.kind == "options" else "table"
        sheet.wrap(f"by {' and '.join(table.facts)}:", 2, f"{prefix}.{table.name} ")
        for key, row in table.rows.items():
            sheet.wrap(_row(row, table, system), 4, f"{key}: ")


def _row(row: Any, table: Table, system: str) -> str:
    return (
        word_options(row, table.kinds, system) if table.kind == "options" else word(row, table.kind, system)
    )


def rules_list(packs: Sequence[Pack], width: int = 80) -> str:
    """Return every rule with its title, by pack."""
    sheet = Sheet(width)
    for pack in packs:
        sheet.heading(f"{pack.id}: {pack.title} ({len(pack.rules)} rules)")
        for rule in pack.rules:
            sheet.wrap(rule.title, 2, f"{rule.id}  ")
    return sheet.text()


def packs_list(packs: Sequence[Pack], width: int = 80) -> str:
    """Return every pack with what it is about and how it comes into force."""
    sheet = Sheet(width)
    for pack in packs:
        force = f"in force where a project adopts {pack.adopt}" if pack.adopt else "always in force"
        sheet.wrap(
            f"{pack.title}, edition {pack.edition}; {len(pack.rules)} rules; {force}.", 0, f"{pack.id}: "
        )
    return sheet.text()


def pack_page(pack: Pack, width: int = 80) -> str:
    """Return the page of a pack."""
    sheet = Sheet(width)
    sheet.heading(f"{pack.id}: {pack.title}")
    sheet.wrap(pack.about)
    sheet.wrap(f"Edition {pack.edition}. Jurisdiction: {pack.jurisdiction}.")
    for rule in pack.rules:
        sheet.wrap(rule.title, 2, f"{rule.id}  ")
    return sheet.text()


def fact_page(fact: Declared, packs: Sequence[Pack], width: int = 80) -> str:
    """Return the page of a fact name, with the rules that read it."""
    sheet = Sheet(width)
    sheet.heading(fact.name)
    sheet.wrap(fact.meaning)
    sheet.wrap(f"{fact.type}{f', a {fact.kind}' if fact.kind != fact.type else ''}", 0, "Type: ")
    readers = [rule.id for pack in packs for rule in pack.rules if _reads(rule, fact.name)]
    sheet.wrap(", ".join(readers) or "none", 0, "Read by: ")
    return sheet.text()


def _reads(rule: Rule, name: str) -> bool:
    texts = (*rule.applies, *rule.holds, rule.limit, *(band.when for band in rule.bands))
    tables = {fact for table in rule.tables for fact in table.facts}
    return (
        name in rule.needs or name in tables or name == rule.measured or any(name in text for text in texts)
    )


def facts_list(width: int = 80) -> str:
    """Return the whole vocabulary."""
    sheet = Sheet(width)
    subject = None
    for fact in VOCABULARY.values():
        if fact.subject != subject:
            subject = fact.subject
            sheet.heading(subject)
        sheet.wrap(f"{fact.meaning} [{fact.kind}]", 2, f"{fact.name}  ")
    return sheet.text()


def materials_list(ids: Sequence[str], width: int = 80) -> str:
    """Return the ids of the material table."""
    sheet = Sheet(width)
    sheet.wrap(", ".join(ids))
    return sheet.text()


def material_page(material: Material, width: int = 80, system: str = "both") -> str:
    """Return the page of a material: each row's values with range, source and confidence."""
    sheet = Sheet(width)
    sheet.heading(f"{material.id}: {material.title}")
    if material.also:
        sheet.wrap(", ".join(material.also), 0, "Also called: ")
    sheet.wrap(f"Group {material.group}. Generic values; a tested value of the product comes first.")
    for row in material.rows:
        _material_row(sheet, row, system)
    if material.note:
        sheet.wrap(material.note, 0, "Note: ")
    return sheet.text()


def _material_row(sheet: Sheet, row: Row, system: str) -> None:
    size = f" at {word(row.thickness, 'length', system)}" if row.thickness else ""
    sheet.heading(f"{row.id}{size}")
    lines: list[tuple[str, TableValue | None, str]] = [
        ("conductivity", row.conductivity, "conductivity"),
        ("thermal resistance", row.thermal_resistance, "thermal-resistance"),
        ("density", row.density, "density"),
    ]
    if row.vapour is not None:
        lines.append(("dry-cup permeance", row.vapour.dry_cup, "permeance"))
        lines.append(("wet-cup permeance", row.vapour.wet_cup, "permeance"))
    if row.air is not None:
        lines.append(("air permeance at 75 Pa", row.air.permeance, "air-permeance"))
    for name, value, kind in lines:
        if value is None:
            continue
        spread = ""
        if value.low is not None and value.high is not None:
            spread = f", range {word(value.low, kind, system)} to {word(value.high, kind, system)}"
        titles = "; ".join(source_title(source) or source for source in value.source)
        sheet.wrap(
            f"{word(value.value, kind, system)}{spread} ({value.how}, {value.confidence} confidence: {titles})",
            2,
            f"{name}: ",
        )
