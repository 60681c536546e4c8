"""The command ``new``: a commented document to start from, or the entry of one junction."""

from pathlib import Path

from speccheck.cli.output import CANNOT_RUN, complain, write
from speccheck.document.problem import printable
from speccheck.shelf import rules_folder, schemas_folder

__all__ = ["run_new", "start_kinds"]


def start_kinds() -> tuple[str, ...]:
    """Return the kinds of starting document that ship."""
    return tuple(sorted(path.stem for path in (rules_folder() / "starts").glob("*.yaml")))


def run_new(kind: str, schema: Path | None = None) -> int:
    """Write a starting document; return the exit status.

    Args:
        kind: kind of document, or a kind of junction.
        schema: file the JSON Schema is written to; the document names it in its first line, so that an editor
            completes and checks what is typed.
    """
    if kind not in start_kinds():
        return _junction(kind) if schema is None else _entry_has_no_schema(kind)
    head = ""
    if schema is not None:
        if not _schema_stands(kind, schema):
            return CANNOT_RUN
        head = f"# yaml-language-server: $schema={_as_named(schema)}\n"
    write(head + (rules_folder() / "starts" / f"{kind}.yaml").read_text("utf-8"))
    return 0


def _as_named(schema: Path) -> str:
    """Return the path as an editor reads it: from the folder of the document, with slashes."""
    return schema.as_posix() if schema.is_absolute() or schema.parts[0] == ".." else f"./{schema.as_posix()}"


def _schema_stands(kind: str, out: Path) -> bool:
    """Write the schema of a kind of document where nothing stands yet; complain where something else does."""
    from speccheck.cli.deliver import DeliveryError, deliver_text

    name = "product" if kind == "product" else "document"
    text = (schemas_folder() / f"{name}.schema.json").read_text("utf-8")
    try:
        if out.exists():
            if out.is_file() and out.read_bytes() == text.encode():
                return True
            complain(
                f"{printable(str(out))} stands there and is not this schema; name another file, "
                f"or renew it with `speccheck schema {name} --out FILE`"
            )
            return False
        deliver_text(text, out)
    except (DeliveryError, OSError) as error:
        complain(str(error))
        return False
    return True


def _entry_has_no_schema(word: str) -> int:
    complain(f"--schema goes with a whole document ({', '.join(start_kinds())}); {word!r} is none")
    return CANNOT_RUN


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
