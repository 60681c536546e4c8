"""Where climate data come from: document, how known, licence, limits."""

from dataclasses import dataclass
from functools import lru_cache
from typing import Any

from speccheck.shelf import rules_folder

__all__ = ["Source", "source"]


@dataclass(frozen=True, slots=True)
class Source:
    """One data set: what it is, the document behind it, how it is known, its licence, method and limits."""

    id: str
    title: str
    document: str
    known: str
    confidence: str
    licence: str
    method: str
    limits: tuple[str, ...]


@lru_cache(maxsize=1)
def _sources() -> dict[str, Source]:
    import yaml

    text = (rules_folder() / "climate" / "sources.yaml").read_text(encoding="utf-8")
    entries: dict[str, dict[str, Any]] = yaml.load(text, Loader=getattr(yaml, "CSafeLoader", yaml.SafeLoader))
    return {key: _source(key, entry) for key, entry in entries.items()}


def _source(key: str, entry: dict[str, Any]) -> Source:
    entry = dict(entry, limits=tuple(entry["limits"]))
    return Source(key, **entry)


def source(id: str) -> Source:  # noqa: A002 - the name of the field that holds it
    """Return the source that a result names.

    Args:
        id: the `source` of a result.

    Returns:
        the source.

    Raises:
        KeyError: where no source has the name.

    Example:
        >>> source("us-typical-year").known
        'computed'
    """
    return _sources()[id]
