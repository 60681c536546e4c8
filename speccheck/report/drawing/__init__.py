"""Drawings as SVG: the section to scale, the lines through it in winter, the year of moisture."""

from speccheck.report.drawing.hatch import hatch_patterns
from speccheck.report.drawing.lines import draw_lines, lines_words
from speccheck.report.drawing.section import draw_section
from speccheck.report.drawing.subject import Drawing, DrawnLayer, DrawnMember
from speccheck.report.drawing.year import InterfaceYear, YearOfMoisture, draw_year

__all__ = [
    "Drawing",
    "DrawnLayer",
    "DrawnMember",
    "InterfaceYear",
    "YearOfMoisture",
    "draw_lines",
    "draw_section",
    "draw_year",
    "hatch_patterns",
    "lines_words",
]
