"""Subjects: the things of a document that rules look at, each with the facts it can see."""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass, field

from speccheck.survey.fact import Fact, FactValue
from speccheck.survey.ledger import Ledger, Page

__all__ = ["Subject", "Surveyed"]


@dataclass(slots=True)
class Subject:
    """One thing a rule may look at: its kind, its name in reports, its place in the document, what it sees.

    ``pages`` hold the facts of the thing itself first, then those of its assembly, the climate and the project.
    ``values`` holds the known ones by name.
    """

    kind: str
    place: str
    path: tuple[str | int, ...]
    pages: tuple[Page, ...]
    values: dict[str, FactValue] = field(default_factory=dict)

    def __post_init__(self) -> None:
        for page in reversed(self.pages):
            self.values.update(page.known)

    def fact(self, name: str) -> Fact | None:
        """Return the fact of that name as seen from here, or None where the survey has not entered it."""
        for page in self.pages:
            found = page.fact(name)
            if found is not None:
                return found
        return None


@dataclass(slots=True)
class Surveyed:
    """What a survey gives: all facts, and the subjects in document order, the project first."""

    ledger: Ledger
    subjects: Sequence[Subject]

    def settle(self) -> None:
        """Work out every fact that was left for later."""
        for page in self.ledger:
            page.settle()

    def let_go(self) -> None:
        """Drop what was left for later and nobody asked for: it holds the pages, and the pages hold it.

        Without it a document is freed when it is done with, not when memory is next looked through.
        """
        for page in self.ledger:
            page.let_go()

    def facts(self) -> Iterator[Fact]:
        """Yield every fact in the order of the document."""
        self.settle()
        for page in self.ledger:
            yield from page.facts.values()

    def of_kind(self, kind: str) -> Iterator[Subject]:
        """Yield the subjects of one kind."""
        return (subject for subject in self.subjects if subject.kind == kind)
