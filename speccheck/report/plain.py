"""The report as plain data: what the published report schema describes, ready to be written as JSON."""

import json
from collections.abc import Sequence
from typing import Any

from speccheck import __version__
from speccheck.document import Problem
from speccheck.judgement.cautions import cautions_for
from speccheck.judgement.finding import SEVERITIES, Finding, Limit
from speccheck.quantity import CONVENTIONS
from speccheck.report.formats import Format, Manner, Run
from speccheck.report.good_for import good_for
from speccheck.report.printed import printed
from speccheck.report.summary import Question, summarise, worst
from speccheck.report.wording import DEFERRAL
from speccheck.survey import Fact, Surveyed
from speccheck.survey.vocabulary import VOCABULARY
from speccheck.uses.baseline import Against
from speccheck.uses.check import Checked
from speccheck.uses.compare import SLACK, Move

__all__ = ["FORMAT", "REPORT_FORMAT", "json_text", "plain_document", "plain_fact", "plain_report"]

REPORT_FORMAT = 1
"""Version of the report's form; raised when a reader of the old form could misread the new."""


def plain_report(
    checked: Sequence[Checked], unread: Sequence[tuple[str, Sequence[Problem]]] = (), *, facts: bool = False
) -> dict[str, Any]:
    """Return the report on some documents.

    Args:
        checked: the documents that could be read.
        unread: name and problems of each that could not.
        facts: with every fact of each document.
    """
    return _enveloped([plain_document(one, facts=facts) for one in checked], unread)


def _enveloped(
    documents: Sequence[dict[str, Any]], unread: Sequence[tuple[str, Sequence[Problem]]]
) -> dict[str, Any]:
    counts = {severity: sum(d["counts"][severity] for d in documents) for severity in SEVERITIES}
    return {
        "speccheck-report": REPORT_FORMAT,
        "version": __version__,
        "verdict": "unread" if unread else worst(s for s, n in counts.items() if n),
        "counts": counts,
        "deferral": DEFERRAL,
        "conventions": list(CONVENTIONS),
        "documents": list(documents),
        "unread": [{"file": name, "problems": [_problem(p) for p in problems]} for name, problems in unread],
    }


def json_text(report: dict[str, Any]) -> str:
    """Return a report as JSON text; the same report gives the same bytes."""
    return json.dumps(report, ensure_ascii=False, indent=1, allow_nan=False) + "\n"


def plain_document(checked: Checked, *, facts: bool = False) -> dict[str, Any]:
    """Return the report on one document."""
    summary = summarise(checked.findings)
    project = checked.loaded.document.project
    plain: dict[str, Any] = {
        "file": checked.loaded.name,
        "project": project.name,
        "assemblies": [
            {"place": place, "name": assembly.name}
            for place, assembly in checked.loaded.document.assemblies.items()
        ],
        "verdict": summary.verdict,
        "counts": summary.counts,
        "packs": [{"id": pack.id, "edition": pack.edition, "title": pack.title} for pack in checked.packs],
        "editions-not-held": list(checked.missing_editions),
        "findings": [_finding(finding, checked.surveyed) for finding in summary.findings],
        "questions": [_question(question) for question in summary.questions],
        "assumed": list(summary.assumed),
        "cautions": cautions_for(checked.surveyed),
    }
    if facts:
        checked.surveyed.settle()
    if any(page.table is not None for page in checked.surveyed.ledger if page.subject == "assembly"):
        from speccheck.report.plain_year import plain_years

        plain["moisture"] = plain_years(checked.surveyed)
    if facts:
        plain["facts"] = [plain_fact(fact) for fact in checked.surveyed.facts()]
    return plain


def _value(value: Any) -> Any:
    if isinstance(value, bool):
        return value
    if isinstance(value, float):
        return printed(value)
    return list(value) if isinstance(value, tuple) else value


