"""The command line."""

from speccheck.cli.app import main

__all__ = ["main"]
