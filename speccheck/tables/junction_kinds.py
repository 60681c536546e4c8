"""Kinds of junction: what has to cross each, how it usually does, what goes wrong, what to ask.

The readable table is ``rules/construction/junctions.yaml``.
"""

from functools import lru_cache
from pathlib import Path
from typing import Any

from speccheck.shelf import rules_folder
from speccheck.tables.compiled import Area, load_area
from speccheck.tables.construction_rows import JunctionKind
from speccheck.tables.record_value import provenance

__all__ = ["areas", "junction_kind", "junction_kind_ids", "junction_kinds", "near_junction_kinds"]

_NAME = "construction/junctions"
_CONTROLS = ("air", "water", "vapour", "thermal")
_NEAR = 0.85
_MOST_NEAR = 3


def junction_kinds(rules: Path | None = None) -> tuple[JunctionKind, ...]:
    """Return all kinds of junction in the order of the table."""
    return tuple(kind for name, kind in _by_name(rules or rules_folder()).items() if name == kind.id)


def junction_kind(name: str, rules: Path | None = None) -> JunctionKind | None:
    """Return the kind of junction of a name, or None when the table does not know it.

    Args:
        name: id of a kind (``wall-to-slab``), or another word for it (``wall-slab``).
        rules: the rules folder; the shipped one when not given.
    """
    return _by_name(rules or rules_folder()).get(name.lower())


def junction_kind_ids(rules: Path | None = None) -> tuple[str, ...]:
    """Return the ids of all kinds of junction, sorted."""
    return tuple(sorted(kind.id for kind in junction_kinds(rules)))


def near_junction_kinds(name: str, rules: Path | None = None) -> tuple[str, ...]:
    """Return the ids of the kinds whose names a name comes close to, the nearest first; most often none."""
    from difflib import get_close_matches

    known = _by_name(rules or rules_folder())
    near = get_close_matches(name.lower()[:80], known, n=_MOST_NEAR, cutoff=_NEAR)
    return tuple(dict.fromkeys(known[word].id for word in near))


def areas(rules: Path | None = None) -> list[Area]:
    """Return the one area that the kinds are compiled into."""
    return [Area(_NAME, (_file(rules or rules_folder()),), _content)]


@lru_cache(maxsize=4)
def _by_name(folder: Path) -> dict[str, JunctionKind]:
    records = load_area(_NAME, (_file(folder),), _content, folder)
    kinds = [_kind(record) for record in records]
    found = {kind.id: kind for kind in kinds}
    return found | {word: kind for kind in kinds for word in kind.also}


def _kind(record: dict[str, Any]) -> JunctionKind:
    source, how, confidence, _ = provenance(record)
    return JunctionKind(
        id=record["id"],
        title=record["title"],
        also=tuple(record.get("also", ())),
        joins=tuple(record["joins"]),
        expected=record.get("expected", False),
        hollow=record.get("hollow", False),
        over=tuple(record["over"]) if "over" in record else None,
        carries={control: record[control] for control in _CONTROLS if control in record},
        usual=tuple(record["usual"]),
        mistakes=tuple(record["mistakes"]),
        question=record["question"],
        source=source,
        how=how,
        confidence=confidence,
    )


def _file(folder: Path) -> Path:
    return folder / "construction" / "junctions.yaml"


def _content(files: dict[str, Any]) -> Any:
    return [record for content in files.values() for record in content["junctions"]]
