"""The performance brief: one page for owner and contractor in numbers that can be tested."""

from speccheck.report.brief.markdown import brief_text
from speccheck.report.brief.page import brief_page
from speccheck.report.brief.quality import Brief, brief_of

__all__ = ["Brief", "brief_of", "brief_page", "brief_text"]
