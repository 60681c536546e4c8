"""What is read is never written over: an output that is one of the inputs is refused before anything is lost."""

import os
from collections.abc import Iterable
from pathlib import Path

from speccheck.document.problem import printable

__all__ = ["InputError", "spare"]


class InputError(ValueError):
    """An output that would take the place of an input; the words are for a person."""


def spare(target: Path | None, inputs: Iterable[Path]) -> None:
    """Refuse to write to a file that is also read; links and other ways of writing its path are seen through.

    Args:
        target: the file to be written; nothing to refuse when None or a dash, the terminal.
        inputs: the files that are read.

    Raises:
        InputError: when the target is one of the inputs.
    """
    if target is None or str(target) == "-" or (target.exists() and not target.is_file()):
        return  # a terminal, a pipe or the null device loses nothing
    for path in inputs:
        if _same(target, path):
            raise InputError(
                f"{printable(str(target))} is an input of this run and is not written over. "
                "Expected a file that is not read. Do: name another file."
            )


def _same(one: Path, other: Path) -> bool:
    try:
        return os.path.samefile(one, other)
    except OSError:  # one of them does not stand there
        return os.path.realpath(one) == os.path.realpath(other)
