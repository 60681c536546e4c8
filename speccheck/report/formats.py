"""The formats of a check: how each tells one document, and how it puts many together.

A format is a room that holds a ``FORMAT``. Its ``part`` runs where the document is checked, perhaps in another
process, so what it gives back is small and picklable; its ``whole`` makes the output of all parts. Rooms are imported
by name, and only the one that is asked for.
"""

from collections.abc import Callable, Sequence
from importlib import import_module
from typing import TYPE_CHECKING, Any, NamedTuple

from speccheck.document import Problem
from speccheck.quantity import System
from speccheck.report.digest import Digest, digest_of
from speccheck.uses.check import Checked

if TYPE_CHECKING:
    from speccheck.uses.baseline import Against

__all__ = ["FORMATS", "Format", "Manner", "Run", "Told", "format_named", "tell"]

_ROOMS = {
    "text": "speccheck.report.text",
    "json": "speccheck.report.plain",
    "matrix": "speccheck.report.matrix",
    "csv": "speccheck.report.spreadsheet",
    "markdown": "speccheck.report.markdown",
    "sarif": "speccheck.report.sarif",
    "junit": "speccheck.report.junit",
    "github": "speccheck.report.annotations",
    "html": "speccheck.report.page.format",
    "letter": "speccheck.report.letter.markdown",
    "letter-html": "speccheck.report.letter.page",
    "brief": "speccheck.report.brief.markdown",
    "brief-html": "speccheck.report.brief.page",
}
FORMATS = tuple(_ROOMS)


class Manner(NamedTuple):
    """How a report is to be told."""

    units: System = "both"
    full: bool = False
    facts: bool = False
    width: int = 80
    fail_on: str = "ask"


class Told(NamedTuple):
    """One document as a format tells it."""

    digest: Digest
    part: Any


class Run(NamedTuple):
    """A run over some documents: what was told of each, and those that could not be read with their problems."""

    told: Sequence[Told]
    unread: Sequence[tuple[str, Sequence[Problem]]]
    manner: Manner
    status: int = 0

    @property
    def digests(self) -> list[Digest]:
        """The digests in order."""
        return [one.digest for one in self.told]


class Format(NamedTuple):
    """How a format is made: of each document, of all of them, how its files end, and whether one tells one document."""

    part: "Callable[[Checked, Manner, Against | None], Any]"
    whole: Callable[[Run], str]
    ending: str
    alone: bool = False


def format_named(name: str) -> Format:
    """Return a format by its name; raises KeyError for a name that is none of FORMATS."""
    found: Format = import_module(_ROOMS[name]).FORMAT
    return found


def tell(checked: Checked, name: str, manner: Manner, against: "Against | None" = None) -> Told:
    """Return one document as a format tells it."""
    return Told(
        digest_of(checked, manner.fail_on, against), format_named(name).part(checked, manner, against)
    )
