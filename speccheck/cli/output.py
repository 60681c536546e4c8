"""Writing to the terminal: its width, UTF-8 whatever the locale says, and errors on the error stream."""

import os
import shutil
import sys
from collections.abc import Iterable

from speccheck.cli.interruption import writing
from speccheck.document import Problem
from speccheck.document.problem import printable

__all__ = ["CANNOT_RUN", "columns", "complain", "complain_of", "write"]

CANNOT_RUN = 2
_LONGEST = 5_000


def columns(wished: int | None) -> int:
    """Return the columns to lay out for."""
    return wished or shutil.get_terminal_size((80, 24)).columns


def write(text: str) -> None:
    """Write text to standard output; a closed pipe is no error."""
    writing()
    _write(sys.stdout, text)


def complain(text: str) -> None:
    """Write one complaint to the error stream, what could steer the terminal escaped."""
    shown = "\n".join(printable(line, _LONGEST) for line in text.split("\n"))
    _write(sys.stderr, f"speccheck: {shown}\n")


def complain_of(problems: Iterable[Problem]) -> None:
    """Write problems to the error stream, one a line."""
    _write(sys.stderr, "".join(f"{problem.text()}\n" for problem in problems))


def _write(stream: object, text: str) -> None:
    buffer = getattr(stream, "buffer", None)
    try:
        if buffer is not None:
            stream.flush()  # type: ignore[attr-defined]
            buffer.write(text.encode("utf-8", "backslashreplace"))
            buffer.flush()
        else:
            stream.write(text)  # type: ignore[attr-defined]
    except BrokenPipeError:
        # the reader has gone (such as head): stop quietly
        _let_go(stream)
        raise SystemExit(1) from None
    except OSError as error:
        _let_go(stream)
        if stream is not sys.stderr:
            complain(f"the output cannot be written: {error.strerror}")
        raise SystemExit(CANNOT_RUN) from None


def _let_go(stream: object) -> None:
    """Turn a stream that takes nothing away, so that the interpreter does not stumble over it again at its end."""
    os.dup2(os.open(os.devnull, os.O_WRONLY), stream.fileno())  # type: ignore[attr-defined]
