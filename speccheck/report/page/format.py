"""The page as a format of a check."""

from speccheck.report.formats import Format, Manner, Run
from speccheck.report.page.page import html_page
from speccheck.uses.baseline import Against
from speccheck.uses.check import Checked

__all__ = ["FORMAT"]


def _part(checked: Checked, manner: Manner, against: Against | None) -> str:
    del against  # a page tells everything
    return html_page(checked, manner.units)


def _whole(run: Run) -> str:
    return "".join(one.part for one in run.told)


FORMAT = Format(_part, _whole, ".html", alone=True)
"""For people, on a screen or on paper."""
