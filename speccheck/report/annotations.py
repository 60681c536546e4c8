"""Annotations for a code host's workflow: one command a line, which the runner shows beside the line of the document.

The runner reads commands from the output of a step; what a document says must never become one. So nothing is written
but commands, and everything in them is escaped as the runner unescapes it. A runner shows only so many of a kind in a
step and drops the rest without a word; so no more are written, and the last one says how many there are besides.
"""

from collections.abc import Sequence
from typing import NamedTuple

from speccheck.document import Problem
from speccheck.document.problem import printable
from speccheck.judgement.finding import SEVERITIES, Finding
from speccheck.report.counting import findings_that_count
from speccheck.report.formats import Format, Manner, Run
from speccheck.report.problem_words import problem_words
from speccheck.report.remedies import joined
from speccheck.report.run_words import run_words
from speccheck.report.summary import summarise
from speccheck.report.wording import DEFERRAL, rule_words
from speccheck.uses.baseline import Against
from speccheck.uses.check import Checked

__all__ = ["FORMAT", "annotation"]

_COMMANDS = {"outside": "warning", "caution": "warning", "refer": "notice", "ask": "notice"}
_TITLES = {"outside": "Outside a published limit", "caution": "Caution", "refer": "Refer", "ask": "Ask"}
_LONGEST = 4_000
_NOT_COUNTED = "As in the baseline, so it does not count. "
_MOST = 10
"""Annotations of one kind that the runner shows of a step; by its published documentation, from memory."""


class _Note(NamedTuple):
    """One annotation of a finding, with what it is sorted by: what counts first, then the worse."""

    command: str
    rank: tuple[bool, int]
    line: str


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


def _part(checked: Checked, manner: Manner, against: Against | None) -> list[_Note]:
    """Return the annotations of one document."""
    counting = findings_that_count(checked.findings, "ask", against)
    return [
        _of(finding, checked.loaded.name, finding.key in counting)
        for finding in summarise(checked.findings).findings
        if finding.severity in _COMMANDS
    ]


def _of(finding: Finding, file: str, counting: bool) -> _Note:
    """Return the annotation of a finding; what is as in the baseline is shown, but as a notice."""
    title = f"{_TITLES[finding.severity]}: {finding.rule} [{finding.place}]"
    command = _COMMANDS[finding.severity] if counting else "notice"
    words = f"{'' if counting else _NOT_COUNTED}{finding.reason}"
    words += f" Do: {joined(finding.do, finding.do_is)}" if finding.do else ""
    words += f" {rule_words(finding)}"
    line = annotation(command, words, title, file, finding.line, finding.column)
    return _Note(command, (not counting, SEVERITIES.index(finding.severity)), line)


def _whole(run: Run) -> str:
    """Return the annotations: the summary, which nothing may cut off, then of each kind the worst, as many as show."""
    errors = [_error(name, problem) for name, problems in run.unread for problem in problems]
    notes = sorted((note for one in run.told for note in one.part), key=lambda note: note.rank)
    warnings, notices = (
        [note.line for note in notes if note.command == command] for command in ("warning", "notice")
    )
    summary = annotation("notice", f"{run_words(run)}. {DEFERRAL}", "speccheck")
    lines = [
        summary,
        *_shown("error", errors, _MOST),
        *_shown("warning", warnings, _MOST),
        *_shown("notice", notices, _MOST - 1),
    ]
    return "\n".join(lines) + "\n"


def _error(name: str, problem: Problem) -> str:
    line, column = (problem.mark.line, problem.mark.column) if problem.mark else (0, 0)
    return annotation("error", problem_words(problem), "could not be read", name, line, column)


def _shown(command: str, lines: Sequence[str], most: int) -> Sequence[str]:
    """Return what the runner shows; where it would drop some, the last line says how many are told elsewhere."""
    if len(lines) <= most:
        return lines
    more = len(lines) - most + 1
    words = f"and {more} more, which a runner would not show here; the report in text, Markdown or HTML tells them"
    return [*lines[: most - 1], annotation(command, words, "speccheck")]


FORMAT = Format(_part, _whole, ".txt")
"""For the log of a workflow."""
