"""Documents: what a person declares, read with line and column kept for every value."""

from speccheck.document.document import FORMAT, Document
from speccheck.document.load import Loaded, load_bytes, load_file
from speccheck.document.problem import Mark, Problem, Unreadable

__all__ = ["FORMAT", "Document", "Loaded", "Mark", "Problem", "Unreadable", "load_bytes", "load_file"]
