"""Findings for the page: each in words, each group under its heading, and what to do first."""

from collections.abc import Sequence
from typing import NamedTuple

from speccheck.judgement.finding import Finding, Level
from speccheck.judgement.wording import word
from speccheck.report.good_for import good_for, good_for_line
from speccheck.report.page.environment import anchor
from speccheck.report.summary import Group, Summary
from speccheck.report.wording import LABELS, margin_words
from speccheck.survey import Surveyed

__all__ = ["FindingView", "First", "GroupView", "group_views", "what_first"]

_MOST_FIRST = 5
_QUESTIONS_FIRST = 3


class FindingView(NamedTuple):
    """A finding in words."""

    id: str
    severity: str
    label: str
    title: str
    place: str
    reason: str
    observed: str
    limit: str
    margin: str
    good_for: str
    why: str
    do: tuple[str, ...]
    do_is: str
    sources: tuple[str, ...]
    assumed: tuple[str, ...]
    disputed: tuple[str, ...]
    rule: str
    stake: str
    where: str
    waiver: str
    from_memory: bool


class GroupView(NamedTuple):
    """The findings about one thing: those to act on, those set aside, and what holds."""

    id: str
    place: str
    subject: str
    act: tuple[FindingView, ...]
    waived: tuple[FindingView, ...]
    holds: tuple[FindingView, ...]
    asks: int
    severity: str


class First(NamedTuple):
    """One thing to do first: what is wrong, where, the first remedy and where to read on."""

    severity: str
    label: str
    title: str
    places: tuple[str, ...]
    do: str
    href: str


def group_views(summary: Summary, surveyed: Surveyed, system: str = "both") -> list[GroupView]:
    """Return the groups of a summary in its order, in the units of a system."""
    return [_group(group, surveyed, system) for group in summary.groups]


def _group(group: Group, surveyed: Surveyed, system: str) -> GroupView:
    asked = [f for f in group.of(Level.ASK) if not f.withheld]
    return GroupView(
        id=f"at-{anchor(group.place)}",
        place=group.place,
        subject=group.subject,
        act=_views(group.of(Level.WARN, Level.REFER), surveyed, system),
        waived=_views(group.of(Level.WAIVED), surveyed, system),
        holds=_views(group.of(Level.PASS), surveyed, system),
        asks=len(asked),
        severity=group.findings[0].severity,
    )


def _views(findings: Sequence[Finding], surveyed: Surveyed, system: str) -> tuple[FindingView, ...]:
    return tuple(_view(finding, surveyed, system) for finding in findings)


def finding_id(finding: Finding) -> str:
    """Return the anchor of a finding."""
    return f"f-{anchor(finding.rule)}--{anchor(finding.place)}"


def _view(finding: Finding, surveyed: Surveyed, system: str) -> FindingView:
    limit = finding.measured
    turns = good_for(surveyed, finding)
    sense = "" if limit is None else "at least" if limit.sense == "at-least" else "at most"
    margin = margin_words(finding, system)
    return FindingView(
        id=finding_id(finding),
        severity=finding.severity,
        label=LABELS[finding.severity].capitalize(),
        title=finding.title,
        place=finding.place,
        reason=finding.reason,
        observed="" if limit is None else word(limit.observed, limit.kind, system),
        limit="" if limit is None else f"{sense} {word(limit.limit, limit.kind, system)}",
        margin=margin,
        good_for="" if turns is None else good_for_line(turns, system),
        why=finding.why,
        do=finding.do,
        do_is=finding.do_is,
        sources=finding.sources,
        assumed=finding.assumed,
        disputed=finding.disputed,
        rule=finding.rule,
        stake=f"{finding.consequence}; {finding.confidence} confidence",
        where=f"line {finding.line}, column {finding.column}" if finding.line else "",
        waiver=finding.waiver,
        from_memory=finding.from_memory,
    )


def what_first(summary: Summary) -> list[First]:
    """Return the few things to do first: the worst findings, one for each rule, then the most telling questions."""
    by_rule: dict[str, list[Finding]] = {}
    acting = [f for group in summary.groups for f in group.of(Level.WARN, Level.REFER)]
    order = list(summary.counts)
    for finding in sorted(acting, key=lambda f: order.index(f.severity)):
        by_rule.setdefault(finding.rule, []).append(finding)
    first = [
        First(
            severity=found[0].severity,
            label=LABELS[found[0].severity].capitalize(),
            title=found[0].title,
            places=tuple(dict.fromkeys(f.place for f in found)),
            do=found[0].do[0] if found[0].do else "",
            href=finding_id(found[0]),
        )
        for found in list(by_rule.values())[:_MOST_FIRST]
    ]
    first += [
        First("ask", LABELS["ask"].capitalize(), question.question, (question.place,), "", "questions")
        for question in summary.questions[:_QUESTIONS_FIRST]
    ]
    return first
