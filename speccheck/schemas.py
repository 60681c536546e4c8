"""``python -m speccheck.schemas``: write the published JSON Schemas from the models, or name stale ones."""

import json
import os
import sys
from argparse import ArgumentParser
from collections.abc import Sequence
from pathlib import Path
from typing import Any

from speccheck.shelf import schemas_folder

__all__ = ["generated", "main"]

_DIALECT = "https://json-schema.org/draft/2020-12/schema"


def generated() -> dict[str, str]:
    """Return the text of every published schema by file name."""
    from speccheck.document import Document
    from speccheck.document.product import Product
    from speccheck.judgement.pack_schema import PackFile
    from speccheck.report.compare_schema import ComparisonForm
    from speccheck.report.schema import ReportForm
    from speccheck.tables.schema import MaterialFile

    made: dict[str, tuple[str, dict[str, Any]]] = {
        "document.schema.json": (
            "A building-envelope specification",
            Document.model_json_schema(by_alias=True),
        ),
        "product.schema.json": (
            "What a product's data sheet states",
            Product.model_json_schema(by_alias=True),
        ),
        "pack.schema.json": ("A rule pack", PackFile.model_json_schema(by_alias=True)),
        "materials.schema.json": ("A material table", MaterialFile.model_json_schema(by_alias=True)),
        "report.schema.json": ("A report", ReportForm.model_json_schema(by_alias=True)),
        "compare.schema.json": ("A comparison", ComparisonForm.model_json_schema(by_alias=True)),
    }
    return {name: _text(title, schema) for name, (title, schema) in made.items()}


def _text(title: str, schema: dict[str, Any]) -> str:
    whole = {"$schema": _DIALECT, **schema, "title": title}
    return json.dumps(whole, ensure_ascii=False, indent=1, sort_keys=True) + "\n"


def main(arguments: Sequence[str] | None = None) -> int:
    """Write or check the schemas; return 1 when ``--check`` finds one that differs."""
    parser = ArgumentParser(prog="python -m speccheck.schemas", description=__doc__)
    parser.add_argument(
        "--check", action="store_true", help="write nothing; exit 1 and name the stale schemas"
    )
    options = parser.parse_args(arguments)
    folder = schemas_folder()
    late = [name for name, text in generated().items() if _held(folder / name) != text]
    for name in late:
        if options.check:
            sys.stdout.write(f"stale: schemas/{name}\n")
        else:
            _write(folder / name, generated()[name])
            sys.stdout.write(f"wrote schemas/{name}\n")
    return 1 if options.check and late else 0


def _held(path: Path) -> str | None:
    try:
        return path.read_text("utf-8")
    except FileNotFoundError:
        return None


def _write(path: Path, text: str) -> None:
    draft = path.with_suffix(".tmp")
    draft.write_text(text, "utf-8")
    os.replace(draft, path)


if __name__ == "__main__":
    raise SystemExit(main())
