"""The performance brief as one page of HTML."""

from speccheck import __version__
from speccheck.report.brief.quality import WORDS, brief_of
from speccheck.report.brief.seals import NOT_SHOWN
from speccheck.report.brief.sheets import paper_of
from speccheck.report.formats import Format, Manner, Run
from speccheck.report.page.environment import html_environment
from speccheck.report.wording import DEFERRAL
from speccheck.uses.baseline import Against
from speccheck.uses.check import Checked

__all__ = ["FORMAT", "brief_page"]


def brief_page(checked: Checked, system: str = "both") -> str:
    """Return the brief about a document as a page; the same report gives the same bytes."""
    brief = brief_of(checked, system)
    name = brief.project or brief.file
    template = html_environment().get_template("brief.html.j2")
    return template.render(
        brief=brief,
        paper=paper_of(brief),
        name=name,
        words=WORDS,
        not_shown=NOT_SHOWN,
        version=__version__,
        deferral=DEFERRAL,
    )


def _part(checked: Checked, manner: Manner, against: Against | None) -> str:
    del against  # a brief tells the declared quality
    return brief_page(checked, manner.units)


def _whole(run: Run) -> str:
    return "".join(one.part for one in run.told)


FORMAT = Format(_part, _whole, ".brief.html", alone=True)
"""For owner and contractor, on paper."""
