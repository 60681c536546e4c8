"""The start of a run: memory looked after as a short run wants it, the commands, and an end that is not slow."""

import gc
from typing import NoReturn

from speccheck.cli.interruption import INTERRUPTED, interruption_words

__all__ = ["main"]

_SELDOM = (1_000_000, 20, 20)
"""What a run makes, it keeps, or lets go of without a ring of references: there is next to nothing to collect."""


def main() -> NoReturn:
    """Run the command line.

    Raises:
        SystemExit: always, with the exit status.
    """
    gc.set_threshold(*_SELDOM)  # before anything is imported: what is imported stays
    try:
        from speccheck.cli.app import app

        app()
        raise SystemExit(0)
    except ValueError as error:
        raise SystemExit(_refused(error)) from None
    except KeyboardInterrupt:
        raise SystemExit(_interrupted()) from None
    except SystemExit as end:
        if end.code == INTERRUPTED:  # the commands have made this of it
            _interrupted()
        raise
    finally:
        # The interpreter looks through all that is left before it goes, only to throw it away.
        gc.freeze()


def _interrupted() -> int:
    """Tell that the run was interrupted, and what that has left behind."""
    from speccheck.cli.output import complain

    complain(interruption_words())
    return INTERRUPTED


def _refused(error: ValueError) -> int:
    """Tell of a rule pack that cannot be used; raise anything else again."""
    from speccheck.cli.output import CANNOT_RUN, complain
    from speccheck.judgement.pack import PackError

    if not isinstance(error, PackError):
        raise error
    complain(str(error))
    return CANNOT_RUN
