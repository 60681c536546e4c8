"""The report on two documents, or two runs, side by side: verdicts, findings that move, facts that differ."""

from collections.abc import Iterable, Sequence
from typing import Any

from speccheck.judgement.wording import word
from speccheck.report.baseline_text import move_words
from speccheck.report.layout import Sheet
from speccheck.report.wording import DEFERRAL, verdict_words
from speccheck.uses.compare import SLACK, Move
from speccheck.uses.side_by_side import Comparison, Differing, Pair, Side

__all__ = ["compare_text", "plain_comparison"]

_FELL = 4
_TITLES = {
    "new": "Findings that appear",
    "worse": "Findings that grow worse",
    "unsure": "What is no longer answered",
    "better": "Findings that ease",
    "gone": "Findings that vanish",
}


def compare_text(comparison: Comparison, width: int = 80, system: str = "both") -> str:
    """Return the comparison for a terminal.

    Args:
        comparison: the two sides, paired.
        width: columns of the terminal.
        system: units to show: ``both``, ``us`` or ``si``.
    """
    sheet = Sheet(width)
    sheet.line(f"A: {comparison.names[0]}")
    sheet.line(f"B: {comparison.names[1]}")
    sheet.wrap(f"{_headline(comparison, system)}.", lead="B against A: ")
    sheet.wrap(DEFERRAL)
    for pair in comparison.pairs:
        _pair(sheet, pair, system)
    for letter, sides in (("A", comparison.only_before), ("B", comparison.only_after)):
        if sides:
            sheet.heading(f"Only in {letter}")
            for side in sides:
                sheet.wrap(verdict_words(side.verdict, side.counts), 2, f"{side.name}: ")
    return sheet.text()


def _headline(comparison: Comparison, system: str) -> str:
    """Return how the findings compare, and which facts of quality fell: eased findings alone make nothing better."""
    told: dict[str, None] = {}
    for document, fact in comparison.fell:
        was, now = _sides(fact, system)
        where = f"{document}, " if len(comparison.pairs) > 1 else ""
        told[f"{where}{fact.place}.{fact.name.partition('.')[2]} {was} -> {now}"] = None
    if not told:
        return comparison.verdict
    shown = list(told)[:_FELL]
    more = f" and {len(told) - _FELL} more" if len(told) > _FELL else ""
    return f"findings: {comparison.verdict}; facts that fell: {', '.join(shown)}{more}"


def _pair(sheet: Sheet, pair: Pair, system: str) -> None:
    same = pair.before.name == pair.after.name
    sheet.heading(pair.after.name if same else f"{pair.before.name} -> {pair.after.name}")
    for letter, side in (("A", pair.before), ("B", pair.after)):
        sheet.wrap(verdict_words(side.verdict, side.counts), 2, f"{letter}: ")
    for trend, title in _TITLES.items():
        moves = pair.of(trend)
        if moves:
            sheet.blank()
            sheet.wrap(f"{title}:")
            for move in moves:
                _move(sheet, move, system)
    sheet.blank()
    same_count = len(pair.of("same"))
    sheet.wrap(
        f"{same_count} other findings are as before (margins within {SLACK * 100:g} % of their limits)."
    )
    _facts(sheet, pair.facts, system)


def _move(sheet: Sheet, move: Move, system: str) -> None:
    record = move.record
    sheet.wrap(f"{record.title} [{record.place}] ({move_words(move, system)})", 2, "- ")
    if move.after is not None and not move.after.at_rest:
        sheet.wrap(record.reason, 4)
    sheet.wrap(record.rule, 4, "Rule: ")


def _facts(sheet: Sheet, facts: Sequence[Differing] | None, system: str) -> None:
    if facts is None:
        sheet.wrap("Facts are not compared: a report holds them only where it was written with --facts.")
        return
    lines = [(fact, _sides(fact, system)) for fact in facts]
    shown = [
        (fact, sides) for fact, sides in lines if sides[0] != sides[1]
    ]  # the rest differ beyond the digits shown
    if shown:
        sheet.blank()
        sheet.wrap("Facts that differ:")
    for fact, sides in shown:
        sheet.wrap(" -> ".join(sides), 2, f"{fact.place}.{fact.name.partition('.')[2]}: ")


def _sides(fact: Differing, system: str) -> tuple[str, str]:
    return _value(fact.before, fact.kind, system), _value(fact.after, fact.kind, system)


def _value(value: Any, kind: str, system: str) -> str:
    return "not shown" if value is None else word(value, kind, system)


def plain_comparison(comparison: Comparison) -> dict[str, Any]:
    """Return the comparison as plain data."""
    return {
        "speccheck-compare": 1,
        "before": comparison.names[0],
        "after": comparison.names[1],
        "verdict": comparison.verdict,
        "fell": [{"file": file, **_plain_fact(fact)} for file, fact in comparison.fell],
        "deferral": DEFERRAL,
        "slack": SLACK,
        "pairs": [_plain_pair(pair) for pair in comparison.pairs],
        "only-before": _plain_sides(comparison.only_before),
        "only-after": _plain_sides(comparison.only_after),
    }


def _plain_sides(sides: Iterable[Side]) -> list[dict[str, Any]]:
    return [{"file": side.name, "verdict": side.verdict, "counts": side.counts} for side in sides]


def _plain_pair(pair: Pair) -> dict[str, Any]:
    before, after = _plain_sides((pair.before, pair.after))
    return {
        "before": before,
        "after": after,
        "moves": [_plain_move(move) for trend in _TITLES for move in pair.of(trend)],
        "as-before": len(pair.of("same")),
        "facts": None if pair.facts is None else [_plain_fact(fact) for fact in pair.facts],
    }


def _plain_move(move: Move) -> dict[str, Any]:
    before, after = move
    return {
        "rule": move.record.rule,
        "place": move.record.place,
        "trend": move.trend,
        "title": move.record.title,
        "before": before.severity if before else None,
        "after": after.severity if after else None,
        "reason": after.reason if after else None,
        "margin-before": _number(before.margin if before else None),
        "margin-after": _number(after.margin if after else None),
    }


def _plain_fact(fact: Differing) -> dict[str, Any]:
    return {
        "place": fact.place,
        "name": fact.name,
        "kind": fact.kind,
        "before": _number(fact.before),
        "after": _number(fact.after),
    }


def _number(value: Any) -> Any:
    return float(f"{value:.10g}") if isinstance(value, float) else value
