"""How a table value's source is put into words for a report."""

from functools import lru_cache
from typing import Protocol

from speccheck.tables.materials import source_title

__all__ = ["confidence_words", "source_words"]


class _Sourced(Protocol):
    @property
    def source(self) -> tuple[str, ...]: ...
    @property
    def how(self) -> str: ...
    @property
    def confidence(self) -> str: ...


_KNOWN = {"memory": "from memory", "mixed": "partly from memory", "derived": "derived", "read": "read"}


def source_words(value: _Sourced) -> str:
    """Return the sources of a table value with how it is known, such as ``ASHRAE Fundamentals 2021 (read)``."""
    return _words(value.source, value.how)


@lru_cache(maxsize=1024)
def _words(sources: tuple[str, ...], how: str) -> str:
    titles = "; ".join(source_title(source) or source for source in sources)
    return f"{titles} ({_KNOWN.get(how, how)})"


def confidence_words(value: _Sourced) -> str:
    """Return a note where a value is weakly known, else nothing."""
    if value.how == "memory":
        return ", from memory"
    return ", low confidence" if value.confidence == "low" else ""
