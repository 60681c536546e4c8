"""The report as one self-contained HTML page: readable on a telephone, on paper and by a screen reader."""

from speccheck.report.page.environment import html_environment
from speccheck.report.page.page import html_page

__all__ = ["html_environment", "html_page"]
