"""``python -m speccheck.tables``: write the compiled copies of the readable tables, or name stale ones."""

import sys
from argparse import ArgumentParser
from collections.abc import Sequence
from pathlib import Path

from speccheck.shelf import rules_folder
from speccheck.tables.areas import all_areas
from speccheck.tables.compiled import compile_area, stale
from speccheck.tables.verify import faults

__all__ = ["main"]


def main(arguments: Sequence[str] | None = None) -> int:
    """Write or check the compiled copies; return 1 when a table is faulty or ``--check`` finds one stale."""
    parser = ArgumentParser(prog="python -m speccheck.tables", description=__doc__)
    parser.add_argument(
        "--check", action="store_true", help="write nothing; exit 1 and name the stale copies"
    )
    parser.add_argument(
        "--rules", type=Path, default=None, help="the rules folder (default: the one that ships)"
    )
    options = parser.parse_args(arguments)
    wrong = faults(options.rules or rules_folder())
    if wrong:
        sys.stdout.write("".join(f"{line}\n" for line in wrong))
        return 1
    found = all_areas(options.rules)
    late = stale(found, options.rules)
    if options.check:
        for name in late:
            sys.stdout.write(f"stale: {name}\n")
        return 1 if late else 0
    for area in found:
        if area.name in late:
            sys.stdout.write(f"wrote {compile_area(area, options.rules)}\n")
    return 0


if __name__ == "__main__":
    raise SystemExit(main())
