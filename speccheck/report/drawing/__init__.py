"""Drawings as SVG: the section to scale, the lines through it in winter, the year of moisture, strips of months."""

from speccheck.report.drawing.hatch import hatch_patterns
from speccheck.report.drawing.lines import draw_lines, lines_words
from speccheck.report.drawing.section import draw_section
from speccheck.report.drawing.strips import Strip, StripRow, draw_strips
from speccheck.report.drawing.subject import Drawing, DrawnLayer, DrawnMember
from speccheck.report.drawing.year import InterfaceYear, YearOfMoisture, draw_year

__all__ = [
    "Drawing",
    "DrawnLayer",
    "DrawnMember",
    "InterfaceYear",
    "Strip",
    "StripRow",
    "YearOfMoisture",
    "draw_lines",
    "draw_section",
    "draw_strips",
    "draw_year",
    "hatch_patterns",
    "lines_words",
]
