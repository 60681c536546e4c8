"""The command ``new``: a commented document to start from, or the entry of one junction."""

from speccheck.cli.output import CANNOT_RUN, complain, write
from speccheck.shelf import rules_folder

__all__ = ["run_new", "start_kinds"]


def start_kinds() -> tuple[str, ...]:
    """Return the kinds of starting document that ship."""
    return tuple(sorted(path.stem for path in (rules_folder() / "starts").glob("*.yaml")))


def run_new(kind: str) -> int:
    """Write a starting document; return the exit status."""
    if kind not in start_kinds():
        return _junction(kind)
    write((rules_folder() / "starts" / f"{kind}.yaml").read_text("utf-8"))
    return 0


def _junction(word: str) -> int:
    from speccheck.report.junction_pages import junction_entry
    from speccheck.tables.junction_kinds import junction_kind, near_junction_kinds

    kind = junction_kind(word)
    if kind is None:
        near = near_junction_kinds(word)
        hint = f"; the junction {' or '.join(near)} is near it" if near else ""
        complain(
            f"no starting document is called {word!r}{hint}; there are: {', '.join(start_kinds())}, "
            "and the kinds of junction that `speccheck explain junctions` lists"
        )
        return CANNOT_RUN
    write(junction_entry(kind))
    return 0
