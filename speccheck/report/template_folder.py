"""Where the templates of pages, letters and briefs lie."""

from pathlib import Path

__all__ = ["TEMPLATES"]

TEMPLATES = Path(__file__).parent / "templates"
"""The folder of the templates."""
