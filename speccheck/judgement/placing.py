"""Placing: each finding gets the file, line and column of the thing it speaks of."""

from typing import Protocol

from speccheck.judgement.finding import Finding

__all__ = ["Marked", "placed"]


class _Mark(Protocol):
    @property
    def line(self) -> int: ...
    @property
    def column(self) -> int: ...


class Marked(Protocol):
    """A document that knows where its values stand."""

    @property
    def name(self) -> str:
        """Name of the file."""

    def mark(self, path: tuple[str | int, ...]) -> _Mark | None:
        """Return the place of the value at a path, or of what holds it."""


def placed(finding: Finding, document: Marked) -> Finding:
    """Return the finding with file, line and column."""
    mark = document.mark(finding.path)
    line, column = (mark.line, mark.column) if mark is not None else (0, 0)
    return finding._replace(file=document.name, line=line, column=column)
