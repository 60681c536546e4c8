"""The performance brief in Markdown."""

from speccheck.report.brief.quality import WORDS, brief_of
from speccheck.report.formats import Format, Manner, Run
from speccheck.report.markdown_pages import render_markdown
from speccheck.report.wording import DEFERRAL
from speccheck.uses.baseline import Against
from speccheck.uses.check import Checked

__all__ = ["FORMAT", "brief_text"]


def brief_text(checked: Checked, system: str = "both") -> str:
    """Return the brief about a document in Markdown; the same report gives the same bytes."""
    return render_markdown("brief.md.j2", brief=brief_of(checked, system), words=WORDS, deferral=DEFERRAL)


def _part(checked: Checked, manner: Manner, against: Against | None) -> str:
    del against  # a brief tells the declared quality
    return brief_text(checked, manner.units)


def _whole(run: Run) -> str:
    return "\n---\n\n".join(one.part for one in run.told)


FORMAT = Format(_part, _whole, ".brief.md")
"""For owner and contractor, to hand on."""
