"""``python -m speccheck.tables``: write the compiled copies of the readable tables, or name stale ones."""

import sys
from argparse import ArgumentParser
from collections.abc import Sequence
from pathlib import Path

from speccheck.shelf import rules_folder
from speccheck.tables.areas import all_areas, faults_of_area
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
    try:
        return _look_through(options.rules, write=not options.check)
    except ValueError as error:  # a pack that cannot be used is one too
        sys.stdout.write(f"{error}\n")
        return 1


def _look_through(rules: Path | None, *, write: bool) -> int:
    """Write, or only name, the stale copies; return the exit status."""
    found = all_areas(rules)
    late = stale(found, rules)
    left = [area for area in found if area.name in late]
    if not write:
        sys.stdout.write("".join(f"stale: {area.name}\n" for area in left))
        return 1 if left else 0
    faults = {area.name: faults_of_area(area) for area in left}
    for area in left:
        if faults[area.name]:
            sys.stdout.write("".join(f"{fault}\n" for fault in faults[area.name]))
        else:
            sys.stdout.write(f"wrote {compile_area(area, rules)}\n")
    return 1 if any(faults.values()) else 0


if __name__ == "__main__":
    raise SystemExit(main())
