"""The command ``compare``: two documents or two reports side by side."""

from collections.abc import Sequence
from datetime import date
from pathlib import Path

from speccheck.cli.deliver import DeliveryError, deliver_text
from speccheck.cli.output import CANNOT_RUN, columns, complain, complain_of
from speccheck.document import Unreadable
from speccheck.report.counting import exit_status
from speccheck.uses.packs import PackError, read_packs
from speccheck.uses.side_by_side import Comparison, compare_files

__all__ = ["run_compare"]


def run_compare(
    before: Path,
    after: Path,
    form: str,
    units: str,
    packs: Sequence[Path],
    today: date | None,
    width: int | None,
    out: Path | None,
) -> int:
    """Write the comparison; return 0 no worse, 1 worse, 3 new questions only, 2 cannot run."""
    try:
        comparison = compare_files(before, after, read_packs(packs), today, units)
        deliver_text(_text(comparison, form, units, columns(width)), out, (before, after, *packs))
    except Unreadable as error:
        complain_of(error.problems)
        return CANNOT_RUN
    except (PackError, DeliveryError) as error:
        complain(str(error))
        return CANNOT_RUN
    if not comparison.pairs:
        complain("no document is on both sides, so there is nothing to compare")
        return CANNOT_RUN
    return exit_status(comparison.counting)


def _text(comparison: Comparison, form: str, units: str, width: int) -> str:
    from speccheck.report.compare_text import compare_text, plain_comparison

    if form == "json":
        from speccheck.report.plain import json_text

        return json_text(plain_comparison(comparison))
    return compare_text(comparison, width, units)
