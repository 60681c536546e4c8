"""The command line."""

from speccheck.cli.start import main

__all__ = ["main"]
