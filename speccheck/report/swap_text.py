"""The report on a substitute product: one verdict line, then what moves, then what is missing."""

from collections.abc import Sequence
from typing import Any

from speccheck.judgement.wording import word
from speccheck.report.layout import Sheet
from speccheck.report.plain import plain_fact
from speccheck.report.wording import DEFERRAL, LABELS, limit_words, margin_words
from speccheck.survey import Fact
from speccheck.uses.compare_layers import Comparison, Row
from speccheck.uses.swap import Change, Swapped

__all__ = ["plain_swap", "swap_text"]


def swap_text(swapped: Swapped, width: int = 80, system: str = "both") -> str:
    """Return the report on a swap for a terminal."""
    sheet = Sheet(width)
    verdict, reason = swapped.verdict
    sheet.wrap(f"{swapped.before.loaded.name}: substitute for {', '.join(swapped.places)}")
    sheet.wrap(
        f"{verdict}. {reason[0].upper()}{reason[1:]}{'' if reason.endswith(('.', '?')) else '.'}",
        0,
        "Verdict: ",
    )
    sheet.wrap(DEFERRAL)
    for comparison, places in _alike(swapped.comparisons):
        sheet.heading(f"{', '.join(places)}, function by function")
        for row in comparison.rows:
            if _told(row):
                sheet.wrap(
                    f"{_side(row, row.before, system)} -> {_side(row, row.after, system)}: {row.verdict}",
                    2,
                    f"{row.name}: ",
                )
        for line in comparison.doubts:
            sheet.wrap(f"{line}.", 2, "Ask: ")
    _changes(sheet, "Warnings that appear or grow", swapped.new_warnings, system)
    _changes(sheet, "What can no longer be judged", swapped.of("unsure"), system)
    grown = set(map(id, swapped.new_warnings))
    _changes(sheet, "Margins that shrink", [c for c in swapped.of("worse") if id(c) not in grown], system)
    if verdict != "worse":
        _changes(sheet, "Warnings that vanish and margins that grow", swapped.of("better"), system)
    unchanged = len(swapped.of("same"))
    sheet.blank()
    sheet.wrap(f"{unchanged} other checks come out as before.")
    return sheet.text()


def _told(row: Row) -> bool:
    """Is there anything to tell: a value on one side at least, and not a resistance that a sheet has not?"""
    values = (row.before.value, row.after.value)
    return values != (None, None) and not (row.kind == "thermal-resistance" and values == (0.0, 0.0))


def _alike(comparisons: Sequence[Comparison]) -> list[tuple[Comparison, list[str]]]:
    """Return comparisons whose rows read the same as one, with all their places."""
    merged: dict[tuple[object, ...], tuple[Comparison, list[str]]] = {}
    for comparison in comparisons:
        key = tuple((row.name, row.before.value, row.after.value, row.verdict) for row in comparison.rows)
        merged.setdefault(key, (comparison, []))[1].append(comparison.place)
    return list(merged.values())


def _side(row: Row, fact: Fact, system: str) -> str:
    if fact.value is None:
        return "not stated"
    return f"{word(fact.value, row.kind, system)}{' (table)' if fact.origin == 'table' else ''}"


def _changes(sheet: Sheet, title: str, changes: "tuple[Change, ...] | list[Change]", system: str) -> None:
    if not changes:
        return
    sheet.heading(title)
    for change in changes:
        before = LABELS[change.before.severity].lower() if change.before else "nothing"
        after = LABELS[change.after.severity].lower() if change.after else "nothing"
        finding = change.finding
        moved = "" if before == after else f" ({before} -> {after})"
        sheet.wrap(f"{finding.title} [{finding.place}]{moved}", 2, "- ")
        if change.after is not None:
            sheet.wrap(change.after.reason, 4)
            if change.after.measured is not None:
                sheet.wrap(
                    f"{limit_words(change.after.measured, system)}; {margin_words(change.after, system)}.", 4
                )
        sheet.wrap(finding.rule, 4, "Rule: ")


def plain_swap(swapped: Swapped) -> dict[str, Any]:
    """Return a swap as plain data."""
    verdict, reason = swapped.verdict
    return {
        "speccheck-swap": 1,
        "file": swapped.before.loaded.name,
        "places": list(swapped.places),
        "verdict": verdict,
        "reason": reason,
        "deferral": DEFERRAL,
        "layers": [
            {
                "place": comparison.place,
                "properties": [
                    {
                        "name": row.name,
                        "verdict": row.verdict,
                        "before": plain_fact(row.before),
                        "after": plain_fact(row.after),
                    }
                    for row in comparison.rows
                ],
                "ask": list(comparison.doubts),
            }
            for comparison in swapped.comparisons
        ],
        "changes": [
            {
                "rule": change.finding.rule,
                "place": change.finding.place,
                "trend": change.trend,
                "before": change.before.severity if change.before else None,
                "after": change.after.severity if change.after else None,
                "reason": change.finding.reason,
            }
            for change in swapped.changes
            if change.trend != "same"
        ],
    }
