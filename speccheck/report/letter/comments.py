"""What a correction letter says: numbered comments in three groups, each with its place, what to show, and the clause.

A comment is a *correction* only where a code edition the project adopts is the source of the limit; a trade rule gives
a *note*. What is not shown is *information needed*, which is another thing than shown and wrong. The parts follow
public lists of plan review (numbered comments with clause, a written response, clouded changes: common practice).
"""

from collections.abc import Iterable, Iterator, Mapping, Sequence
from typing import NamedTuple

from speccheck.judgement.finding import Finding, Level
from speccheck.report.good_for import good_for, good_for_line
from speccheck.report.summary import Question, Summary, summarise
from speccheck.report.wording import limit_words, margin_words, rule_words
from speccheck.survey import Surveyed
from speccheck.uses.check import Checked

__all__ = ["Comment", "CommentGroup", "Letter", "letter_of"]

_CODES = "codes/"
_CLAUSES = 3
_TITLES = (
    ("Outside a rule", "Shown, and outside a limit or in a band that calls for care."),
    ("Not shown", "Needed for the review and not found in the document."),
    ("For a specialist", "Outside what these rules can judge: a licensed or specialist person decides."),
)


class Comment(NamedTuple):
    """One comment.

    ``where`` names assembly, layer or junction; ``status`` is correction, note, information needed or refer; ``show``
    says what to show or change where something was shown and does not hold; ``basis`` names the clause, or the trade
    rule where no adopted clause stands behind it.
    """

    number: int
    where: str
    status: str
    says: str
    show: tuple[str, ...]
    basis: str


class CommentGroup(NamedTuple):
    """The comments of one kind."""

    title: str
    about: str
    comments: tuple[Comment, ...]


class Letter(NamedTuple):
    """A letter about one document; ``day`` is that against which waivers were held, empty where none was given."""

    project: str
    file: str
    codes: tuple[str, ...]
    day: str
    groups: tuple[CommentGroup, ...]
    waived: tuple[str, ...]

    @property
    def total(self) -> int:
        """How many comments there are."""
        return sum(len(group.comments) for group in self.groups)


def letter_of(checked: Checked, system: str = "both") -> Letter:
    """Return the letter about a document, in the units of a system: ``both``, ``us`` or ``si``."""
    summary = summarise(checked.findings)
    subjects = {subject.place: subject.kind for subject in checked.surveyed.subjects}
    project = checked.loaded.document.project
    packs = [f"{pack.title} ({pack.edition})" for pack in checked.packs if pack.id.startswith(_CODES)]
    drafts = (
        list(_outside(summary, subjects, checked.surveyed, system)),
        list(_not_shown(summary, checked.findings, subjects)),
        list(_referred(summary, subjects, checked.surveyed, system)),
    )
    return Letter(
        project=project.name or "",
        file=checked.loaded.name,
        codes=(*packs, *(f"{edition} (no pack held)" for edition in checked.missing_editions)),
        day=checked.today.isoformat() if checked.today else "",
        groups=tuple(_numbered(drafts)),
        waived=tuple(f"{f.title} ({f.place}): {f.waiver}" for f in summary.findings if f.waiver),
    )


def _numbered(drafts: Sequence[Sequence[Comment]]) -> Iterator[CommentGroup]:
    number = 0
    for (title, about), comments in zip(_TITLES, drafts, strict=True):
        found = []
        for comment in comments:
            number += 1
            found.append(comment._replace(number=number))
        if found:
            yield CommentGroup(title, about, tuple(found))


def _outside(
    summary: Summary, subjects: Mapping[str, str], surveyed: Surveyed, system: str
) -> Iterator[Comment]:
    found = [f for f in summary.findings if f.level is Level.WARN]
    order = list(summary.counts)
    for finding in sorted(found, key=lambda f: (order.index(f.severity), not _of_code(f))):
        says = _stopped(finding.reason)
        if finding.measured is not None:
            limit = limit_words(finding.measured, system)
            says += f" {limit[0].upper()}{limit[1:]}; {_stopped(margin_words(finding, system))}"
        says += f"{_good_for(finding, surveyed, system)} {rule_words(finding)}"
        status = "correction" if _of_code(finding) and finding.strength == "outside" else "note"
        yield Comment(0, _where(finding.place, subjects), status, says, finding.do, _basis([finding]))


def _not_shown(
    summary: Summary, findings: Iterable[Finding], subjects: Mapping[str, str]
) -> Iterator[Comment]:
    by_key = {finding.key: finding for finding in findings}
    for question in summary.questions:
        waiting = [by_key[key] for key in question.waiting if key in by_key]
        yield Comment(
            0,
            _where(question.place, subjects),
            "information needed",
            f"{question.question} {_wanted(question, waiting)}{_needed_for(waiting)}",
            (),
            _basis(waiting),
        )


def _needed_for(waiting: Sequence[Finding]) -> str:
    titles = list(dict.fromkeys(finding.title for finding in waiting))
    more = f", and {len(titles) - 3} more" if len(titles) > 3 else ""
    return f"Needed for: {'; '.join(titles[:3])}{more}."


def _wanted(question: Question, waiting: Sequence[Finding]) -> str:
    """Return what to show; empty where a rule itself asks, whose name would tell an applicant nothing."""
    return "" if question.wanted in {f.rule for f in waiting} else f"Show the {question.wanted}. "


def _referred(
    summary: Summary, subjects: Mapping[str, str], surveyed: Surveyed, system: str
) -> Iterator[Comment]:
    for finding in summary.findings:
        if finding.level is Level.REFER:
            says = f"{_stopped(finding.reason)}{_good_for(finding, surveyed, system)} {rule_words(finding)}"
            yield Comment(0, _where(finding.place, subjects), "refer", says, finding.do, _basis([finding]))


def _good_for(finding: Finding, surveyed: Surveyed, system: str) -> str:
    """Return the room humidity the assembly is good for as a sentence to follow, empty where it does not matter."""
    limits = good_for(surveyed, finding)
    return "" if limits is None else f" Good for: {good_for_line(limits, system)}."


def _of_code(finding: Finding) -> bool:
    return finding.pack.startswith(_CODES)


def _basis(findings: Sequence[Finding]) -> str:
    """Return the clause of an adopted code where one stands behind a comment, else the trade rule's own source."""
    adopted = [finding for finding in findings if _of_code(finding)]
    sources = list(dict.fromkeys(source for f in adopted or findings for source in f.sources))
    most = _CLAUSES if adopted else 1
    more = f"; and {len(sources) - most} more" if len(sources) > most else ""
    words = "; ".join(sources[:most]) + more
    return words if adopted else f"Trade rule, no clause of an adopted code. {words}".rstrip()


def _where(place: str, subjects: Mapping[str, str]) -> str:
    kind = subjects.get(place, "")
    if kind == "layer":
        assembly, _, layer = place.partition(".")
        return f"{assembly}, layer {layer}"
    return f"{kind} {place}" if kind and kind != place else place


def _stopped(sentence: str) -> str:
    return sentence if sentence.endswith((".", "?", "!")) else f"{sentence}."
