"""``python -m tests.benchmarks``: how fast the street is, in ratios measured in one run. No test asserts on it."""

from __future__ import annotations

from argparse import ArgumentParser

from tests.benchmarks.cold import cold
from tests.benchmarks.folder import folder
from tests.benchmarks.limits import limits
from tests.benchmarks.many import many
from tests.benchmarks.startup import startup
from tests.benchmarks.warm import warm

_PARTS = ("cold", "warm", "folder", "many", "limits", "startup")


def main() -> None:
    """Run the parts asked for, all when none is named."""
    parser = ArgumentParser(prog="python -m tests.benchmarks", description=__doc__)
    parser.add_argument(
        "parts", nargs="*", choices=[*_PARTS, []], help=f"of {', '.join(_PARTS)}; all if absent"
    )
    parser.add_argument("--rounds", type=int, default=11, help="cold processes of each kind (default 11)")
    parser.add_argument("--documents", type=int, default=500, help="documents of the warm runs (default 500)")
    options = parser.parse_args()
    wanted = options.parts or _PARTS
    if "cold" in wanted:
        cold(options.rounds)
    if (
        "folder" in wanted
    ):  # before this process grows: a child starts with its parent's memory on its account
        folder(options.documents)
    if "many" in wanted:
        many(options.documents)
    if "warm" in wanted:
        warm(options.documents, rounds=3)
    if "limits" in wanted:
        limits(options.documents // 5, rounds=5)
    if "startup" in wanted:
        startup(rounds=5)


if __name__ == "__main__":
    main()
