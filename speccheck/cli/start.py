"""The start of a run: memory looked after as a short run wants it, the commands, and an end that is not slow."""

import gc
from typing import NoReturn

__all__ = ["main"]

_SELDOM = (1_000_000, 20, 20)
"""What a run makes, it keeps, or lets go of without a ring of references: there is next to nothing to collect."""


def main() -> NoReturn:
    """Run the command line.

    Raises:
        SystemExit: always, with the exit status.
    """
    gc.set_threshold(*_SELDOM)  # before anything is imported: what is imported stays
    from speccheck.cli.app import app

    try:
        app()
        raise SystemExit(0)
    except ValueError as error:
        raise SystemExit(_refused(error)) from None
    finally:
        # The interpreter looks through all that is left before it goes, only to throw it away.
        gc.freeze()


def _refused(error: ValueError) -> int:
    """Tell of a rule pack that cannot be used; raise anything else again."""
    from speccheck.cli.output import CANNOT_RUN, complain
    from speccheck.judgement.pack import PackError

    if not isinstance(error, PackError):
        raise error
    complain(str(error))
    return CANNOT_RUN
