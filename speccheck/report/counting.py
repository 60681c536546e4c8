"""Which findings count toward the exit status; the same answer for every format."""

from collections.abc import Collection
from typing import TYPE_CHECKING

from speccheck.judgement.finding import SEVERITIES, Finding

if TYPE_CHECKING:
    from speccheck.uses.baseline import Against

__all__ = ["CANNOT_RUN", "FAIL_ON", "counts", "exit_status", "findings_that_count"]

CANNOT_RUN = 2
FAIL_ON = ("outside", "caution", "refer", "ask", "never")
"""The mildest severity that counts."""


def counts(severity: str, fail_on: str) -> bool:
    """Does a severity count?

    Example:
        >>> counts("outside", "caution"), counts("ask", "caution"), counts("outside", "never")
        (True, False, False)
    """
    return fail_on != "never" and severity in SEVERITIES[: SEVERITIES.index(fail_on) + 1]


def findings_that_count(
    findings: Collection[Finding], fail_on: str, against: "Against | None" = None
) -> frozenset[tuple[str, str]]:
    """Return rule and place of each finding that counts; with a baseline only what is new or worse."""
    found = {finding.key for finding in findings if counts(finding.severity, fail_on)}
    return frozenset(found if against is None else found & against.counting)


def exit_status(severities: Collection[str], *, unread: bool = False) -> int:
    """Return the exit status for the severities that count.

    Args:
        severities: of the findings that count.
        unread: was there a document that could not be read?

    Returns:
        0 nothing that counts, 1 something, 2 a document could not be read, 3 open questions only.
    """
    if unread:
        return CANNOT_RUN
    return 0 if not severities else 3 if set(severities) == {"ask"} else 1
