"""Annotations for a code host's workflow: one command a line, which the runner shows beside the line of the document.

The runner reads commands from the output of a step; what a document says must never become one. So nothing is written
but commands, and everything in them is escaped as the runner unescapes it.
"""

from speccheck.document.problem import printable
from speccheck.judgement.finding import SEVERITIES, Finding
from speccheck.report.counting import findings_that_count
from speccheck.report.formats import Format, Manner, Run
from speccheck.report.problem_words import problem_words
from speccheck.report.remedies import joined
from speccheck.report.summary import summarise, worst
from speccheck.report.wording import DEFERRAL, LABELS, rule_words, verdict_words
from speccheck.uses.baseline import Against
from speccheck.uses.check import Checked

__all__ = ["FORMAT", "annotation"]

_COMMANDS = {"outside": "warning", "caution": "warning", "refer": "notice", "ask": "notice"}
_LONGEST = 4_000
_NOT_COUNTED = "As in the baseline, so it does not count. "


def annotation(
    command: str, message: str, title: str = "", file: str = "", line: int = 0, column: int = 0
) -> str:
    r"""Return one workflow command.

    Args:
        command: ``error``, ``warning`` or ``notice``.
        message: what to show.
        title: its title.
        file: the file it stands beside, none where empty.
        line: counted from 1; 0 where there is none.
        column: counted from 1; 0 where there is none.

    Example:
        >>> annotation("notice", "50 % shown\n::error::no", "a: b", "x,y.yaml", 3)
        '::notice file=x%2Cy.yaml,line=3,title=a%3A b::50 %25 shown\\n::error::no'
    """
    given = {"file": file, "line": line or "", "col": column or "", "title": title}
    properties = ",".join(f"{name}={_property(str(value))}" for name, value in given.items() if value)
    return f"::{command}{' ' if properties else ''}{properties}::{_data(message)}"


def _data(text: str) -> str:
    return printable(text, _LONGEST).replace("%", "%25").replace("\r", "%0D").replace("\n", "%0A")


def _property(text: str) -> str:
    return _data(text).replace(":", "%3A").replace(",", "%2C")


def _part(checked: Checked, manner: Manner, against: Against | None) -> list[tuple[int, str]]:
    """Return the annotations of one document, each with its rank."""
    counting = findings_that_count(checked.findings, "ask", against)
    return [
        (SEVERITIES.index(finding.severity), _of(finding, checked.loaded.name, finding.key in counting))
        for finding in summarise(checked.findings).findings
        if finding.severity in _COMMANDS
    ]


def _of(finding: Finding, file: str, counting: bool) -> str:
    """Return the annotation of a finding; what is as in the baseline is shown, but as a notice."""
    title = f"{LABELS[finding.severity]} {finding.rule} [{finding.place}]"
    command = _COMMANDS[finding.severity] if counting else "notice"
    words = f"{'' if counting else _NOT_COUNTED}{finding.reason}"
    words += f" Do: {joined(finding.do, finding.do_is)}" if finding.do else ""
    words += f" {rule_words(finding)}"
    return annotation(command, words, title, file, finding.line, finding.column)


def _whole(run: Run) -> str:
    """Return all annotations, the worst first: the runner shows no more than ten of a kind."""
    lines = []
    for name, problems in run.unread:
        for problem in problems:
            line, column = (problem.mark.line, problem.mark.column) if problem.mark else (0, 0)
            lines.append(annotation("error", problem_words(problem), "could not be read", name, line, column))
    ranked = [entry for one in run.told for entry in one.part]
    lines += [line for _, line in sorted(ranked, key=lambda entry: entry[0])]
    counts = {severity: sum(one.counts[severity] for one in run.digests) for severity in SEVERITIES}
    verdict = verdict_words(worst(s for s, count in counts.items() if count), counts)
    lines.append(annotation("notice", f"{verdict}. {DEFERRAL}", "speccheck"))
    return "\n".join(lines) + "\n"


FORMAT = Format(_part, _whole, ".txt")
"""For the log of a workflow."""
