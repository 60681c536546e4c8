"""Whether the readable tables keep their form and name only sources that exist."""

from collections.abc import Iterator
from pathlib import Path
from typing import Any

from pydantic import ValidationError

from speccheck.tables.construction_schema import CONSTRUCTION_FILES
from speccheck.tables.readable import read_yaml
from speccheck.tables.schema import MaterialFile, SourcesFile, TablePart

__all__ = ["faults"]


def faults(rules: Path) -> list[str]:
    """Return what is wrong in the material and construction files, one line each; nothing when all is well.

    Args:
        rules: the rules folder.
    """
    known = read_yaml((rules / "materials" / "sources.yaml").read_bytes(), "sources.yaml")["sources"]
    return [fault for path, form in _files(rules) for fault in _file_faults(path, form, set(known))]


def _files(rules: Path) -> Iterator[tuple[Path, type[TablePart]]]:
    for path in sorted((rules / "materials").glob("*.yaml")):
        yield path, SourcesFile if path.stem == "sources" else MaterialFile
    for name, form in CONSTRUCTION_FILES.items():
        yield rules / "construction" / f"{name}.yaml", form


def _file_faults(path: Path, form: type[TablePart], known: set[str]) -> Iterator[str]:
    try:
        content = read_yaml(path.read_bytes(), path.name)
        form.model_validate(content)
    except ValidationError as error:
        for one in error.errors():
            yield f"{path.name}: {'.'.join(str(part) for part in one['loc'])}: {one['msg']}"
        return
    except (OSError, ValueError) as error:
        yield str(error)
        return
    for source in sorted(set(_sources(content)) - known):
        yield f"{path.name}: the source {source} is not in sources.yaml"


def _sources(content: Any) -> Iterator[str]:
    """Yield every source id below a piece of content."""
    if isinstance(content, dict):
        ids = content.get("source")
        yield from ids if isinstance(ids, list) else ()
        for value in content.values():
            yield from _sources(value)
    elif isinstance(content, list):
        for value in content:
            yield from _sources(value)
