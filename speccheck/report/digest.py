"""The digest of one document: what a page about many documents tells of it, small enough to travel and to keep."""

from typing import TYPE_CHECKING, NamedTuple

from speccheck.judgement.finding import SEVERITIES, Finding
from speccheck.report.counting import findings_that_count
from speccheck.report.summary import summarise, worst
from speccheck.uses.check import Checked

if TYPE_CHECKING:
    from speccheck.uses.baseline import Against

__all__ = ["Digest", "area_of", "areas_of", "digest_of"]


class Digest(NamedTuple):
    """One document in a few words and numbers.

    ``areas`` holds for each area of rules its worst severity and how many findings have it; ``counting`` the
    severities that count toward the exit status; ``trends`` how findings moved against a baseline.
    """

    file: str
    project: str
    verdict: str
    counts: dict[str, int]
    areas: dict[str, tuple[str, int]]
    counting: tuple[str, ...] = ()
    trends: dict[str, int] | None = None


def area_of(rule: str) -> str:
    """Return the area of a rule: what stands before the dot of its id.

    Example:
        >>> area_of("vapour.falls-outward")
        'vapour'
    """
    return rule.partition(".")[0]


def digest_of(checked: Checked, fail_on: str, against: "Against | None" = None) -> Digest:
    """Return the digest of a document."""
    summary = summarise(checked.findings)
    counting = findings_that_count(checked.findings, fail_on, against)
    found = {finding.severity for finding in checked.findings if finding.key in counting}
    return Digest(
        file=checked.loaded.name,
        project=checked.loaded.document.project.name or "",
        verdict=summary.verdict,
        counts=summary.counts,
        areas=_areas(checked.findings),
        counting=tuple(severity for severity in SEVERITIES if severity in found),
        trends=against.trends if against is not None else None,
    )


def _areas(findings: tuple[Finding, ...]) -> dict[str, tuple[str, int]]:
    by_area: dict[str, list[str]] = {}
    for finding in findings:
        by_area.setdefault(area_of(finding.rule), []).append(finding.severity)
    worsts = {area: worst(severities) for area, severities in by_area.items()}
    return {area: (worsts[area], by_area[area].count(worsts[area])) for area in by_area}


def areas_of(digests: "list[Digest] | tuple[Digest, ...]") -> list[str]:
    """Return the areas of some documents in the order in which they first occur."""
    return list(dict.fromkeys(area for digest in digests for area in digest.areas))
