"""Materials by name: which families the tables know, and one of them in SI units.

The readable tables are ``rules/materials/*.yaml``. Only the group that holds the wanted family is read, and
only that family is turned into objects.
"""

import re
from functools import lru_cache
from pathlib import Path
from typing import Any

from speccheck.shelf import rules_folder
from speccheck.tables.compiled import Area, load_area
from speccheck.tables.material import Material, RowAt
from speccheck.tables.material_record import material_from

__all__ = ["areas", "material", "material_ids", "name_pattern", "near", "row_at", "row_ids", "source_title"]

_AMERICAN = (("fiber", "fibre"), ("vapor-", "vapour-"), ("aluminum", "aluminium"), ("mold", "mould"))


def material(name: str, rules: Path | None = None) -> Material | None:
    """Return the material family of a name, or None when the tables do not know it.

    Args:
        name: id of a family (``eps``), another name of it (``expanded-polystyrene``), or the id of one of its
            rows (``eps-type-ii``), which leaves that row alone. American spellings are understood.
        rules: the rules folder; the shipped one when not given.
    """
    return _material(name, rules or rules_folder())


@lru_cache(maxsize=1024)
def row_at(
    name: str,
    thickness: float | None = None,
    thermal_resistance: float | None = None,
    rules: Path | None = None,
) -> RowAt | None:
    """Return the row of a material that fits a layer best, or None when the tables do not know the material.

    Args:
        name: as for :func:`material`.
        thickness: thickness of the layer [m], above 0, or None when not shown.
        thermal_resistance: declared resistance [m²·K/W], above 0, or None.
        rules: the rules folder; the shipped one when not given.

    Raises:
        ValueError: when a thickness or a resistance is not above 0.
    """
    found = material(name, rules)
    return None if found is None else found.row_for(thickness, thermal_resistance)


def material_ids(rules: Path | None = None) -> tuple[str, ...]:
    """Return the ids of all families, sorted."""
    return tuple(sorted({family for _, family, _ in _index(rules or rules_folder()).values()}))


def row_ids(rules: Path | None = None) -> tuple[str, ...]:
    """Return the ids of all rows that may be named in place of their family, sorted."""
    return tuple(sorted(row for _, _, row in _index(rules or rules_folder()).values() if row is not None))


def name_pattern(rules: Path | None = None) -> str:
    """Return a regular expression, for whole texts, of every name that :func:`material` knows."""
    names = sorted(_index(rules or rules_folder()))
    return f"^(?:{'|'.join(_either_spelling(name) for name in names)})$"


def _either_spelling(name: str) -> str:
    for american, british in _AMERICAN:
        name = name.replace(british, f"(?:{british}|{american})")
    return name


def near(name: str, rules: Path | None = None) -> list[str]:
    """Return up to six known names that are near to a name nobody knows, one for a family, nearest first."""
    from difflib import get_close_matches

    index = _index(rules or rules_folder())
    known = [one for one in index if index[one][2] is None]
    wanted = _british(name.strip().lower().replace("_", "-").replace(" ", "-"))
    alike = get_close_matches(wanted, known, n=12, cutoff=0.6)
    holding = [one for one in known if wanted and f"-{wanted}-" in f"-{one}-"]
    nearest: dict[str, str] = {}
    for one in (*alike, *holding):
        nearest.setdefault(index[one][1], one)
    return list(nearest.values())[:6]


def source_title(source: str, rules: Path | None = None) -> str | None:
    """Return what stands behind a source id of the material or construction tables, or None when unknown."""
    entry = _sources(rules or rules_folder()).get(source)
    return None if entry is None else str(entry["title"])


def areas(rules: Path | None = None) -> list[Area]:
    """Return the areas that the material tables are compiled into: an index, the sources, a group each."""
    folder = rules or rules_folder()
    files = _files(folder)
    groups = [Area(f"materials/{path.stem}", (path,), _group_content) for path in files]
    index = Area("materials/index", files, _index_content)
    sources = Area("materials/sources", (_source_file(folder),), _sources_content)
    return [index, sources, *groups]


@lru_cache(maxsize=256)
def _material(name: str, folder: Path) -> Material | None:
    index = _index(folder)
    entry = index.get(name) or index.get(_british(name))
    if entry is None:
        return None
    group, family, row = entry
    return material_from(_group(group, folder)[family], group, row)


@lru_cache(maxsize=8)
def _index(folder: Path) -> dict[str, tuple[str, str, str | None]]:
    content: dict[str, tuple[str, str, str | None]] = load_area(
        "materials/index", _files(folder), _index_content, folder
    )
    return content


@lru_cache(maxsize=64)
def _group(group: str, folder: Path) -> dict[str, dict[str, Any]]:
    path = folder / "materials" / f"{group}.yaml"
    content: dict[str, dict[str, Any]] = load_area(f"materials/{group}", (path,), _group_content, folder)
    return content


@lru_cache(maxsize=8)
def _sources(folder: Path) -> dict[str, dict[str, str]]:
    content: dict[str, dict[str, str]] = load_area(
        "materials/sources", (_source_file(folder),), _sources_content, folder
    )
    return content


def _files(folder: Path) -> tuple[Path, ...]:
    return tuple(sorted(path for path in (folder / "materials").glob("*.yaml") if path.stem != "sources"))


def _source_file(folder: Path) -> Path:
    return folder / "materials" / "sources.yaml"


def _group_content(files: dict[str, Any]) -> dict[str, Any]:
    return {record["id"]: record for content in files.values() for record in content["materials"]}


def _sources_content(files: dict[str, Any]) -> dict[str, Any]:
    return {key: entry for content in files.values() for key, entry in content["sources"].items()}


def _index_content(files: dict[str, Any]) -> dict[str, Any]:
    """Return every name of every family, with group, family and row; a name given twice is an error."""
    index: dict[str, list[str | None]] = {}
    for content in files.values():
        for record in content["materials"]:
            names: list[tuple[str, str | None]] = [
                (name, None) for name in (record["id"], *record.get("also", ()))
            ]
            names += [(row["id"], row["id"]) for row in record.get("rows", ())]
            for name, row in names:
                if name in index:
                    raise ValueError(f"the name {name} is used by {index[name][1]} and {record['id']}")
                index[name] = [content["group"], record["id"], row]
    return dict(index)


def _british(name: str) -> str:
    for american, british in _AMERICAN:
        name = re.sub(american, british, name)
    return name
