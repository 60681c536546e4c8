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

    document = _with_names(Document.model_json_schema(by_alias=True), "Document")
    product = _with_names(Product.model_json_schema(by_alias=True), "Product")
    made: dict[str, tuple[str, dict[str, Any]]] = {
        "document.schema.json": ("A building-envelope specification", document),
        "product.schema.json": ("What a product's data sheet states", product),
        "pack.schema.json": ("A rule pack", PackFile.model_json_schema(by_alias=True)),
        "materials.schema.json": ("A material table", MaterialFile.model_json_schema(by_alias=True)),
        "report.schema.json": ("A report", ReportForm.model_json_schema(by_alias=True)),
        "compare.schema.json": ("A comparison", ComparisonForm.model_json_schema(by_alias=True)),
    }
    return {name: _text(title, schema) for name, (title, schema) in made.items()}


def _with_names(schema: dict[str, Any], root: str) -> dict[str, Any]:
    """Return a schema in which keys that take a name of the tables offer those names, so that an editor completes them.

    Where a check refuses any other name, so does the schema; elsewhere any text is accepted beside them.
    """
    forms = {root: schema, **schema["$defs"]}
    names = _names()
    for form, key, name in _KEYS:
        if form in forms and forms[form].get("properties"):
            _offer(forms[form]["properties"][key], {"$ref": f"#/$defs/{name}"})
            schema["$defs"][name] = names[name]
    return schema


_KEYS = (
    ("Layer", "material", "MaterialId"),
    ("Layer", "finish", "MaterialId"),
    ("Layer", "facing", "MaterialId"),
    ("Product", "family", "MaterialId"),
    ("Opening", "frame", "MaterialWords"),
    ("Penetration", "material", "MaterialWords"),
    ("Connection", "by", "SealingMeans"),
    ("RingConnection", "by", "SealingMeans"),
    ("Project", "adopted", "CodeEdition"),
)
"""Model, key, and the names it takes."""


def _offer(value: dict[str, Any], names: dict[str, str]) -> None:
    """Put the names in place of each plain text that a key takes, itself or in a list."""
    texts = 0
    for form in (value, *value.get("anyOf", ())):
        inner = form["items"] if form.get("type") == "array" else form
        if inner.get("type") == "string":
            for limit in ("type", "maxLength"):
                inner.pop(limit, None)
            inner.update(names)
            texts += 1
    if not texts:
        raise ValueError(f"no text stands where names are to be offered: {value}")


def _names() -> dict[str, dict[str, Any]]:
    """Return the forms of names by what they name."""
    from speccheck.judgement.library import pack_ids
    from speccheck.tables.construction import sealing_aid_words, sealing_means_ids
    from speccheck.tables.materials import material_ids, name_pattern, row_ids

    any_words = {"maxLength": 2000, "type": "string"}
    materials = {"enum": sorted({*material_ids(), *row_ids()})}
    means = {"enum": sorted({*sealing_means_ids(), *sealing_aid_words()})}
    editions = [id_.removeprefix("codes/") for id_ in pack_ids() if id_.startswith("codes/")]
    other_names = {"pattern": name_pattern(), "type": "string"}
    return {
        "MaterialId": {"anyOf": [materials, other_names], "description": "An id of the material table."},
        "MaterialWords": {"anyOf": [materials, any_words], "description": "An id of the material table."},
        "SealingMeans": {"anyOf": [means, any_words], "description": "An id of the sealing table."},
        "CodeEdition": {"anyOf": [{"enum": editions}, {"type": "string"}], "description": "A code pack."},
    }


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
