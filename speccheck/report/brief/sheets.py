"""Paper: how densely a brief is printed, and which rows of the seal list stand on which sheet.

What decides is the content. The height of every part is reckoned from the characters in it, for the narrower of two
sheets (A4) and the lower of two (US Letter), in letters of 8.5 points. The first density whose height fits one sheet is
taken: with the extra words of the tests and how each figure is known, without the extra words, without either. Where
none fits, the seal list comes last and runs on to further sheets; numbers and tests stay on the first.
"""

import textwrap
import unicodedata
from collections.abc import Iterable, Sequence
from typing import NamedTuple

from speccheck.report.brief.quality import WORDS, Brief
from speccheck.report.brief.seals import NOT_SHOWN, Row
from speccheck.tables.field_checks import FieldCheck

__all__ = ["Paper", "paper_of"]

_HEIGHT = 792.0 - 45.4
"""Points of a Letter sheet (11 in) between its margins; A4 is 50 points higher."""
_LINE = 9.7
_TIGHT_LINE = 9.35
_HEADING = 15.0
_RULE = 1.6
_TITLE = 16.0
_GAP = 2.5
# characters of a line on A4 between its margins, 544 points: some 4 points to a character, measured on printed briefs
# with bold names among them; and of a column, half as wide less the gap
_FULL, _COLUMN, _TITLE_CHARACTERS = 134, 67, 70
# of the table, whose columns lose their padding
_TABLE = 128
_FEWEST_LINES = 8


class Paper(NamedTuple):
    """How a brief is printed.

    Attributes:
        extra_words: whether the tests tell what to look for, besides conditions and aims.
        origins: whether it stands by each figure how it is known.
        sheets: the rows of the seal list by sheet; one, or the first sheet and those that follow.
    """

    extra_words: bool
    origins: bool
    sheets: tuple[tuple[Row, ...], ...]


def paper_of(brief: Brief) -> Paper:
    """Return how a brief is printed: as much as fits one sheet, and the rest of the seal list on further ones."""
    for extra_words, origins, line in (
        (True, True, _LINE),
        (False, True, _LINE),
        (False, False, _TIGHT_LINE),
    ):
        if _fixed(brief, extra_words, origins, line) + _columns(brief.rows, line) <= _HEIGHT:
            return Paper(extra_words, origins, (brief.rows,))
    left = (
        _HEIGHT - _fixed(brief, False, False, _TIGHT_LINE) - _TIGHT_LINE
    )  # the heading says where the list goes on
    sheets = [_that_fit(brief.rows, left if left >= _FEWEST_LINES * _TIGHT_LINE else 0.0)]
    done = len(sheets[0])
    while done < len(brief.rows):
        # a row higher than a sheet stands on one of its own and is broken there
        more = _that_fit(brief.rows[done:], _HEIGHT - 3 * _HEADING) or brief.rows[done : done + 1]
        sheets.append(more)
        done += len(more)
    return Paper(False, False, tuple(sheets))


def _that_fit(rows: Sequence[Row], height: float) -> tuple[Row, ...]:
    """Return the first rows that two columns of this height hold."""
    count = 0
    while count < len(rows) and _columns(rows[: count + 1], _TIGHT_LINE) <= height:
        count += 1
    return tuple(rows[:count])


