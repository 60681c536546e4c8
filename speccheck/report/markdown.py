"""The summary for a pull request in Markdown: the verdict, a table of the documents, what counts, the questions."""

from collections.abc import Iterable, Sequence
from typing import NamedTuple

from speccheck.document import Problem
from speccheck.judgement.finding import SEVERITIES, Finding
from speccheck.report.assembly_names import assembly_name
from speccheck.report.baseline_text import held_against, move_words, outcome_words
from speccheck.report.counting import findings_that_count
from speccheck.report.digest import Digest
from speccheck.report.formats import Format, Manner, Run
from speccheck.report.markdown_text import code, plain, worded
from speccheck.report.matrix import CELLS
from speccheck.report.problem_words import problem_words
from speccheck.report.remedies import joined
from speccheck.report.run_words import run_words
from speccheck.report.summary import summarise
from speccheck.report.wording import DEFERRAL, LABELS, limit_words, margin_words, rule_words
from speccheck.uses.baseline import Against
from speccheck.uses.check import Checked
from speccheck.uses.compare import Move

__all__ = ["FORMAT", "markdown_summary"]

_MOST = 60_000
"""Characters written at most: code hosts take comments of up to 65,536."""
_QUESTIONS = 12
_SHOWN = ("outside", "caution", "refer")
_HEADER = ("document", "project", "verdict", *SEVERITIES)


class _Part(NamedTuple):
    title: str
    lines: tuple[str, ...]


def markdown_summary(run: Run) -> str:
    """Return the summary of a run; where it would be too long for a comment it is cut at the end of an entry."""
    lines = [
        f"## speccheck: {plain(run_words(run))}",
        "",
        plain(DEFERRAL),
        "",
        *_table(run.digests, [name for name, _ in run.unread]),
    ]
    for name, problems in run.unread:
        lines += ["", f"### {code(name)} could not be read", ""]
        lines += [f"- {_problem(problem)}" for problem in problems[:_QUESTIONS]]
    for one in run.told:
        part: _Part = one.part
        if part.lines:
            lines += ["", f"### {part.title}", "", *part.lines]
    return _bounded(lines)


def _problem(problem: Problem) -> str:
    where = f"line {problem.mark.line}: " if problem.mark else ""
    return where + worded(problem_words(problem))


def _table(digests: Sequence[Digest], unread: Sequence[str]) -> list[str]:
    rows = [
        [
            code(one.file),
            plain(one.project),
            CELLS[one.verdict],
            *(str(one.counts[s] or "") for s in SEVERITIES),
        ]
        for one in digests
    ]
    rows += [[code(name), "", "unread", *[""] * len(SEVERITIES)] for name in unread]
    header = [CELLS.get(name, name) for name in _HEADER]
    return [_row(header), _row(["---"] * len(header)), *map(_row, rows)]


def _row(cells: Iterable[str]) -> str:
    return f"| {' | '.join(cells)} |"


def _bounded(lines: Sequence[str]) -> str:
    room = _MOST
    kept: list[str] = []
    for line in lines:
        room -= len(line) + 1
        if room < 0:
            kept += ["", "This summary is cut here; the whole report says more."]
            break
        kept.append(line)
    return "\n".join(kept) + "\n"


def _part(checked: Checked, manner: Manner, against: Against | None) -> _Part:
    lines: list[str] = []
    if against is not None:
        which = held_against(against, checked.loaded.name)
        words = f"{outcome_words(against.trends)}{f' ({which})' if which else ''}"
        lines.append(f"- against the baseline {code(against.baseline)}: {plain(words)}")
    moves = {move.record.key: move for move in against.moves} if against else {}
    counting = findings_that_count(checked.findings, manner.fail_on, against)
    summary = summarise(checked.findings)
    lines += [
        _entry(finding, _named(checked, finding), manner, finding.key in counting, moves.get(finding.key))
        for finding in summary.findings
        if finding.severity in _SHOWN
    ]
    waived = [finding for finding in summary.findings if finding.waiver]
    lines += [f"- waived: {plain(f.title)} at {code(f.place)}. {plain(f.waiver)}" for f in waived]
    for question in summary.questions[:_QUESTIONS]:
        lines.append(f"- ask at {code(question.place)}: {worded(question.question)}")
    more = len(summary.questions) - _QUESTIONS
    lines += [f"- and {more} more questions in the whole report"] if more > 0 else []
    return _Part(code(checked.loaded.name), tuple(lines))


def _named(checked: Checked, finding: Finding) -> str:
    """Return the place of a finding, with what the document calls the assembly it lies in."""
    name = assembly_name(checked, finding.place) if finding.subject in ("assembly", "layer") else ""
    return f"{code(finding.place)}{f' ({plain(name)})' if name else ''}"


def _entry(finding: Finding, place: str, manner: Manner, counting: bool, move: Move | None) -> str:
    words = f"- **{LABELS[finding.severity]}** at {place}"
    words += f" (line {finding.line})" if finding.line else ""
    words += f": {worded(finding.reason)}"
    if finding.measured is not None:
        limits = f"{limit_words(finding.measured, manner.units)}; {margin_words(finding, manner.units)}"
        words += f" {plain(limits[0].upper() + limits[1:])}."
    if finding.do:
        words += f" Do: {worded(joined(finding.do, finding.do_is))}"
    note = "" if move is None else f" *{plain(_moved(move, manner, counting))}*"
    return f"{words}{note} {plain(rule_words(finding))} {code(finding.rule)}"


def _moved(move: Move, manner: Manner, counting: bool) -> str:
    words = "as before" if move.trend == "same" else f"{move.trend}: {move_words(move, manner.units)}"
    return words if counting else f"{words}, so it does not count"


FORMAT = Format(_part, markdown_summary, ".md")
"""For a comment on a pull request."""
