"""Progress of a long run: one line on the error stream, only where a person watches a terminal."""

import os
import sys
from collections.abc import Iterable, Iterator
from time import monotonic
from typing import TypeVar

__all__ = ["watched"]

T = TypeVar("T")
_FEW = 20
_EVERY = 0.1


def watched(items: Iterable[T], count: int) -> Iterator[T]:
    """Yield the items, and meanwhile keep one line on the terminal of how many of ``count`` have passed."""
    if count < _FEW or not _terminal():
        yield from items
        return
    last = 0.0
    try:
        for done, item in enumerate(items, 1):
            if monotonic() - last >= _EVERY:
                last = monotonic()
                _say(f"{done} of {count} documents")
            yield item
    finally:
        _say("")


def _terminal() -> bool:
    return sys.stderr.isatty() and os.environ.get("TERM") != "dumb"


def _say(words: str) -> None:
    sys.stderr.write(f"\r\x1b[K{words}")
    sys.stderr.flush()
