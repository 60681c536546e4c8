"""Loading: from bytes to a document, or to every located problem that keeps it from being one."""

from collections.abc import Mapping
from dataclasses import dataclass, replace
from itertools import islice
from pathlib import Path
from typing import Any

from pydantic import ValidationError
from pydantic_core import ErrorDetails

from speccheck.document.contradiction import contradictions
from speccheck.document.curve import curve_problems
from speccheck.document.document import Document
from speccheck.document.meeting import meeting_problems
from speccheck.document.nodes import MOST_PROBLEMS
from speccheck.document.problem import Mark, Problem, Unreadable
from speccheck.document.references import Known, names_of, reference_problems
from speccheck.document.source import Source, read_file, read_source
from speccheck.document.telling import tell
from speccheck.document.together import together_problems

__all__ = ["Loaded", "load_bytes", "load_data", "load_file"]

DocumentPath = tuple[str | int, ...]


@dataclass(frozen=True, slots=True)
class Loaded:
    """A document with the place of each value in its file."""

    document: Document
    source: Source
    folder: Path

    @property
    def name(self) -> str:
        """Name of the file."""
        return self.source.name

    def mark(self, path: DocumentPath) -> Mark | None:
        """Return line and column of the value at a document path, or of what holds it."""
        return self.source.mark(path)


def load_file(path: Path, known: Known) -> Loaded:
    """Return the document in a file.

    Raises:
        Unreadable: with every problem found, each with line and column.
    """
    return _loaded(read_file(path), path.parent, known)


def load_bytes(data: bytes, name: str, known: Known, folder: Path = Path()) -> Loaded:
    """Return the document in bytes; ``name`` stands for the file in messages."""
    return _loaded(read_source(data, name), folder, known)


def load_data(data: Mapping[str, Any], name: str, known: Known, folder: Path = Path()) -> Loaded:
    """Return the document in plain data, such as another document with a change."""
    return _loaded(Source(data=dict(data), marks={}, name=name, problems=()), folder, known)


def _loaded(source: Source, folder: Path, known: Known) -> Loaded:
    document, errors = _validated(source)
    problems = list(source.problems)
    # a place already told, such as a word on which YAML readers disagree, is not told a second time
    told = {(problem.path, problem.mark) for problem in problems}
    names = names_of(source.data)
    for found in (
        tell(source, Document, errors),
        reference_problems(source, known, names),
        together_problems(source, names),
        meeting_problems(source, names),
        curve_problems(source),
        contradictions(source, known.place, known.distance),
    ):
        fresh = [p for p in islice(found, MOST_PROBLEMS + 1) if (p.path, p.mark) not in told]
        told.update((problem.path, problem.mark) for problem in fresh)
        problems += fresh
    if document is None or problems:
        raise Unreadable(*_bounded(sorted(problems, key=_order), source.name))
    return Loaded(document, source, folder)


def _validated(source: Source) -> tuple[Document | None, list[ErrorDetails]]:
    try:
        return Document.model_validate(source.data), []
    except ValidationError as error:
        return None, error.errors(include_url=False)


def _bounded(problems: list[Problem], name: str) -> list[Problem]:
    """Cut a long list of problems and say so."""
    if len(problems) <= MOST_PROBLEMS:
        return problems
    more = Problem("there are more problems than these", "", "mend those told and read again", file=name)
    last = problems[MOST_PROBLEMS - 1].mark
    return [*problems[:MOST_PROBLEMS], replace(more, mark=last)]


def _order(problem: Problem) -> tuple[int, int, str]:
    mark = problem.mark
    return (mark.line, mark.column, problem.what) if mark else (0, 0, problem.what)
