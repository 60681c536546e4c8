"""Field checks: what is measured on site, when, what to aim for and under which conditions."""

from functools import lru_cache
from pathlib import Path
from typing import Any, NamedTuple

from speccheck.shelf import rules_folder
from speccheck.tables.compiled import Area, load_area

__all__ = ["STAGES", "WHERE", "FieldCheck", "areas", "field_checks"]

STAGES = ("before-cover", "with-the-fan", "at-the-end")
"""When a check is made, in the order of the work."""

WHERE = ("always", "timber", "openings", "adhesives", "slab", "natural-draught")
"""What a building must have for a check to be told of it."""

_FILE = "field-checks.yaml"
_WORDS = ("id", "title", "stage", "where", "when", "aim", "expect", "how", "confidence")


class FieldCheck(NamedTuple):
    """One check on site.

    Attributes:
        id, title: name in the table, name for people.
        stage: one of STAGES.
        where: one of WHERE.
        when, aim, expect: conditions, what to aim for, what to look for; sentences.
        source: what it is taken from.
        how: how it is known: ``read``, ``memory`` or ``mixed``.
        confidence: ``high``, ``medium`` or ``low``.
    """

    id: str
    title: str
    stage: str
    where: str
    when: str
    aim: str
    expect: str
    source: tuple[str, ...]
    how: str
    confidence: str


def field_checks(rules: Path | None = None) -> tuple[FieldCheck, ...]:
    """Return all field checks in the order of the table."""
    return _checks(rules or rules_folder())


@lru_cache(maxsize=4)
def _checks(folder: Path) -> tuple[FieldCheck, ...]:
    found = load_area("field-checks", (folder / _FILE,), _content, folder)
    return tuple(FieldCheck(**{**entry, "source": tuple(entry["source"])}) for entry in found["checks"])


def areas(rules: Path | None = None) -> list[Area]:
    """Return the area the field checks are compiled into."""
    folder = rules or rules_folder()
    return [Area("field-checks", (folder / _FILE,), _content)]


def _content(files: dict[str, Any]) -> dict[str, Any]:
    """Return the table with its sentences on one line each; raises ValueError where an entry lacks something."""
    (content,) = files.values()
    return {"checks": [_entry(entry) for entry in content["checks"]]}


def _entry(entry: dict[str, Any]) -> dict[str, Any]:
    if set(entry) != {*_WORDS, "source"} or not entry["source"]:
        raise ValueError(f"field check {entry.get('id')}: it has not the keys of the table, or no source")
    if entry["stage"] not in STAGES or entry["where"] not in WHERE:
        raise ValueError(f"field check {entry['id']}: no such stage or place")
    words = {name: " ".join(str(entry[name]).split()) for name in _WORDS}
    return {**words, "source": [str(source) for source in entry["source"]]}
