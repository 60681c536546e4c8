"""Strips of twelve bars: one quantity by month, held against what it may reach where there is such a limit."""

from collections.abc import Sequence
from typing import NamedTuple

from speccheck.report.drawing.section import WIDTH
from speccheck.report.drawing.subject import Drawing
from speccheck.report.drawing.svg import Canvas

__all__ = ["Strip", "StripRow", "draw_strips"]

_LEFT = 24.0
_ROW = 30.0
_STEP = 46.0
_LONGEST = 50


class StripRow(NamedTuple):
    """One row of bars, one for each month.

    ``label`` stands beside it. A month without a value has no bar. ``shown`` is what stands below
    each bar. ``limit`` is drawn as a line across; bars past it are hatched. ``solid`` bars are amounts of water.
    """

    label: str
    values: tuple[float | None, ...]
    shown: tuple[str, ...]
    limit: float | None = None
    solid: bool = False


class Strip(NamedTuple):
    """Rows that share a name and a scale."""

    name: str
    rows: tuple[StripRow, ...]


def draw_strips(strips: Sequence[Strip], months: Sequence[str], title: str, words: str, id_: str) -> Drawing:
    """Return strips one below the other, with the months under each.

    Args:
        strips: what to draw; each has its own scale.
        months: names of the months.
        title: what the drawing is of.
        words: what it shows, for those who do not see it.
        id_: anchor from which the drawing takes its names.

    Raises:
        ValueError: when a row has not one value for each month.
    """
    for strip in strips:
        if any({len(row.values), len(row.shown)} != {len(months)} for row in strip.rows):
            raise ValueError(f"{strip.name} has not one value for each month")
    canvas = Canvas(WIDTH, id_)
    width = (WIDTH - _LEFT) / len(months)
    centres = [_LEFT + width * (n + 0.5) for n in range(len(months))]
    y = 4.0
    for strip in strips:
        name = strip.name if len(strip.name) <= _LONGEST else f"{strip.name[: _LONGEST - 1]}…"
        canvas.text(0, y + 8, name, "side")
        y += 17.0
        low, high = _span(strip)
        for row in strip.rows:
            _row(canvas, row, centres, (low, high), y)
            y += _STEP
        canvas.row(y + 9, zip(centres, (month[:1] for month in months), strict=True))
        y += 24.0
    return Drawing(canvas.finish(y, title, words), title, words)


def _span(strip: Strip) -> tuple[float, float]:
    """Return the least and greatest value the bars and limits of a strip reach, with nothing among them."""
    values = [value for row in strip.rows for value in row.values if value is not None]
    limits = [row.limit for row in strip.rows if row.limit is not None]
    low, high = min([0.0, *values]), max([0.0, *values, *limits])
    return (low, high) if high > low else (0.0, 1.0)


def _row(
    canvas: Canvas, row: StripRow, centres: Sequence[float], span: tuple[float, float], top: float
) -> None:
    low, high = span
    scale = _ROW / (high - low)
    zero = top + high * scale
    half = (centres[1] - centres[0]) / 2 - 2
    bars: dict[str, list[tuple[float, float, float, float]]] = {"within": [], "past": [], "back": []}
    for x, value in zip(centres, row.values, strict=True):
        if value is None or value == 0.0:
            continue
        tall = max(abs(value) * scale, 0.8)
        kind = "back" if value < 0.0 else "past" if row.limit is not None and value > row.limit else "within"
        bars[kind].append((x - half, zero if value < 0.0 else zero - tall, 2 * half, tall))
    canvas.boxes(bars["within"], "water" if row.solid else "humid")
    canvas.boxes(bars["past"], "wet", "wet")
    canvas.boxes(bars["back"], "back")
    canvas.line(_LEFT, zero, WIDTH, zero, "dim")
    if row.limit is not None:
        canvas.line(_LEFT, zero - row.limit * scale, WIDTH, zero - row.limit * scale, "plane-line")
    canvas.text(0, top + 12, row.label)
    canvas.row(top + _ROW + 12, zip(centres, row.shown, strict=True))
