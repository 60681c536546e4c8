"""Cautions: what a report must remind of, given what the building holds."""

from functools import lru_cache
from pathlib import Path
from typing import Any, NamedTuple

from speccheck.judgement import expression as cel
from speccheck.judgement.spelled import spelled, spelled_from_plain
from speccheck.judgement.value_type import ValueType
from speccheck.shelf import rules_folder
from speccheck.survey.subject import Surveyed
from speccheck.survey.vocabulary import names_seen_from
from speccheck.tables.compiled import Area, load_area

__all__ = ["areas", "cautions_for"]

_FILE = "cautions.yaml"


class _Caution(NamedTuple):
    text: str
    looks_at: str
    applies: tuple[cel.Expression, ...]


def cautions_for(surveyed: Surveyed) -> list[str]:
    """Return the cautions that apply to a building, in the order of the table."""
    return [caution.text for caution in _cautions(rules_folder()) if _applies(caution, surveyed)]


def _applies(caution: _Caution, surveyed: Surveyed) -> bool:
    if not caution.looks_at:
        return True
    return any(
        all(expression.evaluate(subject.values) is True for expression in caution.applies)
        for subject in surveyed.of_kind(caution.looks_at)
    )


@lru_cache(maxsize=4)
def _cautions(folder: Path) -> tuple[_Caution, ...]:
    found = load_area("cautions", (folder / _FILE,), _content, folder)
    return tuple(_caution(entry) for entry in found["cautions"])


def _caution(entry: dict[str, Any]) -> _Caution:
    conditions = zip(entry.get("applies", ()), entry["spelled"], strict=True)
    return _Caution(
        " ".join(entry["text"].split()),
        entry.get("looks-at", ""),
        tuple(cel.ready(source, spelled_from_plain(strict)) for source, strict in conditions),
    )


def _spelled(entry: dict[str, Any]) -> list[list[Any]]:
    looks_at = entry.get("looks-at", "")
    declared = (
        {name: ValueType(fact.type) for name, fact in names_seen_from(looks_at).items()} if looks_at else {}
    )
    return [spelled(source, declared, ValueType.truth).plain() for source in entry.get("applies", ())]


def areas(rules: Path | None = None) -> list[Area]:
    """Return the area the cautions are compiled into."""
    folder = rules or rules_folder()
    return [Area("cautions", (folder / _FILE,), _content)]


def _content(files: dict[str, Any]) -> dict[str, Any]:
    (content,) = files.values()
    for entry in content["cautions"]:
        if not entry.get("source"):
            raise ValueError(f"caution {entry.get('id')}: a source is missing")
    return {**content, "cautions": [{**entry, "spelled": _spelled(entry)} for entry in content["cautions"]]}
