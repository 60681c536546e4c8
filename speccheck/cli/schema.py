"""The command ``schema``: a published JSON Schema, so that an editor completes and checks a document as it is typed."""

from pathlib import Path

from speccheck.cli.deliver import DeliveryError, deliver_text
from speccheck.cli.output import CANNOT_RUN, complain, write
from speccheck.shelf import schemas_folder

__all__ = ["run_schema", "schema_names"]

_ENDING = ".schema.json"


def schema_names() -> tuple[str, ...]:
    """Return the names of the schemas that ship."""
    return tuple(sorted(path.name.removesuffix(_ENDING) for path in schemas_folder().glob(f"*{_ENDING}")))


def run_schema(name: str, out: Path | None, *, where: bool) -> int:
    """Write a schema, or where it lies; return the exit status."""
    if name not in schema_names():
        complain(f"no schema is called {name!r}; there are: {', '.join(schema_names())}")
        return CANNOT_RUN
    path = schemas_folder() / f"{name}{_ENDING}"
    if where:
        write(f"{path}\n")
        return 0
    try:
        deliver_text(path.read_text("utf-8"), out)
    except DeliveryError as error:
        complain(str(error))
        return CANNOT_RUN
    return 0
