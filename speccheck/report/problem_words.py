"""The words of a problem without its place, for formats that tell the place in a field of its own."""

from dataclasses import replace

from speccheck.document import Problem

__all__ = ["problem_words"]


def problem_words(problem: Problem) -> str:
    """Return what is wrong, what was expected and what to do, safe for a terminal.

    Example:
        >>> problem_words(Problem("'5' has no unit", "a length", "write 5 mm", file="wall.yaml"))
        "'5' has no unit. Expected a length. Do: write 5 mm."
    """
    return replace(problem, file="", path=(), mark=None).text().removeprefix("input: ")
