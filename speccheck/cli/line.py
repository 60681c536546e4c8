"""The command ``line``: the red line of a document, as text and as a drawing."""

from pathlib import Path

from speccheck.cli.inputs import InputError, spare
from speccheck.cli.output import CANNOT_RUN, columns, complain, complain_of, write
from speccheck.document import Unreadable
from speccheck.uses.check import load, survey_of

__all__ = ["run_line"]

_OPEN, _UNTOLD = 1, 3


def run_line(path: Path, svg: Path | None, width: int | None) -> int:
    """Write the red line, and draw it where asked to; return the exit status."""
    from speccheck.report.red_line import red_line, red_line_file, red_line_text

    try:
        spare(svg, (path,))
        surveyed = survey_of(load(path))
    except Unreadable as error:
        complain_of(error.problems)
        return CANNOT_RUN
    except InputError as error:
        complain(str(error))
        return CANNOT_RUN
    write(red_line_text(surveyed, columns(width)))
    if svg is not None and not _drawn(svg, red_line_file(surveyed)):
        return CANNOT_RUN
    closed = red_line(surveyed).closed
    return _UNTOLD if closed is None else 0 if closed else _OPEN


def _drawn(svg: Path, text: str) -> bool:
    from speccheck.cli.whole_file import write_whole

    try:
        write_whole(svg, text)
    except OSError as error:
        complain(f"the drawing cannot be written to {svg}: {error.strerror or error}")
        return False
    return True
