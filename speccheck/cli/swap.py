"""The command ``swap``: what a substitute product changes."""

from collections.abc import Sequence
from datetime import date
from pathlib import Path

from speccheck.cli.output import CANNOT_RUN, columns, complain, complain_of, write
from speccheck.document import Unreadable
from speccheck.uses.check import load
from speccheck.uses.packs import PackError, read_packs
from speccheck.uses.swap import SwapError, read_product, swap

__all__ = ["run_swap"]

_STATUS = {"better": 0, "equal": 0, "worse": 1, "ask the designer": 3}


def run_swap(
    path: Path,
    place: str,
    product: Path,
    form: str,
    units: str,
    packs: Sequence[Path],
    today: date | None,
    width: int | None,
) -> int:
    """Write what a substitute changes; return 0 better or equal, 1 worse, 3 ask the designer, 2 cannot run."""
    from speccheck.report.plain import json_text
    from speccheck.report.swap_text import plain_swap, swap_text

    try:
        swapped = swap(load(path), place, read_product(product), read_packs(packs), today, units)
    except Unreadable as error:
        complain_of(error.problems)
        return CANNOT_RUN
    except (SwapError, PackError) as error:
        complain(str(error))
        return CANNOT_RUN
    write(json_text(plain_swap(swapped)) if form == "json" else swap_text(swapped, columns(width), units))
    return _STATUS[swapped.verdict[0]]
