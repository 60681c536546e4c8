"""The templates of pages, letters and briefs, and where they lie."""

from pathlib import Path

__all__ = ["TEMPLATES"]

TEMPLATES = Path(__file__).parent
"""The folder of the templates."""
