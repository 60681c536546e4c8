"""What a correction letter says: numbered comments in three groups, each with its place, what to show, and the clause.

A comment is a *correction* only where a code edition the project adopts is the source of the limit; a trade rule gives
a *note*. What is not shown is *information needed*, which is another thing than shown and wrong. The parts follow
public lists of plan review (numbered comments with clause, a written response, clouded changes: common practice).
"""

from collections.abc import Iterator, Sequence
from typing import NamedTuple

from speccheck.judgement.finding import Finding, Level
from speccheck.report.assembly_names import called
from speccheck.report.good_for import good_for, good_for_line
from speccheck.report.letter.basis import CODES, Notes, adopted_codes, basis_of
from speccheck.report.remedies import joined
from speccheck.report.summary import Question, summarise
from speccheck.report.wording import limit_words, margin_words, rule_words
from speccheck.uses.check import Checked

__all__ = ["Comment", "CommentGroup", "Letter", "letter_of"]

_TITLES = (
    ("Outside a rule", "Shown, and outside a limit or in a band that calls for care."),
    ("Not shown", "Needed for the review and not found in the document."),
    ("For a specialist", "Outside what these rules can judge: a licensed or specialist person decides."),
)


class Comment(NamedTuple):
    """One comment.

    ``where`` names junction, layer or assembly, an assembly with what the document calls it; ``status`` is correction,
    note, information needed or refer; ``show`` says what to show or change where something was shown and does not hold;
    ``basis`` names the clause, or the trade rule where no adopted clause stands behind it.
    """

    number: int
    where: str
    status: str
    says: str
    show: str
    basis: str


class CommentGroup(NamedTuple):
    """The comments of one kind."""

    title: str
    about: str
    comments: tuple[Comment, ...]


class Letter(NamedTuple):
    """A letter about one document.

    ``day`` is that against which waivers were held, empty where none was given; ``notes`` are sources that the comments
    refer to by number, the first is 1.
    """

    project: str
    file: str
    codes: tuple[str, ...]
    day: str
    groups: tuple[CommentGroup, ...]
    waived: tuple[str, ...]
    notes: tuple[str, ...] = ()

    @property
    def total(self) -> int:
        """How many comments there are."""
        return sum(len(group.comments) for group in self.groups)


def letter_of(checked: Checked, system: str = "both") -> Letter:
    """Return the letter about a document, in the units of a system: ``both``, ``us`` or ``si``."""
    draft = _Draft(checked, system)
    project = checked.loaded.document.project
    packs = [f"{pack.title} ({pack.edition})" for pack in checked.packs if pack.id.startswith(CODES)]
    groups = tuple(_numbered((list(draft.outside()), list(draft.not_shown()), list(draft.referred()))))
    return Letter(
        project=project.name or "",
        file=checked.loaded.name,
        codes=(*packs, *(f"{edition} (no pack held)" for edition in checked.missing_editions)),
        day=checked.today.isoformat() if checked.today else "",
        groups=groups,
        waived=tuple(f"{f.title} ({f.place}): {f.waiver}" for f in draft.summary.findings if f.waiver),
        notes=draft.notes.sources,
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


class _Draft:
    """The comments of a letter while it is written: what they share is read once."""

    def __init__(self, checked: Checked, system: str) -> None:
        self.surveyed = checked.surveyed
        self.system = system
        self.findings = checked.findings
        self.summary = summarise(checked.findings)
        self.notes = Notes()
        self._adopted = adopted_codes(checked)
        self._all_held = not checked.missing_editions
        self._subjects = {subject.place: subject.kind for subject in checked.surveyed.subjects}
        self._checked = checked

    def outside(self) -> Iterator[Comment]:
        found = [f for f in self.summary.findings if f.level is Level.WARN]
        order = list(self.summary.counts)
        for finding in sorted(found, key=lambda f: (order.index(f.severity), not _of_code(f))):
            says = _stopped(finding.reason)
            if finding.measured is not None:
                limit = limit_words(finding.measured, self.system)
                says += f" {limit[0].upper()}{limit[1:]}; {_stopped(margin_words(finding, self.system))}"
            says += f"{self._good_for(finding)} {rule_words(finding)}"
            status = "correction" if _of_code(finding) and finding.strength == "outside" else "note"
            yield self._comment(finding.place, status, says, joined(finding.do, finding.do_is), [finding])

    def not_shown(self) -> Iterator[Comment]:
        by_key = {finding.key: finding for finding in self.findings}
        for question in self.summary.questions:
            waiting = [by_key[key] for key in question.waiting if key in by_key]
            says = f"{question.question} {_wanted(question, waiting)}{_needed_for(waiting)}"
            yield self._comment(question.place, "information needed", says, "", waiting)

    def referred(self) -> Iterator[Comment]:
        for finding in self.summary.findings:
            if finding.level is Level.REFER:
                says = f"{_stopped(finding.reason)}{self._good_for(finding)} {rule_words(finding)}"
                show = joined(finding.do, finding.do_is)
                yield self._comment(finding.place, "refer", says, show, [finding])

    def _comment(self, place: str, status: str, says: str, show: str, findings: Sequence[Finding]) -> Comment:
        basis = basis_of(findings, self._adopted, self.notes, all_held=self._all_held)
        return Comment(0, self._where(place), status, says, show, basis)

    def _good_for(self, finding: Finding) -> str:
        """Return the room humidity the assembly is good for as a sentence to follow, empty where it matters not."""
        limits = good_for(self.surveyed, finding)
        return "" if limits is None else f" Good for: {good_for_line(limits, self.system)}."

    def _where(self, place: str) -> str:
        kind = self._subjects.get(place, "")
        if kind == "layer":
            assembly, _, layer = place.partition(".")
            return f"{called(self._checked, assembly)}, layer {layer}"
        if kind == "assembly":
            return f"{kind} {called(self._checked, place)}"
        return f"{kind} {place}" if kind and kind != place else place


def _needed_for(waiting: Sequence[Finding]) -> str:
    titles = list(dict.fromkeys(finding.title for finding in waiting))
    more = f", and {len(titles) - 3} more" if len(titles) > 3 else ""
    return f"Needed for: {'; '.join(titles[:3])}{more}."


def _wanted(question: Question, waiting: Sequence[Finding]) -> str:
    """Return what to show; empty where a rule itself asks, whose name would tell an applicant nothing."""
    return "" if question.wanted in {f.rule for f in waiting} else f"Show the {question.wanted}. "


def _of_code(finding: Finding) -> bool:
    return finding.pack.startswith(CODES)


def _stopped(sentence: str) -> str:
    return sentence if sentence.endswith((".", "?", "!")) else f"{sentence}."