def _finding(finding: Finding, surveyed: Surveyed) -> dict[str, Any]:
    return {
        "rule": finding.rule,
        "pack": finding.pack,
        "level": finding.level.value,
        "strength": finding.strength or None,
        "severity": finding.severity,
        "title": finding.title,
        "subject": finding.subject,
        "place": finding.place,
        "path": list(finding.path),
        "line": finding.line or None,
        "column": finding.column or None,
        "reason": finding.reason,
        "measured": None if finding.measured is None else _limit(finding.measured),
        "observed": {name: _value(value) for name, value in finding.observed},
        "good-for": _good_for(finding, surveyed),
        "consequence": finding.consequence,
        "confidence": finding.confidence,
        "why": finding.why,
        "do": list(finding.do),
        "do-is": finding.do_is or None,
        "sources": list(finding.sources),
        "from-memory": finding.from_memory,
        "disputed": list(finding.disputed),
        "assumed": list(finding.assumed),
        "questions": [gap.question for gap in finding.gaps],
        "withheld": finding.withheld,
        "waiver": finding.waiver or None,
    }


def _good_for(finding: Finding, surveyed: Surveyed) -> dict[str, Any] | None:
    limits = good_for(surveyed, finding)
    if limits is None:
        return None
    figures = {
        "humidity-without-condensation": limits.dry,
        "humidity-drying-in-year": limits.drying,
        "critical-indoor-humidity": limits.plane,
        "humidity-surface-bears": limits.surface,
        "humidity-wood-bears": limits.wood,
        "outboard-resistance-to-add": limits.more_outboard,
    }
    return {name: None if value is None else printed(value) for name, value in figures.items()}


def _limit(limit: Limit) -> dict[str, Any]:
    return {
        "fact": limit.fact,
        "kind": limit.kind,
        "observed": printed(limit.observed),
        "limit": printed(limit.limit),
        "sense": limit.sense,
        "margin": printed(limit.margin),
        "low": None if limit.low is None else printed(limit.low),
        "high": None if limit.high is None else printed(limit.high),
        "turns-within-range": limit.turns,
    }


def _question(question: Question) -> dict[str, Any]:
    return {
        "question": question.question,
        "place": question.place,
        "wanted": question.wanted,
        "path": list(question.path),
        "waiting": [{"rule": rule, "place": place} for rule, place in question.waiting],
    }


def _problem(problem: Problem) -> dict[str, Any]:
    mark = problem.mark
    return {
        "line": mark.line if mark else None,
        "column": mark.column if mark else None,
        "path": list(problem.path),
        "what": problem.what,
        "expected": problem.expected or None,
        "do": problem.do or None,
    }


def plain_fact(fact: Fact) -> dict[str, Any]:
    """Return one fact as plain data."""
    declared = VOCABULARY.get(fact.name)
    return {
        "place": fact.place,
        "name": fact.name,
        "kind": declared.kind if declared else "",
        "value": _value(fact.value),
        "origin": fact.origin.value,
        "low": None if fact.low is None else printed(fact.low),
        "high": None if fact.high is None else printed(fact.high),
        "method": fact.method or None,
        "source": fact.source or None,
        "inputs": [{"place": place, "name": name} for place, name in fact.inputs],
        "assumed": list(fact.assumed),
        "missing": [gap.question for gap in fact.missing],
    }


def _against(against: Against) -> dict[str, Any]:
    return {
        "file": against.baseline,
        "document": against.older or None,
        "slack": SLACK,
        "trends": against.trends,
        "moves": [_move(move) for move in against.of("new", "worse", "unsure", "better", "gone")],
    }


def _move(move: Move) -> dict[str, Any]:
    before, after = move
    return {
        "rule": move.record.rule,
        "place": move.record.place,
        "trend": move.trend,
        "counts": move.counts,
        "before": before.severity if before else None,
        "after": after.severity if after else None,
        "margin-before": None if before is None or before.margin is None else printed(before.margin),
        "margin-after": None if after is None or after.margin is None else printed(after.margin),
    }


def _part(checked: Checked, manner: Manner, against: Against | None) -> dict[str, Any]:
    plain = plain_document(checked, facts=manner.facts)
    return plain if against is None else {**plain, "baseline": _against(against)}


def _whole(run: Run) -> str:
    return json_text(_enveloped([one.part for one in run.told], run.unread))


FORMAT = Format(_part, _whole, ".json")
"""For machines, by the published schema of the report."""