def _fixed(brief: Brief, extra_words: bool, origins: bool, line: float) -> float:
    """Return the height of all but the rows of the seal list, in points."""

    def paragraph(text: str) -> float:
        return _lines(text, _FULL) * line

    opening = (
        "What the building envelope is meant to achieve, in numbers that can be tested. "
        if extra_words
        else ""
    )
    warning = " 100 points of the check are still open: see the report before building by this page."
    height = _TITLE * _lines(f"Performance brief: {brief.project or brief.file}", _TITLE_CHARACTERS)
    height += paragraph(f"{opening}Taken from {brief.file}.{warning if brief.open_points else ''}")
    height += _HEADING + _assembly_table(brief, line)
    height += paragraph(" ".join(f"{term}: {meaning}" for term, meaning in brief.reasons))
    height += _GAP + paragraph(
        f"Air-tightness. Target of the fan test: {brief.target}. Answers for it: {brief.lead}."
    )
    height += _HEADING  # of the seal list
    laps = "; ".join(f"{lap.title}: {lap.length}{f' ({lap.how})' if origins else ''}" for lap in brief.laps)
    height += _GAP + paragraph(f"Least laps and widths. Where the maker asks no more: {laps}")
    height += _GAP
    if brief.closing:
        height += paragraph("Before closing in. " + _test(brief.closing, extra_words, origins))
    if brief.exposed:
        days = "; ".join(
            f"{e.named}: {e.planned}, allowed: {e.limit}"
            + (f"; closed in at {e.moisture} or less" if e.moisture != NOT_SHOWN else "")
            for e in brief.exposed_rows
        )
        height += paragraph(f"Days in the weather, planned and as the data sheet allows: {days}")
    tests = [
        _lines(("" if n else f"{stage}: ") + _test(check, extra_words, origins), _COLUMN) * line
        for stage, checks in brief.checks
        for n, check in enumerate(checks)
    ]
    height += _HEADING + _balanced(tests)
    words = " ".join(f"{term}: {meaning}" for term, meaning in WORDS)
    return (
        height + _GAP + paragraph(f"Words. {words} In brackets: how a figure is known. Sources: on a screen.")
    )


def _test(check: FieldCheck, extra_words: bool, origins: bool) -> str:
    more, how = f" {check.expect}" if extra_words else "", f" ({check.how})" if origins else ""
    return f"-- {check.title}. {check.when} Aim: {check.aim}{more}{how}"


def _assembly_table(brief: Brief, line: float) -> float:
    """Return the height of the table.

    A browser gives each column its longest word, and shares what is left by how much more its longest cell would take.
    """
    cells = [
        (
            ", ".join(spot.name + (" (open: see report)" if spot.open else "") for spot in row.spots),
            row.quality.effective_r + (", open" if row.quality.r_open else ""),
            *(row.quality.inside, row.quality.outside, row.quality.air, row.quality.why),
        )
        for row in brief.assembly_rows
    ]
    heads = ("Assembly", "Effective R", "Tightest inside", "Tightest outside", "Air barrier", "Why so")
    most = [max(map(_width, column)) for column in zip(heads, *cells, strict=True)]
    least = [
        max(len(column[0]), *map(_longest_word, column[1:]), 1) for column in zip(heads, *cells, strict=True)
    ]
    room = _TABLE - sum(least)
    share = min(1.0, room / max(1, sum(most) - sum(least)))
    widths = [max(1, int(low + (high - low) * share)) for low, high in zip(least, most, strict=True)]
    lines = [max(_lines(cell, width) for cell, width in zip(row, widths, strict=True)) for row in cells]
    return sum(lines) * line + line + _RULE * (len(cells) + 1)


def _columns(rows: Sequence[Row], line: float) -> float:
    return _balanced([_lines(_row_text(row), _COLUMN) * line + _RULE for row in rows])


def _row_text(row: Row) -> str:
    heads = (
        ", ".join(spot.name + (" (open: see report)" if spot.open else "") for spot in group.spots)
        + (f" {group.beside}" if group.beside else "")
        + (f" ({group.who})" if row.many_trades and group.who else "")
        for group in row.groups
    )
    water = f". Water: {'; '.join(row.water)}" if row.has_water else ""
    return f"{'; '.join(heads)}. Air: {'; '.join(row.air)}{water}{f' ({row.who})' if row.who else ''}"


def _balanced(blocks: Sequence[float]) -> float:
    """Return the height of unbroken blocks in two columns, one after the other, as evenly as they part."""
    left, whole = 0.0, sum(blocks)
    best = whole
    for block in blocks:
        left += block
        best = min(best, max(left, whole - left))
    return best


def _lines(text: str, characters: int) -> int:
    return len(textwrap.wrap(_measured(text), characters)) if text else 0


def _width(text: str) -> int:
    return len(_measured(text))


def _longest_word(text: str) -> int:
    return max(map(_width, text.replace("-", "- ").split()), default=0)


def _measured(text: str) -> str:
    """Return text with each wide letter, as of East Asia, twice."""
    return "".join(_wide(text)) if not text.isascii() else text


def _wide(text: str) -> Iterable[str]:
    for character in text:
        yield character * 2 if unicodedata.east_asian_width(character) in "WF" else character
