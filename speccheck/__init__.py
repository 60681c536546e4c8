"""speccheck: a rule-based checker of building-envelope specifications."""

__all__ = ["__version__"]

__version__ = "0.1.0"
