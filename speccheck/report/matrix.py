"""The matrix of many documents for a terminal: a row for each document, a column for each area of rules."""

from collections.abc import Sequence

from speccheck.document.problem import printable
from speccheck.report.baseline_text import trend_words
from speccheck.report.digest import Digest, areas_of
from speccheck.report.formats import Format, Manner, Run
from speccheck.report.layout import Sheet
from speccheck.report.wording import DEFERRAL
from speccheck.uses.baseline import Against
from speccheck.uses.check import Checked

__all__ = ["CELLS", "FORMAT", "matrix_text"]

CELLS = {
    "outside": "outside",
    "caution": "caution",
    "refer": "refer",
    "ask": "ask",
    "held-back": "held back",
    "waived": "waived",
    "pass": "holds",
}
"""What a cell says; with it stands how many findings have that severity."""
_UNREAD = "unread"
_GAP = 2
_LEAST = 16
"""Columns a document's name gets at least."""


def matrix_text(digests: Sequence[Digest], unread: Sequence[str] = (), width: int = 80) -> str:
    """Return the matrix: in each cell the worst severity of that area of rules and how many findings have it.

    Args:
        digests: the documents that could be read.
        unread: names of those that could not.
        width: columns of the terminal; what does not fit side by side stands below.
    """
    sheet = Sheet(width)
    count = len(digests) + len(unread)
    sheet.heading(f"{count} {'document' if count == 1 else 'documents'}, worst of each area of rules")
    areas = ["verdict", *areas_of(list(digests))]
    rows = [(printable(one.file), [_cell(one, area) for area in areas]) for one in digests]
    rows += [(printable(name), [_UNREAD, *[""] * (len(areas) - 1)]) for name in unread]
    for block in _blocks(areas, rows, sheet.width):
        for line in _block(block, areas, rows, sheet.width):
            sheet.line(line)
        sheet.blank()
    trends = [one.trends for one in digests if one.trends is not None]
    if trends:
        total = {trend: sum(one[trend] for one in trends) for trend in trends[0]}
        sheet.wrap(f"Against the baseline: {trend_words(total)}.")
    sheet.wrap(DEFERRAL)
    return sheet.text()


def _cell(digest: Digest, area: str) -> str:
    if area == "verdict":
        return CELLS[digest.verdict]
    if area not in digest.areas:
        return "-"
    severity, count = digest.areas[area]
    return f"{CELLS[severity]} {count}"


def _widths(areas: Sequence[str], rows: Sequence[tuple[str, list[str]]]) -> list[int]:
    return [max([len(area), *(len(cells[i]) for _, cells in rows)]) + _GAP for i, area in enumerate(areas)]


def _name_width(rows: Sequence[tuple[str, list[str]]], width: int) -> int:
    longest = max((len(name) for name, _ in rows), default=_LEAST)
    return min(max(_LEAST, longest), max(_LEAST, width // 3))


def _blocks(areas: Sequence[str], rows: Sequence[tuple[str, list[str]]], width: int) -> list[list[int]]:
    """Return which columns stand side by side: as many as fit beside the names."""
    room = width - _name_width(rows, width)
    blocks: list[list[int]] = [[]]
    used = 0
    for index, size in enumerate(_widths(areas, rows)):
        if blocks[-1] and used + size > room:
            blocks.append([])
            used = 0
        blocks[-1].append(index)
        used += size
    return blocks


def _block(
    block: Sequence[int], areas: Sequence[str], rows: Sequence[tuple[str, list[str]]], width: int
) -> list[str]:
    sizes = _widths(areas, rows)
    names = _name_width(rows, width)
    lines = [_line("document", [(areas[i], sizes[i]) for i in block], names)]
    lines += [_line(name, [(cells[i], sizes[i]) for i in block], names) for name, cells in rows]
    return lines


def _line(name: str, cells: Sequence[tuple[str, int]], names: int) -> str:
    # the end of a long path tells documents apart, so the beginning gives way
    shown = name if len(name) <= names else "…" + name[1 - names :]
    return (
        shown.ljust(names) + "".join(" " * _GAP + cell.ljust(size - _GAP) for cell, size in cells)
    ).rstrip()


def _part(checked: Checked, manner: Manner, against: Against | None) -> None:
    """A document adds nothing but its digest."""
    del checked, manner, against


def _whole(run: Run) -> str:
    return matrix_text(run.digests, [name for name, _ in run.unread], run.manner.width)


FORMAT = Format(_part, _whole, ".txt")
"""All documents at one glance."""
