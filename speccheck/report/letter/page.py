"""The correction letter as a page of HTML, to print and to answer on paper."""

from speccheck import __version__
from speccheck.report.formats import Format, Manner, Run
from speccheck.report.letter.comments import letter_of
from speccheck.report.page.environment import html_environment
from speccheck.report.wording import DEFERRAL
from speccheck.uses.baseline import Against
from speccheck.uses.check import Checked

__all__ = ["FORMAT", "letter_page"]


def letter_page(checked: Checked, system: str = "both") -> str:
    """Return the letter about a document as a page; the same report gives the same bytes."""
    letter = letter_of(checked, system)
    name = letter.project or letter.file
    template = html_environment().get_template("letter.html.j2")
    return template.render(letter=letter, name=name, version=__version__, deferral=DEFERRAL)


def _part(checked: Checked, manner: Manner, against: Against | None) -> str:
    del against  # a letter tells all that is open
    return letter_page(checked, manner.units)


def _whole(run: Run) -> str:
    return "".join(one.part for one in run.told)


FORMAT = Format(_part, _whole, ".letter.html", alone=True)
"""For an applicant, to answer on paper."""
