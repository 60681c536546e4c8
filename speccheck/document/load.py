"""Loading: from bytes to a document, or to every located problem that keeps it from being one."""

from collections.abc import Mapping
from dataclasses import dataclass
from pathlib import Path
from typing import Any

from pydantic import ValidationError

from speccheck.document.document import Document
from speccheck.document.problem import Mark, Problem, Unreadable
from speccheck.document.references import Known, reference_problems
from speccheck.document.source import Source, read_file, read_source
from speccheck.document.telling import tell

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

    Raises
    ------
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
    problems = list(source.problems)
    document = None
    try:
        document = Document.model_validate(source.data)
    except ValidationError as error:
        # a value already refused as written (a YAML trap, a repeated key) is not told a second time
        refused = {problem.path for problem in problems}
        problems.extend(p for p in tell(source, Document, error.errors(include_url=False)) if p.path not in refused)
    problems.extend(reference_problems(source, known))
    if document is None or problems:
        raise Unreadable(*sorted(problems, key=_order))
    return Loaded(document, source, folder)


def _order(problem: Problem) -> tuple[int, int, str]:
    mark = problem.mark
    return (mark.line, mark.column, problem.what) if mark else (0, 0, problem.what)
