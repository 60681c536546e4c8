"""The correction letter in Markdown, one table a group with a column for the reply."""

from speccheck.report.formats import Format, Manner, Run
from speccheck.report.letter.comments import letter_of
from speccheck.report.markdown_pages import render_markdown
from speccheck.report.wording import DEFERRAL
from speccheck.uses.baseline import Against
from speccheck.uses.check import Checked

__all__ = ["FORMAT", "letter_text"]


def letter_text(checked: Checked, system: str = "both") -> str:
    """Return the letter about a document in Markdown; the same report gives the same bytes."""
    return render_markdown("letter.md.j2", letter=letter_of(checked, system), deferral=DEFERRAL)


def _part(checked: Checked, manner: Manner, against: Against | None) -> str:
    del against  # a letter tells all that is open
    return letter_text(checked, manner.units)


def _whole(run: Run) -> str:
    return "\n---\n\n".join(one.part for one in run.told)


FORMAT = Format(_part, _whole, ".letter.md")
"""For an applicant, to answer in writing."""
