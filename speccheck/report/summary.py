"""The summary every format shares: verdict, counts, findings by place, questions ranked, what was assumed."""

from collections import Counter
from collections.abc import Iterable, Sequence
from typing import NamedTuple

from speccheck.judgement.finding import SEVERITIES, Finding, Level

__all__ = ["Group", "Question", "Summary", "summarise", "worst"]

_RANK = {severity: rank for rank, severity in enumerate(SEVERITIES)}


class Question(NamedTuple):
    """One question to put, with the rules that wait for its answer (rule and place)."""

    question: str
    place: str
    wanted: str
    path: tuple[str | int, ...]
    waiting: tuple[tuple[str, str], ...]


class Group(NamedTuple):
    """The findings about one thing: an assembly with its layers, a junction, the project."""

    place: str
    subject: str
    findings: tuple[Finding, ...]

    def of(self, *levels: Level) -> tuple[Finding, ...]:
        """Return the findings of some levels."""
        return tuple(finding for finding in self.findings if finding.level in levels)


class Summary(NamedTuple):
    """What every format tells, in the order in which it is told."""

    verdict: str
    counts: dict[str, int]
    groups: tuple[Group, ...]
    questions: tuple[Question, ...]
    assumed: tuple[str, ...]

    @property
    def findings(self) -> tuple[Finding, ...]:
        """All findings in order."""
        return tuple(finding for group in self.groups for finding in group.findings)


def worst(severities: Iterable[str]) -> str:
    """Return the worst of some severities; ``pass`` where there is none."""
    return min(severities, key=_RANK.__getitem__, default="pass")


def summarise(findings: Sequence[Finding]) -> Summary:
    """Return the summary of the findings of one document."""
    counted = Counter(finding.severity for finding in findings)
    return Summary(
        verdict=worst(counted),
        counts={severity: counted.get(severity, 0) for severity in SEVERITIES},
        groups=_groups(findings),
        questions=_questions(findings),
        assumed=_assumed(findings),
    )


def _order(finding: Finding) -> tuple[int, int, int, str]:
    return (_RANK[finding.severity], finding.line, finding.column, finding.rule)


def _groups(findings: Sequence[Finding]) -> tuple[Group, ...]:
    by_place: dict[str, list[Finding]] = {}
    for finding in findings:
        by_place.setdefault(_thing(finding), []).append(finding)
    groups = [
        Group(place, _subject(members), tuple(sorted(members, key=_order)))
        for place, members in by_place.items()
    ]
    return tuple(
        sorted(groups, key=lambda group: (_RANK[group.findings[0].severity], _first(group), group.place))
    )


def _first(group: Group) -> int:
    return min(finding.line for finding in group.findings)


def _thing(finding: Finding) -> str:
    """Return what a finding is grouped under: a layer goes with its assembly."""
    return finding.place.partition(".")[0] if finding.subject == "layer" else finding.place


def _subject(members: Sequence[Finding]) -> str:
    subjects = {finding.subject for finding in members}
    if "project" in subjects or "edition" in subjects:
        return "project"
    return "assembly" if "layer" in subjects else sorted(subjects)[0]


def _questions(findings: Sequence[Finding]) -> tuple[Question, ...]:
    first: dict[tuple[str, str], tuple[str, tuple[str | int, ...]]] = {}
    waiting: dict[tuple[str, str], dict[tuple[str, str], None]] = {}
    for finding in findings:
        for gap in finding.gaps if finding.level is Level.ASK else ():
            first.setdefault(gap.key, (gap.question, gap.path))
            waiting.setdefault(gap.key, {})[finding.key] = None
    questions = [
        Question(first[key][0], key[0], key[1], first[key][1], tuple(rules)) for key, rules in waiting.items()
    ]
    told: dict[str, Question] = {}
    for question in sorted(questions, key=lambda q: -len(q.waiting)):
        told.setdefault(question.question, question)
    return tuple(told.values())


def _assumed(findings: Sequence[Finding]) -> tuple[str, ...]:
    """Return what was assumed, the assumptions behind warnings first."""
    order = sorted(findings, key=lambda finding: _RANK[finding.severity])
    return tuple(dict.fromkeys(line for finding in order for line in finding.assumed))
