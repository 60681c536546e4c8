"""The correction letter: what a plan reviewer writes, in Markdown and as a page."""

from speccheck.report.letter.comments import Comment, Letter, letter_of
from speccheck.report.letter.markdown import letter_text
from speccheck.report.letter.page import letter_page

__all__ = ["Comment", "Letter", "letter_of", "letter_page", "letter_text"]
