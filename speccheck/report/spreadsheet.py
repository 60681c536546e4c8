"""The matrix of many documents as CSV, safe to open in a spreadsheet."""

import csv
import io
from collections.abc import Sequence

from speccheck.document.problem import printable
from speccheck.judgement.finding import SEVERITIES
from speccheck.report.digest import Digest, areas_of
from speccheck.report.formats import Format, Manner, Run
from speccheck.report.matrix import CELLS
from speccheck.uses.baseline import Against
from speccheck.uses.check import Checked

__all__ = ["FORMAT", "csv_matrix", "inert"]

_LIVE = ("=", "+", "-", "@", "\t", "\r", "\n", "|", "%", "＝", "＋", "－", "＠")
"""What makes a spreadsheet read a cell as a formula or a command when it stands first, wide forms included."""
_LONGEST = 500


def inert(text: str) -> str:
    r"""Return text that a spreadsheet shows and does not run: an apostrophe is put before what could start a formula.

    Example:
        >>> inert("=1+1"), inert("  @SUM(A1)"), inert("north wall"), inert("a\tb")
        ("'=1+1", "'  @SUM(A1)", 'north wall', 'a\\tb')
    """
    live = text.lstrip(" ").startswith(_LIVE)
    shown = printable(text, _LONGEST)
    return f"'{shown}" if live else shown


def csv_matrix(digests: Sequence[Digest], unread: Sequence[str] = ()) -> str:
    """Return the matrix as CSV by RFC 4180: a header, a row for each document, lines that end in CR LF."""
    areas = areas_of(list(digests))
    stream = io.StringIO()
    writer = csv.writer(stream, lineterminator="\r\n")
    writer.writerow(["document", "project", "verdict", *(CELLS[s] for s in SEVERITIES), *map(inert, areas)])
    for one in digests:
        cells = [CELLS[one.areas[area][0]] if area in one.areas else "" for area in areas]
        counts = [one.counts[severity] for severity in SEVERITIES]
        writer.writerow([inert(one.file), inert(one.project), CELLS[one.verdict], *counts, *cells])
    for name in unread:
        writer.writerow([inert(name), "", "unread", *[""] * (len(SEVERITIES) + len(areas))])
    return stream.getvalue()


def _part(checked: Checked, manner: Manner, against: Against | None) -> None:
    """A document adds nothing but its digest."""
    del checked, manner, against


def _whole(run: Run) -> str:
    return csv_matrix(run.digests, [name for name, _ in run.unread])


FORMAT = Format(_part, _whole, ".csv")
"""For a spreadsheet."""
