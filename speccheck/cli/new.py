"""The command ``new``: a commented document to start from."""

from speccheck.cli.output import CANNOT_RUN, complain, write
from speccheck.shelf import rules_folder

__all__ = ["run_new", "start_kinds"]


def start_kinds() -> tuple[str, ...]:
    """Return the kinds of starting document that ship."""
    return tuple(sorted(path.stem for path in (rules_folder() / "starts").glob("*.yaml")))


def run_new(kind: str) -> int:
    """Write a starting document; return the exit status."""
    if kind not in start_kinds():
        complain(f"no starting document is called {kind!r}; there are: {', '.join(start_kinds())}")
        return CANNOT_RUN
    write((rules_folder() / "starts" / f"{kind}.yaml").read_text("utf-8"))
    return 0
